#include "daemon/ledger/disk.hpp"

#include "sdk/method/error.hpp"
#include "sdk/system/descriptor.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>

namespace barmkeep::ledger {
namespace {

using std::filesystem::path;

[[noreturn]] void fail(const path& file, std::string_view what) {
    throw Error(ErrorKind::unavailable, "disk_failed",
                fmt::format("{} cannot be {}: {}.", file.string(), what, std::strerror(errno)),
                "Make room on the disk, and check the owner of the folder.");
}

void sync(const path& file, int flags) {
    const Descriptor handle{::open(file.c_str(), flags | O_CLOEXEC)};
    if (!handle || ::fsync(handle.get()) != 0)
        fail(file, "synced");
}

} // namespace

path prepare_folder(const path& file) {
    std::error_code failed;
    const auto whole = std::filesystem::absolute(file);
    const auto folder = std::filesystem::canonical(whole.parent_path(), failed);
    if (failed)
        throw Error(ErrorKind::unavailable, "no_folder",
                    fmt::format("The ledger's folder {} cannot be used: {}.",
                                whole.parent_path().string(), failed.message()),
                    "Make the folder; the daemon's user must own it, with mode 0700.");
    return folder / whole.filename();
}

void make_new_file(const path& file) {
    std::error_code ignored;
    std::filesystem::remove(file, ignored);
    const Descriptor handle{::open(
        file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, S_IRUSR | S_IWUSR)};
    if (!handle)
        fail(file, "created");
}

void sync_file(const path& file) {
    sync(file, O_RDONLY);
}

void sync_folder(const path& folder) {
    sync(folder, O_RDONLY | O_DIRECTORY);
}

void move_to_new(const path& from, const path& to) {
    int outcome = ::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE);
    // Some file systems do not know how; there the check made before has to do.
    if (outcome != 0 && errno == EINVAL && !std::filesystem::exists(to))
        outcome = ::rename(from.c_str(), to.c_str());
    if (outcome != 0 && errno == EEXIST)
        throw Error(ErrorKind::conflict, "file_exists",
                    fmt::format("The file {} already exists.", to.string()),
                    "Give the name of a new file, or move that one away.", "/file");
    if (outcome != 0)
        fail(to, "created");
    sync_folder(to.parent_path());
}

} // namespace barmkeep::ledger
