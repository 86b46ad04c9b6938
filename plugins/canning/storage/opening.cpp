// Opening jars: the checklist before, and what came of it.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/storage/signs.hpp"
#include "plugins/canning/storage/spoiled.hpp"
#include "sdk/contract/cellar.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::LedgerBatch;

OpeningShow::Result show_opening(const Context&, const Call& call,
                                 const OpeningShow::Params& params) {
    OpeningShow::Result result;
    result.lot = call.call<contract::LotShow>({params.lot});
    require_jars(result.lot);
    const auto glance = call.call<contract::CellarGlance>({});
    result.stops = opening_stops(result.lot, glance.today);
    result.notes = opening_notes(result.lot, glance.today);
    result.checklist = opening_checklist(result.lot);
    result.boil_before_use = boil_before_use(glance.cellar.altitude);
    result.boil_for = boil_time(glance.cellar.altitude);
    result.cautions = cautions(Moment::opening);
    return result;
}

void add_use(Batch& batch, const OpeningRecord::Params& params) {
    contract::StockUse::Params use;
    use.what = to_text(params.lot);
    use.amount = pieces(params.jars);
    use.brew = params.brew;
    use.note = params.note;
    use.boiled = params.boiled;
    batch.add<contract::StockUse>(use);
}

void add_discard(Batch& batch, const Context& context, const Call& call,
                 const OpeningRecord::Params& params, const contract::Lot& lot) {
    contract::StockDiscard::Params discard;
    discard.lot = params.lot;
    discard.amount = AmountGiven{pieces(params.jars)};
    discard.reason = reason_of(params.signs, params.note);
    batch.add<contract::StockDiscard>(discard);
    add_spoiled(batch, context, call, lot, params.jars, discard.reason);
}

/// The reminders of a run end with its last jar.
void clear_if_last(Batch& batch, const Call& call, const contract::Lot& lot, std::int64_t gone) {
    const auto run = run_of(lot.about);
    if (!run)
        return;
    std::int64_t left = -gone;
    for (const auto& one : jars_of(call, *run))
        left += one.on_hand.steps;
    if (left <= 0)
        batch.add<contract::ReminderClear>(clear_reminders(*run));
}

OpeningRecord::Result record_opening(const Context& context, const Call& call,
                                     const OpeningRecord::Params& params) {
    check_signs(params.signs, params.note);
    const bool used = params.signs.empty();
    if (used && !(params.looked && params.listened && params.smelled))
        throw Error(
            ErrorKind::params, "not_checked",
            "You must look, listen and smell before you use a jar. Never taste.",
            "Give --looked, --listened and --smelled after you did each, or the --signs you found.",
            params.looked ? params.listened ? "/smelled" : "/listened" : "/looked");
    const auto done = call.once<LedgerBatch>([&] {
        const auto lot = call.call<contract::LotShow>({params.lot});
        require_jars(lot);
        Batch batch;
        used ? add_use(batch, params) : add_discard(batch, context, call, params, lot);
        clear_if_last(batch, call, lot, params.jars);
        batch.add<contract::EventPost>(
            {"canning.opened",
             {{"lot", to_text(params.lot)}, {"jars", params.jars}, {"used", used}}});
        return std::move(batch).steps();
    });

    auto posted = Batch::result<contract::StockUse>(done, 0);
    OpeningRecord::Result result;
    result.entry = posted.entry;
    result.used = used;
    result.despite = std::move(posted.despite);
    const auto lot_now = call.call<contract::LotShow>({params.lot});
    if (!used && run_of(lot_now.about))
        result.held = held_for(run_after(call, Batch::result<contract::RecordAppend>(done, 1)));
    result.what_now = what_now(used, params.signs);
    result.notes = process_notes(lot_now.facts);
    result.cautions = cautions(Moment::opening);
    return result;
}

} // namespace

void declare_opening(Declaration& plugin) {
    plugin.method<OpeningShow>(&show_opening);
    plugin.method<OpeningRecord>(&record_opening);
}

} // namespace barmkeep::canning
