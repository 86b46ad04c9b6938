#include "daemon/ledger/all_faults.hpp"

namespace barmkeep::ledger {

void AllFaults::add(const Error& error) {
    kind_ = faults_.empty() || kind_ == error.kind() ? error.kind() : ErrorKind::params;
    faults_.insert(faults_.end(), error.faults().begin(), error.faults().end());
}

void AllFaults::throw_any() const {
    if (!faults_.empty())
        throw Error(kind_, faults_);
}

} // namespace barmkeep::ledger
