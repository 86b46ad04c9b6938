// The plan of a load: whether it can be done, what to buy or to weigh, what to watch for.
#include "plugins/canning/sheets/parts.hpp"

namespace barmkeep::canning::sheets {

using sheet::Align;
using sheet::column;
using sheet::offer;

namespace {

Text lead(const Plan& plan) {
    if (plan.jars == 0)
        return text("No jar can be filled; the limit is ", plan.limit, ".");
    if (plan.feasible)
        return text("Everything is here: each jar makes ", plan.each.makes, " at ",
                    plan.each.makes_gravity.likely, ".");
    std::vector<Text> missing;
    for (const Need& need : plan.buying)
        missing.push_back(text(need.short_by,
                               need.short_by.measure == Measure::pieces ? " " : " of ", need.good));
    return text("Not possible yet: buy ", sheet::listed(missing), ".");
}

Text packages(const Need& need) {
    if (!need.buy || !need.package)
        return {};
    return text(sheet::count(*need.buy, "package"), " of ", *need.package);
}

sheet::Table buying_table(const std::vector<Need>& buying) {
    sheet::Table table;
    table.title = text("Buy first");
    table.columns = {column("good"), column("need", Align::right, 2),
                     column("available", Align::right, 2), column("short by", Align::right),
                     column("buy")};
    for (const Need& need : buying)
        table.rows.push_back(
            sheet::row(need.good, need.need, need.available, need.short_by, packages(need)));
    return table;
}

sheet::Table needs_table(const std::vector<Need>& needs) {
    sheet::Table table;
    table.columns = {column("good"), column("takes", Align::right),
                     column("available", Align::right), column("in open runs")};
    for (const Need& need : needs)
        table.rows.push_back(
            sheet::row(need.good, need.need, need.available, need.held.value_or("")));
    return table;
}

sheet::Table lots_of(const std::vector<LotUse>& lots) {
    sheet::Table table;
    table.columns = {column("lot"), column("takes", Align::right), column("from"),
                     column("best by"), column("points of a pound in a gallon")};
    for (const LotUse& lot : lots)
        table.rows.push_back(sheet::row(lot.lot, lot.mass, lot.supplier.value_or(""),
                                        lot.best_by ? text(*lot.best_by) : Text{},
                                        sheet::range(sheet::QuantityKind::number, lot.points.low,
                                                     lot.points.likely, lot.points.high)));
    return table;
}

Text loads_of(const std::vector<std::int64_t>& loads) {
    std::vector<Text> parts;
    for (const std::int64_t jars : loads)
        parts.push_back(text(sheet::count(jars, "jar")));
    return loads.size() > 1 ? sheet::listed(parts) : Text{};
}

SheetBuilder each_jar(const JarContent& each) {
    return SheetBuilder().facts(
        {{"fill", text(each.fill)},
         {"extract weighed in", text(each.weighed)},
         {"dissolved, as sucrose", text(each.extract)},
         {"water weighed in", text(each.water)},
         {"gravity after dilution", text(each.makes_gravity)},
         {"the same by gravity points", text(each.points_gravity)},
         {"shortcut is off by", text(sheet::number(each.points_error, 1), " points")}});
}

/// Starts what was planned: the first load, if there are several.
sheet::Action start_of(const CanningPlan::Params& params, const Plan& plan) {
    json::object known = to_json(params).as_object();
    known.erase("fill_canner");
    known.erase("loads");
    known["jars"] = plan.loads.empty() ? plan.jars : plan.loads.front();
    auto start = offer(plan.loads.size() > 1 ? "start the first load" : "start the load",
                       "run.start", std::move(known), "s");
    if (!params.process)
        start.ask = {"process"};
    return start;
}

sheet::Action buy_of(const Need& need) {
    auto buy = offer("record a purchase", "stock.buy", {{"good", json::value(need.good)}}, "b");
    buy.ask = {"amount", "paid"};
    return buy;
}

void add_card(SheetBuilder& made, const Plan& plan) {
    made.table(card_table(plan.card));
    const bool is_described = plan.jars > 0;
    made.facts(
        {{"in all", plan.card.empty() ? Text{}
                                      : text(plan.total.extract, " of extract and ",
                                             plan.total.water, " of water")},
         {"in the jar", is_described ? text(plan.each.gravity) : Text{}},
         {"dilute with", is_described && plan.each.top_up > brewing::Volume{}
                             ? text(plan.each.top_up, " of water a jar, for ", plan.each.makes)
                             : Text{}},
         {"loads", loads_of(plan.loads)}});
}

} // namespace

Sheet plan(const CanningPlan::Params& params, const Plan& plan) {
    SheetBuilder made(plan.jars > 0 ? text("Plan of ", jars_of(plan.jars, plan.jar))
                                    : text("Plan of a load"));
    made.lead(lead(plan));
    made.table(buying_table(plan.buying));
    if (plan.feasible)
        add_card(made, plan);
    add_warnings(made, "plan", plan.warnings);
    add_here(made, plan.cautions, {"no_tested_process"});
    SheetBuilder card;
    if (!plan.feasible) // nobody weighs before it is bought
        add_card(card, plan);
    made.more("Card for what is here", card);
    if (plan.jars > 0)
        made.more("What one jar holds", each_jar(plan.each));
    made.more("What the load takes",
              SheetBuilder().table(needs_table(plan.needs)).table(lots_of(plan.lots)));
    if (plan.feasible)
        made.usual_action(start_of(params, plan));
    else if (!plan.buying.empty())
        made.usual_action(buy_of(plan.buying.front()));
    return made.topic("lot.").topic("entry.").topic("good.").topic("canning.run");
}

} // namespace barmkeep::canning::sheets
