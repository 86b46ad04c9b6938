#include "plugins/canning/run/events.hpp"

#include "plugins/canning/run/view.hpp"
#include "sdk/contract/event.hpp"

namespace barmkeep::canning {
namespace {

/// What of a state is worth an event.
bool has_turned(const RunState& before, const RunState& after) {
    return before.phase != after.phase || before.restarts != after.restarts ||
           before.zero_at.has_value() != after.zero_at.has_value() ||
           before.warnings.size() != after.warnings.size();
}

} // namespace

void add_turn_event(Batch& batch, const Run& before, const LogLine& line, const RunRules& rules) {
    Run run = before;
    run.log.push_back(line);
    const RunState was = state_of(before, rules);
    const RunState is = state_of(run, rules);
    if (!has_turned(was, is))
        return;
    json::object about{{"run", run.number},
                       {"phase", json::value(to_string(is.phase))},
                       {"restarts", is.restarts}};
    if (is.warnings.size() > was.warnings.size())
        about["warning"] = json::value(is.warnings.back().key);
    if (const auto wrong = wrong_in(run, is, line.at, rules))
        about["wrong"] = json::value(wrong->text);
    if (const auto due = is.reading_due_by(run.begun, rules)) {
        about["reading_due_by"] = json::value(to_text(*due));
        about["time_over_at"] = json::value(to_text(is.since + run.begun.process.process.time));
    }
    batch.add<contract::EventPost>({"canning.turn", std::move(about)});
}

} // namespace barmkeep::canning
