// Which jars can reach the shelf, and which never: on the real ledger.
#include "tests/canning/cellar.hpp"

namespace barmkeep::canning {
namespace {

using contract::HoldKind;
using test::Cellar;
using test::error_of;
using test::hours;
using test::minutes;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class Holds : public Cellar {
protected:
    static std::vector<HoldKind> kinds(const contract::Lot& lot) {
        std::vector<HoldKind> all;
        for (const auto& hold : lot.holds)
            all.push_back(hold.kind);
        return all;
    }
    std::vector<HoldKind> kinds_of(const LotCode& code) { return kinds(lot(code)); }
    std::int64_t stock_of_jars() { return shelf("pint of wort").available.steps; }
    RunSealTest::Result seal_deviating(std::int64_t run, DeviationTo place) {
        RunSealTest::Params params;
        params.run = run;
        params.held = 7;
        params.deviation_to = place;
        return call<RunSealTest>(params);
    }
};

// Found in trials (1): jars that failed were released by hand and taken unwarned.
TEST_F(Holds, JarsThatFailedNeverBecomeStock) {
    (void)start();
    process_by_the_book(1);
    const auto failed = seal(1, 5, 2).lots.at(1).code;
    EXPECT_EQ(stock_of_jars(), 5);
    EXPECT_EQ(shelf("pint of wort").best_by, parse_date("2027-03-02"))
        << "days in the refrigerator are not the shelf's";
    EXPECT_THROW((void)call<contract::LotRelease>({failed, "they look fine", {}}), Error);
    contract::LotHold::Params other;
    other.lot = failed;
    other.note = "another text";
    (void)call<contract::LotHold>(other);
    EXPECT_THAT(kinds_of(failed), Contains(HoldKind::seal_failed));
    EXPECT_EQ(stock_of_jars(), 5);
    EXPECT_EQ(error_of([&] {
                  (void)call<RunRelease>({{1, "they look fine"}, HoldKind::seal_failed});
              }).reason(),
              "never_released");
}

TEST_F(Holds, JarsThatFailedAreUsedOnlyBoiledAndInTheirDays) {
    (void)start();
    process_by_the_book(1);
    const auto failed = seal(1, 5, 2).lots.at(1).code;
    EXPECT_EQ(error_of([&] { (void)open_jars(failed); }).reason(), "on_hold");
    OpeningRecord::Params params;
    params.lot = failed;
    params.looked = params.listened = params.smelled = params.boiled = true;
    EXPECT_TRUE(call<OpeningRecord>(params).used);
    EXPECT_THAT(call<OpeningShow>({failed}).stops, IsEmpty());
    EXPECT_THAT(call<OpeningShow>({failed}).notes, Contains(HasSubstr("boil it first")));
    wait(hours(24 * 4));
    EXPECT_EQ(error_of([&] { (void)call<OpeningRecord>(params); }).reason(), "on_hold");
    EXPECT_THAT(call<OpeningShow>({failed}).stops, Contains(HasSubstr("Throw it out")));
}

// Found in trials (2): a run vented short was released with "they look fine".
TEST_F(Holds, JarsOfAKnownDeviationNeverBecomeStock) {
    (void)start();
    process_vented_short(1);
    const auto sealed = seal_deviating(1, DeviationTo::refrigerator);
    const auto jars = sealed.lots.at(0).code;
    EXPECT_THAT(kinds_of(jars), ElementsAre(HoldKind::deviation_known));
    EXPECT_EQ(stock_of_jars(), 0);
    EXPECT_THROW((void)call<contract::LotRelease>({jars, "they look fine", {}}), Error);
    EXPECT_EQ(error_of([&] {
                  (void)call<RunRelease>({{1, "they look fine"}, HoldKind::deviation_known});
              }).reason(),
              "never_released");
    EXPECT_EQ(error_of([&] {
                  (void)call<RunRelease>({{1, "they look fine"}, HoldKind::evidence_missing});
              }).reason(),
              "not_on_hold");
    EXPECT_THAT(reminders(), SizeIs(1)) << "to use them or throw them out";
}

TEST_F(Holds, ByDefaultTheyAreThrownOut) {
    (void)start();
    process_vented_short(1);
    const auto before = shelf("lids").on_hand.steps;
    const auto sealed = seal_deviating(1, DeviationTo::discard);
    EXPECT_THAT(sealed.lots, IsEmpty());
    EXPECT_THAT(sealed.what_now, HasSubstr("Throw out all jars"));
    EXPECT_EQ(shelf("lids").on_hand.steps, before - 7);
    EXPECT_THAT(reminders(), IsEmpty());
    expect_sound();
}

TEST_F(Holds, ALogWithAGapIsReleasedWithAReasonThatIsShownAtEachUse) {
    (void)start();
    process_with_a_gap(1);
    const auto sealed = seal(1, 6, 1, FailedTo::discard);
    const auto jars = sealed.lots.at(0).code;
    EXPECT_THAT(sealed.because, SizeIs(1));
    EXPECT_EQ(error_of([&] { (void)open_jars(jars); }).reason(), "on_hold");
    const auto released = call<RunRelease>(
        {{1, "I stood beside it, the tablet was off"}, HoldKind::evidence_missing});
    EXPECT_THAT(released.lots, SizeIs(1));
    EXPECT_THAT(call<OpeningShow>({jars}).notes, Contains(HasSubstr("I stood beside it")));
    const auto opened = open_jars(jars);
    ASSERT_THAT(opened.despite, SizeIs(1));
    EXPECT_EQ(opened.despite[0].hold.end_reason, "I stood beside it, the tablet was off");
    EXPECT_THAT(call<RunHold>({1, "a lid came loose in one jar"}).lots, SizeIs(1));
    EXPECT_THAT(kinds_of(jars), ElementsAre(HoldKind::quarantine));
}

// Found in trials (8): a spoiled jar left the others of its run free.
TEST_F(Holds, ASpoiledJarHoldsTheRestOfItsRunAndASecondForEver) {
    const auto jars = shelved_run().lots.at(0).code;
    const auto opened = open_spoiled(jars);
    EXPECT_THAT(opened.held, ElementsAre(jars));
    EXPECT_THAT(kinds_of(jars), ElementsAre(HoldKind::run_suspect));
    EXPECT_EQ(stock_of_jars(), 0);
    (void)call<RunRelease>({{1, "that lid was nicked"}, HoldKind::run_suspect});
    EXPECT_EQ(stock_of_jars(), 6);
    StorageInspect::Params params;
    params.lot = jars;
    params.discard = 1;
    params.signs = {Sign::mould};
    EXPECT_THAT(call<StorageInspect>(params).held, ElementsAre(jars));
    EXPECT_THAT(kinds_of(jars), Contains(HoldKind::deviation_known));
    EXPECT_THROW(
        (void)call<contract::LotRelease>({jars, "again a nick", HoldKind::deviation_known}), Error);
    EXPECT_EQ(stock_of_jars(), 0);
    expect_sound();
}

TEST_F(Holds, TwoSpoiledJarsAtOnceAreFinalToo) {
    const auto jars = shelved_run().lots.at(0).code;
    StorageInspect::Params params;
    params.lot = jars;
    params.discard = 2;
    params.signs = {Sign::swollen_lid};
    (void)call<StorageInspect>(params);
    EXPECT_THAT(kinds_of(jars), Contains(HoldKind::deviation_known));
}

// As many jars are thrown out of the one lot as stand in the other.
TEST_F(Holds, ASpoiledJarHoldsTheOtherLotsOfItsRunHoweverSmallTheyAre) {
    (void)start();
    process_by_the_book(1);
    RunSealTest::Params params;
    params.run = 1;
    params.held = 6;
    params.lost_liquid = 1;
    const auto lots = call<RunSealTest>(params).lots;
    (void)open_spoiled(lots.at(0).code);
    EXPECT_THAT(kinds_of(lots.at(0).code), Contains(HoldKind::run_suspect));
    EXPECT_THAT(kinds_of(lots.at(1).code), Contains(HoldKind::run_suspect));
}

TEST_F(Holds, ASpoiledJarOfOneRunLeavesAnotherRunAlone) {
    const auto first = shelved_run().lots.at(0).code;
    const auto second = shelved_run().lots.at(0).code;
    (void)open_spoiled(first);
    EXPECT_THAT(kinds_of(second), IsEmpty());
}

// Found in trials (8): a gift without process or date was ordinary stock for ever.
TEST_F(Holds, AGiftJarStopsTheOpening) {
    contract::StockBuy::Params gift;
    gift.good = "pint of wort";
    gift.amount = AmountGiven{pieces(1)};
    const auto jar = call<contract::StockBuy>(gift).lot.code;
    EXPECT_THAT(call<OpeningShow>({jar}).stops,
                Contains(HasSubstr("nobody knows how it was canned")));
    EXPECT_EQ(error_of([&] { (void)open_jars(jar); }).reason(), "on_hold");
    EXPECT_THAT(call<StorageShow>({}).warnings,
                Contains(HasSubstr("nobody knows how it was canned")));
}

/// Seven pints of a process that is shorter than any published, and confirmed.
class ShortProcess : public Holds {
protected:
    ShortProcess() {
        ProcessSet::Params process;
        static_cast<Process&>(process) = {"quick",
                                          "pint",
                                          contract::Gauge::dial,
                                          Appliance::pressure_canner,
                                          12 * brewing::psi_gauge,
                                          minutes(10),
                                          "my own idea",
                                          {}};
        process.confirm = "quick";
        (void)call<ProcessSet>(process);
        auto params = start_params(7);
        params.process = "quick";
        started_ = call<RunStart>(params);
        process_by_the_book(1);
        jars_ = seal(1, 7).lots.at(0);
    }

    RunDetails started_;
    contract::Lot jars_;
};

constexpr const char* is_short = "shorter than any low-acid process published for this jar";

TEST_F(ShortProcess, IsSaidInItsRunAndOfItsJars) {
    EXPECT_THAT(started_.process_note.value_or(""), HasSubstr("longer proves nothing"));
    EXPECT_THAT(call<RunStatus>({1}).process_note.value_or(""), HasSubstr(is_short));
    EXPECT_THAT(jars_.facts.process_note.value_or(""), HasSubstr(is_short));
}

TEST_F(ShortProcess, IsSaidWhereverItsJarsAreShown) {
    EXPECT_THAT(call<OpeningShow>({jars_.code}).notes, Contains(HasSubstr(is_short)));
    EXPECT_THAT(call<StorageShow>({}).warnings,
                Contains(HasSubstr(to_text(jars_.code) + ": Its process is shorter")));
    const auto trace = call<TraceLot>({jars_.code});
    EXPECT_THAT(trace.runs.at(0).process_note.value_or(""), HasSubstr(is_short));
    EXPECT_THAT(trace.notes, ElementsAre(HasSubstr(to_text(jars_.code) + ": Its process is")));
    StorageInspect::Params look;
    look.lot = jars_.code;
    EXPECT_THAT(call<StorageInspect>(look).notes, ElementsAre(HasSubstr(is_short)));
    EXPECT_THAT(open_jars(jars_.code).notes, ElementsAre(HasSubstr(is_short)));
    EXPECT_THAT(call<RunHold>({1, "a loose lid"}).run.process_note.value_or(""),
                HasSubstr(is_short));
}

TEST_F(ShortProcess, IsNotForgottenWhenItsJarsAreMeasured) {
    RunMeasure::Params measure;
    measure.lot = jars_.code;
    measure.gravity = {brewing::Gravity::sg(1.081)};
    const auto measured = call<RunMeasure>(measure);
    EXPECT_THAT(measured.notes, ElementsAre(HasSubstr(is_short)));
    EXPECT_THAT(measured.lot.facts.process_note.value_or(""), HasSubstr(is_short));
}

TEST_F(Holds, NothingIsSaidOfAProcessThatIsNotShort) {
    const auto jars = shelved_run().lots.at(0).code;
    EXPECT_THAT(call<OpeningShow>({jars}).notes, IsEmpty());
    EXPECT_THAT(call<TraceLot>({jars}).notes, IsEmpty());
    EXPECT_THAT(open_jars(jars).notes, IsEmpty());
}

// One lot with a best by and one without, as jars of different makers have it.
TEST_F(Holds, ALotWithoutABestByIsListedBesideOneWithIt) {
    const auto ours = shelved_run().lots.at(0).code;
    contract::StockBuy::Params gift;
    gift.good = "pint of wort";
    gift.amount = AmountGiven{pieces(1)};
    const auto other = call<contract::StockBuy>(gift).lot.code;
    wait(hours(24 * 400));
    const auto warnings = call<StorageShow>({}).warnings;
    EXPECT_THAT(warnings, Contains(HasSubstr(to_text(ours) + ": Past its best by")));
    for (const auto& warning : warnings)
        EXPECT_THAT(warning, testing::Not(HasSubstr(to_text(other) + ": Past")));
}

} // namespace
} // namespace barmkeep::canning
