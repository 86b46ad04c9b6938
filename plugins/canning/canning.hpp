// The canning plugin: its methods, wired to the pure core beside it.
#pragma once

#include "plugins/canning/jar_content.hpp"
#include "plugins/canning/messages.hpp"
#include "plugins/canning/run_log.hpp"
#include "plugins/canning/run_store.hpp"
#include "plugins/canning/seal.hpp"
#include "sdk/plugin/plugin.hpp"
#include "sdk/plugin/together.hpp"

#include <mutex>

namespace barmkeep::canning {

using plugin::Together;

/// Thread safety: as the SDK demands; the only state is what the settings and the start gave, and
/// the lock by which writes to runs follow each other.
class Canning final : public plugin::Plugin {
public:
    static constexpr plugin::Identity identity{canning_owner, "0.1.0"};

    struct Settings {
        std::int64_t best_by_days = 365;
        std::int64_t refrigerator_days = 3;
        std::int64_t inspection_days = 90;
        Seconds reading_gap_max{600};
        brewing::Gravity thin = brewing::Gravity::sg(1.060);
        brewing::Gravity thick = brewing::Gravity::sg(1.120);
        static FieldList fields(auto) {
            return {
                field<&Settings::best_by_days>("Days from canning to best by; at most a year.")
                    .defaulted()
                    .between(1, 365),
                field<&Settings::refrigerator_days>(
                    "Days an unsealed jar is good for in the refrigerator; at most a week.")
                    .defaulted()
                    .between(1, 7),
                field<&Settings::inspection_days>("Days between two looks at stored jars.")
                    .defaulted()
                    .between(1, 365),
                field<&Settings::reading_gap_max>(
                    "Longest stretch at pressure without a reading that counts as watched.")
                    .defaulted()
                    .between(60, 1800),
                field<&Settings::thin>("Below this gravity a concentrate is warned of as thin.")
                    .defaulted()
                    .between(1.0, 1.17),
                field<&Settings::thick>("Above this gravity a concentrate is warned of as thick.")
                    .defaulted()
                    .between(1.0, 1.17)};
        }
    };

    static void declare(plugin::Declaration<Canning>& plugin);
    Canning(const plugin::Host& host, const Settings& settings);

private:
    using Call = plugin::PluginCall;
    using Done = contract::LedgerTogether::Result;

    // Planning and process.
    CanningCautions::Result tell_cautions(const Call&, const CanningCautions::Params& params);
    Plan make_plan(const Call& call, const Wanted& wanted);
    ProcessShown set_process(const Call& call, const Process& process);
    ProcessList::Result list_processes(const Call& call, const Nothing&);
    ProcessPractice::Result tell_practice(const Call& call, const Nothing&);

    // The run.
    RunShown start_run(const Call& call, const RunStart::Params& params);
    RunShown turn_run(const Call& call, const RunTurn::Params& params);
    RunShown read_gauge(const Call& call, const RunReading::Params& params);
    RunShow::Result show_run(const Call& call, const RunShow::Params& params);
    RunList::Result list_runs(const Call& call, const RunList::Params& params);
    RunShown abandon_run(const Call& call, const RunAbandon::Params& params);

    // Jars.
    RunSeal::Result seal_run(const Call& call, const RunSeal::Params& params);
    RunMeasure::Result measure_jars(const Call& call, const RunMeasure::Params& params);
    RunDecided hold_run(const Call& call, const RunDecision& decision);
    RunDecided release_run(const Call& call, const RunDecision& decision);
    StoreInspect::Result inspect_store(const Call& call, const StoreInspect::Params& params);
    StoreTemperature::Result note_temperature(const Call& call,
                                              const StoreTemperature::Params& params);
    StoreShow::Result show_store(const Call& call, const Nothing&);
    OpeningShow::Result show_opening(const Call& call, const OpeningShow::Params& params);
    OpeningRecord::Result record_opening(const Call& call, const OpeningRecord::Params& params);

    // Tracing.
    Traced trace_lot(const Call& call, const TraceLot::Params& params);
    Traced trace_brew(const Call& call, const TraceBrew::Params& params);

    void entry_posted(const contract::Event& event);
    void jars_may_be_gone(const contract::Event& event);

    [[nodiscard]] Logging logging(const Call& call, const std::optional<Instant>& at = {}) const;
    [[nodiscard]] Date today(const Call& call) const;
    /// The run in the answer's first step, as it is shown.
    [[nodiscard]] RunShown shown_first(const Done& done) const;
    /// Adds the event of a turn, if the run's phase or what it waits for has changed.
    void add_turn_event(Together& together, const RunState& before, const RunDocument& run) const;
    /// A run as it begins, not numbered yet.
    [[nodiscard]] RunDocument begun(const Call& call, const RunStart::Params& params,
                                    std::span<const KeptRun> open) const;
    RunDecided decide(const Call& call, const RunDecision& decision, bool hold);
    void keep_conversion(std::int64_t run, std::int64_t entry) const;

    plugin::Host host_;
    Settings settings_;
    Rules rules_;
    ShelfRules shelf_rules_;
    Instant session_began_;
    std::string session_;
    // Two writers of one run would each base their change on the other's state, and the later one
    // be refused by the record's version.  They wait here instead; what is called under the lock
    // are the core's own methods, which lead to no plugin.
    std::mutex writing_;
};

} // namespace barmkeep::canning
