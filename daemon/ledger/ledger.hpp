// The stock ledger: opens the file, serves the core's methods from it, closes it.
//
// Every request is a method of sdk/contract, reached through a MethodTable; this class only wires
// the rooms behind it: one writer, the readers, the feed of events.
#pragma once

#include "daemon/executor/executor.hpp"
#include "sdk/contract/event.hpp"
#include "sdk/method/call.hpp"
#include "sdk/method/clock.hpp"

#include <filesystem>
#include <spdlog/logger.h>

namespace barmkeep::ledger {

/// Thread safety: `on_event` and `on_fatal` before `add_methods`; the rest from any thread, `stop`
/// from one.
class Ledger {
public:
    struct Options {
        std::filesystem::path file;
        int readers = 4;                              ///< reading connections kept open
        int batch_count_max = 256;                    ///< requests in one commit
        std::size_t batch_bytes_max = 4 << 20;        ///< their params' text
        std::chrono::milliseconds batch_time_max{50}; ///< before it commits what it has
        std::size_t queue_max = 4096;                 ///< requests that may wait
        std::int64_t events_kept = 100'000;           ///< for watchers that come back
        std::int64_t pages_max = 0;                   ///< the file's size in pages; 0: no limit
        std::string vfs{};                            ///< seam for tests: a VFS of SQLite
    };

    /// Opens the file, makes it if it is not there, brings its tables up to date, has it checked.
    /// The clock and the executor, on which it reads, must outlive the ledger.  REQUIRES: the
    /// caller holds the InstanceLock.
    ///
    /// Throws Error(unavailable): "no_folder", "is_symbolic_link", "not_a_database",
    /// "not_a_ledger", "database_newer", "read_only", "damaged", "cannot_open".
    Ledger(Options options, executor::Executor& executor, const Clock& clock,
           std::shared_ptr<spdlog::logger> log);
    ~Ledger();

    /// Adds the ledger's methods, as provider "core".  The table may outlive the ledger: its
    /// methods then answer that it is stopping.
    void add_methods(MethodTable& table);

    /// Called with each event in order, on the writer's thread after its commit and before the
    /// request is answered.  It must be quick, and must not wait for another writing request.
    void on_event(std::function<void(const contract::Event&)> listener);
    /// Called once, on the writer's thread, when it cannot go on: a commit's outcome is unknown or
    /// the disk is lost.  The daemon should stop and be started again.
    void on_fatal(std::function<void(const std::string&)> listener);

    /// Posts `day.begun` if the cellar's local day is another than the last one noted.  To be
    /// called now and then, and whenever a manual clock is set.
    void note_time();

    /// Finishes what waits, checkpoints, closes; later requests get Error(unavailable,
    /// "stopping").  The destructor does it too.
    void stop();

    /// Puts a copy made by ledger.backup in the place of a ledger's file; the file it replaces is
    /// kept beside it as "<file>.replaced-N".  Throws Error(unavailable): "in_use" if a daemon
    /// runs on the file, and if the copy is newer, damaged or no ledger.
    static void restore(const std::filesystem::path& backup, const std::filesystem::path& file);

    [[nodiscard]] int schema_version() const noexcept;
    /// Where the file really is.
    [[nodiscard]] const std::filesystem::path& file() const noexcept;
    /// Transactions committed since it was opened.
    [[nodiscard]] std::int64_t commits() const noexcept;

private:
    struct Rooms;
    std::unique_ptr<Rooms> rooms_;
};

} // namespace barmkeep::ledger
