#include "daemon/sources/source_methods.hpp"

#include "daemon/sources/source_sheets.hpp"
#include "sdk/brewing/sources.hpp"
#include "sdk/contract/safety_sources.hpp"
#include "sdk/method/nearest.hpp"
#include "sdk/sheet/maker.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <tuple>

namespace barmkeep::sources {
namespace {

constexpr std::string_view safety_use = "safety texts of canning and of opening a jar";

/// Sorts S9 before S10: the letters, the number after them, and what follows.
std::tuple<std::string_view, int, std::string_view> order_of(const contract::Source& source) {
    const std::string_view key = source.key;
    const std::size_t digits = std::min(key.find_first_of("0123456789"), key.size());
    int number = 0;
    const auto end = std::from_chars(key.data() + digits, key.data() + key.size(), number).ptr;
    return {key.substr(0, digits), number, key.substr(static_cast<std::size_t>(end - key.data()))};
}

} // namespace

std::vector<contract::Source> all_sources() {
    std::vector<contract::Source> all;
    for (const auto& one : brewing::sources())
        all.push_back({std::string(one.key), std::string(one.what), std::string(one.used_for), {}});
    for (const auto& one : brewing::statements())
        all.push_back({one.key, one.what, one.used_for, one.source});
    for (const auto& one : contract::safety_sources)
        all.push_back({std::string(one.key), std::string(one.title), std::string(safety_use), {}});
    std::ranges::sort(all, {}, order_of);
    return all;
}

contract::Source source_with(const std::string& key) {
    const auto all = all_sources();
    const auto found = std::ranges::find(all, key, &contract::Source::key);
    if (found != all.end())
        return *found;
    std::vector<std::string> keys;
    for (const auto& one : all)
        keys.push_back(one.key);
    const auto near = nearest(key, keys);
    throw Error(ErrorKind::not_found, "no_such_source",
                fmt::format("There is no source with the key '{}'.", key),
                near ? fmt::format("Did you mean {0}? barm source show {0}", *near)
                     : "See all keys: barm source list",
                "/key");
}

void add_source_methods(MethodTable& table) {
    add_direct<contract::SourceShow>(
        table, "core",
        [](const Call&, const contract::SourceShow::Params& params) {
            return source_with(params.key);
        },
        sheet::maker<contract::SourceShow>(&show_sheet));
    add_direct<contract::SourceList>(
        table, "core",
        [](const Call&, const Nothing&) { return contract::SourceList::Result{all_sources()}; },
        sheet::maker<contract::SourceList>(&list_sheet));
}

} // namespace barmkeep::sources
