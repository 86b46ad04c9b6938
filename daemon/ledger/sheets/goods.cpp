#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using contract::Good;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

std::string_view measured_by(Measure measure) {
    switch (measure) {
    case Measure::mass:
        return "weighed";
    case Measure::volume:
        return "measured by volume";
    default:
        return "counted";
    }
}

SheetBuilder about(const Good& good) {
    SheetBuilder made(text(good.name));
    std::vector<sheet::Fact> facts{
        {"usual package", good.package ? text(amount_of(good.category, *good.package)) : Text{}}};
    for (sheet::Fact& fact : facts_of(good.facts))
        facts.push_back(std::move(fact));
    facts.push_back({"note", text(good.note.value_or(""))});
    made.facts(std::move(facts));
    if (good.facts.process_note)
        made.warning("process_note", "Its process is ", *good.facts.process_note, ".");
    made.action(asking("buy", "stock.buy", {{"good", good.name}}, {"amount", "paid"}, "b"));
    made.action(sheet::offer("show its stock", "stock.list", {{"good", good.name}}, "s"));
    return made.topic("good.");
}

} // namespace

sheet::Sheet good_add(const contract::GoodAdd::Params&, const Good& good) {
    SheetBuilder made = about(good);
    made.lead("You can now buy and use ", good.name, ": ", words_of(good.category), ", ",
              measured_by(good.measure), ".");
    return made;
}

sheet::Sheet good_change(const contract::GoodChange::Params& params, const Good& good) {
    SheetBuilder made = about(good);
    if (params.rename && *params.rename != params.name)
        made.lead(params.name, " is now called ", good.name, ".");
    else
        made.lead("Changed. Facts of a lot's own still go before these.");
    return made;
}

sheet::Sheet good_list(const contract::GoodList::Params& params,
                       const contract::GoodList::Result& result) {
    SheetBuilder made("Goods");
    if (result.all.empty())
        made.lead("There are no goods yet. Add one before you buy it.");
    else
        made.lead(sheet::count(static_cast<std::int64_t>(result.all.size()), "good"),
                  " that you can buy and use.");
    sheet::Table table;
    table.columns = {sheet::column("good"), sheet::column("category"),
                     sheet::column("how", sheet::Align::left, 3),
                     sheet::column("usual package", sheet::Align::right, 2)};
    for (const Good& good : result.all)
        table.rows.push_back(
            sheet::row(good.name, words_of(good.category), measured_by(good.measure),
                       good.package ? text(amount_of(good.category, *good.package)) : Text{}));
    made.table(std::move(table));
    offer_next(made, "good.list", params, result.next);
    made.action(asking("add one", "good.add", {}, {"name", "category"}, "a"));
    return made.topic("good.");
}

} // namespace barmkeep::ledger::sheets
