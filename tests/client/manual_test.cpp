// Help, manual and completion: all from the description that the commands are read with.
#include "daemon/client/completion.hpp"
#include "daemon/client/error_text.hpp"
#include "daemon/client/help.hpp"
#include "daemon/client/manual.hpp"
#include "daemon/client/usage_error.hpp"
#include "tests/client/fake_cellar.hpp"

#include <algorithm>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sstream>

namespace barmkeep::barm {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const Catalogue& core() {
    static const Catalogue catalogue = [] {
        MethodTable table;
        test::add_fake_cellar(table);
        return Catalogue{test::discover_document(table)};
    }();
    return catalogue;
}

std::vector<std::string> completed(const std::vector<std::string>& words) {
    std::vector<std::string> texts;
    const auto fetch = [](Source source) -> std::vector<Candidate> {
        switch (source) {
        case Source::goods:
            return {{"light dry extract", "extract"}, {"lids", ""}};
        case Source::lots:
            return {{"J14X", "pint jars"}};
        case Source::brews:
            return {{"4", "Porter"}};
        case Source::reminders:
            return {{"gauge", ""}};
        }
        return {};
    };
    for (const auto& candidate : candidates(words, core(), fetch))
        texts.push_back(candidate.text);
    return texts;
}

TEST(Catalogues, RefuseWhatIsNoDiscoverDocument) {
    EXPECT_THROW(Catalogue(json::object{}), Error);
    EXPECT_THROW(Catalogue(json::object{{"methods", json::array{1}}}), Error);
    EXPECT_THROW(Catalogue(json::object{{"methods", json::array{json::object{}}}}), Error);
}

/// A verb that is nearly the noun `stock`.
struct DemoStok {
    static constexpr About about{"demo.stok", Access::look, Effect::reads, "Tests."};
    using Params = Nothing;
    using Result = Nothing;
};

TEST(Catalogues, SuggestAVerbOfThatNameBeforeANounLikeIt) {
    MethodTable table;
    test::add_fake_cellar(table);
    add_direct<DemoStok>(table, "core", [](const Call&, const auto&) { return Nothing{}; });
    const Catalogue catalogue{test::discover_document(table)};
    try {
        (void)catalogue.command("stok", "list");
        ADD_FAILURE() << "'stok' is taken for a noun";
    } catch (const UsageError& error) {
        EXPECT_EQ(error.hint(), "Did you mean `barm demo stok`?");
    }
}

TEST(Catalogues, KnowTheirCommands) {
    EXPECT_EQ(core().command("stock", "buy").method.name, "stock.buy");
    EXPECT_EQ(core().command("stock", "buy").method.effect, Effect::writes);
    EXPECT_EQ(core().command("plugin", "add").method.access, Access::manage);
    EXPECT_EQ(core().find("call", "cancel"), nullptr);
}

TEST(Help, IsMadeOfTheDescription) {
    Style style;
    const std::string help = command_help(core().command("equipment", "remove"), style);
    EXPECT_EQ(help,
              "Usage: barm equipment remove KIND NAME\n"
              "\n"
              "Removes a canner, jar size or flask.\n"
              "\n"
              "Operands\n"
              "  KIND          The kind of equipment. (one of canner, jar, flask)\n"
              "  NAME          Its name.\n"
              "\n"
              "Needs the right 'keep'. Changes the cellar; repeated with the same --key it is\n"
              "done only once.\n"
              "Options of every command: `barm help`. Every operand may also be given as\n"
              "--name.\n");
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

TEST(Help, ListsEachCommandOnceOnALineOfItsOwn) {
    const auto lines = lines_of(general_help(&core(), "", Style{}));
    for (const auto& command : core().commands()) {
        const std::string start = "  " + command.words() + "  ";
        EXPECT_EQ(std::ranges::count_if(
                      lines, [&](const std::string& line) { return line.starts_with(start); }),
                  1)
            << command.words();
    }
    for (const auto& line : lines)
        EXPECT_LE(width_of(line), 80U) << line;
}

TEST(Help, StartsWithWhatABrewerDoesAndEndsWithWhatProgramsDo) {
    const std::string help = general_help(&core(), "", Style{});
    const std::vector<std::string> in_order{"(`barm help shelf`)\n  stock buy  ",
                                            "(`barm help brew-days`)\n  brew cancel  ",
                                            "(`barm help reminders`)\n  reminder clear  ",
                                            "(`barm help cost`)\n  price list  ",
                                            "(`barm help set-up`)\n  cellar set  ",
                                            "barm itself\n  help  ",
                                            "(`barm help programs`)\n  record add  ",
                                            "\n  ledger batch  ",
                                            "\n  send  ",
                                            "Options of every command"};
    std::size_t at = 0;
    for (const auto& part : in_order) {
        const auto found = help.find(part, at);
        ASSERT_NE(found, std::string::npos) << part << "\n" << help;
        at = found;
    }
    EXPECT_EQ(help.find("barm help starters"), std::string::npos); // no such command here
}

TEST(Topics, KeepMethodsForProgramsApartFromTheirNoun) {
    EXPECT_EQ(topic_of("ledger.backup").word, "set-up");
    EXPECT_EQ(topic_of("ledger.batch").word, "programs");
    EXPECT_EQ(topic_of("cellar.set").word, "set-up");
    EXPECT_EQ(topic_of("cellar.glance").word, "shelf");
    EXPECT_EQ(topic_of("greeting.say").word, "more");
    EXPECT_EQ(topic_of("ledger").word, "set-up");
    EXPECT_EQ(find_topic("nonsense"), nullptr);
}

TEST(FirstSentence, IsCutAtAColonOrAWordOnlyIfItIsTooLong) {
    EXPECT_EQ(first_sentence("Lists lots. Oldest first.", 40), "Lists lots");
    EXPECT_EQ(first_sentence("Lists 1.5 kg bags.", 40), "Lists 1.5 kg bags");
    EXPECT_EQ(first_sentence("Shows a day: its beer and its yeast.", 35),
              "Shows a day: its beer and its yeast");
    EXPECT_EQ(first_sentence("Shows a day: its beer and its yeast.", 34), "Shows a day");
    EXPECT_EQ(first_sentence("Sets the name, altitude and units", 20), "Sets the name...");
    EXPECT_EQ(first_sentence("Unbreakable", 5), "Unbreakable");
}

TEST(Help, NamesWhatAnOptionTakesByTheThing) {
    const auto options = options_of(core().command("stock", "use"));
    EXPECT_EQ(option_usage(*find_option(options, "brew")), "--brew BREW");
    EXPECT_EQ(operand_name(options_of(core().command("entry", "undo")).front()), "ENTRY");
    EXPECT_EQ(operand_name(options_of(core().command("lot", "show")).front()), "LOT");
    EXPECT_EQ(operand_name(options_of(core().command("brew", "show")).front()), "BREW");
}

TEST(Help, FitsEightyColumnsOrTheTerminal) {
    for (const int width : {40, 80, 200}) {
        Style style;
        style.width = width;
        std::string all = general_help(&core(), "", style);
        for (const auto& command : core().commands())
            all += command_help(command, style);
        for (std::size_t begin = 0; begin < all.size();) {
            const auto end = all.find('\n', begin);
            const std::string line = all.substr(begin, end - begin);
            const bool is_breakable =
                line.find("barm ") == std::string::npos && line.find("--") == std::string::npos;
            if (is_breakable) {
                EXPECT_LE(width_of(line), static_cast<std::size_t>(std::min(width, 80))) << line;
            }
            begin = end + 1;
        }
    }
}

TEST(Help, ManualManPageAndParserAgreeOnEveryCommandAndOption) {
    const std::string markdown = methods_markdown(core());
    const std::string man = man_page(core(), "1.2.3");
    for (const auto& command : core().commands()) {
        const std::string help = command_help(command, Style{});
        const auto has = [](const std::string& text, const std::string& part) {
            return text.find(part) != std::string::npos;
        };
        EXPECT_TRUE(has(markdown, "### " + command.method.name + "\n")) << command.words();
        EXPECT_TRUE(has(markdown, "    barm " + command.words())) << command.words();
        EXPECT_TRUE(has(man, ".SS " + command.words() + "\n")) << command.words();
        for (const auto& option : options_of(command)) {
            EXPECT_THAT(
                help, HasSubstr(option.is_positional ? operand_name(option) : "--" + option.name));
            EXPECT_NO_THROW(
                (void)sort_words({"--" + option.name + "=x"}, 0, options_of(command), 1))
                << command.words() << " --" << option.name;
        }
    }
}

TEST(Manual, TellsEachFieldWithItsRules) {
    const std::string markdown = methods_markdown(core());
    EXPECT_THAT(markdown,
                HasSubstr("- `paid`: sum of money; at least 0; as in 18.50; **required**. What you "
                          "paid for all of it, in the cellar's currency.\n"));
    EXPECT_THAT(markdown, HasSubstr("  - `gravity`: specific gravity, or text with a unit; 1 to "
                                    "1.5; as in 1.090. Measured gravity"));
    EXPECT_THAT(markdown, Not(HasSubstr("- `key`:")));
}

TEST(Completion, GoesFromNounToVerbToOptionsAndValues) {
    EXPECT_THAT(completed({"eq"}), ElementsAre("equipment"));
    EXPECT_THAT(completed({"he"}), ElementsAre("help"));
    EXPECT_THAT(completed({"equipment", ""}), ElementsAre("list", "remove"));
    EXPECT_THAT(completed({"equipment", "remove", ""}), ElementsAre("canner", "jar", "flask"));
    EXPECT_THAT(completed({"equipment", "remove", "--kind", "f"}), ElementsAre("flask"));
    EXPECT_THAT(completed({"stock", "buy", "--best"}), ElementsAre("--best-by"));
    EXPECT_THAT(completed({"stock", "buy", "--best-by", ""}),
                ElementsAre("today", "tomorrow", "+7d"));
    EXPECT_THAT(completed({"stock", "list", "--json", "--no-p"}), ElementsAre("--no-pager"));
    EXPECT_THAT(completed({"--units", ""}), ElementsAre("metric", "us"));
    EXPECT_THAT(completed({"cellar", "set", "--units", "m"}), ElementsAre("metric"));
    EXPECT_THAT(completed({"equipment", "remove", "--kind=f"}), ElementsAre("--kind=flask"));
    EXPECT_THAT(completed({"--units="}), ElementsAre("--units=metric", "--units=us"));
    EXPECT_THAT(completed({"help", "equipment", "l"}), ElementsAre("list"));
    EXPECT_THAT(completed({"help", "brew"}), ElementsAre("brew", "brew-days"));
}

TEST(Completion, AsksTheDaemonForNamesAndCodes) {
    EXPECT_THAT(completed({"stock", "buy", ""}), ElementsAre("light dry extract", "lids"));
    EXPECT_THAT(completed({"stock", "use", "l"}), ElementsAre("light dry extract", "lids"));
    EXPECT_THAT(completed({"stock", "use", "J"}), ElementsAre("J14X"));
    EXPECT_THAT(completed({"lot", "show", ""}), ElementsAre("J14X"));
    EXPECT_THAT(completed({"brew", "show", ""}), ElementsAre("4"));
    EXPECT_THAT(completed({"reminder", "done", ""}), ElementsAre("gauge"));
}

TEST(Completion, IsSilentOnALineThatCannotBeUnderstood) {
    EXPECT_THAT(completed({"--nonsense", ""}), IsEmpty());
    EXPECT_THAT(completed({"nonsense", "x", ""}), IsEmpty());
    EXPECT_THAT(completed({"equipment", "remove", "jar", "x", ""}), IsEmpty());
}

TEST(Complaints, NameTheOptionAtFault) {
    const auto options = options_of(core().command("stock", "convert"));
    EXPECT_EQ(option_at("/inputs/0/amount", options), "--inputs[0].amount");
    EXPECT_EQ(option_at("/day", options), "--day");
    EXPECT_EQ(option_at("", options), "");
    EXPECT_EQ(option_at("/nowhere", options), "");
    EXPECT_EQ(option_at("/steps/0/params/day", options), "--day");
    EXPECT_EQ(option_at("/facts/gravity", options_of(core().command("stock", "buy"))), "--gravity");
}

TEST(Complaints, ShowMethodsAsCommands) {
    const auto shown = [](const char* text) {
        return with_commands(text, core());
    };
    EXPECT_EQ(shown("Use stock.recount."), "Use `barm stock recount`.");
    EXPECT_EQ(shown("`lot.hold` or 'lot.show', lot.history"),
              "`barm lot hold` or 'barm lot show', `barm lot history`");
    EXPECT_EQ(shown("stock.list stock.list"), "`barm stock list` `barm stock list`");
    for (const char* kept : {"stock.lists", "my.stock.list", "stock.list.json", "/tmp/stock.list",
                             "facts.gravity", "mystock.list", "greeting.say"})
        EXPECT_EQ(shown(kept), kept);
}

TEST(Complaints, TellEveryFaultWithItsHint) {
    const Error error(ErrorKind::params, {{"/day", "wrong", "No day.", "Write a day."},
                                          {"", "odd", "All of it is odd.", ""}});
    EXPECT_EQ(error_text(error, "stock buy", options_of(core().command("stock", "buy")), nullptr,
                         Style{}),
              "barm: stock buy: --day: No day.\n"
              "      Write a day.\n"
              "barm: stock buy: All of it is odd.\n");
}

} // namespace
} // namespace barmkeep::barm
