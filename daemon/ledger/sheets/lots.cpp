#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"
#include "sdk/contract/safety.hpp"
#include "sdk/contract/shelf.hpp"

namespace barmkeep::ledger::sheets {

using contract::HoldEnd;
using contract::HoldKind;
using contract::Lot;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

template <class T>
Text if_known(const std::optional<T>& value) {
    return value ? text(*value) : Text{};
}

json::object named(const Lot& lot) {
    return {{"lot", to_text(lot.code)}};
}

/// Why it may not be used, or how much of it may.
Text standing(const Lot& lot) {
    if (lot.on_hand.steps == 0)
        return text("Nothing of it is left.");
    if (const Text reason = reason_against(lot, std::nullopt); !reason.empty())
        return text("Do not use these ", amount_of(lot.category, lot.on_hand), ": ", reason, ".");
    Text words = text(amount_of(lot.category, lot.available), " to use");
    if (lot.best_by)
        words.append(", best by ").append(*lot.best_by);
    return words.append(".");
}

/// How the hold can end, as a sentence.
std::string_view end_words(HoldKind kind) {
    switch (end_of(kind)) {
    case HoldEnd::by_brewer:
        return "You may release it with a reason, which is shown at every later use.";
    case HoldEnd::by_process:
        return "It ends only if you state how and when it was canned.";
    case HoldEnd::never:
        break;
    }
    return "It never becomes shelf stock.";
}

void add_holds(SheetBuilder& made, const Lot& lot) {
    for (const contract::Hold& hold : lot.holds) {
        sheet::Warning warning{text("On hold since ", hold.at, " by ", hold.who, ": ", hold.note,
                                    ". ", end_words(hold.kind)),
                               "on_hold",
                               sheet::Severity::warning,
                               {}};
        if (end_of(hold.kind) == HoldEnd::by_brewer)
            warning.action = asking("release it", "lot.release", named(lot), {"reason"});
        else if (end_of(hold.kind) == HoldEnd::by_process)
            warning.action = asking("state the process", "lot.vouch", named(lot),
                                    {"process", "canned", "confirm"});
        made.add(std::move(warning));
    }
    for (const std::string& said : to_be_said(lot))
        made.warning("lot_to_be_said", lot.code, ": ", said, ".");
}

/// Safety texts of sealed jars: those of its holds in full, the others counted.
void add_cautions(SheetBuilder& made, const Lot& lot) {
    if (!contract::is_sealed_food(lot.category) || lot.on_hand.steps == 0)
        return;
    std::vector<std::string_view> here;
    const auto has = [&](HoldKind kind) {
        return std::any_of(lot.holds.begin(), lot.holds.end(),
                           [&](const auto& hold) { return hold.kind == kind; });
    };
    if (has(HoldKind::seal_failed))
        here.push_back("failed_jar");
    if (has(HoldKind::run_suspect))
        here.push_back("spoiled_run");
    made.cautions(contract::cautions(contract::Moment::storing), here);
    if (has(HoldKind::deviation_known))
        for (const contract::Caution& caution : contract::cautions(contract::Moment::sealing))
            if (caution.key == "deviation")
                made.caution(caution.key, caution.text, true);
}

void add_facts(SheetBuilder& made, const Lot& lot) {
    std::vector<sheet::Fact> facts{
        {"on hand", text(amount_of(lot.category, lot.on_hand))},
        {"reserved for brew days",
         lot.reserved.steps > 0 ? text(amount_of(lot.category, lot.reserved)) : Text{}},
        {"best by", if_known(lot.best_by)},
        {"canned", if_known(lot.canned)},
        {"packed", if_known(lot.packed)},
        {"bought", if_known(lot.bought)},
        {"from", if_known(lot.supplier)},
        {"kept in the", lot.kept == contract::Keeping::shelf ? Text{} : text(to_string(lot.kept))},
        {"cost", text(lot.value)}};
    for (sheet::Fact& fact : facts_of(lot.facts))
        facts.push_back(std::move(fact));
    made.facts(std::move(facts));
}

/// What every sheet of one lot has below its lead: what must be known before it is used.
void warn(SheetBuilder& made, const Lot& lot) {
    add_holds(made, lot);
    add_cautions(made, lot);
    follow(made, {"lot.", "entry.", "brew.", "day."});
}

bool has_mortal_hold(const Lot& lot) {
    return std::any_of(lot.holds.begin(), lot.holds.end(),
                       [](const auto& hold) { return end_of(hold.kind) == HoldEnd::never; });
}

/// Using it, where it may be used; throwing it out, where it never becomes stock.
void add_taking(SheetBuilder& made, const Lot& lot) {
    if (lot.on_hand.steps == 0)
        return;
    json::object use{{"what", to_text(lot.code)}};
    if (lot.available.steps > 0)
        made.action(asking("use some", "stock.use", use, {"amount"}, "t"));
    if (has_mortal_hold(lot))
        made.action(asking("throw it out", "stock.discard", named(lot), {"reason"}, "d"));
}

SheetBuilder titled(const Lot& lot) {
    return SheetBuilder("Lot ", lot.code, ": ", lot.good);
}

} // namespace

sheet::Sheet lot_show(const contract::LotShow::Params&, const Lot& lot) {
    SheetBuilder made = titled(lot);
    made.lead(standing(lot));
    warn(made, lot);
    add_facts(made, lot);
    add_taking(made, lot);
    made.action(sheet::offer("its entries", "entry.list", named(lot), "e"));
    made.action(sheet::offer("its history", "lot.history", named(lot), "h"));
    return made;
}

sheet::Sheet lot_change(const contract::LotChange::Params& params, const Lot& lot) {
    SheetBuilder made = titled(lot);
    made.lead("Changed: ", params.reason, ". ", standing(lot));
    warn(made, lot);
    add_facts(made, lot);
    made.action(sheet::offer("its history", "lot.history", named(lot), "h"));
    return made;
}

sheet::Sheet lot_hold(const contract::LotHold::Params& params, const Lot& lot) {
    SheetBuilder made = titled(lot);
    if (lot.code == params.lot)
        made.lead("On hold: nothing can be taken of its ", amount_of(lot.category, lot.on_hand),
                  ".");
    else
        made.lead(amount_of(lot.category, lot.on_hand), " of ", params.lot, " on hold as lot ",
                  lot.code, "; write ", lot.code, " on each.");
    warn(made, lot);
    if (has_mortal_hold(lot))
        made.action(asking("throw it out", "stock.discard", named(lot), {"reason"}, "d"));
    return made;
}

sheet::Sheet lot_release(const contract::LotRelease::Params& params, const Lot& lot) {
    SheetBuilder made = titled(lot);
    made.lead("Released: ", params.reason, ". ", standing(lot));
    warn(made, lot);
    return made;
}

sheet::Sheet lot_vouch(const contract::LotVouch::Params& params, const Lot& lot) {
    SheetBuilder made = titled(lot);
    made.lead("You state its process: ", params.process, ", canned on ", params.canned, ". ",
              standing(lot));
    made.note("Your statement is shown at every later use. Nobody has checked it.");
    warn(made, lot);
    return made;
}

} // namespace barmkeep::ledger::sheets
