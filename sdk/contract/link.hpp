// Links: what an entry, a lot, a reminder, a record or an event is about.
//
// A link is data that the core keeps, checks and follows.  Nothing is ever read back out of a note
// or a name.  Its far end is an entry, a lot, a brew day, or a record of a plugin's collection:
//
//     Link{"brew", 12}          brew day 12
//     Link{"canning.run", 3}    record 3 of the plugin canning's collection "run"
#pragma once

#include "sdk/method/structure.hpp"

namespace barmkeep::contract {

/// One link.  A method that takes links refuses one to what is not there: Error(not_found,
/// "link_unknown").
struct Link {
    std::string to;          ///< "entry", "lot", "brew", or PLUGIN.COLLECTION
    std::int64_t number = 0; ///< of what stands there; of a lot the number in its code

    bool operator==(const Link&) const = default;
    static FieldList fields(auto) {
        return {field<&Link::to>("What it points to: entry, lot, brew, or a plugin's collection.")
                    .length(3, 80)
                    .like("canning.run"),
                field<&Link::number>("The number of that entry, lot, brew day or record.")
                    .at_least(1)
                    .from_batch()};
    }
};
using Links = std::vector<Link>;
inline constexpr std::size_t links_max = 8;

/// The usual field for links.
template <auto Member>
[[nodiscard]] Field links_field() {
    return field<Member>("What it is about: entries, lots, brew days or a plugin's records. None "
                         "if left out.")
        .defaulted()
        .length(0, links_max);
}

/// The number that the first link to `to` leads to, if there is one.
[[nodiscard]] inline std::optional<std::int64_t> linked(const Links& links, std::string_view to) {
    for (const Link& link : links)
        if (link.to == to)
            return link.number;
    return std::nullopt;
}

} // namespace barmkeep::contract
