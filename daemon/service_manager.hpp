// The protocol with the service manager: readiness, watchdog, sockets handed over.
// Without a service manager every function here does nothing.
#pragma once

#include <chrono>
#include <optional>
#include <string>

namespace barmkeep::daemon {

/// The listening socket that the service manager made for us, if it did; asked again, nothing.
/// Throws Error(params) if it handed over something else.
[[nodiscard]] std::optional<int> inherited_socket();

void tell_ready(const std::string& status);
void tell_reloading();
void tell_stopping(const std::string& status);
void tell_alive();

/// How often to say that we live: half of what the service manager waits; nothing if it does not
/// watch.
[[nodiscard]] std::optional<std::chrono::microseconds> alive_interval();

/// Whether standard error goes to the journal.
[[nodiscard]] bool stderr_is_journal();

} // namespace barmkeep::daemon
