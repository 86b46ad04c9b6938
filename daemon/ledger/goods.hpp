// Goods: what a cellar can hold.
#pragma once

#include "daemon/ledger/view.hpp"

namespace barmkeep::ledger {

struct GoodRow {
    std::int64_t number = 0;
    contract::Good good;
    json::object facts; ///< as stored
};

/// By name, in whatever case; nothing if there is none.
[[nodiscard]] std::optional<GoodRow> find_good(const View& view, const std::string& name);
/// The same, or Error(not_found, "good_unknown") with the nearest name as a hint.
[[nodiscard]] GoodRow require_good(const View& view, const std::string& name,
                                   std::string_view pointer);

/// What is known, the facts in `over` before those in `under`.
[[nodiscard]] contract::Facts overlay(const contract::Facts& under, const contract::Facts& over);

/// Facts as they are stored, whatever program stored them (see `decode`).
[[nodiscard]] contract::Facts facts_from(const json::object& stored);
/// The stored facts once some are set and some emptied; members that this program does not know
/// stay.  `clear` holds names as "facts.gravity"; others in it are passed over.
[[nodiscard]] json::object changed_facts(json::object stored,
                                         const std::optional<contract::Facts>& set,
                                         const std::vector<std::string>& clear);

} // namespace barmkeep::ledger
