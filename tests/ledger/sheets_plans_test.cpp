// The sheets of brew days, reminders, goods, prices, equipment and the ledger as a whole.
#include "tests/ledger/sheets.hpp"

namespace barmkeep::ledger::sheets {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(BrewSheets, ABrewDayIsForPaper) {
    const auto made = brew_show({}, dunkel());
    EXPECT_EQ(lead_of(made), "Dunkel, 20 L at 1.052 on Sat; all it needs is reserved.");
    EXPECT_THAT(said(made), AllOf(HasSubstr("Brew day 12: Dunkel"), HasSubstr("lager"),
                                  HasSubstr("slurry kept .........."),
                                  HasSubstr("Reserved: take these"), HasSubstr("2 jars")));
    EXPECT_LE(lines_of(written(made)).size(), 32U);
}

TEST(BrewSheets, WhatIsStillToGetIsInTheLead) {
    contract::Brew brew = dunkel();
    brew.needs[0].reserved = pieces(1);
    for (const auto& made : {brew_show({}, brew), brew_change({}, brew)})
        EXPECT_THAT(lead_of(made), HasSubstr("still to get: 2 jars of pint of wort"));
    contract::BrewList::Result result;
    result.brews = {brew};
    const auto list = brew_list({}, result);
    EXPECT_THAT(lead_of(list), HasSubstr("Next: Dunkel"));
    EXPECT_THAT(said(list), HasSubstr("brew.show brew=12"));
    expect_one_screen(list);
    EXPECT_THAT(said(brew_list({}, {})), HasSubstr("No brew day is planned."));
}

TEST(BrewSheets, AReservationSaysWhichEarlierDayIsShortNow) {
    contract::BrewReserve::Params params;
    params.what = "pint of wort";
    const auto made = brew_reserve(params, {dunkel(), {9}});
    EXPECT_THAT(lead_of(made), HasSubstr("Now reserved: 2 jars of " + to_text(LotCode{'J', 10})));
    EXPECT_THAT(said(made),
                AllOf(HasSubstr("brew day 9, which is earlier"), HasSubstr("brew.show brew=9")));
}

TEST(BrewSheets, PlanningNeedingAndEnding) {
    EXPECT_THAT(said(brew_plan({}, dunkel())), HasSubstr("brew.need brew=12"));
    contract::BrewNeed::Params need;
    need.good = "pint of wort";
    EXPECT_THAT(lead_of(brew_need(need, dunkel())), HasSubstr("Needs 3 jars of pint of wort"));
    need.good = "lids";
    EXPECT_THAT(lead_of(brew_need(need, dunkel())), HasSubstr("Needs no lids"));
    EXPECT_THAT(lead_of(brew_unreserve({}, dunkel())), HasSubstr("is given back"));
    contract::Brew done = dunkel();
    done.state = contract::BrewState::done;
    EXPECT_THAT(said(brew_finish({}, done)), HasSubstr("entry.list brew=12"));
    EXPECT_THAT(said(brew_cancel({}, done)), HasSubstr("Cancelled: Dunkel"));
    EXPECT_THAT(said(brew_show({}, done)), Not(HasSubstr("brew.finish")));
}

TEST(ReminderSheets, EachHasTheCommandThatMarksItDone) {
    contract::ReminderList::Result result;
    result.reminders = {reminder_of("look-3", "Look at 5 jars of load 3", "2026-10-03"),
                        reminder_of("feed-9", "Feed starter 9", "2026-10-22")};
    result.reminders[0].note = "5 of 9 are not checked";
    const auto made = reminder_list({}, result);
    EXPECT_EQ(lead_of(made), "2 reminders; first, by 3 Oct: Look at 5 jars of load 3.");
    const std::string text = said(made);
    EXPECT_THAT(text, AllOf(HasSubstr("reminder.done name=look-3"),
                            HasSubstr("reminder.done name=feed-9"), HasSubstr("are not checked")));
    EXPECT_LT(text.find("look-3"), text.find("feed-9"));
    for (int i = 0; i < 3; ++i)
        result.reminders.push_back(result.reminders[1]);
    expect_one_screen(reminder_list({}, result));
    EXPECT_THAT(said(reminder_list({}, {})), HasSubstr("nothing to be reminded of"));
}

TEST(ReminderSheets, PostingAndEnding) {
    contract::Reminder reminder = reminder_of("sanitiser", "Buy sanitiser", "2026-11-01");
    EXPECT_THAT(said(reminder_post({}, reminder)), HasSubstr("You will be reminded on"));
    EXPECT_THAT(lead_of(reminder_done({}, reminder)), HasSubstr("It comes again"));
    contract::ReminderSnooze::Params params;
    params.until = day("2026-10-30");
    EXPECT_THAT(said(reminder_snooze(params, reminder)), HasSubstr("Hidden until 30 Oct"));
    reminder.state = contract::ReminderState::done;
    EXPECT_EQ(lead_of(reminder_done({}, reminder)), "Done: Buy sanitiser.");
    EXPECT_EQ(lead_of(reminder_clear({}, {0})), "There was none to remove.");
    EXPECT_EQ(lead_of(reminder_clear({}, {2})), "2 reminders removed.");
    (void)said(reminder_clear({}, {2}));
}

TEST(GoodSheets, CategoriesAreWords) {
    contract::Good good;
    good.name = "canned starter wort";
    good.category = contract::Category::bought_can;
    EXPECT_EQ(lead_of(good_add({}, good)),
              "You can now buy and use canned starter wort: bought cans, counted.");
    contract::GoodList::Result result;
    result.all = {good};
    EXPECT_THAT(said(good_list({}, result)),
                AllOf(HasSubstr("bought cans"), HasSubstr("good.add")));
    contract::GoodChange::Params params;
    params.name = "can";
    params.rename = good.name;
    EXPECT_EQ(lead_of(good_change(params, good)), "can is now called canned starter wort.");
    (void)said(good_change(params, good));
}

TEST(PriceSheets, APriceWithoutAPackageSaysSo) {
    contract::PriceNote note;
    note.item = "canned starter wort";
    note.price = parse_money("3.20");
    note.day = day("2026-10-20");
    EXPECT_THAT(said(price_set({}, note)), HasSubstr("cannot be compared"));
    note.volume = 0.5 * brewing::litre;
    note.gravity = brewing::Gravity::sg(1.08);
    note.where = "corner shop";
    EXPECT_EQ(lead_of(price_set({}, note)),
              "3.20 EUR for 500 mL at 1.080 at corner shop, seen on 20 Oct.");
    contract::PriceList::Result result;
    result.prices = {note};
    EXPECT_THAT(said(price_list({}, result)), HasSubstr("500 mL at 1.080"));
}

TEST(EquipmentSheets, WhatCanningNeedsAndNobodySetIsSaid) {
    EXPECT_THAT(said(equipment_list({}, {})),
                AllOf(HasSubstr("Nothing is set up yet."), HasSubstr("jar.set"),
                      HasSubstr("canner.set"), HasSubstr("flask.set")));
    contract::Canner canner;
    canner.name = "tall canner";
    canner.capacity = {{"pint", 9}};
    contract::JarSize jar;
    jar.name = "pint";
    jar.fill = 0.42 * brewing::litre;
    contract::EquipmentList::Result result;
    result.canners = {canner};
    result.jars = {jar};
    result.flasks = {{"big flask", 5.0 * brewing::litre}};
    EXPECT_THAT(said(equipment_list({}, result)),
                AllOf(HasSubstr("No test of the dial gauge of tall canner is noted"),
                      HasSubstr("counts in published processes is not set"),
                      HasSubstr("9 jars of pint")));
    expect_one_screen(equipment_list({}, result));
}

TEST(EquipmentSheets, OnePieceEach) {
    contract::Canner canner;
    canner.name = "tall canner";
    canner.capacity = {{"pint", 9}};
    canner.gauge_tested = day("2026-02-01");
    canner.gauge_error = brewing::GaugePressure{3.447, brewing::kilopascal_gauge};
    EXPECT_THAT(said(canner_set({}, canner)),
                AllOf(HasSubstr("It takes 9 jars of pint and has a dial gauge."), HasSubstr("high"),
                      HasSubstr("tested every year")));
    contract::JarSize jar;
    jar.name = "half gallon";
    jar.fill = 1.9 * brewing::litre;
    jar.size = contract::JarClass::larger;
    EXPECT_THAT(said(jar_set({}, jar)), HasSubstr("Do not can in half gallon"));
    EXPECT_EQ(lead_of(flask_set({}, {"big flask", 5.0 * brewing::litre})),
              "It holds 5 L to the brim.");
    EXPECT_EQ(lead_of(equipment_remove({contract::EquipmentKind::jar, "pint"}, {})),
              "The jar size pint is removed.");
}

TEST(LedgerSheets, AnUnsoundLedgerIsAnAlarm) {
    contract::LedgerCheck::Result sound;
    sound.sound = true;
    sound.entries = 412;
    sound.lots = 63;
    EXPECT_EQ(lead_of(ledger_check({}, sound)),
              "The ledger is sound: 412 entries and 63 lots agree.");
    contract::LedgerCheck::Result broken = sound;
    broken.sound = false;
    broken.faults = {{"The balance is 3, the journal says 2.", LotCode{'J', 10}, {}}};
    const std::string text = written(ledger_check({}, broken));
    EXPECT_EQ(text.rfind("!! ", 0), 0U) << text;
    EXPECT_THAT(text, HasSubstr("lot " + to_text(LotCode{'J', 10}) + ": The balance is 3"));
    EXPECT_THAT(said(ledger_backup({}, {"/safe/cellar", 2'400'000, 412})),
                AllOf(HasSubstr("412 entries copied"), HasSubstr("2.4 MB")));
}

} // namespace
} // namespace barmkeep::ledger::sheets
