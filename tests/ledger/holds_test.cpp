// Holds: what keeps a jar that should not be eaten off the shelf.  Each test of the first part is a
// fault that a trial of the program found.
#include "daemon/ledger/row_checksum.hpp"
#include "tests/ledger/held_jars.hpp"

#include <SQLiteCpp/Database.h>

namespace barmkeep::ledger {
namespace {

using ::testing::HasSubstr;

class HoldsTest : public JarsTest {};

TEST_F(HoldsTest, JarsThatDidNotSealNeverBecomeStockByARelease) {
    const auto code = jars(3, held("seal_failed"));
    EXPECT_EQ(available_of(code), 0);
    const auto refused = cellar.refusal("lot.release", {{"lot", code}, {"reason", "look fine"}});
    EXPECT_EQ(refused.reason(), "never_released");
    EXPECT_EQ(cellar
                  .refusal("lot.release",
                           {{"lot", code}, {"reason", "look fine"}, {"kind", "seal_failed"}})
                  .reason(),
              "never_released");
    EXPECT_EQ(cellar.refusal("stock.use", {{"what", "wort"}, {"amount", 1}}).reason(),
              "not_enough");
    EXPECT_EQ(cellar.refusal("stock.use", {{"what", code}, {"amount", 1}}).reason(), "on_hold");
}

TEST_F(HoldsTest, AFurtherHoldDoesNotTakeThePlaceOfAGraverOne) {
    const auto code = jars(3, held("seal_failed"));
    cellar.does("lot.hold", {{"lot", code}, {"note", "another text"}});
    const auto released = cellar.does("lot.release", {{"lot", code}, {"reason", "settled"}});
    EXPECT_EQ(released.at("holds").as_array().size(), 1U); // the quarantine alone has ended
    EXPECT_EQ(available_of(code), 0);
}

TEST_F(HoldsTest, AKnownDeviationIsNeverReleasedAndShownOnEveryList) {
    const auto code = jars(4, held("deviation_known"));
    EXPECT_EQ(cellar.refusal("lot.release", {{"lot", code}, {"reason", "they look fine"}}).reason(),
              "never_released");
    const auto shelf = cellar.does("stock.list", {{"good", "wort"}}).at("shelves").at(0);
    EXPECT_EQ(quantity(shelf, "available"), 0);
    EXPECT_EQ(text(shelf.at("lots").at(0).at("holds").at(0), "kind"), "deviation_known");
    EXPECT_EQ(shelf.as_object().if_contains("best_by"), nullptr);
}

TEST_F(HoldsTest, HeldJarsDoNotDateTheShelf) {
    jars(1, held("seal_failed"), {{"best_by", "2026-03-17"}, {"kept", "refrigerator"}});
    jars(2, {}, {{"best_by", "2027-03-13"}});
    const auto shelf = cellar.does("stock.list", {{"good", "wort"}}).at("shelves").at(0);
    EXPECT_EQ(text(shelf, "best_by"), "2027-03-13");
    EXPECT_EQ(quantity(shelf, "available"), 2);
}

TEST_F(HoldsTest, AReasonForAReleaseIsShownAtEveryLaterUse) {
    const auto code = jars(4, held("evidence_missing"));
    cellar.does("lot.release", {{"lot", code}, {"reason", "I stood beside it"}});
    EXPECT_EQ(available_of(code), 4);
    const auto used = cellar.does("stock.use", {{"what", "wort"}, {"amount", 1}});
    ASSERT_EQ(used.at("despite").as_array().size(), 1U);
    EXPECT_EQ(text(used.at("despite").at(0).at("hold"), "end_reason"), "I stood beside it");
    EXPECT_EQ(lot(code).at("released").as_array().size(), 1U);
}

TEST_F(HoldsTest, WhatIsMadeFromReleasedJarsCarriesTheReasonOn) {
    const auto code = jars(4, held("evidence_missing"));
    cellar.does("lot.release", {{"lot", code}, {"reason", "I stood beside it"}});
    cellar.does("good.add",
                {{"name", "quart of wort"}, {"category", "other"}, {"measure", "pieces"}});
    const auto made = cellar.does(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", code}, {"amount", 2}}}},
         {"outputs", json::array{json::object{{"good", "quart of wort"}, {"amount", 1}}}}});
    EXPECT_EQ(text(made.at("lots").at(0).at("released").at(0), "end_reason"), "I stood beside it");
}

TEST_F(HoldsTest, RefrigeratedJarsAreUsedOnlyByNameBoiledAndInTime) {
    const auto code =
        jars(2, held("seal_failed"), {{"best_by", "2026-03-15"}, {"kept", "refrigerator"}});
    EXPECT_EQ(available_of(code), 0);
    EXPECT_EQ(
        cellar.refusal("stock.use", {{"what", "wort"}, {"amount", 1}, {"boiled", true}}).reason(),
        "not_enough");
    EXPECT_EQ(cellar.refusal("stock.use", {{"what", code}, {"amount", 1}}).reason(), "on_hold");
    cellar.does("stock.use", {{"what", code}, {"amount", 1}, {"boiled", true}});
    cellar.clock.set(parse_instant("2026-03-16T10:00:00Z"));
    EXPECT_EQ(
        cellar.refusal("stock.use", {{"what", code}, {"amount", 1}, {"boiled", true}}).reason(),
        "on_hold");
}

TEST_F(HoldsTest, AQuarantineForbidsEvenTheBoiledUse) {
    const auto code =
        jars(2, held("seal_failed"), {{"best_by", "2026-03-15"}, {"kept", "refrigerator"}});
    cellar.does("lot.hold", {{"lot", code}, {"note", "smells odd"}});
    EXPECT_EQ(
        cellar.refusal("stock.use", {{"what", code}, {"amount", 1}, {"boiled", true}}).reason(),
        "on_hold");
}

TEST_F(HoldsTest, AJarFoundUnsealedOnTheShelfIsNotSavedByMovingIt) {
    const auto code = jars(2, {}, {{"best_by", "2027-03-13"}});
    cellar.does("lot.change", {{"lot", code}, {"kept", "refrigerator"}, {"reason", "lid up"}});
    cellar.does("lot.hold", {{"lot", code}, {"note", "lid up"}, {"kind", "seal_failed"}});
    EXPECT_EQ(
        cellar.refusal("stock.use", {{"what", code}, {"amount", 1}, {"boiled", true}}).reason(),
        "on_hold");
    const auto other = jars(1, held("seal_failed"));
    EXPECT_EQ(
        cellar
            .refusal("lot.change", {{"lot", other}, {"kept", "refrigerator"}, {"reason", "saved"}})
            .reason(),
        "days_fixed");
    EXPECT_EQ(
        cellar
            .refusal("lot.change", {{"lot", other}, {"best_by", "2027-03-13"}, {"reason", "saved"}})
            .reason(),
        "days_fixed");
}

TEST_F(HoldsTest, OnlyThePluginItselfVouchesByItsRecord) {
    buy("dry extract", "500 g", "9");
    EXPECT_EQ(cellar
                  .refusal("stock.convert",
                           {{"inputs", json::array{json::object{{"what", "dry extract"},
                                                                {"amount", "400 g"}}}},
                            {"outputs", json::array{json::object{{"good", "wort"}, {"amount", 3}}}},
                            {"about", json::array{of_run()}}})
                  .reason(),
              "not_its_own");
}

TEST_F(HoldsTest, JarsBoughtGivenFoundOrMadeWithoutARunAreNoStock) {
    const auto bought =
        text(cellar.does("stock.buy", {{"good", "wort"}, {"amount", 2}, {"paid", "0"}}).at("lot"),
             "code");
    EXPECT_EQ(text(lot(bought).at("holds").at(0), "kind"), "process_unknown");
    EXPECT_EQ(cellar.refusal("lot.release", {{"lot", bought}, {"reason", "a friend's"}}).reason(),
              "never_released");
    buy("dry extract", "500 g", "9");
    const auto made = cellar.does(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "400 g"}}}},
         {"outputs", json::array{json::object{{"good", "wort"}, {"amount", 3}}}}});
    EXPECT_EQ(text(made.at("lots").at(0).at("holds").at(0), "kind"), "process_unknown");
    const auto logged = jars(2);
    const auto found =
        cellar.does("stock.recount", {{"lot", logged}, {"amount", 5}, {"reason", "behind a box"}});
    EXPECT_EQ(on_hand(logged), 2); // the three that were found are another lot, on hold
    const auto surplus = text(found.at("lines").at(0), "lot");
    EXPECT_EQ(on_hand(surplus), 3);
    EXPECT_EQ(text(lot(surplus).at("holds").at(0), "kind"), "process_unknown");
    EXPECT_EQ(
        quantity(cellar.does("stock.list", {{"good", "wort"}}).at("shelves").at(0), "available"),
        2);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(HoldsTest, TheBrewersOwnRecordEndsAnUnknownProcessOnceConfirmed) {
    const auto code =
        text(cellar.does("stock.buy", {{"good", "wort"}, {"amount", 2}, {"paid", "0"}}).at("lot"),
             "code");
    json::object params{{"lot", code},
                        {"process", "25 min at 12 psi, neighbour's notebook"},
                        {"canned", "2026-02-01"},
                        {"confirm", "yes"}};
    EXPECT_EQ(cellar.refusal("lot.vouch", params).reason(), "not_confirmed");
    params["confirm"] = code;
    const auto vouched = cellar.does("lot.vouch", params);
    EXPECT_EQ(text(vouched, "canned"), "2026-02-01");
    EXPECT_EQ(available_of(code), 2);
    EXPECT_THAT(text(cellar.does("stock.use", {{"what", code}, {"amount", 1}})
                         .at("despite")
                         .at(0)
                         .at("hold"),
                     "end_reason"),
                HasSubstr("neighbour's notebook"));
    EXPECT_EQ(cellar.refusal("lot.vouch", params).reason(), "not_on_hold");
}

TEST_F(HoldsTest, TheBrewersOwnRecordOfTheProcessEndsNoOtherHold) {
    const auto code =
        text(cellar.does("stock.buy", {{"good", "wort"}, {"amount", 2}, {"paid", "0"}}).at("lot"),
             "code");
    cellar.does("lot.hold", {{"lot", code}, {"note", "a swollen lid"}});
    cellar.does("lot.vouch", {{"lot", code},
                              {"process", "25 min at 12 psi, neighbour's notebook"},
                              {"canned", "2026-02-01"},
                              {"confirm", code}});
    const auto holds = lot(code).at("holds").as_array();
    ASSERT_EQ(holds.size(), 1U);
    EXPECT_EQ(text(holds.at(0), "kind"), "quarantine");
    EXPECT_EQ(available_of(code), 0);
}

TEST_F(HoldsTest, AHoldOnAPartSplitsTheLotAndTheSplitIsNotUndone) {
    const auto code = jars(5);
    const auto part = cellar.does("lot.hold", {{"lot", code}, {"note", "lid bent"}, {"amount", 2}});
    EXPECT_EQ(on_hand(code), 3);
    EXPECT_EQ(quantity(part, "on_hand"), 2);
    EXPECT_EQ(available_of(code), 3);
    EXPECT_EQ(part.at("about").at(0).at("to").as_string(), "canning.run");
    const auto entry = part.at("origin");
    EXPECT_EQ(cellar.refusal("entry.undo", cellar.undoing(entry)).reason(), "is_split");
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(HoldsTest, APartThatIsSplitOffKeepsTheHoldsOfTheWhole) {
    const auto code = jars(5, held("evidence_missing"));
    const auto part =
        cellar.does("lot.hold", {{"lot", code}, {"amount", 2}, {"note", "a swollen lid"}});
    EXPECT_NE(text(part, "code"), code);
    std::vector<std::string> kinds;
    for (const auto& hold : part.at("holds").as_array())
        kinds.push_back(text(hold, "kind"));
    EXPECT_EQ(kinds, (std::vector<std::string>{"evidence_missing", "quarantine"}));
    EXPECT_EQ(lot(code).at("holds").as_array().size(), 1U);
}

TEST_F(HoldsTest, AKindThatThisProgramDoesNotKnowIsNeverReleased) {
    const auto code = jars(2);
    cellar.ledger.stop();
    SQLite::Database{folder.file("cellar.db").string(), SQLite::OPEN_READWRITE}.exec(
        "INSERT INTO hold (lot, kind, note, at, who) SELECT number, 'of_tomorrow', 'n', 0, 'x' "
        "FROM lot WHERE good = (SELECT number FROM good WHERE name = 'wort')");
    Cellar again{folder.file("cellar.db")};
    EXPECT_EQ(again.refusal("lot.release", {{"lot", code}, {"reason", "why not"}}).reason(),
              "never_released");
    EXPECT_EQ(
        again.refusal("lot.hold", {{"lot", code}, {"note", "n"}, {"kind", "unknown"}}).reason(),
        "not_given");
}

TEST_F(HoldsTest, AHoldIsReleasedByOneWhoMayKeepAndNotByOneWhoMayLook) {
    const auto code = jars(2, held("evidence_missing"));
    EXPECT_EQ(cellar
                  .refusal(caller("guest", Access::look), "lot.release",
                           {{"lot", code}, {"reason", "thirsty"}})
                  .kind(),
              ErrorKind::refused);
    EXPECT_EQ(available_of(code), 0);
}

TEST_F(HoldsTest, AStoredFactThatTodaysRulesRefuseHarmsNothingAndIsTold) {
    const auto code = jars(2);
    cellar.ledger.stop();
    SQLite::Database{folder.file("cellar.db").string(), SQLite::OPEN_READWRITE}.exec(
        "UPDATE lot SET facts = '{\"gravity\":9.5,\"form\":\"cloudy\",\"of_tomorrow\":1}' "
        "WHERE good = (SELECT number FROM good WHERE name = 'wort')");
    { // as a program of other rules would have written it
        Store store{{folder.file("cellar.db"), false, {}, 0}};
        Transaction transaction{store, Instant{}, 1};
        write_checksum(transaction, ChecksummedTable::lot, parse_lot_code(code).number());
    }
    Cellar again{folder.file("cellar.db")};
    EXPECT_EQ(
        quantity(again.does("stock.list", {{"good", "wort"}}).at("shelves").at(0), "available"), 2);
    again.does("cellar.glance");
    again.does("stock.use", {{"what", "wort"}, {"amount", 1}});
    const auto found = again.does("ledger.check");
    EXPECT_TRUE(found.at("sound").as_bool());
    ASSERT_EQ(found.at("oddities").as_array().size(), 3U);
    EXPECT_EQ(text(found.at("oddities").at(0), "lot"), code);
    // What this program does not know stays when it changes something else.
    again.does("lot.change",
               {{"lot", code}, {"facts", json::object{{"strain", "x"}}}, {"reason", "named"}});
    EXPECT_THAT(again.dumped(), HasSubstr("of_tomorrow"));
}

TEST_F(HoldsTest, OptionalFieldsCanBeEmptied) {
    const auto code = jars(2, {}, {{"best_by", "2027-03-13"}});
    cellar.does("lot.change", {{"lot", code},
                               {"facts", json::object{{"gravity", 1.09}, {"jar", "pint"}}},
                               {"reason", "measured"}});
    const auto changed =
        cellar.does("lot.change", {{"lot", code},
                                   {"clear", json::array{"best_by", "facts.gravity"}},
                                   {"reason", "measured the wrong jar"}});
    EXPECT_EQ(changed.if_contains("best_by"), nullptr);
    EXPECT_EQ(changed.at("facts").as_object().if_contains("gravity"), nullptr);
    EXPECT_EQ(text(changed.at("facts"), "jar"), "pint");
    EXPECT_EQ(cellar
                  .refusal("lot.change",
                           {{"lot", code}, {"clear", json::array{"code"}}, {"reason", "no"}})
                  .reason(),
              "not_clearable");
}

} // namespace
} // namespace barmkeep::ledger
