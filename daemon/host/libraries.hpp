// The shared objects of plugins, each mapped once and never unmapped.
#pragma once

#include "daemon/host/checked_file.hpp"
#include "sdk/abi/barmkeep_plugin.h"

#include <map>
#include <mutex>
#include <optional>

namespace barmkeep::host {

/// Unmapping code is never safe (it may have begun threads or registered thread-local data), so a
/// library stays to the end of the process, and new code of a plugin takes a restart.
/// Thread safety: any thread.
class Libraries {
public:
    explicit Libraries(Trust trust) : trust_{std::move(trust)} {}

    /// Checks and maps a plugin's file and asks it for its description, which the caller checks.
    /// A file mapped before is not mapped again.  The file's own initialisers and its entry run
    /// here, and may never end.
    /// Throws Error(unavailable) for what fails, Error(unavailable, "load_stuck") while another
    /// file's initialisers run, Error(conflict, "needs_restart") if another file stands now where
    /// one was mapped.
    [[nodiscard]] const barmkeep_plugin* load(const std::filesystem::path& file);

private:
    using Entry = const barmkeep_plugin*();
    struct Mapped {
        FileIdentity identity;
        Entry* entry = nullptr;
    };
    class Turn;

    [[nodiscard]] Entry* entry_of(const std::filesystem::path& file);

    const Trust trust_;
    std::map<std::filesystem::path, Mapped> mapped_; ///< of whoever has the turn
    std::mutex mutex_;                               ///< guards what follows
    std::optional<std::filesystem::path> loading_;   ///< whose turn it is
};

} // namespace barmkeep::host
