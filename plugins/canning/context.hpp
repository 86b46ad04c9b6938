// What every method of the plugin is given beside its call and params.
#pragma once

#include "plugins/canning/settings.hpp"
#include "sdk/plugin/declaration.hpp"

namespace barmkeep::canning {

inline constexpr std::string_view canning_owner = "canning";

class Canning;
using Call = plugin::PluginCall;
using Declaration = plugin::Declaration<Canning>;

/// The host, the settings and this start of the plugin. Unchanging once made.
struct Context {
    plugin::Host host;
    Settings settings;
    RunRules run_rules;
    JarRules jar_rules;
    SensibleRange sensible;
    std::string session; ///< a word that no other start of the plugin has
    Instant session_began;
    /// Milliseconds that the machine has run (CLOCK_BOOTTIME), to compare with the host's clock;
    /// nothing where that clock is set by hand, as in a demo.
    std::optional<std::int64_t> (*uptime)() = nullptr;

    [[nodiscard]] std::optional<std::int64_t> uptime_now() const {
        return uptime == nullptr ? std::nullopt : uptime();
    }
};

/// The cellar's local day.
[[nodiscard]] Date today(const Call& call);

} // namespace barmkeep::canning
