#include "daemon/host/checked_file.hpp"

#include "sdk/method/error.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <linux/openat2.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace barmkeep::host {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(std::string_view reason, const std::string& message,
                         std::string_view hint) {
    throw Error(ErrorKind::unavailable, reason, message, hint);
}

[[noreturn]] void refuse_opening(const fs::path& path, int error) {
    if (error == ELOOP || error == ENOTDIR)
        refuse("symbolic_link",
               fmt::format("{} is a symbolic link, or is not a folder.", path.string()),
               "Set plugins.folders to the real path, and copy plugins into it as files.");
    refuse("cannot_open", fmt::format("{} cannot be opened: {}.", path.string(), strerror(error)),
           "Check that it exists and that the daemon may read it.");
}

/// Opens one name in an open folder, never through a symbolic link.
Descriptor open_in(const Descriptor& folder, const fs::path& name, int flags,
                   const fs::path& whole) {
    open_how how{};
    how.flags = static_cast<std::uint64_t>(flags) | O_CLOEXEC | O_NOFOLLOW;
    how.resolve = RESOLVE_NO_SYMLINKS | RESOLVE_BENEATH;
    int opened =
        static_cast<int>(::syscall(SYS_openat2, folder.get(), name.c_str(), &how, sizeof how));
    // A kernel without openat2: for a single name O_NOFOLLOW says the same.
    if (opened < 0 && errno == ENOSYS)
        opened = ::openat(folder.get(), name.c_str(), flags | O_CLOEXEC | O_NOFOLLOW);
    if (opened < 0)
        refuse_opening(whole, errno);
    return Descriptor{opened};
}

/// Checks the owner and the mode of an open file or folder.
struct stat require_trusted(const Descriptor& opened, const fs::path& path, const Trust& trust) {
    struct stat found {};
    if (::fstat(opened.get(), &found) != 0)
        refuse_opening(path, errno);
    const unsigned mode = found.st_mode & 07777U;
    if (!trust.owners.contains(found.st_uid))
        refuse("foreign_owner",
               fmt::format("{} belongs to uid {} (mode {:04o}). Plugins and their folders must "
                           "belong to root or to the user of the daemon, uid {}.",
                           path.string(), found.st_uid, mode, ::geteuid()),
               "Give the plugin and every folder above it to root: chown root.");
    if ((mode & (S_IWGRP | S_IWOTH)) != 0)
        refuse("writable_by_others",
               fmt::format("{} (uid {}, mode {:04o}) can be written by others than its owner.",
                           path.string(), found.st_uid, mode),
               fmt::format("Remove that right: chmod go-w {}", path.string()));
    return found;
}

/// Opens the folder of a file, checking each step down to it.
Descriptor open_folder(const fs::path& folder, const Trust& trust) {
    Descriptor at{::open(trust.checked_from.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC)};
    if (!at)
        refuse_opening(trust.checked_from, errno);
    require_trusted(at, trust.checked_from, trust);
    fs::path so_far = trust.checked_from;
    for (const auto& name : folder.lexically_relative(trust.checked_from)) {
        if (name == ".")
            continue;
        so_far /= name;
        at = open_in(at, name, O_PATH | O_DIRECTORY, so_far);
        require_trusted(at, so_far, trust);
    }
    return at;
}

bool is_within(const fs::path& folder, const fs::path& root) {
    const fs::path relative = folder.lexically_relative(root);
    return !relative.empty() && *relative.begin() != "..";
}

void require_plain_path(const fs::path& file, const Trust& trust) {
    if (!file.is_absolute() || file != file.lexically_normal() ||
        !is_within(file.parent_path(), trust.checked_from))
        refuse("bad_path", fmt::format("{} is not a plain absolute path.", file.string()),
               "Write the plugin folder as an absolute path without . and .. in it.");
}

void require_one_regular_file(const struct stat& found, const fs::path& file) {
    if (!S_ISREG(found.st_mode))
        refuse("no_regular_file", fmt::format("{} is not a regular file.", file.string()),
               "A plugin is a file NAME.so.");
    if (found.st_nlink != 1)
        refuse(
            "several_names",
            fmt::format("{} (uid {}) has {} names. Somebody could change it through another name.",
                        file.string(), found.st_uid, found.st_nlink),
            "Copy the plugin instead of linking it.");
}

} // namespace

Trust Trust::usual() {
    return {{0, ::geteuid()}, "/"};
}

CheckedFile::CheckedFile(const fs::path& file, const Trust& trust) {
    require_plain_path(file, trust);
    const Descriptor folder = open_folder(file.parent_path(), trust);
    // Without waiting, so that a pipe of that name cannot hold up the daemon.
    descriptor_ = open_in(folder, file.filename(), O_RDONLY | O_NONBLOCK, file);
    const struct stat found = require_trusted(descriptor_, file, trust);
    require_one_regular_file(found, file);
    identity_ = {found.st_dev, found.st_ino, found.st_size,
                 found.st_mtim.tv_sec * 1'000'000'000 + found.st_mtim.tv_nsec};
}

fs::path CheckedFile::loadable_path() const {
    return "/proc/self/fd/" + std::to_string(descriptor_.get());
}

} // namespace barmkeep::host
