#include "daemon/ledger/currency.hpp"

#include <string>

namespace barmkeep::ledger {

bool is_currency(std::string_view code) {
    if (code.size() != 3 || code.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") != code.npos)
        return false;
    // Every row begins with the code, and no other line with three capitals and a comma.
    return currency_table().find("\n" + std::string(code) + ",") != std::string_view::npos;
}

} // namespace barmkeep::ledger
