// From a jar back to the bags, and on to the beers.
#include "plugins/canning/sheets/parts.hpp"

namespace barmkeep::canning::sheets {

using sheet::Align;
using sheet::column;
using sheet::offer;

namespace {

Text amount_of(const contract::Lot& lot) {
    if (contract::is_sealed_food(lot.category))
        return text(jars_in(lot.on_hand));
    return text(lot.on_hand);
}

sheet::Table lots_of(const std::vector<TracedLot>& lots) {
    sheet::Table table;
    table.title = text("Lots, from the first bag to the last jar");
    table.columns = {column("lot"),
                     column("good"),
                     column("run", Align::right),
                     column("from", Align::left, 3),
                     column("left", Align::right, 2),
                     column("not to use, because")};
    for (const TracedLot& one : lots)
        table.rows.push_back(
            sheet::row(one.lot.code, one.lot.good,
                       one.run ? text(sheet::number(static_cast<double>(*one.run))) : Text{},
                       one.lot.supplier.value_or(""), amount_of(one.lot),
                       one.lot.on_hand.steps > 0 ? why_not(one.lot) : Text{}));
    return table;
}

sheet::Table uses_of(const std::vector<TracedUse>& uses) {
    sheet::Table table;
    table.title = text("Where it went");
    table.columns = {column("day"),
                     column("lot"),
                     column("amount", Align::right),
                     column("what"),
                     column("brew", Align::right),
                     column("note", Align::left, 2)};
    for (const TracedUse& use : uses)
        table.rows.push_back(
            sheet::row(use.day, use.lot, use.amount,
                       use.kind == contract::EntryKind::discarded ? "thrown out" : "used",
                       use.brew ? text(sheet::number(static_cast<double>(*use.brew))) : Text{},
                       use.note.value_or("")));
    return table;
}

void add_runs(SheetBuilder& made, const std::vector<TracedRun>& runs) {
    for (const TracedRun& run : runs) {
        const sheet::Number number = sheet::number(static_cast<double>(run.run));
        made.line("Run ", number, ", ", run.started, ": ", words_of(run.phase), "; ",
                  run.process.pressure, " for ", run.process.time, ", from ", run.process.source,
                  ".");
    }
    for (const TracedRun& run : runs) {
        const sheet::Number number = sheet::number(static_cast<double>(run.run));
        for (const Warning& warning : run.warnings)
            made.warning(warning.key, "Run ", number, ": ", warning.text,
                         warning.holds ? " Its jars are held for it." : "");
        if (run.process_note)
            made.warning("short_process", "Run ", number, ": its process is ", *run.process_note,
                         ".");
    }
}

void add_past_of(SheetBuilder& made, const TraceResult& result) {
    for (const TracedLot& one : result.lots)
        add_past(made, one.lot);
}

Text brews_of(const std::vector<contract::Brew>& brews) {
    std::vector<Text> names;
    for (const contract::Brew& brew : brews)
        names.push_back(text(brew.name, " on ", brew.day));
    return sheet::listed(names);
}

/// The runs, lots and uses; the same whichever end the trace began at.
void add_trace(SheetBuilder& made, const TraceResult& result) {
    std::vector<Text> suppliers;
    for (const std::string& supplier : result.suppliers)
        suppliers.push_back(text(supplier));
    made.facts({{"suppliers", sheet::listed(suppliers)}, {"beers", brews_of(result.brews)}});
    add_runs(made, result.runs);
    add_past_of(made, result);
    made.table(lots_of(result.lots));
    made.table(uses_of(result.uses));
    made.cautions(result.cautions);
    for (const TracedRun& run : result.runs)
        made.action(offer("see card and log of the run", "run.show", {{"run", run.run}}));
    made.topic("lot.").topic("entry.").topic("canning.run");
}

Text runs_in_words(const std::vector<TracedRun>& runs) {
    if (runs.empty())
        return text("no canning run");
    return runs.size() == 1 ? text("run ", sheet::number(static_cast<double>(runs.front().run)))
                            : text(sheet::count(static_cast<std::int64_t>(runs.size()), "run"));
}

Text beers_in_words(std::size_t beers) {
    return text(sheet::count(static_cast<std::int64_t>(beers), "beer"));
}

} // namespace

Sheet traced_lot(const TraceLot::Params& params, const TraceResult& result) {
    std::vector<LotCode> before;
    std::vector<LotCode> after;
    for (const TracedLot& one : result.lots)
        if (one.steps != 0)
            (one.steps < 0 ? before : after).push_back(one.lot.code);
    SheetBuilder made("Trace of ", params.lot);
    Text lead = text("It went through ", runs_in_words(result.runs));
    if (!before.empty())
        lead = text("It was made of ", codes(before), " in ", runs_in_words(result.runs));
    else if (!after.empty())
        lead = text("It became ", codes(after), " in ", runs_in_words(result.runs));
    made.lead(lead, ", and is in ", beers_in_words(result.brews.size()), ".");
    add_trace(made, result);
    return made;
}

Sheet traced_brew(const TraceBrew::Params& params, const TraceResult& result) {
    SheetBuilder made("Trace of brew day ", sheet::number(static_cast<double>(params.brew)));
    std::vector<LotCode> jars;
    for (const TracedLot& one : result.lots)
        if (one.lot.category == contract::Category::concentrate)
            jars.push_back(one.lot.code);
    if (jars.empty())
        made.lead("No canned jar went into this beer.");
    else
        made.lead("Its jars, ", codes(jars), ", come from ", runs_in_words(result.runs), ".");
    add_trace(made, result);
    return made.topic("brew.");
}

} // namespace barmkeep::canning::sheets
