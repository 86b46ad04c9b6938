#include "daemon/client/arguments.hpp"

#include "daemon/client/usage_error.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/equipment.hpp"
#include "sdk/contract/record.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::barm {
namespace {

using testing::HasSubstr;
using Words = std::vector<std::string>;

/// A method with every shape a param can have.
struct Inner {
    std::string what;
    std::optional<brewing::Gravity> gravity;
    static FieldList fields(auto) {
        return {field<&Inner::what>("What."), field<&Inner::gravity>("Gravity.")};
    }
};
struct EveryShape {
    static constexpr About about{"every.shape", Access::keep, Effect::reads, "Takes all."};
    struct Params {
        double share = 0.5;
        std::int64_t count = 3;
        bool all = false;
        bool checked = true;
        std::vector<std::string> names;
        std::map<std::string, std::int64_t> counts;
        std::optional<Inner> inner;
        std::optional<Inner> outer;
        json::value anything;
        static FieldList fields(auto) {
            return {field<&Params::share>("Share.").defaulted().between(0, 1),
                    field<&Params::count>("Count.").defaulted().at_least(1),
                    field<&Params::all>("All.").defaulted(),
                    field<&Params::checked>("Checked.").defaulted(),
                    field<&Params::names>("Names.").variadic().defaulted(),
                    field<&Params::counts>("Counts.").defaulted(),
                    field<&Params::inner>("Inner."),
                    field<&Params::outer>("Outer."),
                    field<&Params::anything>("Anything.").defaulted()};
        }
    };
    using Result = Nothing;
};

ValueContext context() {
    return {[] { return parse_date("2026-02-27"); }, [] { return std::string("Europe/Vienna"); },
            [] {
                return std::string("{\"from\":1}");
            }};
}

template <Method M>
std::string params_from(const Words& words) {
    const Command command = command_of(describe<M>(), "core");
    const auto options = options_of(command);
    const auto sorted = sort_words(words, 0, options, words.size() + 1);
    return write_json(params_of(sorted, options, context()));
}

template <Method M>
std::string usage_fault(const Words& words) {
    try {
        return "none: " + params_from<M>(words);
    } catch (const UsageError& error) {
        return std::string(error.what()) + " | " + error.hint();
    }
}

template <Method M>
Error value_fault(const Words& words) {
    try {
        (void)params_from<M>(words);
    } catch (const Error& error) {
        return error;
    }
    ADD_FAILURE() << "no error was thrown";
    return {ErrorKind::internal, "none", "none"};
}

using contract::StockBuy;
using contract::StockConvert;

TEST(Arguments, OperandsGoToThePositionalFieldsInOrder) {
    EXPECT_EQ(params_from<StockBuy>({"light dry extract", "3 lb", "18.50"}),
              R"({"good":"light dry extract","amount":"3 lb","paid":"18.50"})");
}

TEST(Arguments, OptionsMayStandAnywhereAndInBothForms) {
    const std::string expected =
        R"({"supplier":"shop","note":"a=b","good":"dme","amount":"4 oz","paid":"2"})";
    EXPECT_EQ(params_from<StockBuy>({"--supplier", "shop", "dme", "--note=a=b", "4 oz", "2"}),
              expected);
    EXPECT_EQ(params_from<StockBuy>({"--supplier=shop", "dme", "4 oz", "--note", "a=b", "2"}),
              expected);
}

TEST(Arguments, AnOperandGivenByNameIsPassedOver) {
    EXPECT_EQ(params_from<StockBuy>({"--amount", "4 oz", "dme", "2"}),
              R"({"amount":"4 oz","good":"dme","paid":"2"})");
}

TEST(Arguments, FieldsOfAnObjectAreOptionsByTheirOwnName) {
    EXPECT_EQ(
        params_from<StockBuy>({"dme", "4 oz", "2", "--gravity", "12 P", "--facts-jar=pint"}),
        R"({"facts":{"gravity":"12 P","jar":"pint"},"good":"dme","amount":"4 oz","paid":"2"})");
}

TEST(Arguments, AmbiguousFieldsOfObjectsNeedTheirWholeName) {
    EXPECT_EQ(params_from<EveryShape>({"--inner-what=a", "--outer-what=b"}),
              R"({"inner":{"what":"a"},"outer":{"what":"b"}})");
    EXPECT_THAT(usage_fault<EveryShape>({"--what=a"}), HasSubstr("There is no option '--what'"));
}

TEST(Arguments, UnderscoresAreDashes) {
    EXPECT_THAT(params_from<StockBuy>({"dme", "4 oz", "2", "--best-by=2027-01-01"}),
                HasSubstr(R"("best_by":"2027-01-01")"));
}

TEST(Arguments, NumbersFlagsListsAndMapsBecomeJson) {
    EXPECT_EQ(params_from<EveryShape>({"--share=0.25", "--count", "7", "--all", "--no-checked"}),
              R"({"share":0.25,"count":7,"all":true,"checked":false})");
    EXPECT_EQ(params_from<EveryShape>({"a", "b c", "--count=1"}),
              R"({"count":1,"names":["a","b c"]})");
    EXPECT_EQ(params_from<EveryShape>({"--names=a", "--names=b"}), R"({"names":["a","b"]})");
    EXPECT_EQ(params_from<EveryShape>({"--counts=a=1", "--counts", R"({"b":2})"}),
              R"({"counts":{"a":1,"b":2}})");
    EXPECT_EQ(params_from<EveryShape>({"--anything=[1]"}), R"({"anything":[1]})");
    EXPECT_EQ(params_from<EveryShape>({"--anything=word"}), R"({"anything":"word"})");
    EXPECT_EQ(params_from<EveryShape>({"--all=no"}), R"({"all":false})");
}

TEST(Arguments, ListsOfObjectsTakePairsOrJson) {
    const std::string expected =
        R"({"inputs":[{"what":"dme, light","amount":"4 oz"},{"what":"lids","amount":"7"}],)"
        R"("outputs":[{"good":"pint jars","amount":"7","facts":{"gravity":"1.09"}}]})";
    EXPECT_EQ(params_from<StockConvert>({"--inputs", "what=dme, light,amount=4 oz", "--inputs",
                                         R"({"what":"lids","amount":"7"})", "--outputs",
                                         "good=pint jars,amount=7,gravity=1.09"}),
              expected);
    EXPECT_EQ(params_from<StockConvert>(
                  {R"(--inputs=[{"what":"a","amount":1}])", "--outputs=good=b,amount=2"}),
              R"({"inputs":[{"what":"a","amount":1}],"outputs":[{"good":"b","amount":"2"}]})");
    EXPECT_THAT(value_fault<StockConvert>({"--inputs=wat=a"}).hint(),
                HasSubstr("Names: what, amount."));
}

TEST(Arguments, JsonIsReadFromStdinWhereADashStands) {
    EXPECT_EQ(params_from<contract::RecordPut>({"runs", "r1", "--document", "-"}),
              R"({"document":{"from":1},"collection":"runs","name":"r1"})");
}

TEST(Arguments, TwoDashesEndTheOptionsAndNegativeNumbersAreOperands) {
    EXPECT_EQ(params_from<StockBuy>({"--", "--odd", "-1", "-0.5"}),
              R"({"good":"--odd","amount":"-1","paid":"-0.5"})");
    EXPECT_EQ(params_from<StockBuy>({"dme", "-1", "-.5"}),
              R"({"good":"dme","amount":"-1","paid":"-.5"})");
    EXPECT_EQ(params_from<StockBuy>({"-", "1", "2"}), R"({"good":"-","amount":"1","paid":"2"})");
}

TEST(Arguments, RelativeDaysAreCountedFromTheCellarsToday) {
    const auto day = [](const std::string& text) {
        return params_from<contract::BrewPlan>({text, "Porter"});
    };
    EXPECT_EQ(day("today"), R"({"day":"2026-02-27","name":"Porter"})");
    EXPECT_EQ(day("tomorrow"), R"({"day":"2026-02-28","name":"Porter"})");
    EXPECT_EQ(day("yesterday"), R"({"day":"2026-02-26","name":"Porter"})");
    EXPECT_EQ(day("+10d"), R"({"day":"2026-03-09","name":"Porter"})");
    EXPECT_EQ(day("-2d"), R"({"day":"2026-02-25","name":"Porter"})");
    EXPECT_EQ(day("+2w"), R"({"day":"2026-03-13","name":"Porter"})");
    EXPECT_EQ(day("14 Mar 2026"), R"({"day":"2026-03-14","name":"Porter"})");
    EXPECT_EQ(value_fault<contract::BrewPlan>({"3/4/2026", "x"}).faults().front().pointer, "/day");
    EXPECT_EQ(value_fault<contract::BrewPlan>({"+xd", "x"}).reason(), "wrong_date");
}

TEST(Arguments, EveryWrongValueIsToldAtOnceWithItsPlace) {
    const Error error = value_fault<EveryShape>(
        {"--share=2", "--count=0", "--counts=3", "--all=perhaps", "--inner=nonsense"});
    ASSERT_EQ(error.kind(), ErrorKind::params);
    std::vector<std::string> places;
    for (const auto& fault : error.faults())
        places.push_back(fault.pointer + " " + fault.reason);
    EXPECT_EQ(places, (std::vector<std::string>{"/share out_of_range", "/count out_of_range",
                                                "/counts wrong_pair", "/all wrong_type",
                                                "/inner wrong_pair"}));
}

TEST(Arguments, WrongWordsGetTheNearestOne) {
    const Error error = value_fault<contract::EquipmentRemove>({"falsk", "x"});
    EXPECT_EQ(error.faults().front().pointer, "/kind");
    EXPECT_EQ(error.hint(), "Did you mean 'flask'? One of: canner, jar, flask.");
}

TEST(Arguments, UsageFaultsNameWhatIsWrongAndAGuessThatIsNotRun) {
    EXPECT_EQ(usage_fault<StockBuy>({"dme"}),
              "Still wanted: AMOUNT, PAID. | `--help` describes them.");
    EXPECT_EQ(usage_fault<contract::EntryUndo>({"3", "used"}),
              "Still wanted: --reason. | `--help` describes them.");
    EXPECT_EQ(usage_fault<StockBuy>({"--piad", "3"}),
              "There is no option '--piad' here. | Did you mean '--paid'?");
    EXPECT_THAT(usage_fault<StockBuy>({"light", "dry", "extract", "3 lb"}),
                HasSubstr("'3 lb' is one word too many. | Put a name"));
    EXPECT_THAT(usage_fault<StockBuy>({"--note"}), HasSubstr("--note wants a value."));
    EXPECT_THAT(usage_fault<StockBuy>({"--note", "--day", "today"}),
                HasSubstr("--note wants a value."));
    EXPECT_THAT(usage_fault<StockBuy>({"--note=a", "--note=b"}),
                HasSubstr("--note is given twice."));
    EXPECT_THAT(usage_fault<StockBuy>({"-x"}), HasSubstr("There is no option '-x'"));
}

TEST(Globals, AreTakenBesideAndTheCommandsOwnComeFirst) {
    const Command command = command_of(describe<contract::CellarSet>(), "core");
    const auto own = options_of(command);
    const Words words{"--units=us", "-q", "--json", "--no-color", "--time-out", "5 s"};
    const auto sorted = sort_words(words, 0, own, 9);
    ASSERT_EQ(sorted.own.size(), 1U); // --units is the cellar's own here
    json::object given;
    add_globals(given, sorted);
    const Globals globals = globals_of(given);
    EXPECT_TRUE(globals.quiet && globals.json);
    EXPECT_EQ(globals.color, Colour::never);
    EXPECT_EQ(globals.time_out, Seconds{5});
    EXPECT_FALSE(globals.units.has_value());
}

TEST(Globals, SortingStopsAfterTheOperandsAskedFor) {
    const auto sorted = sort_words({"--json", "stock", "--all", "list"}, 0, {}, 1);
    EXPECT_EQ(sorted.operands, Words{"stock"});
    EXPECT_EQ(sorted.used, 2U);
}

TEST(Globals, EveryShortOptionHasALongOne) {
    for (const char* brief : {"-h", "-q", "-hq"}) {
        json::object given;
        add_globals(given, sort_words({brief}, 0, {}, 1));
        EXPECT_FALSE(given.empty()) << brief;
    }
}

} // namespace
} // namespace barmkeep::barm
