// A disk that fails on command: a VFS of SQLite over the system's own.
#pragma once

#include <atomic>
#include <cstdint>
#include <memory>
#include <sqlite3.h>
#include <string>

namespace barmkeep::ledger {

/// Registered under `name()` for as long as it lives; one at a time.
class FaultyDisk {
public:
    FaultyDisk();
    ~FaultyDisk();
    FaultyDisk(const FaultyDisk&) = delete;
    FaultyDisk& operator=(const FaultyDisk&) = delete;

    [[nodiscard]] static std::string name() { return "faulty disk"; }

    std::atomic<bool> syncs_fail{false};  ///< of the log, after its frames are written
    std::atomic<bool> locks_fail{false};  ///< of the log's index
    std::atomic<bool> writes_fail{false}; ///< of the log, for want of room
    /// Nothing is written, and files open for reading only, as on a disk that the system has
    /// mounted again after an error.
    std::atomic<bool> is_read_only{false};
    std::atomic<std::int64_t> log_bytes{0};     ///< how long the log was when last synced
    std::atomic<std::int64_t> log_bytes_now{0}; ///< how long it was written

private:
    sqlite3_vfs* system_;
    std::unique_ptr<sqlite3_vfs> vfs_;
};

} // namespace barmkeep::ledger
