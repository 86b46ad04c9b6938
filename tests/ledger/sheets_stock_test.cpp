// The sheets of the cellar, its stock and what happens to it.
#include "tests/ledger/sheets.hpp"

namespace barmkeep::ledger::sheets {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Le;
using ::testing::Not;

contract::Cellar stair_cellar() {
    contract::Cellar cellar;
    cellar.name = "Stair cellar";
    cellar.altitude = 520.0 * brewing::metre;
    cellar.currency = "EUR";
    cellar.time_zone = "Europe/Vienna";
    return cellar;
}

contract::Glance a_glance() {
    contract::Glance glance;
    glance.today = day("2026-10-22");
    glance.cellar = stair_cellar();
    contract::Lot gift = jars(14, 1, "2027-06-01");
    gift.available = pieces(0);
    gift.holds = {hold_of(contract::HoldKind::process_unknown, "a gift")};
    contract::Lot noted = jars(16, 5, "2027-07-04");
    noted.facts.process_note = "shorter than any published low-acid process for this jar";
    glance.shelves = {
        shelf_of({jars(10, 2, "2027-03-21"), noted, chilled(17, 2, "2026-10-23"), gift}),
        shelf_of({extract(1, 2900)})};
    glance.due = {reminder_of("look-3", "Look at 5 jars of load 3", "2026-10-03"),
                  reminder_of("gauge", "Gauge test of the tall canner", "2026-11-20")};
    glance.brews = {dunkel()};
    return glance;
}

TEST(CellarSheets, AtAGlanceTheFirstLinesSayWhatIsReadyAndDue) {
    const auto made = glance({}, a_glance());
    const std::string text = written(made);
    EXPECT_EQ(lead_of(made), "7 jars ready to use; 1 thing is due; next brew day Sat.");
    const auto lines = lines_of(text);
    EXPECT_THAT(lines.size(), Le(lines_max)) << text;
    EXPECT_EQ(lines.at(1), lead_of(made));
    EXPECT_THAT(lines.at(0), HasSubstr("Stair cellar"));
    EXPECT_THAT(text, HasSubstr("Look at 5 jars of load 3"));
    EXPECT_THAT(text, HasSubstr("reminder.done name=look-3"));
    EXPECT_THAT(text, HasSubstr("brew day 12, Dunkel"));
    EXPECT_THAT(text, HasSubstr("Gauge test of the tall canner"));
    EXPECT_LT(text.find("Due now"), text.find("Next"));
    EXPECT_LT(text.find("Next"), text.find("Not to use"));
}

TEST(CellarSheets, AtAGlanceNoHeldJarLooksReady) {
    const auto glance_now = a_glance();
    const std::string text = said(glance({}, glance_now));
    const std::string held = to_text(LotCode{'J', 17});
    EXPECT_THAT(text, HasSubstr(held + " 2 jars: it did not seal; kept in the refrigerator: boil "
                                       "it and"));
    EXPECT_THAT(text, HasSubstr(to_text(LotCode{'J', 14}) + " 1 jar: nobody knows how it was"));
    const auto order = text.substr(text.find("first to take first"));
    EXPECT_THAT(order.substr(0, order.find('!')), Not(HasSubstr(held)));
    EXPECT_THAT(text, HasSubstr("shorter than any published"));
}

TEST(CellarSheets, AtAGlanceChilledJarsPastTheirDayAreThrownOut) {
    auto glance_now = a_glance();
    glance_now.shelves = {shelf_of({chilled(17, 2, "2026-10-20")})};
    const std::string text = said(glance({}, glance_now));
    EXPECT_THAT(text, HasSubstr("throw it out"));
    EXPECT_THAT(text, Not(HasSubstr("boil it")));
}

TEST(CellarSheets, AtAGlanceABusyCellarStillFitsAScreen) {
    auto busy = a_glance();
    for (int i = 0; i < 20; ++i) {
        busy.due.insert(busy.due.begin(), reminder_of("late", "Look at the jars", "2026-10-01"));
        busy.brews.push_back(dunkel());
        busy.shelves[0].lots.push_back(chilled(20 + i, 1, "2026-10-23"));
    }
    const auto made = glance({}, busy);
    EXPECT_THAT(said(made), HasSubstr("19 more: reminder.list"));
    EXPECT_THAT(lines_of(written(made)).size(), Le(lines_max + 6));
}

TEST(CellarSheets, ANewCellarSaysWhatItLacks) {
    contract::Cellar cellar;
    const auto made = cellar_show({}, cellar);
    EXPECT_EQ(lead_of(made), "The cellar still lacks its altitude and its currency.");
    EXPECT_THAT(said(made), AllOf(HasSubstr("Canning needs it"), HasSubstr("cellar.set"),
                                  HasSubstr("equipment.list"), Not(HasSubstr("XXX"))));
    contract::CellarSet::Params params;
    params.altitude = 520.0 * brewing::metre;
    EXPECT_EQ(lead_of(cellar_set(params, stair_cellar())), "The cellar is now at 520 m.");
}

TEST(StockSheets, TheListSaysWhatToTakeAndWhatNot) {
    contract::StockList::Result result;
    result.shelves = a_glance().shelves;
    result.value = parse_money("40");
    const auto made = stock({}, result);
    const std::string text = said(made);
    EXPECT_EQ(lead_of(made), "You can use 7 jars of pint of wort.");
    expect_one_screen(made);
    EXPECT_LT(text.find(to_text(LotCode{'J', 10})), text.find(to_text(LotCode{'J', 16})));
    EXPECT_THAT(text, HasSubstr(to_text(LotCode{'J', 17}) + " 2 jars: it did not seal"));
    EXPECT_THAT(text, HasSubstr("shorter than any published"));
}

TEST(StockSheets, JarsPastTheirBestByDayAreMarkedWithoutAClock) {
    contract::Lot past = jars(3, 2, "2026-03-01");
    past.available = pieces(0);
    contract::StockList::Result result;
    result.shelves = {shelf_of({past})};
    const auto made = stock({}, result);
    EXPECT_EQ(lead_of(made), "Nothing of pint of wort is ready to use.");
    EXPECT_THAT(said(made), HasSubstr("past its best-by day"));
}

TEST(StockSheets, APurchaseSaysWhatToWriteOnTheBag) {
    contract::StockBuy::Params params;
    params.good = "light dry extract";
    params.paid = parse_money("12.40");
    const auto made = bought(params, {7, extract(5, 1000)});
    const std::string code = to_text(LotCode{'E', 5});
    EXPECT_EQ(lead_of(made), "Lot " + code + ": 1 kg of light dry extract for 12.40 EUR; write " +
                                 code + " on the bag.");
    EXPECT_THAT(said(made), HasSubstr("entry.undo entry=7 kind=bought"));
}

TEST(StockSheets, ABoughtJarIsOnHoldUntilItsProcessIsStated) {
    contract::Lot lot = jars(20, 4, "2027-01-01");
    lot.available = pieces(0);
    lot.holds = {hold_of(contract::HoldKind::process_unknown, "bought")};
    EXPECT_THAT(said(bought({}, {8, lot})),
                AllOf(HasSubstr("Do not use " + to_text(lot.code)), HasSubstr("lot.vouch")));
}

TEST(StockSheets, UsingAJarHasItsSafetyTextsInFull) {
    contract::StockUse::Params params;
    params.brew = 12;
    contract::Posted posted;
    posted.entry = 41;
    posted.lines = {line_of(LotCode{'J', 10}, "pint of wort", pieces(-2), "-3.76")};
    contract::Hold released = hold_of(contract::HoldKind::evidence_missing, "a gap");
    released.ended_by = "anna";
    released.end_reason = "I sat beside it";
    posted.despite = {{LotCode{'J', 10}, released}};
    const auto made = used(params, posted);
    EXPECT_EQ(lead_of(made), "Take 2 jars of " + to_text(LotCode{'J', 10}) + " for brew day 12.");
    const std::string text = said(made);
    EXPECT_THAT(text, AllOf(HasSubstr("never taste"), HasSubstr("Boil the wort of a jar"),
                            HasSubstr("I sat beside it"), HasSubstr("entry.undo")));
    expect_one_screen(made);
}

TEST(StockSheets, JarsFoundByARecountAreOnHold) {
    contract::StockRecount::Params params;
    params.lot = LotCode{'J', 10};
    params.reason = "counted the shelf";
    contract::Posted posted;
    posted.entry = 42;
    posted.lines = {line_of(LotCode{'J', 30}, "pint of wort", pieces(1), "0")};
    const auto made = recounted(params, posted);
    EXPECT_THAT(lead_of(made), HasSubstr("Found 1 jar of " + to_text(LotCode{'J', 30})));
    EXPECT_THAT(said(made), AllOf(HasSubstr("on hold"), HasSubstr("lot.vouch")));
}

TEST(StockSheets, ThrowingOutAndConverting) {
    contract::StockDiscard::Params thrown;
    thrown.lot = LotCode{'J', 10};
    thrown.reason = "swollen lid";
    contract::Posted posted;
    posted.entry = 43;
    posted.lines = {line_of(thrown.lot, "pint of wort", pieces(-1), "-1.88")};
    EXPECT_THAT(said(discarded(thrown, posted)),
                AllOf(HasSubstr("Throw out 1 jar"), HasSubstr("heavy bag")));

    contract::StockConvert::Params params;
    params.lost = 1;
    contract::StockConvert::Result result;
    result.entry = 44;
    result.lots = {jars(31, 8, "2027-10-01")};
    result.lines = {
        line_of(LotCode{'E', 5}, "light dry extract", amount_of(-900.0 * brewing::gram), "-11.16")};
    result.value = parse_money("11.16");
    const auto made = converted(params, result);
    EXPECT_THAT(lead_of(made), HasSubstr("8 jars of pint of wort as lot"));
    EXPECT_THAT(said(made), AllOf(HasSubstr("1 piece lost"), HasSubstr("Made from 900 g")));
}

} // namespace
} // namespace barmkeep::ledger::sheets
