// What every list method shares.
#pragma once

#include "sdk/method/about.hpp"

namespace barmkeep::contract {

/// A list comes in pages: give the `next` of one answer as the `cursor` of the following request.
/// A cursor is opaque; one that the daemon did not make is refused.
inline constexpr std::int64_t page_size_max = 500;
inline constexpr std::int64_t page_size_usual = 100;
/// Room for the longest names that a list is sorted by, in any script.
inline constexpr std::size_t cursor_length_max = 2000;

/// The fields that the params of such a list have beside their own.
struct Page {
    std::int64_t limit = page_size_usual;
    std::optional<std::string> cursor;
    static FieldList fields(auto) {
        return {
            field<&Page::limit>("How many to list in one page.")
                .defaulted()
                .between(1, page_size_max),
            field<&Page::cursor>(
                "Lists the next page: the `next` of the page before. The first page if left out.")
                .length(1, cursor_length_max)};
    }
};
/// The same for its result.
struct NextPage {
    std::optional<std::string> next;
    static FieldList fields(auto) {
        return {field<&NextPage::next>("The cursor of the next page. Left out on the last page.")};
    }
};

} // namespace barmkeep::contract
