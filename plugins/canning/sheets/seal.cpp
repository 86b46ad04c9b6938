// The seal test: which jars go where.
#include "plugins/canning/sheets/run_parts.hpp"

namespace barmkeep::canning::sheets {

using contract::HoldKind;
using sheet::offer;
using sheet::StepState;

namespace {

bool is_for_shelf(const contract::Lot& lot) {
    return lot.holds.empty() && lot.kept == contract::Keeping::shelf;
}

std::int64_t jars_for_shelf(const std::vector<contract::Lot>& lots) {
    std::int64_t jars = 0;
    for (const contract::Lot& lot : lots)
        if (is_for_shelf(lot))
            jars += lot.on_hand.steps;
    return jars;
}

bool has_deviated(const RunSealTest::Result& result) {
    return std::any_of(result.because.begin(), result.because.end(), [](const Warning& warning) {
        return warning.holds == HoldKind::deviation_known;
    });
}

Text lead(const RunSealTest::Params& params, const RunSealTest::Result& result) {
    if (has_deviated(result))
        return result.lots.empty()
                   ? text("A step went wrong: throw out all jars of the run.")
                   : text("A step went wrong: no jar goes on the shelf. Keep them in the ",
                          to_string(params.deviation_to), " or throw them out.");
    if (!result.because.empty())
        return text("The log has a gap: all jars are on hold until you know what happened.");
    const std::int64_t jars = jars_for_shelf(result.lots);
    if (jars == 0)
        return text("No jar of this run goes on the shelf.");
    return text(sheet::count(jars, "jar"), jars == 1 ? " goes" : " go",
                " on the shelf; no tested process stands behind ", jars == 1 ? "it." : "them.");
}

/// What to do with the jars of a lot.  Those that lost liquid stand second on the shelf.
sheet::Step step_of(const contract::Lot& lot, bool lost_liquid) {
    const Text jars = text(lot.code, ", ", jars_in(lot.on_hand), ": ");
    if (lot.kept != contract::Keeping::shelf) {
        Text chilled = text(jars, holds_of(lot), ". Put into the ", to_string(lot.kept));
        if (lot.best_by)
            chilled.append(text(", use until ", *lot.best_by));
        chilled.append(", and boil first; never for the shelf.");
        return {chilled, {}, StepState::now, {}};
    }
    if (!lot.holds.empty())
        return {text(jars, "store apart and do not use: ", holds_of(lot), "."),
                {},
                StepState::later,
                {}};
    Text shelf = text(jars, "wash, take the bands off, write the code on the lids, and store");
    if (lot.best_by)
        shelf.append(text("; best by ", *lot.best_by));
    if (lost_liquid)
        shelf.append(text(". They lost liquid: use them first, and do not open or refill them "
                          "before. ",
                          sheet::sources("S91 S110")));
    else
        shelf.append(".");
    return {shelf, {}, StepState::later, {}};
}

/// The jars that became no lot.
Text thrown_out(const RunSealTest::Params& params, const RunSealTest::Result& result) {
    std::vector<Text> parts;
    const auto add = [&](std::int64_t jars, std::string_view why) {
        if (jars > 0)
            parts.push_back(text(sheet::count(jars, "jar"), why));
    };
    if (has_deviated(result)) {
        if (result.lots.empty())
            return text("Throw out all jars of the run; never can the wort again. ",
                        sheet::sources("S86 S74"));
        add(params.broken, " that broke");
    } else {
        add(params.lost_half, " that lost half or more");
        if (params.failed_to == FailedTo::discard)
            add(params.failed, " that failed");
        add(params.broken, " that broke");
    }
    return parts.empty() ? Text{} : text("Throw out ", sheet::listed(parts), ".");
}

} // namespace

Sheet seal_test(const RunSealTest::Params& params, const RunSealTest::Result& result) {
    SheetBuilder made("Run ", sheet::number(static_cast<double>(result.run.run)), ": seals tested");
    made.lead(lead(params, result));
    bool after_sealed = params.held == 0;
    for (const contract::Lot& lot : result.lots) {
        const bool on_shelf = lot.kept == contract::Keeping::shelf;
        made.step(step_of(lot, on_shelf && after_sealed && params.lost_liquid > 0));
        after_sealed = true;
    }
    if (Text out = thrown_out(params, result); !out.empty())
        made.step({std::move(out), {}, StepState::now, {}});
    for (const Warning& why : result.because)
        made.warning(why.key, why.text);
    add_process_note(made, result.run.process_note);
    made.facts(
        {{"cost of the load", result.entry ? text(result.value) : Text{}},
         {"of it in jars lost", result.lost_value == Money{} ? Text{} : text(result.lost_value)}});
    std::vector<Text> swept;
    for (const contract::Swept& rest : result.swept)
        swept.push_back(text(rest.lot, ": the last ", rest.amount, " went with the weighing."));
    made.lines(std::move(swept));
    made.cautions(result.cautions, has_deviated(result)
                                       ? std::vector<std::string_view>{"deviation"}
                                       : std::vector<std::string_view>{"untested_jars"});
    if (!result.because.empty() && !has_deviated(result) && !result.lots.empty()) {
        auto release = offer("release them", "run.release", {{"run", result.run.run}}, "r");
        release.ask = {"reason"};
        made.action(std::move(release));
    }
    made.usual_action(offer("see the storage", "storage.show", {}, "s"));
    auto undo = offer("undo the seal test", "run.undo_seal_test", {{"run", result.run.run}}, "u");
    undo.ask = {"reason"};
    return made.action(std::move(undo)).topic("lot.").topic("canning.run");
}

} // namespace barmkeep::canning::sheets
