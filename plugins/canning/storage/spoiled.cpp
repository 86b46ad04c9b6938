#include "plugins/canning/storage/spoiled.hpp"

#include "sdk/method/text.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::HoldKind;

constexpr std::size_t note_length_max = 400;

bool has_hold(const contract::Lot& lot, HoldKind kind) {
    return std::ranges::find(lot.holds, kind, &contract::Hold::kind) != lot.holds.end();
}

/// Lots of the run with jars left once some of one are gone.
std::vector<contract::Lot> left_of(const Call& call, std::int64_t run, const LotCode& lot,
                                   std::int64_t gone) {
    auto jars = jars_of(call, run);
    std::erase_if(jars, [&](const contract::Lot& one) {
        return one.on_hand.steps <= (one.code == lot ? gone : 0);
    });
    return jars;
}

} // namespace

void add_spoiled(Batch& batch, const Context& context, const Call& call, const contract::Lot& lot,
                 std::int64_t gone, const std::string& reason) {
    const auto number = run_of(lot.about);
    if (!number)
        return;
    const RunRecord run = load_run(call, *number);
    const bool is_final = state_of(run, context.run_rules).spoiled + gone >= 2;
    LogLine line = note_line(run, LineKind::spoiled, reason, logging(context, call));
    line.jars = gone;
    line.lots.emplace();
    Batch holds;
    const auto hold = [&](const contract::Lot& one, HoldKind kind, const std::string& text) {
        if (has_hold(one, kind))
            return;
        contract::LotHold::Params params;
        params.lot = one.code;
        params.kind = kind;
        params.note = std::string(cut_at_character(text, note_length_max));
        params.about = about_run(*number);
        holds.add<contract::LotHold>(params);
    };
    for (const auto& one : left_of(call, *number, lot.code, gone)) {
        hold(one, HoldKind::run_suspect,
             "A jar of " + to_text(lot.code) + " was spoiled: " + reason);
        if (is_final)
            hold(one, HoldKind::deviation_known,
                 "A second jar of run " + std::to_string(*number) +
                     " was spoiled: never use jars of this run. " + reason);
        line.lots->push_back(one.code);
    }
    batch.add<contract::RecordAppend>(append(run, line));
    for (auto& step : std::move(holds).steps().steps)
        batch.add(std::move(step));
}

std::vector<LotCode> held_for(const Run& run) {
    if (run.log.empty() || run.log.back().kind != LineKind::spoiled)
        return {};
    return run.log.back().lots.value_or(std::vector<LotCode>{});
}

} // namespace barmkeep::canning
