#include "plugins/starter/making.hpp"

#include "sdk/brewing/units.hpp"
#include "sdk/plugin/batch.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using contract::Link;
using contract::StockUse;
using plugin::Batch;

/// What comes off the shelf, before it is known which record it is about.
using Uses = std::vector<StockUse::Params>;

StockUse::Params use(std::string what, const AmountGiven& amount) {
    StockUse::Params params;
    params.what = std::move(what);
    params.amount = amount;
    return params;
}

void refuse_missing_jars(const Step& step) {
    if (!step.extract_missing)
        return;
    throw Error(
        ErrorKind::not_enough, "not_enough_concentrate",
        fmt::format("The available jars lack {} of extract for {} of starter.",
                    print(*step.extract_missing, brewing::System::metric),
                    print(step.wort, brewing::System::metric)),
        "Use less wort (--wort), name other jars (--concentrate), or can more: barm canning plan",
        "/wort");
}

/// The jars and the nutrient of a step.
void add_step(Uses& uses, const Step& step, bool is_boiled,
              const std::optional<std::string>& nutrient) {
    refuse_missing_jars(step);
    for (const auto& jars : step.jars) {
        uses.push_back(use(to_text(jars.lot), AmountGiven{pieces(jars.jars)}));
        uses.back().boiled = is_boiled;
    }
    if (!nutrient)
        return;
    if (!step.nutrient)
        throw Error(ErrorKind::conflict, "no_dose", "No dose of nutrient is set.",
                    "Leave --nutrient out. Or set nutrient_per_litre in the section of the plugin "
                    "starter, by the nutrient's label, and restart the daemon.",
                    "/nutrient");
    uses.push_back(use(*nutrient, AmountGiven{amount_of(*step.nutrient)}));
}

/// Adds the uses, about a record: that of this number, or the one that step 0 makes.
void add_uses(Batch& writes, const Uses& uses, std::optional<std::int64_t> number,
              std::optional<std::int64_t> brew, Date day) {
    for (StockUse::Params params : uses) {
        params.brew = brew;
        params.day = day;
        params.about = {Link{std::string(link_target), number.value_or(0)}};
        if (brew)
            params.about.push_back({"brew", *brew});
        const auto step = writes.add<StockUse>(params);
        if (!number)
            writes.refer(step, "/about/0/number", 0, "/number");
    }
}

LogLine step_line(const RequestTime& now, const Step& step, const Uses& uses) {
    LogLine line;
    line.at = now.at;
    line.day = now.today;
    line.step = step;
    line.entries = std::ssize(uses);
    return line;
}

contract::RecordAppend::Params append(const StoredStarter& before, const LogLine& line,
                                      StarterState state) {
    contract::RecordAppend::Params params;
    params.collection = collection;
    params.number = before.starter.number;
    params.lines = {to_json(line).as_object()};
    params.state = to_string(state);
    params.expected = before.version;
    return params;
}

void require_growing(const StarterRecord& starter) {
    if (starter.state == StarterState::growing)
        return;
    throw Error(ErrorKind::conflict, "not_growing",
                fmt::format("Starter {} is {}.", starter.number, to_string(starter.state)),
                fmt::format("If that is a mistake, undo it: barm starter undo {} --reason 'a "
                            "mistake'",
                            starter.number),
                "/starter");
}

void refuse_day_ahead(Date day, Date today) {
    if (day > today)
        throw Error(ErrorKind::params, "day_ahead",
                    fmt::format("{} is in the future.", to_text(day)),
                    "Plan the starter now: barm starter plan. Make it on its day.", "/day");
}

} // namespace

contract::LedgerBatch::Params writes_of_making(const Plan& plan, const StarterRequest& request,
                                               const RequestTime& now) {
    refuse_day_ahead(plan.day, now.today);
    if (plan.steps.empty())
        throw Error(ErrorKind::conflict, "no_starter_needed",
                    "The yeast has enough cells, so it needs no starter.",
                    "If you want a starter anyway, give its volume: --wort '1 L'", "/wort");
    Uses uses;
    for (const auto& yeast : plan.yeast)
        uses.push_back(use(to_text(yeast.lot), AmountGiven{yeast.amount}));
    add_step(uses, plan.steps.front(), request.boiled, request.nutrient);

    contract::RecordAdd::Params record;
    record.collection = collection;
    record.document = to_json(plan).as_object();
    record.state = to_string(StarterState::growing);
    record.lines = {to_json(step_line({now.at, plan.day}, plan.steps.front(), uses)).as_object()};
    if (plan.brew)
        record.about = {{"brew", *plan.brew}};
    Batch writes;
    writes.add<contract::RecordAdd>(record);
    add_uses(writes, uses, std::nullopt, plan.brew, plan.day);
    return std::move(writes).steps();
}

contract::LedgerBatch::Params writes_of_step(const StoredStarter& before,
                                             const StarterStep::Params& params,
                                             const CellarView& view, Instant at,
                                             const Settings& settings) {
    const StarterRecord& starter = before.starter;
    require_growing(starter);
    const auto next = static_cast<std::size_t>(starter.steps_made);
    if (next >= starter.plan.steps.size())
        throw Error(ErrorKind::conflict, "no_step_left",
                    fmt::format("Starter {} has no step left. Steps made: {}.", starter.number,
                                starter.plan.steps.size()),
                    "If you need more cells, plan another starter: barm starter plan", "/starter");
    Step step = starter.plan.steps[next];
    auto stock =
        jars_on_shelf(view.shelves, params.concentrate, view.taking(view.today, params.boiled));
    fill_step(step, stock, view, settings);
    Uses uses;
    add_step(uses, step, params.boiled, params.nutrient);
    LogLine line = step_line({at, view.today}, step, uses);
    line.warnings = jar_warnings(step, view, view.today);
    Batch writes;
    writes.add<contract::RecordAppend>(append(before, line, StarterState::growing));
    add_uses(writes, uses, starter.number, starter.plan.brew, view.today);
    return std::move(writes).steps();
}

contract::RecordAppend::Params writes_of_ending(const StoredStarter& before, StarterState state,
                                                const RequestTime& now,
                                                std::optional<std::string> note) {
    require_growing(before.starter);
    LogLine line;
    line.kind = state == StarterState::finished ? LogKind::finished : LogKind::dropped;
    line.at = now.at;
    line.day = now.today;
    line.note = std::move(note);
    return append(before, line, state);
}

contract::LedgerBatch::Params writes_of_undoing(const StoredStarter& before,
                                                std::span<const contract::Entry> entries,
                                                const RequestTime& now, const std::string& reason) {
    const LogLine* last = last_in_force(before.starter);
    if (last == nullptr)
        throw Error(ErrorKind::conflict, "nothing_to_undo",
                    fmt::format("Starter {} has nothing left to undo.", before.starter.number),
                    fmt::format("See its log: barm starter show {}", before.starter.number),
                    "/starter");
    LogLine line;
    line.kind = LogKind::undone;
    line.at = now.at;
    line.day = now.today;
    line.note = reason;
    const bool is_first = last->kind == LogKind::step && before.starter.steps_made == 1;
    Batch writes;
    writes.add<contract::RecordAppend>(
        append(before, line, is_first ? StarterState::dropped : StarterState::growing));
    std::int64_t left = last->entries;
    for (const auto& entry : entries) {
        if (entry.kind != contract::EntryKind::used || entry.undone_by || left == 0)
            continue;
        writes.add<contract::EntryUndo>({entry.number, entry.kind, reason});
        --left;
    }
    return std::move(writes).steps();
}

contract::RecordChanged changed_by(const contract::LedgerBatch::Result& written) {
    return Batch::result<contract::RecordAppend>(written, 0);
}

StockChange stock_taken(StarterRecord starter, const contract::LedgerBatch::Result& written) {
    StockChange taken;
    taken.starter = std::move(starter);
    for (std::size_t i = 1; i < written.results.size(); ++i) {
        const auto posted = Batch::result<StockUse>(written, i);
        taken.entries.push_back(posted.entry);
        taken.lines.insert(taken.lines.end(), posted.lines.begin(), posted.lines.end());
        taken.despite.insert(taken.despite.end(), posted.despite.begin(), posted.despite.end());
    }
    return taken;
}

StockChange stock_returned(StarterRecord starter, const contract::LedgerBatch::Result& written) {
    StockChange taken;
    taken.starter = std::move(starter);
    for (std::size_t i = 1; i < written.results.size(); ++i) {
        const auto undone = Batch::result<contract::EntryUndo>(written, i);
        taken.entries.push_back(undone.entry);
        taken.lines.insert(taken.lines.end(), undone.done.lines.begin(), undone.done.lines.end());
    }
    return taken;
}

} // namespace barmkeep::starter
