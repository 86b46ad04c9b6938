// sheet.show and sheet.make over a table of small methods.
#include "daemon/sheets/sheet_methods.hpp"

#include "sdk/sheet/builder.hpp"
#include "sdk/sheet/maker.hpp"
#include "sdk/sheet/messages.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <spdlog/sinks/ostream_sink.h>
#include <sstream>

namespace barmkeep::sheets {
namespace {

using testing::HasSubstr;

struct JarCount {
    static constexpr About about{"jar.count", Access::look, Effect::reads, "Counts jars."};
    struct Params {
        std::string good;
        static FieldList fields(auto) {
            return {field<&Params::good>("The good.").positional().length(1, 60)};
        }
    };
    struct Result {
        std::int64_t jars = 0;
        static FieldList fields(auto) { return {field<&Result::jars>("How many.")}; }
    };
};
struct JarTake {
    static constexpr About about{"jar.take", Access::keep, Effect::writes, "Takes a jar."};
    using Params = JarCount::Params;
    using Result = JarCount::Result;
};
struct JarLose {
    static constexpr About about{"jar.lose", Access::manage, Effect::reads, "Loses a jar."};
    using Params = Nothing;
    using Result = Nothing;
};

sheet::Sheet count_sheet(const JarCount::Params& params, const JarCount::Result& result) {
    return sheet::SheetBuilder("Jars of ", params.good)
        .lead("There are ", sheet::count(result.jars, "jar"), ".")
        .action(sheet::offer("take one", "jar.take", {{"good", params.good}}))
        .action(sheet::offer("lose one", "jar.lose"))
        .action(sheet::offer("fly", "jar.fly"));
}

class SheetMethods : public testing::Test {
protected:
    SheetMethods() {
        add_direct<JarCount>(
            table, "core",
            [](const Call&, const JarCount::Params& params) {
                if (params.good == "nothing")
                    throw Error(ErrorKind::not_found, "good_unknown", "There is none.", "",
                                "/good");
                return JarCount::Result{7};
            },
            sheet::maker<JarCount>(&count_sheet));
        add_direct<JarTake>(table, "core", [this](const Call& call, const JarTake::Params&) {
            keys.push_back(call.key);
            return JarTake::Result{6};
        });
        add_direct<JarLose>(table, "core", [](const Call&, const Nothing&) { return Nothing{}; });
        add_sheet_methods(table,
                          std::make_shared<spdlog::logger>(
                              "test", std::make_shared<spdlog::sinks::ostream_sink_mt>(log)));
    }
    Outcome ask(std::string_view method, const json::object& params,
                Access access = Access::manage) {
        Call call;
        call.caller = {"anna", access, ""};
        const json::value sent = params;
        return table.call(method, call, &sent);
    }
    json::object show(const json::object& params, Access access = Access::manage) {
        Outcome outcome = ask("sheet.show", params, access);
        if (const auto* error = std::get_if<Error>(&outcome))
            throw *error;
        return std::get<json::value>(outcome).as_object();
    }
    Error refusal(std::string_view method, const json::object& params,
                  Access access = Access::manage) {
        const Outcome outcome = ask(method, params, access);
        return std::get<Error>(outcome);
    }
    static std::vector<std::string> actions(const json::object& shown) {
        std::vector<std::string> methods;
        for (const auto& action : decode<sheet::Sheet>(shown.at("sheet")).actions)
            methods.push_back(action.method);
        return methods;
    }

    ManualClock clock{parse_instant("2026-03-14T08:00:00Z")};
    MethodTable table{clock};
    std::ostringstream log;
    std::vector<std::string> keys;
};

TEST_F(SheetMethods, AnAnswerComesWithItsSheetAndTheTime) {
    const auto shown = show({{"method", "jar.count"}, {"params", {{"good", "wort"}}}});
    EXPECT_EQ(shown.at("result").at("jars"), 7);
    EXPECT_EQ(shown.at("now"), "2026-03-14T08:00:00Z");
    EXPECT_EQ(decode<sheet::Sheet>(shown.at("sheet")).title, sheet::text("Jars of ", "wort"));
}

TEST_F(SheetMethods, ASheetIsMadeOfAnAnswerThatIsThere) {
    const auto made =
        ask("sheet.make",
            {{"method", "jar.count"}, {"params", {{"good", "wort"}}}, {"result", {{"jars", 3}}}});
    const auto& sheet = std::get<json::value>(made).at("sheet");
    EXPECT_THAT(write_json(sheet.at("lead")), HasSubstr("\"number\":3"));
}

TEST_F(SheetMethods, ActionsThatTheCallerMayNotTakeOrThatAreNotThereAreLeftOut) {
    const json::object asked{{"method", "jar.count"}, {"params", {{"good", "wort"}}}};
    EXPECT_THAT(actions(show(asked)), testing::ElementsAre("jar.take", "jar.lose"));
    EXPECT_THAT(actions(show(asked, Access::keep)), testing::ElementsAre("jar.take"));
    EXPECT_THAT(actions(show(asked, Access::look)), testing::IsEmpty());
}

TEST_F(SheetMethods, AMethodNeedsTheRightsThatItAlwaysNeeds) {
    EXPECT_EQ(refusal("sheet.show", {{"method", "jar.take"}, {"params", {{"good", "wort"}}}},
                      Access::look)
                  .reason(),
              "not_allowed");
    EXPECT_TRUE(keys.empty());
}

TEST_F(SheetMethods, TheKeyOfAWritingMethodStandsInItsOwnParams) {
    (void)show({{"method", "jar.take"}, {"params", {{"good", "wort"}, {"key", "mine"}}}});
    EXPECT_EQ(keys, std::vector<std::string>{"mine"});
}

TEST_F(SheetMethods, AMethodWithoutASheetIsShownInTheGeneralForm) {
    const auto shown = show({{"method", "jar.take"}, {"params", {{"good", "wort"}}}});
    EXPECT_THAT(write_json(shown.at("sheet")), HasSubstr("jars"));
    EXPECT_EQ(shown.at("result").at("jars"), 6);
}

TEST_F(SheetMethods, TheErrorOfTheMethodIsTheAnswer) {
    const Error error =
        refusal("sheet.show", {{"method", "jar.count"}, {"params", {{"good", "nothing"}}}});
    EXPECT_EQ(error.reason(), "good_unknown");
    EXPECT_EQ(error.faults().front().pointer, "/good") << "it points into the method's own params";
    EXPECT_EQ(refusal("sheet.show", {{"method", "jar.cuont"}}).hint(), "Did you mean jar.count?");
}

TEST_F(SheetMethods, ThereIsNoSheetOfSheets) {
    EXPECT_EQ(refusal("sheet.show", {{"method", "sheet.show"}}).reason(), "no_sheet_of_sheets");
    EXPECT_EQ(refusal("sheet.make", {{"method", "sheet.show"}, {"result", nullptr}}).reason(),
              "no_sheet_of_sheets");
}

TEST_F(SheetMethods, ASheetThatCannotBeMadeIsLoggedAndTheGeneralFormShown) {
    auto description = describe<JarCount>();
    description.name = "jar.guess";
    table.add(
        description, "odd",
        [](const Call&, const json::object&, const Done& done) {
            done(json::object{{"jars", 5}});
        },
        [](const Call&, const json::object&, const json::value&, const Done& done) {
            done(Error(ErrorKind::unavailable, "no_sheet", "The sheet is lost."));
        });
    const auto shown = show({{"method", "jar.guess"}, {"params", {{"good", "wort"}}}});
    EXPECT_THAT(write_json(shown.at("sheet")), HasSubstr("jars"));
    EXPECT_THAT(log.str(), HasSubstr("jar.guess: no sheet: The sheet is lost."));
}

} // namespace
} // namespace barmkeep::sheets
