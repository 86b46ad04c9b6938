// Jars as a logged run makes them, for the tests of holds, links and needs.
#pragma once

#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {

class JarsTest : public CellarTest {
protected:
    JarsTest() {
        run =
            cellar
                .does(canning, "record.add", {{"collection", "run"}, {"document", json::object{}}})
                .at("number")
                .as_int64();
    }

    /// Jars that a logged run made, with holds as the plugin sets them.
    std::string jars(std::int64_t count, const json::array& holds = {},
                     const json::object& more = {}) {
        buy("dry extract", "500 g", "9");
        json::object output{
            {"good", "wort"}, {"amount", count}, {"canned", "2026-03-13"}, {"holds", holds}};
        for (const auto& member : more)
            output[member.key()] = member.value();
        const auto made = cellar.does(
            canning, "stock.convert",
            {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "400 g"}}}},
             {"outputs", json::array{output}},
             {"about", json::array{of_run()}}});
        return text(made.at("lots").at(0), "code");
    }
    [[nodiscard]] json::object of_run() const { return {{"to", "canning.run"}, {"number", run}}; }
    static json::array held(const char* kind) {
        return {json::object{{"kind", kind}, {"note", "seen"}}};
    }
    double available_of(const std::string& code) { return quantity(lot(code), "available"); }

    Call canning = caller("canning for anna", Access::keep, "canning");
    std::int64_t run = 0;
};

} // namespace barmkeep::ledger
