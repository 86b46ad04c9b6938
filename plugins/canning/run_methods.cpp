#include "plugins/canning/canning.hpp"
#include "plugins/canning/run_names.hpp"
#include "plugins/canning/zone.hpp"

namespace barmkeep::canning {
namespace {

/// What of a state is worth an event.
bool has_turned(const RunState& before, const RunState& after) {
    return before.phase != after.phase || before.restarts != after.restarts ||
           before.zero_at.has_value() != after.zero_at.has_value() ||
           before.warnings.size() != after.warnings.size();
}

} // namespace

RunShown Canning::shown_first(const Done& done) const {
    const auto record = Together::result<contract::RecordPut>(done, 0);
    return shown(document_of(record), record.changed, rules_);
}

void Canning::add_turn_event(Together& together, const RunState& before,
                             const RunDocument& run) const {
    const RunState after = state_of(run, rules_);
    if (!has_turned(before, after))
        return;
    json::object about{{"run", run.run},
                       {"phase", json::value(to_string(after.phase))},
                       {"restarts", after.restarts}};
    if (after.warnings.size() > before.warnings.size())
        about["warning"] = json::value(after.warnings.back().key);
    together.add<contract::EventPost>({"canning.turn", std::move(about)});
}

RunShown Canning::turn_run(const Call& call, const RunTurn::Params& params) {
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        KeptRun run = kept_run(call, params.run);
        const RunState before = state_of(run.document, rules_);
        log_turn(run.document, rules_, params.turn, params.note, logging(call, params.at));
        const bool ends_heat = params.turn == Turn::heat_off || params.turn == Turn::opened;
        std::optional<Date> day;
        if (ends_heat) // the day on which it happened, which may be before that of its logging
            day = local_day(run.document.log.back().at,
                            call.call<contract::CellarShow>({}).time_zone);
        if (params.turn == Turn::heat_off || (ends_heat && !run.document.canned))
            run.document.canned = day;
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        if (params.turn == Turn::opened)
            together.add<contract::ReminderPost>(
                {reminder_name(params.run, Reminds::seals),
                 "Test the seals of canning run " + std::to_string(params.run),
                 "Jars stand for 12 to 24 hours.  Within 24 hours of heat off a jar that failed "
                 "goes into the refrigerator or is processed again; later it is thrown out.",
                 plus_days(*day, 1)});
        add_turn_event(together, before, run.document);
        return std::move(together).steps();
    });
    return shown_first(done);
}

RunShown Canning::read_gauge(const Call& call, const RunReading::Params& params) {
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        KeptRun run = kept_run(call, params.run);
        const RunState before = state_of(run.document, rules_);
        const auto shows = pressure_read(run.document, params.shows, params.rocking);
        log_reading(run.document, rules_, shows, logging(call, params.at));
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        add_turn_event(together, before, run.document);
        return std::move(together).steps();
    });
    return shown_first(done);
}

RunShow::Result Canning::show_run(const Call& call, const RunShow::Params& params) {
    const KeptRun run = kept_run(call, params.run);
    RunShow::Result result;
    static_cast<RunShown&>(result) = shown(run.document, host_.now(), rules_);
    result.log = run.document.log;
    return result;
}

RunList::Result Canning::list_runs(const Call& call, const RunList::Params& params) {
    RunList::Result result;
    RunPage page = page_of_runs(call, rules_, params);
    const Instant now = host_.now();
    for (const KeptRun& run : page.runs) {
        const RunShown view = shown(run.document, now, rules_);
        result.runs.push_back(
            {view.run, view.phase, run.document.started, view.jar, view.jars, view.countdown});
    }
    result.next = std::move(page.next);
    result.cautions = cautions(Moment::running);
    return result;
}

RunShown Canning::abandon_run(const Call& call, const RunAbandon::Params& params) {
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        KeptRun run = kept_run(call, params.run);
        require_open(run.document, rules_);
        const RunState before = state_of(run.document, rules_);
        log_note(run.document, Told::abandoned, params.reason, logging(call));
        run.document.abandoned = true;
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        together.add<contract::ReminderClear>({reminder_name(params.run, Reminds::seals)});
        if (params.thrown_out) {
            // Jars that waited to be processed again are on hold until now.
            if (run.document.again)
                together.add<contract::LotRelease>({*run.document.again, params.reason});
            for (const auto& use : thrown_out(run.document))
                together.add<contract::StockUse>(use);
        }
        add_turn_event(together, before, run.document);
        return std::move(together).steps();
    });
    return shown_first(done);
}

} // namespace barmkeep::canning
