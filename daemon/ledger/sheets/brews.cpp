// Brew days.  The sheet of one is made to be printed and written on: it has room for what is
// measured on the day.
#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using contract::Brew;
using contract::BrewState;
using sheet::Align;
using sheet::column;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

constexpr std::string_view blank = "..........";

json::object named(const Brew& brew) {
    return {{"brew", brew.number}};
}

/// An amount of a good in its own noun, where a reserved lot of it shows which: "3 jars".
sheet::Run amount_in(const Brew& brew, const std::string& good, const Amount& amount) {
    for (const contract::Reservation& part : brew.reserved)
        if (part.good == good)
            return amount_of(part.lot, amount);
    return amount;
}

/// What is needed and not reserved: "1 kg of light dry extract".
Text missing(const Brew& brew) {
    std::vector<Text> parts;
    for (const contract::Need& need : brew.needs)
        if (need.reserved.steps < need.amount.steps) {
            const Amount rest{need.amount.steps - need.reserved.steps, need.amount.measure};
            parts.push_back(text(amount_in(brew, need.good, rest), " of ", need.good));
        }
    return listed(parts);
}

/// Whether its stock is there, as the end of a sentence.
Text readiness(const Brew& brew) {
    if (brew.state == BrewState::done)
        return text("it is done");
    if (brew.state == BrewState::cancelled)
        return text("it is cancelled");
    if (const Text lacks = missing(brew); !lacks.empty())
        return text("still to get: ", lacks);
    if (!brew.needs.empty())
        return text("all it needs is reserved");
    return brew.reserved.empty() ? text("nothing is reserved yet") : text("its stock is reserved");
}

sheet::Table needs_table(const Brew& brew) {
    sheet::Table table;
    table.title = text("What it needs");
    table.columns = {column("good"), column("amount", Align::right),
                     column("reserved", Align::right), column("by", Align::left, 2)};
    for (const contract::Need& need : brew.needs)
        table.rows.push_back(sheet::row(
            need.good, amount_in(brew, need.good, need.amount),
            need.reserved.steps > 0 ? text(amount_in(brew, need.good, need.reserved)) : "none",
            need.day));
    return table;
}

sheet::Table reserved_table(const Brew& brew) {
    sheet::Table table;
    table.title = text("Reserved: take these");
    table.columns = {column("lot"), column("amount", Align::right), column("good")};
    for (const contract::Reservation& part : brew.reserved)
        table.rows.push_back(sheet::row(part.lot, amount_of(part.lot, part.amount), part.good));
    return table;
}

void add_actions(SheetBuilder& made, const Brew& brew) {
    if (brew.state != BrewState::planned)
        return;
    made.action(asking("say what it needs", "brew.need", named(brew), {"good", "amount"}, "a"));
    made.action(asking("reserve stock", "brew.reserve", named(brew), {"what", "amount"}, "r"));
    made.action(sheet::offer("mark it done", "brew.finish", named(brew), "d"));
}

/// The beer, what it needs and what is reserved.
void add_body(SheetBuilder& made, const Brew& brew) {
    made.facts({{"day", text(brew.day)},
                {"volume", brew.volume ? text(*brew.volume) : Text{}},
                {"gravity", brew.gravity ? text(*brew.gravity) : Text{}},
                {"yeast", text(brew.strain.value_or(""))},
                {"note", text(brew.note.value_or(""))}});
    made.table(needs_table(brew));
    made.table(reserved_table(brew));
}

SheetBuilder titled(const Brew& brew) {
    SheetBuilder made("Brew day ", std::to_string(brew.number), ": ", brew.name);
    follow(made, {"brew.", "lot.", "entry."});
    return made;
}

/// After a change: what was done, where it stands, the rest.
sheet::Sheet changed(const Brew& brew, Text done) {
    SheetBuilder made = titled(brew);
    made.lead(done, "; ", readiness(brew), ".");
    add_body(made, brew);
    add_actions(made, brew);
    return made;
}

/// What a brewer measures on the day, to be written down.
void add_blanks(SheetBuilder& made) {
    made.facts({{"pitched at", blank},
                {"temperature", blank},
                {"gravity", blank},
                {"volume", blank},
                {"slurry kept", blank},
                {"notes", text(blank, blank, blank)}},
               "To write down");
}

} // namespace

sheet::Sheet brew_show(const contract::BrewShow::Params&, const Brew& brew) {
    SheetBuilder made = titled(brew);
    made.lead(beer(brew), " on ", brew.day, "; ", readiness(brew), ".");
    add_body(made, brew);
    if (brew.state == BrewState::planned)
        add_blanks(made);
    add_actions(made, brew);
    return made;
}

sheet::Sheet brew_plan(const contract::BrewPlan::Params&, const Brew& brew) {
    SheetBuilder made = titled(brew);
    made.lead("Planned for ", brew.day, ": ", beer(brew), ". Next, say what it needs.");
    add_body(made, brew);
    add_actions(made, brew);
    return made;
}

sheet::Sheet brew_change(const contract::BrewChange::Params&, const Brew& brew) {
    return changed(brew, text("Changed: ", beer(brew), " on ", brew.day));
}

sheet::Sheet brew_need(const contract::BrewNeed::Params& params, const Brew& brew) {
    for (const contract::Need& need : brew.needs)
        if (need.good == params.good)
            return changed(brew, text("Needs ", amount_in(brew, need.good, need.amount), " of ",
                                      need.good, ", reserved ",
                                      need.reserved.steps > 0
                                          ? text(amount_in(brew, need.good, need.reserved))
                                          : "none"));
    return changed(brew, text("Needs no ", params.good));
}

sheet::Sheet brew_reserve(const contract::BrewReserve::Params& params,
                          const contract::BrewReserve::Result& result) {
    const Brew& brew = result.brew;
    SheetBuilder made = titled(brew);
    std::vector<Text> parts;
    for (const contract::Reservation& part : brew.reserved)
        if (part.good == params.what || to_text(part.lot) == params.what)
            parts.push_back(text(amount_of(part.lot, part.amount), " of ", part.lot));
    made.lead(parts.empty() ? text("Reserved") : text("Now reserved: ", listed(parts)), "; ",
              readiness(brew), ".");
    for (const std::int64_t day : result.short_days)
        made.add(to_put_right(
            "earlier_day_short",
            text("Now ", numbered("brew day", day), ", which is earlier, has less than it needs."),
            sheet::offer("show it", "brew.show", {{"brew", day}})));
    add_body(made, brew);
    made.action(sheet::offer("give it back", "brew.unreserve", named(brew), "g"));
    add_actions(made, brew);
    return made;
}

sheet::Sheet brew_unreserve(const contract::BrewUnreserve::Params& params, const Brew& brew) {
    return changed(brew, params.lot ? text(*params.lot, " is given back")
                                    : text("All that was reserved is given back"));
}

sheet::Sheet brew_finish(const contract::BrewFinish::Params&, const Brew& brew) {
    SheetBuilder made = titled(brew);
    made.lead("Done: ", beer(brew), ". What was reserved and not used is available again.");
    made.action(sheet::offer("what it took", "entry.list", named(brew), "e"));
    made.action(sheet::offer("next brew days", "brew.list", {}, "b"));
    return made;
}

sheet::Sheet brew_cancel(const contract::BrewCancel::Params&, const Brew& brew) {
    SheetBuilder made = titled(brew);
    made.lead("Cancelled: ", beer(brew), ". What was reserved is available again.");
    made.action(sheet::offer("next brew days", "brew.list", {}, "b"));
    return made;
}

sheet::Sheet brew_list(const contract::BrewList::Params& params,
                       const contract::BrewList::Result& result) {
    SheetBuilder made("Brew days");
    if (result.brews.empty())
        made.lead("No brew day is planned.");
    else if (params.all)
        made.lead(sheet::count(static_cast<std::int64_t>(result.brews.size()), "brew day"),
                  ", planned, done and cancelled.");
    else
        made.lead("Next: ", beer(result.brews[0]), " on ", result.brews[0].day, "; ",
                  readiness(result.brews[0]), ".");
    sheet::Table table;
    table.columns = {column("brew", Align::right), column("day"), column("beer"),
                     column("stock", Align::left, 2)};
    for (const Brew& brew : result.brews)
        table.rows.push_back(
            sheet::row(std::to_string(brew.number), brew.day, beer(brew), readiness(brew)));
    made.table(std::move(table));
    offer_next(made, "brew.list", params, result.next);
    made.action(asking("plan one", "brew.plan", {}, {"day", "name"}, "p"));
    if (!result.brews.empty())
        made.action(sheet::offer("show the first", "brew.show", named(result.brews[0]), "s"));
    follow(made, {"brew.", "lot.", "entry."});
    return made;
}

} // namespace barmkeep::ledger::sheets
