// Links: what entries, lots, holds, reminders and records are about.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/contract/link.hpp"
#include "sdk/method/call.hpp"

#include <map>

namespace barmkeep::ledger {

/// What a link starts from; its number is that of the row in the table of the same name.
enum class LinkSource { entry, lot, hold, reminder, record };
constexpr auto enum_names(LinkSource) {
    using N = EnumName<LinkSource>;
    return std::array{N{LinkSource::entry, "entry"}, N{LinkSource::lot, "lot"},
                      N{LinkSource::hold, "hold"}, N{LinkSource::reminder, "reminder"},
                      N{LinkSource::record, "record"}};
}

/// Throws Error(not_found, "link_unknown") for a link to what is not there.
void check_links(const View& view, const contract::Links& links, const std::string& pointer);
/// The same for what stock depends on, entries and holds: there a plugin's record is linked by that
/// plugin alone, because such a link shows who vouches.  Throws Error(refused, "not_its_own")
/// otherwise.
void check_own_links(const View& view, const Call& call, const contract::Links& links,
                     const std::string& pointer);
/// The same for one link that a list is asked for.
void check_link(const View& view, const contract::Link& link, const std::string& pointer);

/// Keeps links; one that is there already stays.  REQUIRES: checked.
void add_links(Transaction& transaction, LinkSource source, std::int64_t number,
               const contract::Links& links);
void drop_links(Transaction& transaction, LinkSource source, std::int64_t number);

[[nodiscard]] contract::Links links_of(const View& view, LinkSource source, std::int64_t number);
/// The links of many at once, by the number that they start from.
[[nodiscard]] std::map<std::int64_t, contract::Links>
links_of(const View& view, LinkSource source, const std::vector<std::int64_t>& numbers);

/// As SQL wants a list of numbers: `WHERE number IN (SELECT value FROM json_each(?))`.
[[nodiscard]] std::string number_list(const std::vector<std::int64_t>& numbers);

} // namespace barmkeep::ledger
