// What several sheets of the ledger share.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/brew.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/sheet/builder.hpp"

namespace barmkeep::ledger::sheets {

/// An amount with the noun of its category: "7 jars", "2 packs", "500 g".
[[nodiscard]] sheet::Run amount_of(contract::Category category, const Amount& amount);
/// The same, of a lot: the letter of its code says the category.
[[nodiscard]] sheet::Run amount_of(const LotCode& lot, const Amount& amount);
/// The category in words: "bought cans".
[[nodiscard]] std::string_view words_of(contract::Category category);
/// "brew day 12"; what a person types and reads as a name, not as a figure.
[[nodiscard]] std::string numbered(std::string_view what, std::int64_t number);

/// Why nothing of a lot may be taken, or an empty text if it may.  Without a day, what is past its
/// best-by day is known by having nothing available.
[[nodiscard]] sheet::Text reason_against(const contract::Lot& lot, std::optional<Date> today);
/// What stands where lots may not be used, one line for each reason: "J17D 2 jars: it did not
/// seal".
[[nodiscard]] std::vector<sheet::Text> not_to_use(const std::vector<contract::Shelf>& shelves,
                                                  std::optional<Date> today);
/// What must be said wherever a lot is shown: its process, and holds released with a reason.
[[nodiscard]] std::vector<std::string> to_be_said(const contract::Lot& lot);
/// The same of all lots on hand, one warning for each text with the lots that it is about.
void warn_of_lots(sheet::SheetBuilder& made, const std::vector<contract::Shelf>& shelves);
/// "J10N 2 jars, best by 21 Mar": the lots available, in the order in which they are taken.
[[nodiscard]] std::vector<sheet::Text> in_order(const contract::Shelf& shelf);

/// "Dunkel, 20 L at 1.052": a beer in a few words.
[[nodiscard]] sheet::Text beer(const contract::Brew& brew);
/// Lot by lot, what an entry changed.
[[nodiscard]] sheet::Table changes_table(const std::vector<contract::Line>& lines);
/// The facts that are known of a good or a lot, in words.
[[nodiscard]] std::vector<sheet::Fact> facts_of(const contract::Facts& facts);
/// What the cellar's facts still lack, each with the command that sets it.
void warn_of_gaps(sheet::SheetBuilder& made, const contract::Cellar& cellar);

/// An action whose missing parameters the person is asked for.
[[nodiscard]] sheet::Action asking(std::string label, std::string method, json::object params,
                                   std::vector<std::string> ask, std::string letter = {});
/// A warning with what puts it right.
[[nodiscard]] sheet::Warning to_put_right(std::string key, sheet::Text text, sheet::Action action);
/// Undoes an entry: the usual way back from a slip of the pen.
[[nodiscard]] sheet::Action undoing(std::int64_t entry, std::string_view kind);
/// Topics after which the sheet is out of date.
void follow(sheet::SheetBuilder& made, std::initializer_list<std::string_view> topics);

/// Offers the next page of a list, if there is one: the same params with its cursor.
template <class Params>
void offer_next(sheet::SheetBuilder& made, std::string_view method, const Params& params,
                const std::optional<std::string>& next) {
    if (!next)
        return;
    json::object asked = to_json(params).as_object();
    if (params.limit == contract::page_size_usual)
        asked.erase("limit");
    asked["cursor"] = *next;
    made.action(sheet::offer("show the next page", std::string(method), std::move(asked), "n"));
}

} // namespace barmkeep::ledger::sheets
