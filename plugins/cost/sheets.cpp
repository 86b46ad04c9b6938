#include "plugins/cost/sheets.hpp"

#include <algorithm>

namespace barmkeep::cost::sheets {

using sheet::Align;
using sheet::column;
using sheet::Fact;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// Sums of one answer, all in its currency.
class Sums {
public:
    explicit Sums(std::string currency) : currency_{std::move(currency)} {}
    [[nodiscard]] sheet::Sum operator()(Money sum) const { return sheet::money(sum, currency_); }
    [[nodiscard]] Text operator()(const std::optional<Money>& sum) const {
        return sum ? text(sheet::money(*sum, currency_)) : Text{};
    }

private:
    std::string currency_;
};

void add_topics(SheetBuilder& made) {
    for (const std::string_view topic : {"lot.", "entry.", "good.", "price."})
        made.topic(std::string(topic));
}

sheet::Table parts_table(const std::vector<CostPart>& parts, const Sums& in) {
    sheet::Table table{{column("part"), column("in a jar", Align::right),
                        column("share", Align::right), column("in all jars", Align::right, 2)},
                       {},
                       Text("What it is made of")};
    for (const CostPart& part : parts)
        table.rows.push_back(sheet::row(
            part.good, in(part.jar),
            part.per_mille > 0 ? text(sheet::share(static_cast<double>(part.per_mille) / 1000.0))
                               : Text{},
            in(part.value)));
    return table;
}

Text jars_of(const LotCost& lot) {
    Text jars = text(sheet::count(lot.jars, "jar"));
    return lot.is_empty ? jars.append(", used up") : jars;
}

sheet::Table lots_table(const GoodCost& good, const Sums& in) {
    sheet::Table table{{column("lot"), column("jars"), column("a jar", Align::right),
                        column("100 g of extract", Align::right, 2),
                        column("extract in one", Align::right, 3), column("not to use")},
                       {},
                       text("Lots of ", good.good)};
    for (const LotCost& lot : good.lots)
        table.rows.push_back(sheet::row(lot.lot, jars_of(lot), in(lot.jar), in(lot.per_100g),
                                        lot.extract ? text(*lot.extract) : Text{},
                                        lot.held.value_or("")));
    return table;
}

/// "A jar of light concentrate costs 1.88 EUR", or each good with its sum.
Text lead_of(const std::vector<GoodCost>& goods, const Sums& in) {
    if (goods.empty())
        return "No jar has a cost yet.";
    std::vector<Text> parts;
    for (const GoodCost& good : goods)
        parts.push_back(
            text(parts.empty() ? "A jar of " : "one of ", good.good, " costs ", in(good.jar)));
    return sheet::listed(parts).append(".");
}

void add_extract(SheetBuilder& into, const CostJar::Result& result, const Sums& in) {
    for (const GoodCost& good : result.goods)
        into.facts(
            {Fact{"100 g of extract", in(good.per_100g)},
             Fact{"a litre of starter",
                  good.per_litre ? text(in(*good.per_litre), " at ", result.gravity) : Text{}},
             Fact{"extract in all", good.extract ? text(*good.extract) : Text{}},
             Fact{"all jars", text(in(good.value), " for ", sheet::count(good.jars, "jar"))}},
            result.goods.size() > 1 ? Text(good.good) : Text{});
}

/// The can whose extract costs least: the fairest one to hold the jar against.
const CanComparison* cheapest(const std::vector<CanComparison>& cans) {
    const auto found = std::ranges::min_element(cans, {}, &CanComparison::same_extract);
    return found == cans.end() ? nullptr : &*found;
}

Text compared_lead(const CostCompare::Result& result, const Sums& in) {
    Text lead = text("A jar costs ", in(result.jar));
    const CanComparison* can = cheapest(result.cans);
    if (can == nullptr)
        return lead.append("; no can is known to compare it with.");
    lead.append("; as much extract from ").append(can->item).append(" costs ");
    lead.append(in(can->same_extract));
    if (can->times > 1)
        lead.append(", ").append(sheet::number(can->times, 1)).append(" times as much");
    else if (can->times > 0)
        lead.append(", so the can is no dearer");
    return lead.append(".");
}

sheet::Table cans_table(const CostCompare::Result& result, const Sums& in) {
    sheet::Table table{
        {column("can"), column("one can", Align::right), column("a jar's extract", Align::right),
         column("saved a jar", Align::right), column("in 12 months", Align::right, 2),
         column("where", Align::left, 3), column("price of", Align::left, 4)},
        {},
        {}};
    for (const CanComparison& can : result.cans)
        table.rows.push_back(sheet::row(can.item, in(can.price), in(can.same_extract),
                                        in(can.saving_per_jar), in(can.saving_last_year),
                                        can.where.value_or(""), can.day ? text(*can.day) : Text{}));
    return table;
}

SheetBuilder by_extract(const CostCompare::Result& result, const Sums& in) {
    sheet::Table table{{column("what"), column("extract in one", Align::right),
                        column("100 g of extract", Align::right)},
                       {},
                       {}};
    table.rows.push_back(
        sheet::row(text("jar of ", result.good), result.extract, in(result.per_100g)));
    for (const CanComparison& can : result.cans)
        table.rows.push_back(sheet::row(can.item, can.extract, in(can.per_100g)));
    return SheetBuilder().table(std::move(table));
}

} // namespace

sheet::Sheet jar(const CostJar::Params& params, const CostJar::Result& result) {
    const Sums in{result.currency};
    SheetBuilder made(Text("Cost of a jar"));
    made.lead(lead_of(result.goods, in));
    for (const GoodCost& good : result.goods) {
        auto parts = parts_table(good.parts, in);
        if (result.goods.size() > 1)
            parts.title = text("What a jar of ", good.good, " is made of");
        made.table(std::move(parts));
    }
    for (const GoodCost& good : result.goods)
        made.table(lots_table(good, in));
    for (const GoodCost& good : result.goods)
        for (const LotCost& lot : good.lots)
            if (lot.note)
                made.warning("", lot.lot, ": ", *lot.note);
    SheetBuilder extract;
    add_extract(extract, result, in);
    made.more("By extract and litre", extract);
    if (!result.goods.empty())
        made.usual_action(
            sheet::offer("compare with cans", "cost.compare",
                         {{"what", params.what ? *params.what : result.goods.front().good}}, "c"));
    add_topics(made);
    return made;
}

sheet::Sheet compared(const CostCompare::Params& params, const CostCompare::Result& result) {
    const Sums in{result.currency};
    SheetBuilder made(result.good, " against bought cans");
    made.lead(compared_lead(result, in));
    made.table(cans_table(result, in));
    if (!result.cans.empty() && result.used_last_year > 0)
        made.note("In the last 12 months ", sheet::count(result.used_last_year, "jar"),
                  result.used_last_year == 1 ? " was used." : " were used.");
    made.table(parts_table(result.parts, in));
    if (result.lost && result.lost->jars > 0)
        made.note("Contained in it: ", sheet::count(result.lost->jars, "failed jar"), ", ",
                  in(result.lost->jar), " on each good one, ", in(result.lost->value), " in all.");
    made.lines([&] {
        std::vector<Text> notes;
        for (const std::string& note : result.notes)
            notes.emplace_back(note);
        return notes;
    }());
    made.more("By extract", by_extract(result, in));
    made.usual_action(sheet::offer("see it lot by lot", "cost.jar",
                                   {{"what", params.what.value_or(result.good)}}, "j"));
    sheet::Action price = sheet::offer("note the price of a can", "price.set", {}, "p");
    price.ask = {"item", "price", "volume", "gravity"};
    made.action(std::move(price));
    add_topics(made);
    return made;
}

} // namespace barmkeep::cost::sheets
