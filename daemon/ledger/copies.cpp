#include "daemon/ledger/copies.hpp"

#include "daemon/ledger/check.hpp"
#include "daemon/ledger/disk.hpp"
#include "daemon/ledger/faults.hpp"
#include "daemon/ledger/lock.hpp"
#include "daemon/ledger/schema.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

using std::filesystem::path;

/// Removes a file that was not finished.
class Unfinished {
public:
    explicit Unfinished(path file) : file_{std::move(file)} { make_new_file(file_); }
    ~Unfinished() {
        std::error_code ignored;
        std::filesystem::remove(file_, ignored);
    }
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;
    [[nodiscard]] const path& file() const noexcept { return file_; }

private:
    path file_;
};

path beside(const path& file, std::string_view ending) {
    return path{file}.concat(ending);
}

void check_place(const path& file) {
    if (!file.is_absolute() || !file.has_filename())
        throw Error(ErrorKind::params, "not_absolute",
                    fmt::format("'{}' is no absolute path of a file.", file.string()),
                    "Write the whole path, as in /var/backups/cellar.db.", "/file");
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(file, ignored)))
        throw Error(ErrorKind::conflict, "file_exists",
                    fmt::format("{} is there already.", file.string()),
                    "Name a new file, or move that one away.", "/file");
}

/// A name beside the ledger that is not taken.
path place_for_replaced(const path& ledger_file) {
    for (int i = 1;; ++i) {
        path kept = beside(ledger_file, fmt::format(".replaced-{}", i));
        if (!std::filesystem::exists(kept))
            return kept;
    }
}

/// The ledger's file is never missing on the way: a daemon that started then would begin an empty
/// cellar.
void swap_in(const path& fresh, const path& ledger_file) {
    const path log = beside(ledger_file, "-wal");
    if (std::filesystem::exists(ledger_file)) {
        const path kept = place_for_replaced(ledger_file);
        std::filesystem::create_hard_link(ledger_file, kept);
        if (std::filesystem::exists(log))
            std::filesystem::rename(log, beside(kept, "-wal"));
    }
    // The old log's frames must never meet the new file.
    std::filesystem::remove(log);
    std::filesystem::remove(beside(ledger_file, "-shm"));
    std::filesystem::rename(fresh, ledger_file);
    sync_folder(ledger_file.parent_path());
}

} // namespace

contract::LedgerBackup::Result make_copy(Store& from, const Call& call,
                                         const contract::LedgerBackup::Params& params) {
    const path file{params.file};
    check_place(file);
    const Unfinished copy{beside(file, ".unfinished")};
    copy_store(from, copy.file(), [&](int done, int total) {
        stop_if_cancelled(call.cancelled);
        send_progress(call, done, total, "copying");
    });
    sync_file(copy.file());
    send_progress(call, 1, 1, "checking the copy");
    const std::int64_t entries = check_copy(copy.file());
    move_to_new(copy.file(), file);
    return {file.string(), static_cast<std::int64_t>(std::filesystem::file_size(file)), entries};
}

std::int64_t check_copy(const path& file) {
    try {
        Store store{{std::filesystem::absolute(file), true, {}, 0}};
        if (schema_version_of(store) == 0)
            throw Error(ErrorKind::unavailable, "not_a_ledger",
                        fmt::format("{} holds no ledger.", file.string()),
                        "Name a copy made by ledger.backup.");
        const auto found = check_ledger(View{store, Instant{}}, {});
        if (!found.sound)
            throw Error(ErrorKind::unavailable, "damaged",
                        fmt::format("{} is not sound: {}", file.string(), found.faults.front()),
                        "Use another copy.");
        return found.entries;
    } catch (const StoreFault& fault) {
        const Error error = error_of(fault);
        throw Error(ErrorKind::unavailable, error.reason(),
                    fmt::format("{} cannot be used: {}", file.string(), fault.what()),
                    "Name a copy made by ledger.backup.");
    }
}

void put_in_place(const path& copy, const path& ledger_file) {
    const path ledger = prepare_folder(ledger_file);
    const InstanceLock lock{ledger};
    check_copy(copy);
    try {
        const Unfinished fresh{beside(ledger, ".restoring")};
        std::filesystem::copy_file(copy, fresh.file(),
                                   std::filesystem::copy_options::overwrite_existing);
        sync_file(fresh.file());
        check_copy(fresh.file());
        swap_in(fresh.file(), ledger);
    } catch (const std::filesystem::filesystem_error& error) {
        throw Error(ErrorKind::unavailable, "disk_failed", error.what(),
                    "Make room, and check who owns the files.");
    }
}

} // namespace barmkeep::ledger
