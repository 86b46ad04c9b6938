// Whole runs of barm against a fake daemon, without a process.
#include "daemon/client/exit_code.hpp"
#include "tests/client/barm_test.hpp"

namespace barmkeep::test {
namespace {

using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

class Barm : public BarmTest {};

TEST_F(Barm, AloneShowsTheCellarAtAGlance) {
    world.out_is_terminal = true;
    const Ran ran = run({});
    EXPECT_EQ(ran.code, 0);
    EXPECT_THAT(ran.out, HasSubstr("Home"));
    EXPECT_EQ(ran.err, "");
    EXPECT_EQ(run({"cellar", "glance"}).out, ran.out);
    EXPECT_THAT(run({"--json"}).out, StartsWith("{\"sequence\":41,"));
}

TEST_F(Barm, JsonIsTheVeryResult) {
    const Ran ran = run({"stock", "list", "--json"});
    EXPECT_EQ(ran.code, 0);
    const contract::StockList::Result expected{sample_glance().shelves, sample_glance().value};
    EXPECT_EQ(ran.out, write_json(to_json(expected)) + '\n');
}

TEST_F(Barm, SendsWhatWasWrittenAndShowsWhatChanged) {
    const Ran ran = run({"stock", "buy", "light dry extract", "3 lb", "18.50", "--best-by", "+10d",
                         "--units", "us", "--plain"});
    EXPECT_EQ(ran.code, 0);
    const auto params = daemon.requests("stock.buy").front().at("params").as_object();
    EXPECT_EQ(params.at("amount"), "3 lb");
    EXPECT_EQ(params.at("best_by"), "2026-03-24");
    EXPECT_EQ(params.at("key").as_string().size(), 26U);
    EXPECT_THAT(ran.out, HasSubstr("on hand\t3 lb\n"));
    EXPECT_THAT(ran.out, HasSubstr("value\t18.50 EUR\n"));
    EXPECT_EQ(run({"-q", "stock", "buy", "light dry extract", "3 lb", "18.50"}).out, "");
}

TEST_F(Barm, RepeatsOverALostConnectionWithTheKeyGiven) {
    daemon.plan("stock.buy", {Fate::drop_after});
    const Ran ran = run({"stock", "buy", "dme", "1 kg", "5", "--key", "mine", "--json"});
    EXPECT_EQ(ran.code, 0);
    EXPECT_THAT(ran.out, StartsWith("{\"entry\":1,"));
    for (const auto& request : daemon.requests("stock.buy"))
        EXPECT_EQ(request.at("params").at("key"), "mine");
    EXPECT_EQ(run({"stock", "list", "--key", "mine"}).code, 64); // reads take none
}

TEST_F(Barm, UnitsComeFromOptionOverVariableOverFileOverCellar) {
    const auto volume = [&](const Words& more) {
        Words words{"--plain", "brew", "plan", "tomorrow", "Porter"};
        words.insert(words.end(), more.begin(), more.end());
        const std::string out = run(words).out;
        const auto at = out.find("volume\t");
        return out.substr(at + 7, out.find('\n', at) - at - 7);
    };
    EXPECT_EQ(volume({}), "20 L");
    world.environment["HOME"] = "/home/anna";
    world.files["/home/anna/.config/barmkeep/barm.toml"] = "units = \"us\"\n";
    EXPECT_EQ(volume({}), "5.283 gal");
    world.environment["BARM_UNITS"] = "metric";
    EXPECT_EQ(volume({}), "20 L");
    EXPECT_EQ(volume({"--units=us"}), "5.283 gal");
    world.environment["BARM_UNITS"] = "imperal";
    EXPECT_EQ(run({"brew", "list"}).code, 78);
}

TEST_F(Barm, TellsFaultsByTheOptionAndWithTheirExitCode) {
    const Ran ran = run({"stock", "buy", "dme", "3 lb", "-3"});
    EXPECT_EQ(ran.code, 65);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err, "barm: stock buy: --paid: -3 is out of range; it must be at least 0.\n"
                       "      Check the number and its unit.\n");
    const Ran as_json = run({"stock", "buy", "dme", "3 lb", "-3", "--json"});
    EXPECT_EQ(as_json.out, "");
    const auto error = parse_json(as_json.err).at("error");
    EXPECT_EQ(error.at("data").at("pointer"), "/paid");
}

TEST_F(Barm, ChecksHereBeforeAnythingIsSent) {
    const Ran ran = run({"brew", "list", "--limit", "0"});
    EXPECT_EQ(ran.code, 65);
    EXPECT_THAT(ran.err, HasSubstr("--limit: 0 is out of range."));
    EXPECT_TRUE(daemon.requests("brew.list").empty());
}

TEST_F(Barm, AMistypedCommandIsGuessedAtAndNotRun) {
    EXPECT_EQ(run({"stok", "list"}).code, 64);
    EXPECT_THAT(run({"stok", "list"}).err, HasSubstr("Did you mean 'stock'?"));
    EXPECT_THAT(run({"stock", "lst"}).err, HasSubstr("Did you mean `barm stock list`?"));
    EXPECT_THAT(run({"stock", "list", "--al"}).err, HasSubstr("Did you mean '--all'?"));
    EXPECT_THAT(run({"hlep"}).err, HasSubstr("Did you mean 'help'?"));
    EXPECT_EQ(run({"stoc", "list"}).code, 64); // no abbreviation
    EXPECT_TRUE(daemon.requests("stock.list").empty());
    EXPECT_EQ(run({"stock", "list", "--gold", "x", "--json"}).code, 64);
    EXPECT_EQ(parse_json(run({"stok", "--json"}).err).at("error").at("data").at("reason"), "usage");
}

TEST_F(Barm, AVerbOfAnotherNounIsSuggestedWithItsNoun) {
    EXPECT_EQ(run({"snooze"}).code, 64);
    EXPECT_THAT(run({"snooze"}).err, HasSubstr("Did you mean `barm reminder snooze`?"));
    EXPECT_THAT(run({"history"}).err, HasSubstr("Did you mean `barm lot history`?"));
    EXPECT_THAT(run({"stock", "undo"}).err, HasSubstr("Did you mean `barm entry undo`?"));
    EXPECT_THAT(run({"snoooze"}).err, HasSubstr("Did you mean `barm reminder snooze`?"));
    EXPECT_THAT(run({"hold", "J14X"}).err, HasSubstr("Did you mean `barm lot hold`?"));
    EXPECT_THAT(run({"show"}).err,
                HasSubstr("Did you mean `barm brew show`, `barm cellar show`, `barm entry show` or "
                          "`barm lot show`?"));
    EXPECT_THAT(run({"stock", "zzzzzzzz"}).err, HasSubstr("`barm stock --help` lists"));
    EXPECT_THAT(run({"zzzzzzzz"}).err, HasSubstr("`barm help` lists the commands."));
}

TEST_F(Barm, HelpOnATopicShowsHowItsCommandsAreUsedTogether) {
    const Ran ran = run({"help", "reminders"});
    EXPECT_EQ(ran.code, 0);
    EXPECT_THAT(ran.out, StartsWith("Usage: barm help reminders\n\n`barm reminder list` shows"));
    EXPECT_THAT(ran.out, HasSubstr("  reminder snooze       "));
    EXPECT_THAT(ran.out, Not(HasSubstr("  stock buy")));
    // A word that is a topic and a noun: `help` explains the topic, the noun lists its verbs.
    EXPECT_THAT(run({"help", "cost"}).out, HasSubstr("  price set   "));
    EXPECT_THAT(run({"help", "starters"}).out, HasSubstr("no commands of this topic"));
}

TEST_F(Barm, AnErrorOfTheDaemonNamesCommandsToAPersonAndMethodsToAProgram) {
    const Ran ran = run({"price", "set", "bought can", "3.60"});
    EXPECT_THAT(ran.err, HasSubstr("List prices with `barm price list`."));
    EXPECT_THAT(run({"price", "set", "bought can", "3.60", "--json"}).err,
                HasSubstr("List prices with price.list."));
    EXPECT_THAT(run({"send", "price.set", R"({"item":"bought can","price":"3.60"})"}).err,
                HasSubstr("List prices with price.list."));
}

TEST_F(Barm, MethodsAboutAConnectionAreNoCommands) {
    EXPECT_EQ(run({"call", "cancel"}).code, 64);
    EXPECT_EQ(run({"event", "stop"}).code, 64);
}

TEST_F(Barm, ANounAloneListsItsVerbsAndIsNoSuccess) {
    const Ran ran = run({"stock"});
    EXPECT_EQ(ran.code, 64);
    EXPECT_EQ(ran.out, "");
    EXPECT_THAT(ran.err, HasSubstr("  buy           Records a purchase"));
    const Ran help = run({"stock", "--help"});
    EXPECT_EQ(help.code, 0);
    EXPECT_EQ(help.out, ran.err);
}

TEST_F(Barm, HelpIsOnStdoutEverywhere) {
    for (const Words& words :
         {Words{"--help"}, Words{"-h"}, Words{"help"}, Words{"stock", "buy", "-h"},
          Words{"--help", "stock", "buy"}, Words{"help", "stock", "buy"}, Words{"help", "stock"},
          Words{"send", "--help"}, Words{"help", "help"}, Words{"manual", "-h"}}) {
        const Ran ran = run(words);
        EXPECT_EQ(ran.code, 0) << words.front();
        EXPECT_THAT(ran.out, StartsWith("Usage: barm "));
        EXPECT_EQ(ran.err, "");
    }
    EXPECT_EQ(run({"help", "stock", "by"}).code, 64);
}

TEST_F(Barm, HelpAndVersionNeedNoDaemon) {
    daemon.stop();
    const Ran help = run({"--help"});
    EXPECT_EQ(help.code, 0);
    EXPECT_THAT(help.out, HasSubstr("it cannot ask the daemon: There is no"));
    EXPECT_THAT(run({"--version"}).out, StartsWith("barm "));
    const Ran ran = run({"stock", "list"});
    EXPECT_EQ(ran.code, 69);
    EXPECT_THAT(ran.err, HasSubstr("systemctl --user start barmkeepd`"));
}

TEST_F(Barm, VersionsAreOfBoth) {
    EXPECT_THAT(run({"--versions"}).out, HasSubstr("barmkeepd 0.9.9 (protocol 1, tables 3) at "));
}

TEST_F(Barm, ExitCodesFollowTheKindOfError) {
    const auto code = [&](ErrorKind kind) {
        return static_cast<int>(barm::exit_code_of(Error(kind, "x", "y")));
    };
    EXPECT_EQ(code(ErrorKind::params), 65);
    EXPECT_EQ(code(ErrorKind::not_found), 1);
    EXPECT_EQ(code(ErrorKind::not_enough), 1);
    EXPECT_EQ(code(ErrorKind::conflict), 1);
    EXPECT_EQ(code(ErrorKind::refused), 77);
    EXPECT_EQ(code(ErrorKind::busy), 75);
    EXPECT_EQ(code(ErrorKind::unknown_outcome), 75);
    EXPECT_EQ(code(ErrorKind::cancelled), 130);
    EXPECT_EQ(code(ErrorKind::unavailable), 69);
    EXPECT_EQ(code(ErrorKind::method_unknown), 64);
    EXPECT_EQ(code(ErrorKind::request), 76);
    EXPECT_EQ(code(ErrorKind::text), 76);
    EXPECT_EQ(code(ErrorKind::internal), 70);
    EXPECT_EQ(
        static_cast<int>(barm::exit_code_of(Error(ErrorKind::unavailable, "no_permission", "y"))),
        77);
    daemon.plan("rpc.discover", {Fate::invalid});
    EXPECT_EQ(run({"stock", "list"}).code, 76);
    daemon.plan("stock.buy", {Fate::silence});
    const Ran open = run({"stock", "buy", "dme", "1 kg", "5", "--time-out", "1 s"});
    EXPECT_EQ(open.code, 75);
    EXPECT_THAT(open.err, HasSubstr("Repeat it with the key "));
}

TEST_F(Barm, EmptyResultsSaySoOnStderr) {
    const Ran ran = run({"stock", "list", "nothing", "--plain"});
    EXPECT_EQ(ran.code, 0);
    EXPECT_EQ(ran.err, "No shelves.\n");
    EXPECT_EQ(run({"stock", "list", "nothing", "-q", "--plain"}).err, "");
    EXPECT_EQ(run({"reminder", "list", "--plain"}).err, "Nothing to show.\n");
    EXPECT_EQ(run({"brew", "list", "--plain"}).err, "There is more: add --cursor c2\n");
}

TEST_F(Barm, ColourFollowsItsRules) {
    const auto has_colour = [&](const Words& words) {
        Words all = words;
        all.emplace_back("help");
        return run(all).out.find('\x1b') != std::string::npos;
    };
    EXPECT_FALSE(has_colour({}));
    world.out_is_terminal = true;
    EXPECT_TRUE(has_colour({}));
    EXPECT_FALSE(has_colour({"--no-color"}));
    EXPECT_FALSE(has_colour({"--color=never"}));
    EXPECT_FALSE(has_colour({"--plain"}));
    world.environment["NO_COLOR"] = "";
    EXPECT_TRUE(has_colour({})); // empty is not set
    world.environment["NO_COLOR"] = "1";
    EXPECT_FALSE(has_colour({}));
    EXPECT_TRUE(has_colour({"--color", "always"}));
    world.environment = {{"BARMKEEP_SOCKET", daemon.socket()}, {"TERM", "dumb"}};
    EXPECT_FALSE(has_colour({}));
    world.environment["FORCE_COLOR"] = "1";
    EXPECT_TRUE(has_colour({}));
}

TEST_F(Barm, LongOutputGoesThroughThePagerOnATerminalOnly) {
    world.height = 10;
    EXPECT_THAT(run({"help"}).out, Not(testing::IsEmpty()));
    world.out_is_terminal = true;
    EXPECT_EQ(run({"help"}).out, "");
    EXPECT_THAT(world.paged, StartsWith("less -FIRX: Usage"));
    world.environment["PAGER"] = "more";
    (void)run({"help"});
    EXPECT_THAT(world.paged, StartsWith("more: "));
    EXPECT_THAT(run({"help", "--no-pager"}).out, Not(testing::IsEmpty()));
    world.environment["PAGER"] = "";
    EXPECT_THAT(run({"help"}).out, Not(testing::IsEmpty()));
}

TEST_F(Barm, EndsQuietlyWhenNobodyReads) {
    world.reads_stdout = false;
    const Ran ran = run({"stock", "list"});
    EXPECT_EQ(ran.code, 0);
    EXPECT_EQ(ran.err, "");
}

TEST_F(Barm, SettingsTellWhereEachCameFrom) {
    world.environment["XDG_CONFIG_HOME"] = "/conf";
    world.files["/conf/barmkeep/barm.toml"] = "# mine\nunits = \"us\"\n";
    world.files["/etc/barmkeep/barm.toml"] = "units = \"metric\"\ncolor = \"never\"\n";
    EXPECT_EQ(run({"settings", "--plain"}).out,
              "setting\tvalue\tfrom\n"
              "socket\t" +
                  daemon.socket() +
                  "\tenvironment BARMKEEP_SOCKET\n"
                  "units\tus\t/conf/barmkeep/barm.toml, line 2\n"
                  "color\tnever\t/etc/barmkeep/barm.toml, line 2\n"
                  "pager\tless -FIRX\tbuilt in\n"
                  "time_out\t20 s\tenvironment BARM_TIME_OUT\n");
    world.environment["BARM_UNITS"] = "metric";
    EXPECT_THAT(run({"settings", "--units=us", "--plain"}).out, HasSubstr("\nunits\tus\toption\n"));
}

TEST_F(Barm, AManagingCommandWithoutAKeyIsSentOnceAndItsOutcomeIsOpen) {
    daemon.plan("ledger.backup", {Fate::drop_after});
    EXPECT_EQ(run({"ledger", "backup", "/copy"}).code, 75);
    EXPECT_EQ(daemon.requests("ledger.backup").size(), 1U);
}

TEST_F(Barm, AWrongSettingNamesFileAndLine) {
    const auto complaint = [&](const std::string& text) {
        world.files["/etc/barmkeep/barm.toml"] = text;
        const Ran ran = run({"settings"});
        EXPECT_EQ(ran.code, 78);
        return ran.err;
    };
    EXPECT_EQ(complaint("\nunit = \"us\"\n"), "barm: /etc/barmkeep/barm.toml, line 2: there is no "
                                              "setting 'unit'.  Did you mean 'units'?\n");
    EXPECT_EQ(complaint("units = 3\n"),
              "barm: /etc/barmkeep/barm.toml, line 1: 'units' must be text in quotes.\n");
    EXPECT_THAT(complaint("units = \n"), HasSubstr("/etc/barmkeep/barm.toml, line 1: "));
}

TEST_F(Barm, SendCallsAnyMethodWithJson) {
    EXPECT_EQ(run({"send", "stock.list", R"({"good":"nothing"})"}).out,
              "{\"shelves\":[],\"value\":\"29.00\"}\n");
    world.standard_input = R"({"good":"nothing"})";
    EXPECT_EQ(run({"send", "stock.list", "-"}).out, "{\"shelves\":[],\"value\":\"29.00\"}\n");
    EXPECT_THAT(run({"send", "equipment.remove", R"({"kind":"jar","name":"x"})"}).out, "{}\n");
    EXPECT_TRUE(
        daemon.requests("equipment.remove").front().at("params").as_object().contains("key"));
    EXPECT_EQ(run({"send", "stock.list", "["}).code, 65);
    EXPECT_EQ(run({"send", "stock.list", "[]"}).code, 64);
    EXPECT_EQ(run({"send", "no.such"}).code, 64);
}

TEST_F(Barm, ProgressIsShownOnATerminalOnly) {
    EXPECT_EQ(run({"ledger", "backup", "/copy"}).err, "");
    world.err_is_terminal = true;
    const Ran ran = run({"ledger", "backup", "/copy", "--plain"});
    EXPECT_THAT(ran.err, HasSubstr("\r\x1b[Kledger backup: 25 % copying"));
    EXPECT_THAT(ran.err, EndsWith("\r\x1b[K"));
    EXPECT_THAT(ran.out, HasSubstr("bytes\t4096"));
}

TEST_F(Barm, CtrlCAsksForAStopAndSaysSo) {
    client::StopButton button;
    world.button = &button;
    std::thread presser([&] {
        daemon.wait_for_requests("demo.slow", 1);
        button.press();
    });
    const Ran ran = run({"demo", "slow"});
    presser.join();
    EXPECT_EQ(ran.code, 130);
    EXPECT_THAT(ran.err,
                HasSubstr("asked the daemon to stop; press Ctrl-C again to end barm at once."));
    EXPECT_THAT(ran.err, HasSubstr("Stopped as asked."));
}

TEST_F(Barm, AWatchStreamsUntilCtrlC) {
    client::StopButton button;
    world.button = &button;
    daemon.post_event("lot.changed", {{"code", "J14X"}, {"number", 3}});
    daemon.post_event("day.begun", {{"day", "2026-03-15"}});
    std::thread presser([&] {
        daemon.wait_for_requests("event.watch", 1);
        button.press();
    });
    const Ran ran = run({"event", "watch", "--after", "0"});
    presser.join();
    EXPECT_EQ(ran.code, 0);
    EXPECT_THAT(ran.err, StartsWith("Watching after event 0"));
}

TEST_F(Barm, DiscoverFileServesHelpWithoutADaemon) {
    world.files["methods.json"] = write_json(discover_document(daemon.table()));
    daemon.stop();
    EXPECT_THAT(run({"--discover", "methods.json", "help", "stock", "buy"}).out,
                StartsWith("Usage: barm stock buy GOOD AMOUNT PAID [options]\n"));
    EXPECT_THAT(run({"--discover=methods.json", "manual"}).out, StartsWith("# Methods\n"));
    EXPECT_EQ(run({"--discover=none.json", "manual"}).code, 64);
    world.files["bad.json"] = "[]";
    EXPECT_EQ(run({"--discover=bad.json", "manual"}).code, 64);
}

TEST_F(Barm, WorksWithNothingInTheEnvironment) {
    world.environment.clear();
    EXPECT_EQ(run({"--socket", daemon.socket(), "stock", "list"}).code, 0);
    EXPECT_EQ(run({"stock", "list", "--socket", daemon.socket()}).code, 0);
}

} // namespace
} // namespace barmkeep::test
