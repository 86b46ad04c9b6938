#include "daemon/ledger/error_collector.hpp"

namespace barmkeep::ledger {

void ErrorCollector::add(const Error& error) {
    kind_ = faults_.empty() || kind_ == error.kind() ? error.kind() : ErrorKind::params;
    faults_.insert(faults_.end(), error.faults().begin(), error.faults().end());
}

void ErrorCollector::throw_any() const {
    if (!faults_.empty())
        throw Error(kind_, faults_);
}

} // namespace barmkeep::ledger
