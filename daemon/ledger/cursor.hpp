// The opaque cursors of lists that come in pages, and the cut between two pages.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace barmkeep::ledger {

/// What the last row of a page was sorted by, part by part; no part has a value before the first
/// page.  Bound to a statement as it is: the column it is compared with decides how it compares.
template <std::size_t parts>
using Place = std::array<std::optional<std::string>, parts>;

/// A cursor for a place in one kind of list: letters, digits, '-' and '_'.
[[nodiscard]] std::string cursor_of(std::string_view list,
                                    std::span<const std::optional<std::string>> place);
/// Fills in the place that a cursor holds.  Throws Error(params, "bad_cursor") for one that was
/// not made here for this kind of list: it carries a check, against slips and not against malice.
void read_place(std::string_view list, std::string_view cursor,
                std::span<std::optional<std::string>> place);

/// Where the page of M that `params` ask for begins.  Throws as read_place().
template <class M, std::size_t parts>
[[nodiscard]] Place<parts> place_after(const typename M::Params& params) {
    Place<parts> place;
    if (params.cursor)
        read_place(M::about.name, *params.cursor, place);
    return place;
}

/// Cuts the rows that were read for M to the page that `params` ask for: one more was read, to see
/// whether there is more.  `place_of` answers the place of a row.  Answers the next page's cursor,
/// if there is one.
template <class M, class Row, class PlaceOf>
[[nodiscard]] std::optional<std::string> cut_page(const typename M::Params& params,
                                                  std::vector<Row>& rows, PlaceOf place_of) {
    if (std::ssize(rows) <= params.limit)
        return std::nullopt;
    rows.resize(static_cast<std::size_t>(params.limit));
    return cursor_of(M::about.name, place_of(rows.back()));
}

} // namespace barmkeep::ledger
