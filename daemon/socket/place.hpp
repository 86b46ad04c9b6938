// Where the socket stands in the file system, and how it gets there without a race.
#pragma once

#include "sdk/system/descriptor.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <sys/types.h>

namespace barmkeep::socket {

/// Longest path of a socket that a client can name: `sun_path` holds 108 bytes with its NUL.
inline constexpr std::size_t path_bytes_max = 107;

struct Place {
    std::filesystem::path path;
    mode_t mode = 0600;         ///< who may connect needs write permission
    std::optional<gid_t> group; ///< nothing: the group of the process
};

/// Throws Error(params, "bad_socket_path") for a path at which no socket can stand.
void check_path(const std::filesystem::path& path);

/// A listening socket and its name, which goes with it.
class Bound {
public:
    /// Takes the name for itself and listens.
    ///
    /// The folder must exist, belong to us or root, and be writable by nobody else.  A lock file
    /// beside the socket shows whether another daemon lives; only its holder replaces the name, so
    /// that a socket left over from a crash is no hindrance and a live one is never stolen.
    /// Throws Error(conflict, "already_running") for a live one, as check_path() for the path,
    /// Error(refused) where rights are in the way, and Error(unavailable) for everything else; each
    /// names the path and the cause.
    [[nodiscard]] static Bound at(const Place& place);
    /// Takes a listening socket that another process made (socket activation).  Its name is left
    /// alone.  Throws Error(params) if it is no listening Unix stream socket.
    [[nodiscard]] static Bound inherited(int number);

    ~Bound();
    Bound(Bound&&) noexcept = default;
    Bound& operator=(Bound&&) noexcept = default;

    /// Where clients find it; empty for an inherited socket that has no name in the file system.
    [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }
    /// Hands the listening socket over; the name and the lock stay here.
    [[nodiscard]] int release() noexcept { return listener_.release(); }
    /// Takes the name away, so that no one connects any more.  Again: without effect.
    void remove_name() noexcept;

private:
    Bound() = default;

    Descriptor listener_;
    Descriptor folder_;
    Descriptor lock_;
    std::filesystem::path path_;
    std::string name_; ///< in the folder; empty: not ours
    ino_t inode_ = 0;
};

} // namespace barmkeep::socket
