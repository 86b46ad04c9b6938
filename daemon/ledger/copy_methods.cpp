#include "daemon/ledger/check.hpp"
#include "daemon/ledger/copies.hpp"
#include "daemon/ledger/methods.hpp"

namespace barmkeep::ledger {
namespace {

contract::LedgerCheck::Result check(const View& view, const Call& call, const Nothing&) {
    return check_ledger(view, call);
}

contract::LedgerBackup::Result backup(const View& view, const Call& call,
                                      const contract::LedgerBackup::Params& params) {
    return make_copy(view.store(), call, params);
}

} // namespace

void add_copies(Methods& methods) {
    methods.reads_long<contract::LedgerCheck>(&check);
    methods.reads_long<contract::LedgerBackup>(&backup);
}

} // namespace barmkeep::ledger
