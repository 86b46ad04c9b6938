// Links between entries, lots, records and reminders; undoing; what brew days need.
#include "tests/ledger/held_jars.hpp"

namespace barmkeep::ledger {
namespace {

class LinksTest : public JarsTest {};

TEST_F(LinksTest, ALotFindsItsRunAndTheRunItsEntries) {
    const auto code = jars(3);
    EXPECT_EQ(lot(code).at("about").at(0), json::value(of_run()));
    const auto entries = cellar.does("entry.list", {{"about", of_run()}}).at("entries");
    ASSERT_EQ(entries.as_array().size(), 1U);
    EXPECT_EQ(entries.at(0).at("number"), lot(code).at("origin"));
}

TEST_F(LinksTest, ALinkToWhatIsNotThereIsRefused) {
    const auto refused = cellar.refusal(
        "reminder.post",
        {{"name", "look"},
         {"title", "Look"},
         {"due", "2026-04-01"},
         {"about", json::array{json::object{{"to", "canning.run"}, {"number", 99}}}}});
    EXPECT_EQ(refused.reason(), "link_unknown");
    EXPECT_EQ(refused.faults().front().pointer, "/about/0");
}

TEST_F(LinksTest, AnEntryOfAPluginsRecordIsUndoneOnlyByThatPlugin) {
    const auto code = jars(3);
    const auto entry = lot(code).at("origin");
    EXPECT_EQ(cellar.refusal("entry.undo", cellar.undoing(entry)).reason(), "belongs_to_record");
    cellar.does(canning, "entry.undo", cellar.undoing(entry));
    EXPECT_EQ(on_hand(code), 0);
    // The same codes are filled again, so that what is written on the lids stays true.
    EXPECT_EQ(jars(2, {}, {{"lot", code}}), code);
    EXPECT_EQ(on_hand(code), 2);
    EXPECT_EQ(
        cellar
            .refusal(
                canning, "stock.convert",
                {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "10 g"}}}},
                 {"outputs",
                  json::array{json::object{{"good", "wort"}, {"amount", 1}, {"lot", code}}}},
                 {"about", json::array{of_run()}}})
            .reason(),
        "not_refilled");
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(LinksTest, UndoingNamesTheKindAndShowsWhatItDid) {
    const auto lids = buy("lids", 10, "3");
    const auto used = cellar.does("stock.use", {{"what", "lids"}, {"amount", 4}}).at("entry");
    const auto preview = cellar.does("entry.preview", {});
    EXPECT_EQ(preview.at("undoes").at("number"), used);
    EXPECT_TRUE(preview.at("refused").as_array().empty());
    EXPECT_EQ(
        cellar.refusal("entry.undo", {{"entry", used}, {"kind", "bought"}, {"reason", "mistake"}})
            .reason(),
        "other_kind");
    const auto done = cellar.does("entry.undo", cellar.undoing(used));
    EXPECT_EQ(done.at("done").at("undoes").at("number"), used);
    EXPECT_EQ(on_hand(lids), 10);
    const auto bought = lot(lids).at("origin");
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 4}});
    EXPECT_FALSE(
        cellar.does("entry.preview", {{"entry", bought}}).at("refused").as_array().empty());
}

TEST_F(LinksTest, TheUndoingOfABrewsUseStandsInThatBrewsJournal) {
    buy("lids", 10, "3");
    const auto brew = plan();
    const auto used =
        cellar.does("stock.use", {{"what", "lids"}, {"amount", 4}, {"brew", brew}}).at("entry");
    const auto undone = cellar.does("entry.undo", cellar.undoing(used)).at("entry");
    const auto entries = cellar.does("entry.list", {{"brew", brew}}).at("entries");
    ASSERT_EQ(entries.as_array().size(), 2U);
    EXPECT_EQ(entries.at(0).at("number"), undone);
}

TEST_F(LinksTest, AReminderOfARunComesAgainAndGoesWithItsCause) {
    cellar.does("reminder.post", {{"name", "look at run 1"},
                                  {"title", "Look at the jars"},
                                  {"due", "2026-03-14"},
                                  {"cause", "inspection"},
                                  {"every_days", 90},
                                  {"about", json::array{of_run()}}});
    const auto done = cellar.does("reminder.done", {{"name", "look at run 1"}});
    EXPECT_EQ(text(done, "state"), "open");
    EXPECT_EQ(text(done, "due"), "2026-06-12");
    EXPECT_EQ(cellar.does("reminder.list", {{"about", of_run()}}).at("reminders").as_array().size(),
              1U);
    EXPECT_EQ(
        cellar.does("reminder.clear", {{"about", of_run()}, {"cause", "seals"}}).at("cleared"), 0);
    EXPECT_EQ(
        cellar.does("reminder.clear", {{"about", of_run()}, {"cause", "inspection"}}).at("cleared"),
        1);
}

class NeedsTest : public JarsTest {
protected:
    json::object need(std::int64_t brew, std::int64_t count) {
        return cellar.does("brew.need", {{"brew", brew}, {"good", "wort"}, {"amount", count}});
    }
    double reserved(std::int64_t brew) {
        const auto needs = cellar.does("brew.show", {{"brew", brew}}).at("needs");
        return needs.as_array().empty() ? 0 : quantity(needs.at(0), "reserved");
    }
};

TEST_F(NeedsTest, ASeasonNeedsMoreThanTheShelfHas) {
    jars(3);
    const auto first = plan("2026-04-01", "stout");
    const auto second = plan("2026-05-01", "bitter");
    need(first, 2);
    need(second, 4);
    EXPECT_EQ(reserved(first), 2);
    EXPECT_EQ(reserved(second), 1);
}

TEST_F(NeedsTest, NewStockGoesToTheEarliestBrewDayThatNeedsIt) {
    const auto later = plan("2026-05-01", "bitter");
    const auto earlier = plan("2026-04-01", "stout");
    need(later, 2);
    need(earlier, 2);
    jars(3);
    EXPECT_EQ(reserved(earlier), 2);
    EXPECT_EQ(reserved(later), 1);
    cellar.does("brew.cancel", {{"brew", earlier}});
    EXPECT_EQ(reserved(later), 2);
}

TEST_F(NeedsTest, AReservationThatStarvesAnEarlierNeedIsTold) {
    const auto earlier = plan("2026-04-01", "stout");
    const auto later = plan("2026-05-01", "bitter");
    const auto code = jars(3);
    cellar.does("brew.reserve", {{"brew", later}, {"what", code}, {"amount", 3}});
    need(earlier, 2);
    cellar.does("brew.unreserve", {{"brew", later}});
    const auto told = cellar.does("brew.reserve", {{"brew", later}, {"what", code}, {"amount", 3}});
    EXPECT_EQ(told.at("short_days"), json::value(json::array{earlier}));
}

TEST_F(NeedsTest, JarsThatGoOffBeforeTheDayAreNotPromised) {
    jars(2, {}, {{"best_by", "2026-03-20"}});
    const auto brew = plan("2026-04-01", "stout");
    need(brew, 2);
    EXPECT_EQ(reserved(brew), 0);
}

TEST_F(NeedsTest, WhatWasUsedIsNeededNoMore) {
    jars(3);
    const auto brew = plan("2026-04-01", "stout");
    need(brew, 2);
    cellar.does("stock.use", {{"what", "wort"}, {"amount", 2}, {"brew", brew}});
    EXPECT_TRUE(cellar.does("brew.show", {{"brew", brew}}).at("needs").as_array().empty());
}

TEST_F(NeedsTest, WhatIsHeldAfterItWasPromisedIsNotTaken) {
    cellar.does("good.add", {{"name", "ale yeast"}, {"category", "yeast"}});
    const auto pack = buy("ale yeast", 1, "8");
    const auto brew = plan("2026-04-01", "stout");
    cellar.does("brew.reserve", {{"brew", brew}, {"what", pack}, {"amount", 1}});
    cellar.does("lot.hold", {{"lot", pack}, {"note", "swollen"}});
    EXPECT_EQ(cellar.refusal("stock.use", {{"what", "ale yeast"}, {"amount", 1}, {"brew", brew}})
                  .reason(),
              "not_enough");
}

// Found in review: a brew day read as ready though its jars were on hold.
TEST_F(NeedsTest, WhatIsPutOnHoldIsReservedForNobody) {
    const auto held = jars(2);
    const auto other = jars(3);
    const auto brew = plan("2026-04-01", "stout");
    need(brew, 2);
    EXPECT_EQ(quantity(lot(held), "reserved"), 2);
    cellar.does("lot.hold", {{"lot", held}, {"note", "mould on a lid"}});
    EXPECT_EQ(quantity(lot(held), "reserved"), 0);
    EXPECT_EQ(quantity(lot(other), "reserved"), 2) << "the brew day gets other jars";
    cellar.does("lot.hold", {{"lot", other}, {"note", "the same mould"}});
    const auto shown = cellar.does("brew.show", {{"brew", brew}});
    EXPECT_TRUE(shown.at("reserved").as_array().empty());
    EXPECT_EQ(quantity(shown.at("needs").at(0), "reserved"), 0);
}

} // namespace
} // namespace barmkeep::ledger
