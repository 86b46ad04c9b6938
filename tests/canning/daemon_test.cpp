// A full load over the real daemon and its socket: a pressure drop, the daemon killed and started
// again in the middle of the hold, and two jars that failed.
#include "plugins/canning/messages.hpp"
#include "sdk/client/client.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/service.hpp"
#include "tests/system/daemon_under_test.hpp"

#include <gmock/gmock.h>

namespace barmkeep::canning {
namespace {

using barmkeep::test::DaemonUnderTest;
using barmkeep::test::ScratchFolder;
using testing::HasSubstr;
using testing::SizeIs;

const std::vector<std::string> settings{std::string("plugins.folders=") + BARMKEEP_PLUGINS};

/// One start of the daemon, with a clock of the test's own.
class Day {
public:
    Day(const std::filesystem::path& folder, std::string_view start)
        : daemon_{folder, std::string(start), settings}, now_{parse_instant(start)} {
        daemon_.start();
        client::ClientOptions options;
        options.socket = daemon_.socket().string();
        client_ = std::make_unique<client::Client>(options);
    }

    template <Method M>
    typename M::Result call(const typename M::Params& params) {
        return client_->call<M>(params);
    }
    /// Runs a command of the client, which must succeed.
    std::string barm(std::vector<std::string> arguments) {
        const auto done = daemon_.barm(std::move(arguments));
        EXPECT_EQ(done.exit_code, 0) << done.err;
        return done.out;
    }
    void wait_minutes(std::int64_t count) {
        now_ += std::chrono::minutes{count};
        (void)call<contract::ClockSet>({now_});
    }
    RunSummary shows(double psi) { return call<RunGauge>({1, psi * brewing::psi_gauge, {}, {}}); }
    RunSummary keep_pressure(double psi, std::int64_t for_minutes) {
        RunSummary last;
        for (std::int64_t left = for_minutes; left > 0; left -= 5) {
            wait_minutes(5);
            last = shows(psi);
        }
        return last;
    }
    RunSummary log(Step step) { return call<RunLog>({1, step, {}, {}}); }
    [[nodiscard]] Instant now() const { return now_; }
    void kill() { daemon_.kill(); }
    int stop() { return daemon_.stop(); }

private:
    DaemonUnderTest daemon_;
    Instant now_;
    std::unique_ptr<client::Client> client_;
};

void stock_cellar(Day& day) {
    day.barm({"cellar", "set", "--altitude", "500 m", "--currency", "EUR"});
    day.barm(
        {"good", "add", "light extract", "extract", "--package", "500 g", "--potential", "1.044"});
    day.barm({"good", "add", "lids", "lids"});
    day.barm({"good", "add", "pint of wort", "concentrate"});
    day.barm({"stock", "buy", "light extract", "400 g", "4", "--supplier", "corner shop",
              "--best-by", "2026-06-01"});
    day.barm({"stock", "buy", "light extract", "1500 g", "15", "--supplier", "maltings",
              "--best-by", "2027-06-01"});
    day.barm({"stock", "buy", "lids", "24", "6"});
    day.barm({"jar", "set", "pint", "415 mL", "--headspace", "1 in", "--size", "pint"});
    day.barm({"canner", "set", "kettle", "dial", "--capacity", "jar=pint,count=7", "--gauge-tested",
              "2026-01-10", "--gauge-error", "0.5 psi"});
    day.barm({"process", "set", "mine", "pint", "dial", "--appliance", "pressure_canner",
              "--pressure", "12 psi", "--time", "20 min", "--source",
              "the test's own figures, no process"});
}

TEST(CanningOverTheDaemon, AFullLoadWithADropARestartAndTwoFailedSeals) {
    const ScratchFolder folder;
    Instant killed_at;
    {
        Day day{folder.path(), "2026-03-02T08:00:00Z"};
        stock_cellar(day);
        const std::string card = day.barm(
            {"run", "start", "pint", "7", "--makes", "1 L", "--at", "1.035", "--process", "mine"});
        EXPECT_THAT(card, HasSubstr("no tested process for canning wort exists"));
        day.wait_minutes(30);
        day.barm({"run", "log", "1", "steam_flows"});
        day.wait_minutes(10);
        day.barm({"run", "log", "1", "weight_on"});
        day.wait_minutes(4);
        EXPECT_EQ(day.shows(13).phase, Phase::at_pressure);
        (void)day.keep_pressure(13, 10);
        day.wait_minutes(1);
        const RunSummary dropped = day.shows(11.8);
        EXPECT_EQ(dropped.phase, Phase::pressurising);
        EXPECT_EQ(dropped.restarts, 1);
        day.wait_minutes(2);
        EXPECT_EQ(day.shows(13).remaining, Seconds{20 * 60});
        (void)day.keep_pressure(13, 5);
        killed_at = day.now();
        day.kill();
    }
    Day day{folder.path(), to_text(killed_at + std::chrono::minutes{3})};
    const auto back = day.call<RunShow>({1});
    EXPECT_EQ(back.phase, Phase::at_pressure);
    EXPECT_EQ(back.elapsed, Seconds{8 * 60}) << "it goes on where it was";
    (void)day.shows(13);
    const auto after = day.call<RunShow>({1});
    ASSERT_THAT(after.gaps, SizeIs(1));
    EXPECT_EQ(after.gaps[0].lasted, Seconds{3 * 60});
    (void)day.keep_pressure(13, 15);
    (void)day.log(Step::heat_off);
    day.wait_minutes(35);
    (void)day.shows(0);
    day.wait_minutes(10);
    (void)day.log(Step::opened);
    day.wait_minutes(13 * 60);
    RunSealTest::Params seals;
    seals.run = 1;
    seals.held = 5;
    seals.failed = 2;
    seals.failed_to = FailedTo::discard; // the log has a gap
    const auto sealed = day.call<RunSealTest>(seals);
    ASSERT_THAT(sealed.lots, SizeIs(1));
    EXPECT_EQ(sealed.lots[0].value, sealed.value);
    EXPECT_EQ(sealed.lost_value, share_of(sealed.value, 2, 7));
    EXPECT_EQ(sealed.lots[0].holds.at(0).kind, contract::HoldKind::evidence_missing);

    const TraceResult traced = day.call<TraceLot>({sealed.lots[0].code});
    EXPECT_THAT(traced.suppliers, testing::UnorderedElementsAre("corner shop", "maltings"));
    EXPECT_TRUE(day.call<contract::LedgerCheck>({}).sound);
    EXPECT_EQ(day.stop(), 0);
}

TEST(CanningOverTheDaemon, AGaugeReaderOnTheSocketAndAPersonSendToTheSameRun) {
    const ScratchFolder folder;
    Day day{folder.path(), "2026-03-02T08:00:00Z"};
    stock_cellar(day);
    day.barm(
        {"run", "start", "pint", "7", "--weigh", "95 g", "--at", "1.035", "--process", "mine"});
    day.barm({"run", "log", "1", "steam_flows"});
    day.wait_minutes(10);
    day.barm({"run", "log", "1", "weight_on"});
    for (int i = 0; i < 10; ++i) {
        (void)day.shows(9 + 0.1 * i);
        day.barm({"run", "gauge", "1", "9.5 psi"});
    }
    std::int64_t readings = 0;
    for (const auto& line : day.call<RunShow>({1}).log)
        readings += line.kind == LineKind::reading ? 1 : 0;
    EXPECT_EQ(readings, 20);
    EXPECT_EQ(day.stop(), 0);
}

} // namespace
} // namespace barmkeep::canning
