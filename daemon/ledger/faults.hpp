// The one place where the ledger's inner failures become errors for a caller.
#pragma once

#include "daemon/ledger/store.hpp"
#include "sdk/method/error.hpp"

#include <exception>

namespace barmkeep::ledger {

/// What a failure of the store is for the caller.
[[nodiscard]] Error error_of(const StoreFault& fault);
/// The same for any exception.
[[nodiscard]] Error error_of(const std::exception_ptr& exception);

/// Whether the daemon had better stop after it: the disk fails or the file is broken.
[[nodiscard]] bool ends_service(const StoreFault& fault) noexcept;

} // namespace barmkeep::ledger
