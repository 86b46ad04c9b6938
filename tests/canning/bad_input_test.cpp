// Everything the plugin refuses: a clear error, and nothing lost.
#include "tests/canning/cellar.hpp"

namespace barmkeep::canning {
namespace {

using test::Cellar;
using test::error_of;
using test::minutes;
using testing::HasSubstr;
using testing::IsEmpty;

class BadInput : public Cellar {
protected:
    BadInput() { before_ = call<contract::LedgerCheck>({}).entries; }
    /// No entry was posted, and the ledger is sound.
    void expect_nothing_lost() {
        const auto check = call<contract::LedgerCheck>({});
        EXPECT_TRUE(check.sound);
        EXPECT_EQ(check.entries, before_);
    }
    static ProcessSet::Params process() {
        ProcessSet::Params params;
        static_cast<Process&>(params) = {"other",
                                         "pint",
                                         contract::Gauge::dial,
                                         Appliance::pressure_canner,
                                         12 * brewing::psi_gauge,
                                         minutes(25),
                                         "my own notebook",
                                         {}};
        return params;
    }
    std::int64_t before_ = 0;
};

TEST_F(BadInput, MoreJarsThanTheCannerHolds) {
    const Error error = error_of([&] { (void)start(8); });
    EXPECT_EQ(error.reason(), "more_than_canner");
    EXPECT_THAT(error.what(), HasSubstr("8 jars are more than the canner 'kettle' holds: 7"));
    EXPECT_THAT(all_runs(), IsEmpty());
    expect_nothing_lost();
}

TEST_F(BadInput, AGaugeUntestedForOverAYear) {
    (void)call<contract::CannerSet>(
        {{"kettle", contract::Gauge::dial, {{"pint", 7}}, parse_date("2025-03-01"), {}}, {}});
    const Error error = error_of([&] { (void)start(); });
    EXPECT_EQ(error.reason(), "gauge_untested");
    EXPECT_THAT(error.hint(), HasSubstr("barm canner set"));
    expect_nothing_lost();
}

TEST_F(BadInput, AProcessBelowTheBandIsNotRecorded) {
    const Error error = error_of([&] {
        auto weak = process();
        weak.pressure = 10 * brewing::psi_gauge;
        (void)call<ProcessSet>(weak);
    });
    EXPECT_EQ(error.reason(), "below_published_band");
    const auto listed = call<ProcessList>({}).processes;
    ASSERT_EQ(listed.size(), 1U);
    EXPECT_EQ(listed[0].process.name, "mine");
}

TEST_F(BadInput, ABoilingWaterBathIsNotRecorded) {
    const Error error = error_of([&] {
        auto bath = process();
        bath.pressure = {};
        (void)call<ProcessSet>(bath);
    });
    EXPECT_EQ(error.reason(), "boiling_water_bath");
    EXPECT_EQ(call<ProcessList>({}).processes.size(), 1U);
}

TEST_F(BadInput, AProcessWithoutItsFiguresIsNotFilledIn) {
    const auto outcome = host_->call("process.set", {{"name", "half"}, {"jar", "pint"}});
    const Error& error = std::get<Error>(outcome);
    std::string missing;
    for (const auto& fault : error.faults())
        missing += fault.pointer + " ";
    EXPECT_EQ(missing, "/gauge /appliance /pressure /time /source ");
}

TEST_F(BadInput, ReadingsFromTheFutureOrOutOfOrderLeaveTheLogAsItWas) {
    (void)start();
    wait(minutes(10));
    (void)log(1, Step::steam_flows);
    const auto psi = 5 * brewing::psi_gauge;
    EXPECT_EQ(error_of([&] {
                  (void)call<RunGauge>({1, psi, {}, now() + minutes(1)});
              }).reason(),
              "from_the_future");
    EXPECT_EQ(error_of([&] {
                  (void)call<RunGauge>({1, psi, {}, now() - minutes(5)});
              }).reason(),
              "out_of_order");
    EXPECT_EQ(call<RunShow>({1}).log.size(), 1U);
}

TEST_F(BadInput, SealCountsThatDoNotAddUp) {
    (void)start();
    process_by_the_book(1);
    EXPECT_EQ(error_of([&] { (void)seal(1, 5, 1); }).reason(), "counts_differ");
    EXPECT_EQ(call<RunShow>({1}).phase, Phase::seal_test);
    expect_nothing_lost();
    EXPECT_NO_THROW((void)seal(1, 6, 1));
}

TEST_F(BadInput, ARunEndedTwice) {
    const auto first = shelved_run();
    const auto entries = call<contract::LedgerCheck>({}).entries;
    EXPECT_EQ(error_of([&] { (void)seal(1, 7); }).reason(), "already_ended");
    EXPECT_EQ(error_of([&] {
                  (void)call<RunAbandon>({1, "changed my mind", true});
              }).reason(),
              "already_ended");
    EXPECT_EQ(call<contract::LedgerCheck>({}).entries, entries);
    EXPECT_EQ(shelf("pint of wort").on_hand, pieces(7));
}

TEST_F(BadInput, TooLittleExtractIsToldBeforeAnyoneWeighs) {
    (void)call<contract::StockUse>(
        {to_text(second_bag_), amount_of(1400 * brewing::gram), {}, {}, {}, false, {}});
    (void)call<contract::StockUse>({"lids", pieces(20), {}, {}, {}, false, {}});
    const Error error = error_of([&] { (void)start(); });
    EXPECT_EQ(error.kind(), ErrorKind::not_enough);
    ASSERT_EQ(error.faults().size(), 2U) << "extract and lids, both shown";
    EXPECT_THAT(error.faults()[0].message, HasSubstr("Short of light extract"));
    EXPECT_THAT(error.faults()[0].hint, HasSubstr("Buy 1 of 500 g"));
    EXPECT_THAT(error.faults()[1].message, HasSubstr("Short of lids by 3"));
}

TEST_F(BadInput, ExtractThatIsGoneAtTheSealTestIsToldAndTheRunWaits) {
    (void)start();
    process_by_the_book(1);
    (void)call<contract::StockUse>(
        {to_text(first_bag_), amount_of(400 * brewing::gram), {}, {}, {}, false, {}});
    EXPECT_EQ(error_of([&] { (void)seal(1, 7); }).kind(), ErrorKind::not_enough);
    EXPECT_EQ(call<RunShow>({1}).phase, Phase::seal_test);
    (void)call<contract::StockRecount>(
        {first_bag_, amount_of(400 * brewing::gram), "it was in the jars"});
    EXPECT_NO_THROW((void)seal(1, 7));
}

TEST_F(BadInput, ACannerInUse) {
    (void)start();
    EXPECT_EQ(error_of([&] { (void)start(); }).reason(), "canner_in_use");
}

TEST_F(BadInput, AnUnknownRunOrProcess) {
    EXPECT_EQ(error_of([&] { (void)call<RunShow>({9}); }).reason(), "unknown_run");
    auto params = start_params(7);
    params.process = "hers";
    const Error error = error_of([&] { (void)call<RunStart>(params); });
    EXPECT_EQ(error.reason(), "unknown_process");
    EXPECT_THAT(error.hint(), HasSubstr("Barmkeep has none to offer"));
}

TEST_F(BadInput, AnOpeningWithoutItsChecks) {
    const auto jars = shelved_run().lots[0].code;
    OpeningRecord::Params params;
    params.lot = jars;
    params.looked = params.smelled = true;
    const Error error = error_of([&] { (void)call<OpeningRecord>(params); });
    EXPECT_EQ(error.reason(), "not_checked");
    EXPECT_EQ(error.faults()[0].pointer, "/listened");
    EXPECT_EQ(call<contract::LotShow>({jars}).on_hand, pieces(7));
}

TEST_F(BadInput, OpeningABagIsNoOpeningOfAJar) {
    EXPECT_EQ(error_of([&] { (void)call<OpeningShow>({first_bag_}); }).reason(), "wrong_class");
}

// Found in trials: 1 minute was taken.
TEST_F(BadInput, AProcessOfOneMinute) {
    auto one = process();
    one.time = minutes(1);
    EXPECT_EQ(error_of([&] { (void)call<ProcessSet>(one); }).reason(), "not_confirmed");
    EXPECT_EQ(call<ProcessList>({}).processes.size(), 1U);
}

TEST_F(BadInput, AProcessThatIsTooShortForTheJarAsItIsStatedNow) {
    (void)call<contract::JarSet>(
        {{"pint", 415 * brewing::millilitre, 1 * brewing::inch, {}, contract::JarClass::quart},
         {}});
    EXPECT_EQ(error_of([&] { (void)start(); }).reason(), "not_confirmed");
}

TEST_F(BadInput, JarsProcessedTwiceAreRefused) {
    const auto outcome =
        host_->call("run.seal_test", {{"run", 1}, {"held", 7}, {"failed_to", "reprocess"}});
    EXPECT_EQ(std::get<Error>(outcome).kind(), ErrorKind::params);
    const auto again =
        host_->call("run.start", {{"jar", "pint"}, {"process", "mine"}, {"again", "J6Y"}});
    EXPECT_EQ(std::get<Error>(again).kind(), ErrorKind::params);
}

TEST_F(BadInput, SizesTooSmallToBeKept) {
    const auto outcome = host_->call("canning.plan", {{"jar", "pint"}, {"weigh", "1e-7 g"}});
    EXPECT_EQ(std::get<Error>(outcome).kind(), ErrorKind::params);
}

} // namespace
} // namespace barmkeep::canning
