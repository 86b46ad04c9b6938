// A cellar with a real ledger in a scratch folder and the canning plugin on it.
#pragma once

#include "daemon/ledger/ledger.hpp"
#include "plugins/canning/canning.hpp"
#include "plugins/canning/messages.hpp"
#include "sdk/contract/brew.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "tests/canning/runs.hpp"

#include <filesystem>
#include <gmock/gmock.h>

namespace barmkeep::canning::test {

/// Two bags of extract (one expires first), lids, jars, a canner for seven pints with a dial that
/// reads half a psi high, at 500 m; a process named "mine". Its figures are the test's own.
class Cellar : public testing::Test {
protected:
    Cellar();
    ~Cellar() override;

    /// Stops plugin and ledger and opens both again on the same file, `down` later.
    void restart(Seconds down);

    template <Method M>
    typename M::Result call(const typename M::Params& params, std::string_view key = {}) {
        return host_->call<M>(params, key);
    }
    void wait(Seconds time) { host_->clock().advance(time); }
    void wait_until(std::string_view instant) {
        wait(std::chrono::floor<Seconds>(parse_instant(instant) - now()));
    }
    [[nodiscard]] Instant now() { return host_->clock().now(); }

    /// Starts a run of so many pints that make a litre at 1.035 each.
    RunDetails start(std::int64_t jars = 7);
    RunSummary log(std::int64_t run, Step step);
    RunSummary shows(std::int64_t run, double psi);
    /// Readings every five minutes.
    RunSummary keep_pressure(std::int64_t run, double psi, std::int64_t for_minutes);
    /// Vents for so many minutes and brings the canner to 13 psi.
    void up_to_pressure(std::int64_t run, std::int64_t vented = 10);
    /// From heat off to the canner opened.
    void cool_and_open(std::int64_t run);
    /// Filling to the canner opened, by the book, and fourteen hours more.
    void process_by_the_book(std::int64_t run);
    /// The same, but vented for three minutes only, and opened just now.
    void process_vented_short(std::int64_t run);
    /// The same as by the book, but nobody read the gauge for twenty minutes.
    void process_with_a_gap(std::int64_t run);
    RunSealTest::Result seal(std::int64_t run, std::int64_t held, std::int64_t failed = 0,
                             FailedTo failed_to = FailedTo::refrigerator);
    /// A run by the book from start to shelf: seven jars that held.
    RunSealTest::Result shelved_run();
    /// Opens jars after all checks.
    OpeningRecord::Result open_jars(const LotCode& lot, std::int64_t jars = 1);
    /// Opens one jar that spurts.
    OpeningRecord::Result open_spoiled(const LotCode& lot);
    [[nodiscard]] contract::Lot lot(const LotCode& code) { return call<contract::LotShow>({code}); }
    [[nodiscard]] std::vector<contract::Reminder> reminders();

    /// Every run, ended ones too, newest first.
    [[nodiscard]] std::vector<RunRow> all_runs();
    [[nodiscard]] contract::Shelf shelf(std::string_view good);
    /// The events of a topic so far.
    [[nodiscard]] std::vector<contract::Event> events(std::string_view topic);
    /// The ledger agrees with its own journal.
    void expect_sound();

    static CanningPlan::Params seven_pints();
    static RunStart::Params start_params(std::int64_t jars);

    std::filesystem::path folder_;
    std::unique_ptr<plugin::FakeHost> host_;
    executor::Executor executor_{{.threads = 2}};
    std::unique_ptr<ledger::Ledger> ledger_;
    LotCode first_bag_;  ///< 400 g, expires first
    LotCode second_bag_; ///< 1500 g

private:
    void open(Instant at);
    void close();
    void stock();

    std::mutex mutex_; ///< guards the events, which come on the ledger's thread
    std::vector<contract::Event> events_;
};

} // namespace barmkeep::canning::test
