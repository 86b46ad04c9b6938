// The sheets of lots, their history and the journal.
#include "tests/ledger/sheets.hpp"

namespace barmkeep::ledger::sheets {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

contract::Entry an_entry() {
    contract::Entry entry;
    entry.number = 41;
    entry.at = parse_instant("2026-10-20T17:30:00Z");
    entry.day = day("2026-10-20");
    entry.who = "anna";
    entry.kind = contract::EntryKind::used;
    entry.brew = 12;
    entry.lines = {line_of(LotCode{'J', 10}, "pint of wort", pieces(-2), "-3.76")};
    return entry;
}

TEST(LotSheets, AGoodLotSaysHowMuchAndUntilWhen) {
    contract::Lot lot = jars(10, 2, "2027-03-21");
    lot.facts.gravity = brewing::Gravity::sg(1.1);
    const auto made = lot_show({lot.code}, lot);
    EXPECT_THAT(lead_of(made), HasSubstr("2 jars to use, best by"));
    EXPECT_THAT(said(made), AllOf(HasSubstr("gravity"), HasSubstr("1.100"), HasSubstr("stock.use"),
                                  HasSubstr("cautions")));
    expect_one_screen(made);
}

TEST(LotSheets, AHeldLotBeginsWithWhyNot) {
    const contract::Lot lot = chilled(17, 2, "2026-10-23");
    const auto made = lot_show({lot.code}, lot);
    EXPECT_THAT(lead_of(made), AllOf(HasSubstr("Do not use these 2 jars: it did not seal"),
                                     HasSubstr("boil it and use it by tomorrow")));
    EXPECT_THAT(said(made),
                AllOf(HasSubstr("It never becomes shelf stock."), HasSubstr("refrigerator within"),
                      HasSubstr("after that day throw it out"), Not(HasSubstr("lot.release")),
                      Not(HasSubstr("stock.use")))) // the sheet does not know which day it is
        << "no use is offered";
    contract::Lot later = lot;
    later.holds[0].about.clear(); // set by hand: no record says that it was kept cold in time
    EXPECT_THAT(said(lot_show({lot.code}, later)),
                AllOf(Not(HasSubstr("boil it and use it by")), Not(HasSubstr("stock.use"))));
}

TEST(LotSheets, WhatMustBeSaidOfALotStandsWhereverItIsShown) {
    contract::Lot lot = jars(10, 2, "2027-03-21");
    lot.facts.process_note = "shorter than any published low-acid process for this jar";
    contract::Hold past = hold_of(contract::HoldKind::evidence_missing, "a gap");
    past.ended_by = "anna";
    past.end_reason = "I sat beside it";
    lot.released = {past};
    for (const auto& made : {lot_show({lot.code}, lot), lot_change({}, lot), lot_release({}, lot),
                             lot_hold({}, lot), bought({}, {1, lot})})
        EXPECT_THAT(said(made),
                    AllOf(HasSubstr("shorter than any published"), HasSubstr("I sat beside it")));
}

TEST(LotSheets, AHoldSaysHowItEnds) {
    contract::Lot lot = jars(10, 2, "2027-03-21");
    lot.available = pieces(0);
    lot.holds = {hold_of(contract::HoldKind::quarantine, "looks cloudy")};
    contract::LotHold::Params whole;
    whole.lot = lot.code;
    EXPECT_THAT(said(lot_hold(whole, lot)),
                AllOf(HasSubstr("nothing can be taken"), HasSubstr("lot.release")));
    contract::LotHold::Params part;
    part.lot = LotCode{'J', 9};
    EXPECT_THAT(lead_of(lot_hold(part, lot)), HasSubstr("write " + to_text(lot.code) + " on each"));
    lot.holds = {hold_of(contract::HoldKind::process_unknown, "a gift")};
    EXPECT_THAT(said(lot_show({lot.code}, lot)), HasSubstr("lot.vouch"));
    lot.holds = {hold_of(contract::HoldKind::deviation_known, "vented short")};
    EXPECT_THAT(said(lot_show({lot.code}, lot)),
                AllOf(HasSubstr("Throw out the jars of a run"), HasSubstr("stock.discard")));
    lot.holds = {hold_of(contract::HoldKind::unknown, "from a newer program")};
    EXPECT_THAT(said(lot_show({lot.code}, lot)), Not(HasSubstr("lot.release")));
}

TEST(LotSheets, AReleaseDoesNotMakeAHeldLotLookReady) {
    contract::Lot lot = jars(10, 2, "2027-03-21");
    lot.available = pieces(0);
    lot.holds = {hold_of(contract::HoldKind::run_suspect, "one was spoiled")};
    contract::LotRelease::Params params;
    params.reason = "found the sensor's fault";
    EXPECT_THAT(lead_of(lot_release(params, lot)), HasSubstr("Do not use these 2 jars"));
}

TEST(LotSheets, AVouchedProcessIsSaidToBeUnchecked) {
    contract::LotVouch::Params params;
    params.process = "25 min at 12 psi, neighbour's notebook";
    params.canned = day("2026-09-01");
    const auto made = lot_vouch(params, jars(10, 2, "2027-03-21"));
    EXPECT_THAT(lead_of(made), HasSubstr("neighbour's notebook"));
    EXPECT_THAT(said(made), HasSubstr("Nobody has checked it."));
}

TEST(LotSheets, TheHistoryIsInWords) {
    contract::LotHistory::Params params;
    params.lot = LotCode{'J', 10};
    contract::LotHistory::Result result;
    contract::LotPast past;
    past.at = parse_instant("2026-10-20T17:30:00Z");
    past.who = "anna";
    past.reason = "measured the wrong jar";
    past.was = {{"best_by", "2027-03-01"}, {"facts", json::object{{"gravity", nullptr}}}};
    past.became = {{"best_by", nullptr}, {"facts", json::object{{"gravity", 1.1}}}};
    result.changes = {past};
    result.next = "more";
    const std::string words = said(lot_history(params, result));
    EXPECT_THAT(words, AllOf(HasSubstr("1 change"), HasSubstr("best by: from"), HasSubstr("1.100"),
                             HasSubstr("nothing"), HasSubstr("cursor=more")));
}

TEST(EntrySheets, TheListIsARowForEachEntry) {
    contract::EntryList::Result result;
    result.entries = {an_entry(), an_entry()};
    result.entries[1].undone_by = 43;
    const auto made = entry_list({}, result);
    EXPECT_EQ(lead_of(made), "2 entries, newest first; the last: used 2 jars of " +
                                 to_text(LotCode{'J', 10}) + " on 20 Oct.");
    EXPECT_THAT(said(made), HasSubstr("(undone)"));
    expect_one_screen(made);
    EXPECT_THAT(said(entry_list({}, {})), HasSubstr("There are no entries."));
}

TEST(EntrySheets, OneEntryLeadsToItsUndoing) {
    EXPECT_THAT(said(entry_show({}, an_entry())),
                AllOf(HasSubstr("used 2 jars"), HasSubstr("brew day 12"),
                      HasSubstr("entry.preview entry=41")));
    contract::Undoing possible;
    possible.undoes = an_entry();
    possible.lines = {line_of(LotCode{'J', 10}, "pint of wort", pieces(2), "3.76")};
    EXPECT_THAT(said(entry_preview({}, possible)),
                AllOf(HasSubstr("It can be undone"), HasSubstr("entry.undo entry=41 kind=used")));
    contract::Undoing refused = possible;
    refused.refused = {"Lot J10N would fall below zero."};
    EXPECT_THAT(said(entry_preview({}, refused)),
                AllOf(HasSubstr("It cannot be undone"), HasSubstr("below zero"),
                      Not(HasSubstr("entry.undo"))));
    contract::EntryUndo::Params params;
    params.reason = "wrong brew day";
    EXPECT_THAT(said(entry_undo(params, {44, possible})),
                AllOf(HasSubstr("wrong brew day"), HasSubstr("The counter-entry is entry 44")));
}

} // namespace
} // namespace barmkeep::ledger::sheets
