#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"
#include "sdk/sheet/generic_value.hpp"

namespace barmkeep::ledger::sheets {

using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// The schema of one member of an object's schema, or an empty one.
json::object member_schema(const json::object& schema, std::string_view member) {
    const json::value* properties = schema.if_contains("properties");
    if (properties == nullptr || !properties->is_object())
        return {};
    const json::value* found = properties->get_object().if_contains(member);
    return found != nullptr && found->is_object() ? found->get_object() : json::object{};
}

Text or_nothing(Text text) {
    return text.empty() ? Text("nothing") : std::move(text);
}

/// "best by: from 1 Mar to 1 May", one for each member that changed.  The set of holds is left out:
/// what the change is and its reason say it.
void add_differences(const json::object& was, const json::object& became,
                     const json::object& schema, std::vector<Text>& all) {
    for (const auto& [name, after] : became) {
        const json::value* before = was.if_contains(name);
        if (name == "holds" || name == "released")
            continue;
        const json::object inner = member_schema(schema, name);
        if (name == "facts" && after.is_object() && before != nullptr && before->is_object()) {
            add_differences(before->get_object(), after.get_object(), inner, all);
            continue;
        }
        all.push_back(
            text(sheet::words_of(name), ": from ",
                 or_nothing(before == nullptr ? Text{} : sheet::generic_text(*before, inner, name)),
                 " to ", or_nothing(sheet::generic_text(after, inner, name))));
    }
}

} // namespace

sheet::Sheet lot_history(const contract::LotHistory::Params& params,
                         const contract::LotHistory::Result& result) {
    SheetBuilder made("History of lot ", params.lot);
    if (result.changes.empty())
        made.lead("Nothing about it was changed.");
    else
        made.lead(sheet::count(static_cast<std::int64_t>(result.changes.size()), "change"),
                  ", newest first.");
    const json::object schema = describe<contract::LotShow>().result;
    sheet::Table table;
    table.columns = {sheet::column("when"), sheet::column("what"),
                     sheet::column("who", sheet::Align::left, 2), sheet::column("why")};
    for (const contract::LotPast& past : result.changes) {
        std::vector<Text> differences;
        add_differences(past.was, past.became, schema, differences);
        table.rows.push_back(sheet::row(
            past.at, differences.empty() ? text(to_string(past.change)) : listed(differences),
            past.who, past.reason));
    }
    made.table(std::move(table));
    offer_next(made, "lot.history", params, result.next);
    const json::object lot{{"lot", to_text(params.lot)}};
    made.action(sheet::offer("show the lot", "lot.show", lot, "l"));
    made.action(sheet::offer("its entries", "entry.list", lot, "e"));
    return made.topic("lot.");
}

} // namespace barmkeep::ledger::sheets
