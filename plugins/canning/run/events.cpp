#include "plugins/canning/run/events.hpp"

#include "plugins/canning/run/view.hpp"

namespace barmkeep::canning {
namespace {

/// Whether a change of the state is worth an event.
bool has_changed(const RunState& before, const RunState& after) {
    return before.phase != after.phase || before.restarts != after.restarts ||
           before.zero_at.has_value() != after.zero_at.has_value() ||
           before.warnings.size() != after.warnings.size();
}

} // namespace

contract::EventPost::Params started_event(std::int64_t run, const RunDocument& document) {
    return {"canning.run_started",
            {{"run", run},
             {"phase", json::value(to_string(Phase::filling))},
             {"canner", document.canner},
             {"jars", document.jars}}};
}

void add_change_event(Batch& batch, const Run& before, const LogLine& line, const RunRules& rules) {
    Run run = before;
    run.log.push_back(line);
    const RunState was = state_of(before, rules);
    const RunState is = state_of(run, rules);
    if (!has_changed(was, is))
        return;
    json::object about{{"run", run.number},
                       {"phase", json::value(to_string(is.phase))},
                       {"restarts", is.restarts}};
    if (is.warnings.size() > was.warnings.size())
        about["warning"] = json::value(is.warnings.back().key);
    if (const auto alarm = alarm_in(run, is, line.at, rules))
        about["alarm"] = json::value(alarm->text);
    if (const auto due = is.reading_due_by(run.begun, rules)) {
        about["reading_due_by"] = json::value(to_text(*due));
        about["time_over_at"] = json::value(to_text(is.since + run.begun.process.process.time));
    }
    batch.add<contract::EventPost>({"canning.run_changed", std::move(about)});
}

} // namespace barmkeep::canning
