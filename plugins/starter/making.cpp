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
    throw Error(ErrorKind::not_enough, "not_enough_concentrate",
                fmt::format("The jars that may be opened lack {} of extract for {} of starter.",
                            print(*step.extract_missing, brewing::System::metric),
                            print(step.wort, brewing::System::metric)),
                "Ask for less wort (--wort), name other jars (--concentrate), or can more.",
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
        throw Error(ErrorKind::conflict, "no_dose",
                    "How much nutrient a litre of starter takes is not set.",
                    "Set nutrient_per_litre in the settings of the plugin starter, by the "
                    "nutrient's label; or leave --nutrient out.",
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

MadeLine step_line(const Moment& now, const Step& step, const Uses& uses) {
    MadeLine line;
    line.at = now.at;
    line.day = now.today;
    line.step = step;
    line.entries = std::ssize(uses);
    return line;
}

contract::RecordAppend::Params append(const Kept& before, const MadeLine& line, MadeState state) {
    contract::RecordAppend::Params params;
    params.collection = collection;
    params.number = before.made.number;
    params.lines = {to_json(line).as_object()};
    params.state = to_string(state);
    params.expected = before.version;
    return params;
}

void require_growing(const Made& made) {
    if (made.state == MadeState::growing)
        return;
    throw Error(ErrorKind::conflict, "not_growing",
                fmt::format("Starter {} is {}.", made.number, to_string(made.state)),
                fmt::format("If that was noted by mistake, take it back: barm starter undo {} "
                            "--reason ...",
                            made.number),
                "/number");
}

void refuse_day_ahead(Date day, Date today) {
    if (day > today)
        throw Error(ErrorKind::params, "day_ahead",
                    fmt::format("{} has not come yet.", to_text(day)),
                    "Plan it now (barm starter plan), and make it on its day.", "/day");
}

} // namespace

contract::LedgerBatch::Params writes_of_making(const Plan& plan, const Wish& wish,
                                               const Moment& now) {
    refuse_day_ahead(plan.day, now.today);
    if (plan.steps.empty())
        throw Error(ErrorKind::conflict, "no_starter_needed",
                    "The yeast has cells enough as it is, so there is no starter to make.",
                    "Say how much wort it shall have (--wort) if you want one all the same.",
                    "/wort");
    Uses uses;
    for (const auto& yeast : plan.yeast)
        uses.push_back(use(to_text(yeast.lot), AmountGiven{yeast.amount}));
    add_step(uses, plan.steps.front(), wish.boiled, wish.nutrient);

    contract::RecordAdd::Params record;
    record.collection = collection;
    record.document = to_json(plan).as_object();
    record.state = to_string(MadeState::growing);
    record.lines = {to_json(step_line({now.at, plan.day}, plan.steps.front(), uses)).as_object()};
    if (plan.brew)
        record.about = {{"brew", *plan.brew}};
    Batch writes;
    writes.add<contract::RecordAdd>(record);
    add_uses(writes, uses, std::nullopt, plan.brew, plan.day);
    return std::move(writes).steps();
}

contract::LedgerBatch::Params writes_of_feeding(const Kept& before,
                                                const StarterFeed::Params& params,
                                                const Scene& scene, Instant at,
                                                const Settings& settings) {
    const Made& made = before.made;
    require_growing(made);
    const auto next = static_cast<std::size_t>(made.steps_made);
    if (next >= made.plan.steps.size())
        throw Error(ErrorKind::conflict, "no_step_left",
                    fmt::format("All {} steps of starter {} are made.", made.plan.steps.size(),
                                made.number),
                    "Plan another starter if it needs more cells.", "/number");
    Step step = made.plan.steps[next];
    auto stock =
        jars_on_shelf(scene.shelves, params.concentrate, scene.taking(scene.today, params.boiled));
    fill_step(step, stock, scene, settings);
    Uses uses;
    add_step(uses, step, params.boiled, params.nutrient);
    MadeLine line = step_line({at, scene.today}, step, uses);
    line.warnings = jar_warnings(step, scene, scene.today);
    Batch writes;
    writes.add<contract::RecordAppend>(append(before, line, MadeState::growing));
    add_uses(writes, uses, made.number, made.plan.brew, scene.today);
    return std::move(writes).steps();
}

contract::RecordAppend::Params writes_of_ending(const Kept& before, MadeState state,
                                                const Moment& now,
                                                std::optional<std::string> note) {
    require_growing(before.made);
    MadeLine line;
    line.deed = state == MadeState::finished ? Deed::finished : Deed::dropped;
    line.at = now.at;
    line.day = now.today;
    line.note = std::move(note);
    return append(before, line, state);
}

contract::LedgerBatch::Params writes_of_undoing(const Kept& before,
                                                std::span<const contract::Entry> entries,
                                                const Moment& now, const std::string& reason) {
    const MadeLine* last = last_in_force(before.made);
    if (last == nullptr)
        throw Error(ErrorKind::conflict, "nothing_to_undo",
                    fmt::format("Nothing is left to undo of starter {}.", before.made.number),
                    "See what was noted: barm starter show", "/number");
    MadeLine line;
    line.deed = Deed::undone;
    line.at = now.at;
    line.day = now.today;
    line.note = reason;
    const bool is_first = last->deed == Deed::step && before.made.steps_made == 1;
    Batch writes;
    writes.add<contract::RecordAppend>(
        append(before, line, is_first ? MadeState::dropped : MadeState::growing));
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

Taken taken_of(Made starter, const contract::LedgerBatch::Result& written) {
    Taken taken;
    taken.starter = std::move(starter);
    for (std::size_t i = 1; i < written.results.size(); ++i) {
        const auto posted = Batch::result<StockUse>(written, i);
        taken.entries.push_back(posted.entry);
        taken.lines.insert(taken.lines.end(), posted.lines.begin(), posted.lines.end());
        taken.despite.insert(taken.despite.end(), posted.despite.begin(), posted.despite.end());
    }
    return taken;
}

Taken given_back(Made starter, const contract::LedgerBatch::Result& written) {
    Taken taken;
    taken.starter = std::move(starter);
    for (std::size_t i = 1; i < written.results.size(); ++i) {
        const auto undone = Batch::result<contract::EntryUndo>(written, i);
        taken.entries.push_back(undone.entry);
        taken.lines.insert(taken.lines.end(), undone.done.lines.begin(), undone.done.lines.end());
    }
    return taken;
}

} // namespace barmkeep::starter
