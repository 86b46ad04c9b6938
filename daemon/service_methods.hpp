// The methods of the running service itself.
#pragma once

#include "daemon/settings/sources.hpp"
#include "sdk/method/call.hpp"
#include "sdk/method/clock.hpp"

#include <functional>
#include <mutex>

namespace barmkeep::daemon {

/// The settings in force.  Thread safety: any thread.
class LiveSettings {
public:
    LiveSettings(SettingSources sources, SettingsInForce settings)
        : sources_{std::move(sources)}, in_force_{std::move(settings)} {}

    [[nodiscard]] std::vector<contract::Setting> listed() const;
    /// Reads the sources again.  What can change while running is handed to `apply`; the rest is
    /// listed as needing a restart.  Throws Error with all faults, and then nothing has changed.
    contract::ServiceReload::Result reload(const std::function<void(const Settings&)>& apply);

private:
    mutable std::mutex mutex_;
    SettingSources sources_;
    SettingsInForce in_force_;
};

/// What the service's methods ask of the rest.
struct ServiceFacts {
    const Clock& clock;
    ManualClock* manual_clock; ///< null with the system's clock: then there is no clock.set
    LiveSettings& settings;
    std::int64_t schema;
    std::string store;
    std::string socket;
    std::function<std::int64_t()> connections;
    std::function<std::vector<contract::LaneStatus>()> lanes;
    std::function<void(const Settings&)> apply; ///< brings changed settings into force
    std::function<void()> time_changed;         ///< after clock.set
};

/// Adds service.status, service.settings, service.reload and, with a manual clock, clock.set.
/// REQUIRES: what `facts` refers to outlives the table's last call.
void add_service_methods(MethodTable& table, const ServiceFacts& facts);

} // namespace barmkeep::daemon
