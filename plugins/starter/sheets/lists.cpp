#include "plugins/starter/sheets/parts.hpp"

#include "sdk/sheet/source_words.hpp"

#include <algorithm>

namespace barmkeep::starter::sheets {

using sheet::Align;
using sheet::column;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

std::string_view word_of(StarterState state) {
    switch (state) {
    case StarterState::growing:
        return "growing";
    case StarterState::finished:
        return "pitched";
    default:
        return "thrown away";
    }
}

std::string_view word_of(Material material) {
    switch (material) {
    case Material::liquid_pack:
        return "liquid";
    case Material::dry_pack:
        return "dry";
    default:
        return "slurry";
    }
}

/// The days of an age, and whether it counts from buying only.
Text age_of(const LivingYeast& yeast) {
    if (!yeast.age_days)
        return {};
    Text age = text(sheet::count(*yeast.age_days, "day"));
    if (yeast.aged_from == AgedFrom::bought)
        age.append(" or more");
    return age;
}

Text best_by_of(const LivingYeast& yeast) {
    if (!yeast.best_by)
        return {};
    return yeast.past_best_by ? text(*yeast.best_by, ", past") : text(*yeast.best_by);
}

sheet::Table yeast_table(const std::vector<LivingYeast>& all) {
    sheet::Table table{{column("lot"), column("yeast"), column("amount", Align::right),
                        column("living cells"), column("age", Align::right, 2),
                        column("best by", Align::left, 2), column("alive", Align::right, 3),
                        column("kept as", Align::left, 4), column("strain", Align::left, 5)},
                       {},
                       {}};
    for (const LivingYeast& yeast : all)
        table.rows.push_back(
            sheet::row(yeast.lot, yeast.good, amount_of_yeast(yeast.amount),
                       yeast.cells ? text(*yeast.cells, yeast.extrapolated ? ", a guess" : "")
                                   : Text("not known"),
                       age_of(yeast), best_by_of(yeast),
                       yeast.alive ? text(sheet::share(yeast.alive->likely)) : Text{},
                       word_of(yeast.material), yeast.strain.value_or("")));
    return table;
}

SheetBuilder cells_by_source(const std::vector<LivingYeast>& all) {
    SheetBuilder made;
    for (const LivingYeast& yeast : all)
        if (yeast.cells)
            made.line(yeast.lot, ": ", cells_with_sources(*yeast.cells));
    return made;
}

} // namespace

sheet::Sheet listed(const StarterList::Params& params, const StarterList::Result& result) {
    SheetBuilder made("Starters", "");
    const auto growing =
        std::ranges::count(result.starters, StarterState::growing, &StarterRow::state);
    made.lead(growing == 0 ? Text("No starter is growing.")
                           : text(sheet::count(growing, "starter"),
                                  growing == 1 ? " is growing." : " are growing."));
    sheet::Table table{{column("starter", Align::right), column("state"), column("first step"),
                        column("brew day", Align::right), column("steps", Align::right, 2)},
                       {},
                       {}};
    for (const StarterRow& row : result.starters) {
        table.rows.push_back(sheet::row(
            std::to_string(row.number), params.all ? word_of(row.state) : std::string_view{},
            row.day, row.brew ? std::to_string(*row.brew) : std::string{},
            sheet::number(static_cast<double>(row.steps))));
        if (result.starters.size() > 1)
            table.rows.back().action =
                sheet::offer("see it", "starter.show", {{"starter", row.number}});
    }
    made.table(std::move(table));
    if (result.next)
        made.note("There are more: ",
                  sheet::command("starter.list", {{"all", params.all}, {"cursor", *result.next}}));
    if (growing > 0) {
        const auto first =
            std::ranges::find(result.starters, StarterState::growing, &StarterRow::state);
        made.usual_action(
            sheet::offer("see the oldest", "starter.show", {{"starter", first->number}}, "s"));
    }
    sheet::Action plan = sheet::offer("plan a starter", "starter.plan", {}, "p");
    plan.ask = {"brew"};
    plan.usual = growing == 0;
    made.action(std::move(plan));
    if (!params.all)
        made.action(sheet::offer("all starters", "starter.list", {{"all", true}}, "a"));
    add_topics(made);
    return made;
}

sheet::Sheet yeast(const YeastList::Params&, const YeastList::Result& result) {
    SheetBuilder made("Yeast on ", result.day);
    if (result.yeast.empty()) {
        made.lead("No yeast is available.");
    } else {
        const LivingYeast& first = result.yeast.front();
        made.lead("Take ", first.lot, " first: ", amount_of_yeast(first.amount), " of ", first.good,
                  ", ", first.cells ? text(*first.cells, " alive") : Text("living cells not known"),
                  first.past_best_by ? ", past its best-by day." : ".");
    }
    made.table(yeast_table(result.yeast));
    for (const LivingYeast& yeast : result.yeast)
        for (const std::string& note : yeast.notes)
            made.warning("", yeast.lot, ": ", sheet::cited(note));
    made.more("Sources of the figures", cells_by_source(result.yeast));
    sheet::Action plan = sheet::offer("plan a starter", "starter.plan", {}, "p");
    plan.ask = {"brew"};
    sheet::Action buy = sheet::offer("buy yeast", "stock.buy", {}, "b");
    buy.ask = {"good", "amount", "paid"};
    (result.yeast.empty() ? buy : plan).usual = true;
    made.action(std::move(plan));
    made.action(std::move(buy));
    for (const std::string_view topic : {"lot.", "entry.", "good.", "day."})
        made.topic(std::string(topic));
    return made;
}

} // namespace barmkeep::starter::sheets
