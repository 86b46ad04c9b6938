// The cautions that every answer of this plugin carries.
//
// Wort is a low-acid food and no tested process for it exists.  So nothing that plans, logs or
// opens a jar answers without the cautions for that moment.  All that this plugin says are made
// here; the plugin starter, which opens jars and may run without this one, has those of opening in
// plugins/starter/cautions.cpp, from the same sources.  Who changes one changes the other.
#pragma once

#include "sdk/method/about.hpp"

#include <string>
#include <vector>

namespace barmkeep::canning {

struct Caution {
    std::string key;
    std::string text;
    std::string source;
    static FieldList fields(auto) {
        return {
            field<&Caution::key>("A stable word for it."), field<&Caution::text>("The caution."),
            field<&Caution::source>("Keys of who says so; canning.cautions tells their titles.")};
    }
};

/// What is being done.  Some cautions belong to every moment, some to a few.
enum class Moment { planning, process, running, sealing, storing, opening };
constexpr auto enum_names(Moment) {
    using W = EnumName<Moment>;
    return std::array{W{Moment::planning, "planning"}, W{Moment::process, "process"},
                      W{Moment::running, "running"},   W{Moment::sealing, "sealing"},
                      W{Moment::storing, "storing"},   W{Moment::opening, "opening"}};
}

/// The cautions of a moment, the gravest first; never empty.
[[nodiscard]] std::vector<Caution> cautions(Moment moment);
/// All there are, once each.
[[nodiscard]] std::vector<Caution> all_cautions();

/// A published source.
struct SourceShown {
    std::string key;
    std::string title;
    static FieldList fields(auto) {
        return {field<&SourceShown::key>("Its key, as in docs/safety.md."),
                          field<&SourceShown::title>("What it is.")};
    }
};

/// canning.cautions
struct CanningCautions {
    static constexpr About about{"canning.cautions", Access::look, Effect::reads,
                                 "Tells the cautions of canning wort, with their sources."};
    struct Params {
        std::optional<Moment> moment;
        static FieldList fields(auto) {
            return {field<&Params::moment>("Only those of this moment.").positional()};
        }
    };
    struct Result {
        std::vector<Caution> cautions;
        std::vector<SourceShown> sources;
        static FieldList fields(auto) {
            return {field<&Result::cautions>("The cautions, the gravest first."),
                              field<&Result::sources>("The titles of their sources.")};
        }
    };
};

} // namespace barmkeep::canning
