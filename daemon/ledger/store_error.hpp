// The one place that turns the store's errors into errors for a caller.
#pragma once

#include "daemon/ledger/store.hpp"
#include "sdk/method/error.hpp"

#include <exception>

namespace barmkeep::ledger {

/// The error for the caller.
[[nodiscard]] Error error_of(const StoreError& fault);
/// The same for any exception.
[[nodiscard]] Error error_of(const std::exception_ptr& exception);

/// Whether the daemon must stop after it: the disk fails or the file is damaged.
[[nodiscard]] bool ends_service(const StoreError& fault) noexcept;

} // namespace barmkeep::ledger
