// Opening a plugin's file only if nobody but the trusted could have put it there.
#pragma once

#include "sdk/system/descriptor.hpp"

#include <cstdint>
#include <filesystem>
#include <set>
#include <sys/types.h>

namespace barmkeep::host {

/// Whose files are loaded.  What is loaded runs with all the rights of the daemon, so this is the
/// daemon's own trust.
struct Trust {
    /// Root and the daemon's own user.
    [[nodiscard]] static Trust usual();

    std::set<uid_t> owners;
    /// The first folder that is checked; those above it are taken as they are.  Only tests, whose
    /// folders lie in a place where everybody may write, set it to another than the root.
    std::filesystem::path checked_from = "/";
};

/// Shows whether a file is still the one that was loaded.
struct FileIdentity {
    dev_t device = 0;
    ino_t number = 0;
    off_t size = 0;
    std::int64_t changed_ns = 0;
    friend bool operator==(const FileIdentity&, const FileIdentity&) = default;
};

/// A plugin's file, open; what was checked is what is loaded, whatever happens to the name
/// meanwhile.  Thread safety: one thread at a time.
class CheckedFile {
public:
    /// Opens a file after checking that its path is absolute and holds no symbolic link; that every
    /// folder down to it, and itself, belongs to a trusted owner and can be written by no one else
    /// (a sticky folder for everybody is not good enough); that it is a regular file with one name.
    /// Throws Error(unavailable) that names the path, the owner and the mode.
    CheckedFile(const std::filesystem::path& file, const Trust& trust);

    [[nodiscard]] const FileIdentity& identity() const noexcept { return identity_; }
    /// The path by which the open file can be loaded.
    [[nodiscard]] std::filesystem::path loadable_path() const;
    /// Leaves the file open to the end of the process.
    void keep_open() noexcept { [[maybe_unused]] const int left = descriptor_.release(); }

private:
    Descriptor descriptor_;
    FileIdentity identity_;
};

} // namespace barmkeep::host
