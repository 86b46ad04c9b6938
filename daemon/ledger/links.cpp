#include "daemon/ledger/links.hpp"

#include "sdk/method/error.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace barmkeep::ledger {
namespace {

using contract::Link;
using contract::Links;

bool is_there(const View& view, const Link& link) {
    if (link.to == "entry")
        return view.number("SELECT count(*) FROM entry WHERE sequence = ?", link.number) != 0;
    if (link.to == "lot")
        return view.number("SELECT count(*) FROM lot WHERE number = ?", link.number) != 0;
    if (link.to == "brew")
        return view.number("SELECT count(*) FROM brew WHERE number = ?", link.number) != 0;
    const auto dot = link.to.find('.');
    if (dot == std::string::npos)
        return false;
    return view.number("SELECT count(*) FROM record WHERE owner = ? AND collection = ? "
                       "AND number = ?",
                       link.to.substr(0, dot), link.to.substr(dot + 1), link.number) != 0;
}

Link read_link(const Row& row) {
    Link link;
    take_row(row, link.to, link.number);
    return link;
}

} // namespace

void check_link(const View& view, const Link& link, const std::string& pointer) {
    if (!is_there(view, link))
        throw Error(
            ErrorKind::not_found, "link_unknown",
            fmt::format("The link leads to {} {}, which does not exist.", link.to, link.number),
            "Link to an existing entry, lot, brew day, or record of a plugin.", pointer);
}

void check_links(const View& view, const Links& links, const std::string& pointer) {
    for (std::size_t i = 0; i < links.size(); ++i)
        check_link(view, links[i], fmt::format("{}/{}", pointer, i));
}

void check_own_links(const View& view, const Call& call, const Links& links,
                     const std::string& pointer) {
    for (std::size_t i = 0; i < links.size(); ++i) {
        const auto dot = links[i].to.find('.');
        if (dot != std::string::npos && links[i].to.substr(0, dot) != call.caller.plugin)
            throw Error(ErrorKind::refused, "not_its_own",
                        fmt::format("Only the plugin {} may link to {}.",
                                    links[i].to.substr(0, dot), links[i].to),
                        "Leave the link out.", fmt::format("{}/{}", pointer, i));
    }
    check_links(view, links, pointer);
}

void add_links(Transaction& transaction, LinkSource source, std::int64_t number,
               const Links& links) {
    for (const Link& link : links)
        transaction.run("INSERT OR IGNORE INTO link (source, source_number, target, "
                        "target_number) VALUES (?, ?, ?, ?)",
                        source, number, link.to, link.number);
}

void drop_links(Transaction& transaction, LinkSource source, std::int64_t number) {
    transaction.run("DELETE FROM link WHERE source = ? AND source_number = ?", source, number);
}

Links links_of(const View& view, LinkSource source, std::int64_t number) {
    return view.all("SELECT target, target_number FROM link "
                    "WHERE source = ? AND source_number = ? ORDER BY target, target_number",
                    read_link, source, number);
}

std::map<std::int64_t, Links> links_of(const View& view, LinkSource source,
                                       const std::vector<std::int64_t>& numbers) {
    std::map<std::int64_t, Links> all;
    view.each(
        "SELECT source_number, target, target_number FROM link WHERE source = ?1 "
        "AND source_number IN (SELECT value FROM json_each(?2)) ORDER BY target, target_number",
        [&](const Row& row) {
            std::int64_t number = 0;
            Link link;
            take_row(row, number, link.to, link.number);
            all[number].push_back(std::move(link));
        },
        source, number_list(numbers));
    return all;
}

std::string number_list(const std::vector<std::int64_t>& numbers) {
    return fmt::format("[{}]", fmt::join(numbers, ","));
}

} // namespace barmkeep::ledger
