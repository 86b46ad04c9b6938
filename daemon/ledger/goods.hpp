// Goods: what a cellar can hold.
#pragma once

#include "daemon/ledger/view.hpp"

namespace barmkeep::ledger {

struct KnownGood {
    std::int64_t number = 0;
    contract::Good good;
};

/// By name, in whatever case; nothing if there is none.
[[nodiscard]] std::optional<KnownGood> find_good(const View& view, const std::string& name);
/// The same, or Error(not_found, "good_unknown") with the nearest name as a hint.
[[nodiscard]] KnownGood require_good(const View& view, const std::string& name,
                                     std::string_view pointer);

/// What is known, the facts in `over` before those in `under`.
[[nodiscard]] contract::Facts overlay(const contract::Facts& under, const contract::Facts& over);

[[nodiscard]] std::string stored_facts(const contract::Facts& facts);
[[nodiscard]] contract::Facts facts_from(const std::string& stored);

} // namespace barmkeep::ledger
