// The starter plugin on a real ledger.
#include "plugins/starter/starter.hpp"
#include "tests/starter/cellar_under_test.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::starter {
namespace {

using brewing::billion_cells;
using brewing::Gravity;
using brewing::litre;

class StarterOnLedger : public testing::Test {
protected:
    StarterOnLedger() {
        add("ale yeast", contract::Category::yeast);
        add("light concentrate", contract::Category::concentrate);
        contract::Facts yeast;
        yeast.form = contract::Form::liquid;
        yeast.cells = 100.0 * billion_cells;
        yeast_ = buy("ale yeast", 2, "9.00", yeast);
        contract::Facts jars;
        jars.gravity = Gravity::sg(1.090);
        jars.fill = 0.42 * litre;
        jars_ = buy("light concentrate", 6, "7.20", jars);
        cellar_.vouch(jars_); // bought: nobody knows how it was canned, until somebody says
        cellar_.start<Starter>();
    }

    void add(std::string name, contract::Category category) {
        contract::GoodAdd::Params params;
        params.name = std::move(name);
        params.category = category;
        cellar_.call<contract::GoodAdd>(params);
    }
    LotCode buy(std::string good, std::int64_t count, std::string_view paid,
                const contract::Facts& facts) {
        contract::StockBuy::Params params;
        params.good = std::move(good);
        params.amount = AmountGiven{pieces(count)};
        params.paid = parse_money(paid);
        params.packed = test::day("2026-03-14");
        params.facts = facts;
        return cellar_.call<contract::StockBuy>(params).lot.code;
    }
    std::int64_t left(const LotCode& lot) {
        return cellar_.call<contract::LotShow>({lot}).on_hand.steps;
    }
    std::vector<contract::Entry> journal_of(const contract::Link& about) {
        contract::EntryList::Params params;
        params.about = about;
        return cellar_.call<contract::EntryList>(params).entries;
    }
    std::int64_t plan_brew() {
        contract::BrewPlan::Params brew;
        brew.day = test::day("2026-03-20");
        brew.name = "bitter";
        brew.volume = 20.0 * litre;
        brew.gravity = Gravity::sg(1.048);
        return cellar_.call<contract::BrewPlan>(brew).number;
    }
    /// A starter of two steps, the first made.
    StockChange make_two_steps() {
        cellar_.call<contract::FlaskSet>({"middle", 3.0 * litre});
        auto asked = request();
        asked.flask = "middle";
        asked.pitch = 350.0 * billion_cells;
        asked.max_fold = 2.0;
        return cellar_.call<StarterMake>(asked, "two steps");
    }
    StockChange next_step(std::string_view key) {
        return cellar_.call<StarterStep>({{1}, {}, false, {}}, key);
    }
    static StarterRequest request() {
        StarterRequest request;
        request.volume = 20.0 * litre;
        request.gravity = Gravity::sg(1.048);
        request.stirred = true;
        return request;
    }

    test::CellarUnderTest cellar_;
    LotCode yeast_;
    LotCode jars_;
};

TEST_F(StarterOnLedger, ShowsTheYeastOnTheShelf) {
    const auto shown = cellar_.call<YeastList>({});
    ASSERT_EQ(shown.yeast.size(), 1U);
    EXPECT_EQ(shown.yeast[0].lot, yeast_);
    EXPECT_EQ(shown.yeast[0].amount, pieces(2));
    EXPECT_NEAR(shown.yeast[0].cells->likely.in(billion_cells), 200.0, 1e-3);
    EXPECT_EQ(shown.day, test::day("2026-03-14"));
}

TEST_F(StarterOnLedger, PlanningTakesNothing) {
    const auto plan = cellar_.call<StarterPlan>(request());
    EXPECT_EQ(plan.steps.size(), 1U);
    EXPECT_EQ(left(yeast_), 2);
    EXPECT_EQ(left(jars_), 6);
}

TEST_F(StarterOnLedger, MakingTakesYeastAndJarsAndKeepsARecord) {
    const auto made = cellar_.call<StarterMake>(request(), "make-1");
    EXPECT_EQ(made.starter.number, 1);
    EXPECT_EQ(made.starter.steps_made, 1);
    ASSERT_EQ(made.entries.size(), 2U);
    ASSERT_EQ(made.lines.size(), 2U);
    EXPECT_EQ(made.lines[0].lot, yeast_);
    EXPECT_EQ(made.lines[0].value, parse_money("-4.50"));
    EXPECT_EQ(made.lines[1].lot, jars_);
    EXPECT_EQ(made.lines[1].value, parse_money("-1.20"));
    EXPECT_EQ(left(yeast_), 1);
    EXPECT_EQ(left(jars_), 5);

    const auto shown = cellar_.call<StarterShow>({1});
    EXPECT_EQ(shown.plan.yeast.at(0).lot, yeast_);
    EXPECT_EQ(shown.state, StarterState::growing);
    ASSERT_EQ(shown.log.size(), 1U);
    EXPECT_EQ(shown.log[0].entries, 2);
    EXPECT_EQ(shown.log[0].at, parse_instant("2026-03-14T08:00:00Z"));
    EXPECT_EQ(cellar_.call<StarterList>({}).starters.size(), 1U);
}

TEST_F(StarterOnLedger, WhatItTookIsAboutTheStarterAndTheBrewDay) {
    StarterRequest asked = request();
    asked.brew = plan_brew();
    const auto made = cellar_.call<StarterMake>(asked, "m");
    const auto about = journal_of({"starter.made", made.starter.number});
    ASSERT_EQ(about.size(), 2U);
    for (const auto& entry : about) {
        EXPECT_EQ(contract::linked(entry.about, "brew"), asked.brew);
        EXPECT_EQ(entry.brew, asked.brew);
        EXPECT_FALSE(entry.note);
    }
    EXPECT_EQ(journal_of({"brew", *asked.brew}).size(), 2U);
    EXPECT_EQ(cellar_.call<StarterList>({}).starters.at(0).brew, asked.brew);
}

// Issue 8: a release with a reason is shown at every later use.
TEST_F(StarterOnLedger, WhatWasReleasedIsShownByThePlanAndByMaking) {
    const auto plan = cellar_.call<StarterPlan>(request());
    ASSERT_EQ(plan.despite.size(), 1U);
    EXPECT_EQ(plan.despite[0].lot, jars_);
    EXPECT_EQ(plan.despite[0].hold.kind, contract::HoldKind::process_unknown);
    const auto made = cellar_.call<StarterMake>(request(), "m");
    ASSERT_EQ(made.despite.size(), 1U);
    EXPECT_EQ(made.despite[0].hold.end_reason, "25 min at 12 psi");
    EXPECT_EQ(made.starter.plan.despite.size(), 1U);
}

TEST_F(StarterOnLedger, JarsOnHoldAreNeverTaken) {
    using contract::HoldKind;
    for (const auto kind : {HoldKind::quarantine, HoldKind::evidence_missing, HoldKind::run_suspect,
                            HoldKind::deviation_known}) {
        cellar_.call<contract::LotHold>({jars_, "why", kind, {}, {}});
        EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(request(), "m"); }),
                  "not_enough_concentrate");
        auto named = request();
        named.concentrate = to_text(jars_);
        named.boiled = true;
        EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(named, "n"); }),
                  "not_enough_concentrate");
    }
    EXPECT_EQ(left(jars_), 6);
}

TEST_F(StarterOnLedger, AChilledJarIsUsedNamedAndBoiled) {
    contract::LotChange::Params change;
    change.lot = jars_;
    change.kept = contract::Keeping::refrigerator;
    change.best_by = test::day("2026-03-16");
    change.reason = "seal test";
    cellar_.call<contract::LotChange>(change);
    contract::RecordAdd::Params run;
    run.collection = "run";
    const auto number = cellar_.call<contract::RecordAdd>(run, {}, "canning").number;
    cellar_.call<contract::LotHold>(
        {jars_, "lid flexed", contract::HoldKind::seal_failed, {}, {{"canning.run", number}}}, {},
        "canning");
    auto asked = request();
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(asked, "m"); }),
              "not_enough_concentrate");
    asked.concentrate = to_text(jars_);
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(asked, "n"); }), "boil_first");
    asked.boiled = true;
    EXPECT_EQ(cellar_.call<StarterMake>(asked, "o").starter.number, 1);
    EXPECT_EQ(left(jars_), 5);
}

TEST_F(StarterOnLedger, TheSameRequestAgainIsDoneOnceAndAnsweredAlike) {
    const auto first = cellar_.call<StarterMake>(request(), "make-1");
    const auto again = cellar_.call<StarterMake>(request(), "make-1");
    EXPECT_EQ(write_json(to_json(first)), write_json(to_json(again)));
    EXPECT_EQ(left(jars_), 5);
    EXPECT_EQ(cellar_.call<StarterMake>(request(), "make-2").starter.number, 2);
    EXPECT_EQ(left(jars_), 4);
}

TEST_F(StarterOnLedger, WithoutJarsEnoughNothingIsTaken) {
    auto asked = request();
    asked.wort = 10.0 * litre; // 1037 g of extract; six jars hold about 590 g
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(asked, "m"); }),
              "not_enough_concentrate");
    EXPECT_EQ(left(yeast_), 2);
    EXPECT_EQ(left(jars_), 6);
}

TEST_F(StarterOnLedger, TheNextStepIsTakenFromTheShelf) {
    ASSERT_EQ(make_two_steps().starter.plan.steps.size(), 2U);
    const auto before = left(jars_);
    const auto stepped = next_step("f");
    EXPECT_EQ(stepped.starter.steps_made, 2);
    EXPECT_EQ(left(jars_), before - stepped.starter.plan.steps[1].jars.at(0).jars);
    EXPECT_EQ(next_step("f").entries, stepped.entries);
    EXPECT_EQ(journal_of({"starter.made", 1}).size(), 3U);
    EXPECT_EQ(test::reason_of([&] { return next_step("g"); }), "no_step_left");
}

TEST_F(StarterOnLedger, ARepeatedRequestIsAnsweredAsTheStarterStoodThen) {
    const auto made = make_two_steps();
    next_step("f");
    cellar_.call<StarterFinish>({{1}, "pitched at 18 C"}, "p");
    EXPECT_EQ(write_json(to_json(make_two_steps())), write_json(to_json(made)));
}

TEST_F(StarterOnLedger, AFinishedStarterLeavesTheListAndTakesNoStep) {
    make_two_steps();
    EXPECT_EQ(cellar_.call<StarterFinish>({{1}, {}}, "p").state, StarterState::finished);
    EXPECT_TRUE(cellar_.call<StarterList>({}).starters.empty());
    StarterList::Params all;
    all.all = true;
    EXPECT_EQ(cellar_.call<StarterList>(all).starters.at(0).state, StarterState::finished);
    EXPECT_EQ(test::reason_of([&] { return next_step("f"); }), "not_growing");
    EXPECT_EQ(test::reason_of([&] {
                  return cellar_.call<StarterDrop>({{1}, "spoiled"}, "d");
              }),
              "not_growing");
    // Noted by mistake: taken back, it grows again, and nothing moves on the shelf.
    const auto undone = cellar_.call<StarterUndo>({{1}, "the other one"}, "u");
    EXPECT_EQ(undone.starter.state, StarterState::growing);
    EXPECT_TRUE(undone.entries.empty());
    EXPECT_EQ(cellar_.call<StarterDrop>({{1}, "spoiled"}, "e").state, StarterState::dropped);
}

// An entry that belongs to a record is not undone behind its back, so the record has a way back.
TEST_F(StarterOnLedger, AStepMadeByMistakeIsTakenBack) {
    const auto made = make_two_steps();
    EXPECT_EQ(test::reason_of([&] {
                  return cellar_.call<contract::EntryUndo>(
                      {made.entries.at(0), contract::EntryKind::used, "slip"});
              }),
              "belongs_to_record");
    const auto jars_before = left(jars_);
    const auto stepped = next_step("f");
    const auto undone = cellar_.call<StarterUndo>({{1}, "not made yet"}, "u");
    EXPECT_EQ(undone.starter.steps_made, 1);
    EXPECT_EQ(undone.starter.state, StarterState::growing);
    EXPECT_EQ(undone.entries.size(), stepped.entries.size());
    EXPECT_EQ(left(jars_), jars_before);
    EXPECT_EQ(next_step("g").starter.steps_made, 2);
    cellar_.call<StarterUndo>({{1}, "nor now"}, "v");
    const auto all = cellar_.call<StarterUndo>({{1}, "nor made"}, "w");
    EXPECT_EQ(all.starter.state, StarterState::dropped);
    EXPECT_EQ(left(jars_), 6);
    EXPECT_EQ(left(yeast_), 2);
    EXPECT_EQ(test::reason_of([&] {
                  return cellar_.call<StarterUndo>({{1}, "again"}, "x");
              }),
              "nothing_to_undo");
    EXPECT_TRUE(cellar_.call<StarterList>({}).starters.empty());
    EXPECT_TRUE(cellar_.call<contract::LedgerCheck>({}).sound);
}

TEST_F(StarterOnLedger, ADayThatHasNotComeIsPlannedAndNotMade) {
    auto asked = request();
    asked.day = test::day("2026-03-15");
    EXPECT_EQ(cellar_.call<StarterPlan>(asked).day, *asked.day);
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(asked, "m"); }), "day_ahead");
    asked.day = test::day("2026-03-14");
    const auto made = cellar_.call<StarterMake>(asked, "n");
    EXPECT_EQ(cellar_.call<contract::EntryShow>({made.entries.at(0)}).day, *asked.day);
}

TEST_F(StarterOnLedger, YeastReservedAndThenPutOnHoldIsNotTaken) {
    StarterRequest asked = request();
    asked.brew = plan_brew();
    cellar_.call<contract::BrewReserve>({*asked.brew, "ale yeast", AmountGiven{pieces(2)}});
    cellar_.call<contract::LotHold>(
        {yeast_, "swollen pack", contract::HoldKind::quarantine, {}, {}});
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(asked, "m"); }), "no_yeast");
    EXPECT_EQ(left(yeast_), 2);
}

TEST_F(StarterOnLedger, ABrewDayMayUseWhatItHasReserved) {
    const auto number = plan_brew();
    cellar_.call<contract::BrewReserve>({number, "ale yeast", AmountGiven{pieces(2)}});
    cellar_.call<contract::BrewReserve>({number, "light concentrate", AmountGiven{pieces(6)}});
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(request(), "m"); }),
              "no_yeast");
    StarterRequest asked;
    asked.brew = number;
    asked.wort = 1.0 * litre;
    asked.stirred = true;
    const auto made = cellar_.call<StarterMake>(asked, "n");
    EXPECT_EQ(made.starter.plan.brew, number);
    EXPECT_EQ(left(yeast_), 0); // both packs were reserved for it
}

TEST_F(StarterOnLedger, JarsPastTheirBestByAreOpenedOnlyByTheirCode) {
    contract::LotChange::Params change;
    change.lot = jars_;
    change.best_by = test::day("2026-03-20");
    change.reason = "label";
    cellar_.call<contract::LotChange>(change);
    cellar_.set_time("2026-03-21T08:00:00Z");
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(request(), "m"); }),
              "not_enough_concentrate");
    auto named = request();
    named.concentrate = to_text(jars_);
    EXPECT_EQ(cellar_.call<StarterMake>(named, "n").starter.steps_made, 1);
    EXPECT_EQ(left(jars_), 5);
}

TEST_F(StarterOnLedger, AStarterThatIsNotThereIsToldWithAHint) {
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterShow>({9}); }), "no_such_starter");
    StarterRequest asked = request();
    asked.brew = 99;
    EXPECT_FALSE(test::reason_of([&] { return cellar_.call<StarterPlan>(asked); }).empty());
}

TEST_F(StarterOnLedger, TheLedgerStaysSound) {
    cellar_.call<StarterMake>(request(), "m");
    EXPECT_TRUE(cellar_.call<contract::LedgerCheck>({}).sound);
}

} // namespace
} // namespace barmkeep::starter
