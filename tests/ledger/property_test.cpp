// Random work, checked after every step against what the journal and the shelf say by themselves.
#include "tests/ledger/cellar.hpp"

#include <fmt/format.h>
#include <map>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

namespace barmkeep::ledger {
namespace {

/// Steps and millionths of one lot.
struct Holding {
    std::int64_t steps = 0;
    std::int64_t value = 0;
    bool operator==(const Holding&) const = default;
};
using Holdings = std::map<std::string, Holding>;

std::int64_t steps_of(const json::value& amount) {
    const double factor = amount.at("unit").as_string() == "g" ? 1000 : 1;
    return std::llround(amount.at("quantity").to_number<double>() * factor);
}

std::int64_t millionths(const json::value& money) {
    return parse_money(money.as_string()).millionths;
}

class Work {
public:
    Work() {
        for (const auto& [name, goods] :
             {std::pair{"extract", "extract"}, {"lids", "lids"}, {"wort", "concentrate"}})
            cellar_.does("good.add", {{"name", name}, {"category", goods}});
        for (const char* day : {"2026-04-01", "2026-04-02"})
            cellar_.does("brew.plan", {{"day", day}, {"name", "ale"}});
    }

    void step() {
        const auto before = cellar_.dumped();
        const auto [method, params] = *request();
        const auto outcome = cellar_.outcome(cellar_.anna, method, params);
        if (const auto* error = std::get_if<Error>(&outcome)) {
            RC_ASSERT(error->kind() == ErrorKind::not_enough ||
                      error->kind() == ErrorKind::conflict ||
                      error->kind() == ErrorKind::not_found);
            RC_ASSERT(cellar_.dumped() == before);
        } else if (method == "stock.use" && std::string(params.at("what").as_string()) != lot_) {
            check_order(std::get<json::value>(outcome), params);
        }
        if (method == "stock.convert" && std::holds_alternative<json::value>(outcome))
            check_conserved(std::get<json::value>(outcome));
        check_balances();
    }

    void finish() {
        const auto found = cellar_.does("ledger.check");
        RC_ASSERT(found.at("sound").as_bool());
    }

private:
    using Request = std::pair<std::string, json::object>;

    rc::Gen<Request> request() {
        const int kind = *rc::gen::inRange(0, 10);
        const auto good = *rc::gen::element<std::string>("extract", "lids", "wort");
        const auto amount = *rc::gen::inRange(1, 30);
        lot_ = some_lot();
        const auto brew = *rc::gen::inRange(1, 3);
        const auto what = *rc::gen::element(good, lot_);
        return rc::gen::just(made(kind, good, amount, brew, what));
    }

    Request made(int kind, const std::string& good, int amount, int brew, const std::string& what) {
        switch (kind) {
        case 0:
        case 1:
            return {"stock.buy",
                    {{"good", good},
                     {"amount", amount},
                     {"paid",
                      fmt::format("{}.{:02}", *rc::gen::inRange(0, 50), *rc::gen::inRange(0, 100))},
                     {"best_by", fmt::format("2027-0{}-01", *rc::gen::inRange(1, 9))}}};
        case 2:
            return {"stock.use", {{"what", what}, {"amount", amount}}};
        case 3:
            return {"stock.use", {{"what", what}, {"amount", amount}, {"brew", brew}}};
        case 4:
            return {"stock.discard", {{"lot", lot_}, {"reason", "bad"}, {"amount", amount}}};
        case 5:
            return {"stock.recount", {{"lot", lot_}, {"reason", "counted"}, {"amount", amount}}};
        case 6:
            return {"entry.undo",
                    {{"entry", *rc::gen::inRange(1, 30)},
                     {"kind",
                      *rc::gen::element("bought", "used", "discarded", "converted", "recounted")},
                     {"reason", "mistake"}}};
        case 7:
            return {"brew.reserve", {{"brew", brew}, {"what", what}, {"amount", amount}}};
        case 8:
            return {"brew.unreserve", {{"brew", brew}}};
        default:
            return {"stock.convert",
                    {{"inputs", json::array{json::object{{"what", "extract"}, {"amount", amount}},
                                            json::object{{"what", "lids"}, {"amount", amount}}}},
                     {"outputs", json::array{json::object{{"good", "wort"}, {"amount", amount}},
                                             json::object{{"good", "wort"}, {"amount", 1}},
                                             json::object{{"good", "wort"}, {"amount", 2}}}},
                     {"lost", 1}}};
        }
    }

    std::string some_lot() {
        const auto lots = holdings();
        if (lots.empty())
            return to_text(LotCode{'L', 1});
        auto lot = lots.begin();
        std::advance(lot, *rc::gen::inRange(0, static_cast<int>(lots.size())));
        return lot->first;
    }

    json::object shelf() { return cellar_.does("stock.list", {{"all", true}}); }

    Holdings holdings() {
        Holdings all;
        const auto listed = shelf();
        for (const auto& one : listed.at("shelves").as_array())
            for (const auto& lot : one.at("lots").as_array()) {
                const Holding holding{steps_of(lot.at("on_hand")), millionths(lot.at("value"))};
                RC_ASSERT(holding.steps >= 0 && holding.value >= 0);
                RC_ASSERT(steps_of(lot.at("reserved")) <= holding.steps);
                RC_ASSERT(steps_of(lot.at("available")) >= 0);
                all[text(lot, "code")] = holding;
            }
        return all;
    }

    void check_balances() {
        Holdings journal;
        json::object page{{"limit", 500}};
        const auto entries = cellar_.does("entry.list", page);
        for (const auto& entry : entries.at("entries").as_array())
            for (const auto& line : entry.at("lines").as_array()) {
                auto& lot = journal[text(line, "lot")];
                lot.steps += steps_of(line.at("quantity"));
                lot.value += millionths(line.at("value"));
            }
        RC_ASSERT(journal == holdings());
    }

    static void check_conserved(const json::value& made) {
        std::int64_t sum = 0;
        for (const auto& line : made.at("lines").as_array())
            sum += millionths(line.at("value"));
        RC_ASSERT(sum == 0);
    }

    /// Of a good, a lot is touched only when those that expire before it have nothing free left.
    void check_order(const json::value& used, const json::object& params) {
        if (params.contains("brew")) // a brew day's own stock goes first, wherever it is
            return;
        const std::string last = text(used.at("lines").as_array().back(), "lot");
        const auto listed = shelf();
        for (const auto& one : listed.at("shelves").as_array()) {
            if (one.at("good") != params.at("what"))
                continue;
            for (const auto& lot : one.at("lots").as_array()) {
                if (text(lot, "code") == last)
                    break;
                RC_ASSERT(steps_of(lot.at("available")) == 0);
            }
        }
    }

    Folder folder_;
    Cellar cellar_{folder_.file("cellar.db")};
    std::string lot_;
};

RC_GTEST_PROP(LedgerProperties, BalancesAreTheJournalsSumAndNothingIsMadeOrLost, ()) {
    Work work;
    const int steps = *rc::gen::inRange(1, 40);
    for (int i = 0; i < steps; ++i)
        work.step();
    work.finish();
}

} // namespace
} // namespace barmkeep::ledger
