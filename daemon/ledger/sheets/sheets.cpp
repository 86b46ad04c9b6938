// Which of the ledger's methods has which sheet.
#include "daemon/ledger/sheets/sheets.hpp"

#include "daemon/ledger/methods.hpp"

namespace barmkeep::ledger {

void add_sheets(Methods& methods) {
    using namespace contract;
    methods.sheet<CellarGlance>(&sheets::glance);
    methods.sheet<StockList>(&sheets::stock);
}

} // namespace barmkeep::ledger
