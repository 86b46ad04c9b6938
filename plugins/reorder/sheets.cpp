#include "plugins/reorder/sheets.hpp"

#include <algorithm>

namespace barmkeep::reorder::sheets {

using contract::Category;
using sheet::Align;
using sheet::column;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

void add_topics(SheetBuilder& made) {
    for (const std::string_view topic : {"entry.", "lot.", "brew.", "good.", "record.", "day."})
        made.topic(std::string(topic));
}

std::int64_t count_of(const auto& list) {
    return static_cast<std::int64_t>(list.size());
}

/// Jars of one's own are canned; concentrate that is bought has a process that nobody knows.
bool is_canned(const GoodStatus& status) {
    return status.category == Category::concentrate;
}

/// An amount of a good; jars of concentrate are called so.
Text amount_of(const GoodStatus& status, const Amount& amount) {
    if (is_canned(status) && amount.measure == Measure::pieces)
        return text(sheet::count(amount.steps, "jar"));
    return text(amount);
}

/// What to get: whole packages where the good has them.
Amount to_get(const GoodStatus& status) {
    if (status.packages && status.package)
        return {status.package->steps * *status.packages, status.package->measure};
    return status.missing.value_or(Amount{0, status.available.measure});
}

/// "Buy 2 packages of lids (24 in all)".
Text get_text(const GoodStatus& status) {
    if (is_canned(status))
        return text("Can ", amount_of(status, to_get(status)), " of ", status.good);
    if (status.packages)
        return text("Buy ", sheet::count(*status.packages, "package"), " of ", status.good, " (",
                    to_get(status), " in all)");
    return text("Buy ", to_get(status), " of ", status.good);
}

/// Why the good is low, and what makes it urgent.
Text reason_text(const GoodStatus& status) {
    Text said = status.available.steps > 0 ? text(amount_of(status, status.available), " available")
                                           : Text("nothing available");
    if (status.needed.steps > 0)
        said.append(", brew days need ").append(amount_of(status, status.needed)).append(" more");
    if (status.brew)
        return said.append("; brew day " + std::to_string(*status.brew))
            .append(" brings it to the reorder point, ")
            .append(amount_of(status, status.reorder_point));
    return said.append("; reorder point ").append(amount_of(status, status.reorder_point));
}

sheet::Action buy(const GoodStatus& status) {
    sheet::Action action =
        sheet::offer("buy " + status.good, "stock.buy",
                     {{"good", status.good}, {"amount", to_text(to_get(status))}});
    action.ask = {"paid"};
    return action;
}

/// The goods that are low, the one that is due first at the top.
std::vector<GoodStatus> low_ones(const ReorderCheck::Result& result) {
    std::vector<GoodStatus> low;
    std::ranges::copy_if(result.goods, std::back_inserter(low), &GoodStatus::low);
    std::ranges::stable_sort(low, {}, [&](const GoodStatus& one) {
        return std::chrono::sys_days{one.due.value_or(result.day)};
    });
    return low;
}

sheet::Table others_table(const std::vector<GoodStatus>& goods) {
    sheet::Table table{{column("good"), column("available", Align::right),
                        column("reorder point", Align::right), column("reserved", Align::right, 2),
                        column("needed", Align::right, 2), column("up to", Align::right, 3)},
                       {},
                       Text("Enough")};
    const auto some = [](const Amount& amount) {
        return amount.steps > 0 ? text(amount) : Text{};
    };
    for (const GoodStatus& status : goods)
        if (!status.low && status.category)
            table.rows.push_back(sheet::row(status.good, status.available, status.reorder_point,
                                            some(status.reserved), some(status.needed),
                                            status.order_up_to));
    return table;
}

SheetBuilder figures(const std::vector<GoodStatus>& low) {
    sheet::Table table{{column("good"), column("available", Align::right),
                        column("reserved", Align::right), column("needed more", Align::right),
                        column("reorder point", Align::right), column("up to", Align::right),
                        column("short by", Align::right), column("package", Align::right)},
                       {},
                       {}};
    for (const GoodStatus& status : low)
        table.rows.push_back(sheet::row(status.good, status.available, status.reserved,
                                        status.needed, status.reorder_point, status.order_up_to,
                                        status.missing ? text(*status.missing) : Text{},
                                        status.package ? text(*status.package) : Text{}));
    return SheetBuilder().table(std::move(table));
}

Text lead_of(const ReorderCheck::Params& params, const ReorderCheck::Result& result,
             const std::vector<GoodStatus>& low) {
    if (!low.empty()) {
        Text lead = get_text(low.front());
        if (low.front().due && *low.front().due < result.day)
            lead.append(": it was due on ").append(*low.front().due);
        else if (low.front().due)
            lead.append(*low.front().due == result.day ? " on " : " by ").append(*low.front().due);
        if (low.size() > 1)
            lead.append("; ").append(sheet::count(count_of(low), "good")).append(" are low");
        return lead.append(".");
    }
    if (params.good && result.goods.size() == 1 && result.goods.front().category) {
        const GoodStatus& one = result.goods.front();
        return text("There is enough: ", amount_of(one, one.available),
                    " available, reorder point ", amount_of(one, one.reorder_point), ".");
    }
    return "No good is low.";
}

void add_gone(SheetBuilder& made, const std::vector<GoodStatus>& goods) {
    for (const GoodStatus& status : goods)
        if (!status.category) {
            sheet::Warning gone{text("No good is called '", status.good,
                                     "' any more, so its reorder point compares nothing."),
                                "good_gone",
                                sheet::Severity::warning,
                                {}};
            gone.action = sheet::offer("remove it", "reorder.remove", {{"good", status.good}});
            made.add(std::move(gone));
        }
}

/// The first that can be bought is the usual one; the others are at their steps.
void add_actions(SheetBuilder& made, const ReorderCheck::Params& params,
                 const std::vector<GoodStatus>& low) {
    const auto first = std::ranges::find_if(low, [](const auto& one) { return !is_canned(one); });
    if (first != low.end()) {
        sheet::Action usual = buy(*first);
        usual.letter = "b";
        made.usual_action(std::move(usual));
    }
    if (!params.good && !params.all)
        made.action(sheet::offer("all reorder points", "reorder.check", {{"all", true}}, "a"));
}

} // namespace

sheet::Sheet checked(const ReorderCheck::Params& params, const ReorderCheck::Result& result) {
    const auto low = low_ones(result);
    SheetBuilder made(params.good ? text("To restock: ", *params.good) : Text("To restock"));
    made.lead(lead_of(params, result, low));
    bool usual_is_offered = false;
    for (const GoodStatus& status : low) {
        sheet::Step step{text(get_text(status), ": ", reason_text(status), "."),
                         status.due ? text(*status.due) : Text{},
                         sheet::StepState::later,
                         {}};
        if (status.due && *status.due <= result.day)
            step.state = sheet::StepState::now;
        if (!is_canned(status) && std::exchange(usual_is_offered, true))
            step.action = buy(status);
        made.step(std::move(step));
    }
    add_gone(made, result.goods);
    made.table(others_table(result.goods));
    made.more("The figures", figures(low));
    add_actions(made, params, low);
    add_topics(made);
    return made;
}

sheet::Sheet set(const ReorderSet::Params&, const ReorderPoint& point) {
    SheetBuilder made("Reorder point of ", point.good);
    made.lead("At ", point.reorder_point, " available, or less, a reminder appears: restock up to ",
              point.order_up_to, ".");
    made.note(point.lead_days > 0 ? text("For a brew day it is due ",
                                         sheet::count(point.lead_days, "day"), " before.")
                                  : Text("For a brew day it is due the day before."));
    made.usual_action(
        sheet::offer("see whether it is low", "reorder.check", {{"good", point.good}}, "c"));
    made.action(sheet::offer("remove it", "reorder.remove", {{"good", point.good}}, "r"));
    add_topics(made);
    return made;
}

sheet::Sheet listed(const Nothing&, const ReorderList::Result& result) {
    SheetBuilder made(Text("Reorder points"));
    made.lead(result.points.empty() ? Text("No good has a reorder point.")
                                    : text(sheet::count(count_of(result.points), "good"),
                                           result.points.size() == 1 ? " has one." : " have one."));
    sheet::Table table{{column("good"), column("low at", Align::right),
                        column("restock up to", Align::right), column("takes", Align::right, 2)},
                       {},
                       {}};
    for (const ReorderPoint& point : result.points)
        table.rows.push_back(
            sheet::row(point.good, point.reorder_point, point.order_up_to,
                       point.lead_days > 0 ? text(sheet::count(point.lead_days, "day")) : Text{}));
    made.table(std::move(table));
    sheet::Action set = sheet::offer("set one", "reorder.set", {}, "s");
    set.ask = {"good", "reorder_point"};
    set.usual = result.points.empty();
    if (!result.points.empty())
        made.usual_action(sheet::offer("see what is low", "reorder.check", {}, "c"));
    made.action(std::move(set));
    add_topics(made);
    return made;
}

sheet::Sheet removed(const ReorderRemove::Params& params, const ReorderRemove::Result& result) {
    SheetBuilder made("Reorder point of ", params.good);
    made.lead(result.was_there ? "It is removed, and its reminder with it."
                               : "There was none, so nothing changed.");
    made.usual_action(sheet::offer("list the others", "reorder.list", {}, "l"));
    add_topics(made);
    return made;
}

} // namespace barmkeep::reorder::sheets
