#include "daemon/ledger/binding.hpp"

#include <charconv>

namespace barmkeep::ledger {
namespace {

unsigned digits(std::string_view text) {
    unsigned number = 0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), number);
    if (end.ec != std::errc{} || end.ptr != text.data() + text.size())
        throw StoreError(StoreErrorCode::damaged, "a stored day cannot be read");
    return number;
}

} // namespace

Date Stored<Date>::take(const Value& value) {
    // By hand, because a shelf has many dates and parse_date() is slow.
    const auto text = Stored<std::string>::take(value);
    if (text.size() != 10 || text[4] != '-' || text[7] != '-')
        throw StoreError(StoreErrorCode::damaged, "a stored day cannot be read");
    const std::string_view all = text;
    return {std::chrono::year{static_cast<int>(digits(all.substr(0, 4)))},
            std::chrono::month{digits(all.substr(5, 2))},
            std::chrono::day{digits(all.substr(8, 2))}};
}

} // namespace barmkeep::ledger
