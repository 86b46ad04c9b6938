#include "daemon/ledger/copies.hpp"

#include "daemon/ledger/check.hpp"
#include "daemon/ledger/disk.hpp"
#include "daemon/ledger/lock.hpp"
#include "daemon/ledger/schema.hpp"
#include "daemon/ledger/store_error.hpp"

#include <algorithm>
#include <array>
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
                    fmt::format("'{}' is not the absolute path of a file.", file.string()),
                    "Give the whole path, such as /var/backups/cellar.db.", "/file");
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(file, ignored)))
        throw Error(ErrorKind::conflict, "file_exists",
                    fmt::format("The file {} already exists.", file.string()),
                    "Give the name of a new file, or move that one away.", "/file");
}

/// A name beside the ledger that is not taken.
path place_for_replaced(const path& ledger_file) {
    for (int i = 1;; ++i) {
        path kept = beside(ledger_file, fmt::format(".replaced-{}", i));
        if (!std::filesystem::exists(kept))
            return kept;
    }
}

/// What SQLite may keep beside a file and read with it.
constexpr std::array logs{"-wal", "-journal"};

bool has_log(const path& file) {
    return std::any_of(logs.begin(), logs.end(), [&](const char* ending) {
        return std::filesystem::exists(beside(file, ending));
    });
}

bool is_whole(const path& file) {
    Store store{{file, true, {}, 0}}; // a reading one leaves the log alone
    std::string found;
    store.each("PRAGMA quick_check(1)", {}, [&](const Row& row) { take_row(row, found); });
    return found == "ok";
}

/// Moves what is in the log beside a ledger into its file.  A damaged one stays as it is, with its
/// log beside it: moving the one into the other could spoil both.
void gather_log(const path& ledger_file) {
    if (!has_log(ledger_file))
        return;
    try {
        if (is_whole(ledger_file))
            Store{{ledger_file, false, {}, 0}}.checkpoint();
    } catch (const StoreError&) {
        // Too damaged to be opened.
    }
}

/// Gives a ledger, and the log that could not be gathered, a second name.
void keep_replaced(const path& ledger_file) {
    const path kept = place_for_replaced(ledger_file);
    std::filesystem::create_hard_link(ledger_file, kept);
    for (const char* ending : logs)
        if (std::filesystem::exists(beside(ledger_file, ending)))
            std::filesystem::create_hard_link(beside(ledger_file, ending), beside(kept, ending));
    sync_folder(ledger_file.parent_path());
}

/// The ledger's file is never missing on the way: a daemon that started then would begin an empty
/// cellar.  Nor is it ever without its log, but for a damaged one, which is whole under the name
/// it is kept by.
void swap_in(const path& fresh, const path& ledger_file) {
    gather_log(ledger_file);
    if (std::filesystem::exists(ledger_file))
        keep_replaced(ledger_file);
    // The old log's frames must never meet the new file.
    for (const char* ending : logs)
        std::filesystem::remove(beside(ledger_file, ending));
    std::filesystem::remove(beside(ledger_file, "-shm"));
    std::filesystem::rename(fresh, ledger_file);
    sync_folder(ledger_file.parent_path());
}

/// Copies a ledger that nobody writes to a new file; what is only in the log beside it comes along.
void copy_whole(const path& from, const path& to) {
    Store store{{std::filesystem::absolute(from), true, {}, 0}};
    store.run("BEGIN");
    copy_store(store, to, [](int, int) {});
    sync_file(to);
}

} // namespace

contract::LedgerBackup::Result make_copy(Store& from, const Call& call,
                                         const contract::LedgerBackup::Params& params) {
    const path file{params.file};
    check_place(file);
    const Unfinished copy{beside(file, ".unfinished")};
    int pages = 1;
    copy_store(from, copy.file(), [&](int done, int total) {
        stop_if_cancelled(call.cancelled);
        pages = total;
        send_progress(call, done, total, "copying");
    });
    sync_file(copy.file());
    send_progress(call, pages, pages, "checking the copy");
    const std::int64_t entries = check_copy(copy.file());
    move_to_new(copy.file(), file);
    return {file.string(), static_cast<std::int64_t>(std::filesystem::file_size(file)), entries};
}

std::int64_t check_copy(const path& file) {
    try {
        Store store{{std::filesystem::absolute(file), true, {}, 0}};
        if (schema_version_of(store) == 0)
            throw Error(ErrorKind::unavailable, "not_a_ledger",
                        fmt::format("{} does not contain a ledger.", file.string()),
                        "Name a copy made with: barm ledger backup");
        const auto found = check_ledger(View{store, Instant{}}, {});
        if (!found.sound)
            throw Error(ErrorKind::unavailable, "damaged",
                        fmt::format("The ledger in {} is damaged: {}", file.string(),
                                    found.faults.front().what),
                        "Use another copy.");
        return found.entries;
    } catch (const StoreError& fault) {
        const Error error = error_of(fault);
        throw Error(ErrorKind::unavailable, error.reason(),
                    fmt::format("{} cannot be used: {}", file.string(), fault.what()),
                    "Name a copy made with: barm ledger backup");
    }
}

void put_in_place(const path& copy, const path& ledger_file) {
    const path ledger = prepare_folder(ledger_file);
    const InstanceLock lock{ledger};
    const std::int64_t entries = check_copy(copy);
    try {
        const Unfinished fresh{beside(ledger, ".restoring")};
        copy_whole(copy, fresh.file());
        if (const std::int64_t arrived = check_copy(fresh.file()); arrived != entries)
            throw Error(ErrorKind::unavailable, "copy_differs",
                        fmt::format("{} contains {} entries, but the copy contains {}.",
                                    copy.string(), entries, arrived),
                        "Make sure that no program writes to that file, then restore again.");
        swap_in(fresh.file(), ledger);
    } catch (const StoreError& fault) {
        throw error_of(fault);
    } catch (const std::filesystem::filesystem_error& error) {
        throw Error(ErrorKind::unavailable, "disk_failed", error.what(),
                    "Make room on the disk, and check the owner of the files.");
    }
}

} // namespace barmkeep::ledger
