// The shared objects of plugins, each mapped once and never unmapped.
#pragma once

#include "daemon/host/checked_file.hpp"
#include "sdk/abi/barmkeep_plugin.h"

#include <map>

namespace barmkeep::host {

/// Unmapping code is never safe (it may have begun threads or registered thread-local data), so a
/// library stays to the end of the process, and new code of a plugin takes a restart.
/// Thread safety: one thread at a time.
class Libraries {
public:
    explicit Libraries(Trust trust) : trust_{std::move(trust)} {}

    /// Checks and maps a plugin's file and asks it for its description, which the caller checks.
    /// A file mapped before is not mapped again.  The file's own initialisers run here.
    /// Throws Error(unavailable) for what fails, Error(conflict, "needs_restart") if another file
    /// stands now where one was mapped.
    [[nodiscard]] const barmkeep_plugin* load(const std::filesystem::path& file);

private:
    struct Mapped {
        FileIdentity identity;
        const barmkeep_plugin* plugin = nullptr;
    };

    Trust trust_;
    std::map<std::filesystem::path, Mapped> mapped_;
};

} // namespace barmkeep::host
