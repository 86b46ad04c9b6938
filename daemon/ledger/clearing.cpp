#include "daemon/ledger/clearing.hpp"

#include <algorithm>
#include <fmt/ranges.h>

namespace barmkeep::ledger {

void check_clear(const std::vector<std::string>& clear, const std::vector<std::string>& fields,
                 bool has_facts) {
    std::vector<std::string> known = fields;
    if (has_facts)
        for (const Field& field : fields_of<contract::Facts>())
            known.push_back(fmt::format("facts.{}", field.name));
    for (std::size_t i = 0; i < clear.size(); ++i)
        if (!is_cleared(known, clear[i]))
            throw Error(ErrorKind::params, "not_clearable",
                        fmt::format("'{}' cannot be cleared here.", clear[i]),
                        known.empty() ? "Nothing can be cleared here."
                                      : fmt::format("You can clear: {}.", fmt::join(known, ", ")),
                        fmt::format("/clear/{}", i));
}

void refuse_both(bool is_given, std::string_view field, const std::vector<std::string>& clear) {
    if (is_given && is_cleared(clear, field))
        throw Error(ErrorKind::params, "given_and_cleared",
                    fmt::format("'{}' is given a value and emptied at once.", field),
                    "Leave one of the two out.", "/clear");
}

bool is_cleared(const std::vector<std::string>& clear, std::string_view field) {
    return std::find(clear.begin(), clear.end(), field) != clear.end();
}

} // namespace barmkeep::ledger
