#include "sdk/client/connect_fault.hpp"

#include "sdk/client/paths.hpp"

#include <cerrno>
#include <cstring>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

namespace barmkeep::client {
namespace {

constexpr std::string_view how_to_start =
    "Start the daemon with `systemctl --user start barmkeepd` (for the whole system: `sudo "
    "systemctl start barmkeepd`) or by running `barmkeepd`; or name its socket with --socket or "
    "BARMKEEP_SOCKET.";

Error fault(std::string_view reason, const std::string& message, std::string_view hint) {
    return {ErrorKind::unavailable, reason, message, hint};
}

/// "/run/barmkeep has mode 0750, owner uid 990, group 985": of the first folder on the way that
/// may not be entered, or else of the socket itself.
std::string who_may(const std::string& path) {
    std::string looked_at = path;
    for (std::size_t slash = path.find('/', 1); slash != std::string::npos;
         slash = path.find('/', slash + 1))
        if (::access(path.substr(0, slash).c_str(), X_OK) != 0) {
            looked_at = path.substr(0, slash);
            break;
        }
    struct stat facts {};
    if (::stat(looked_at.c_str(), &facts) != 0)
        return looked_at + " cannot be looked at";
    return fmt::format("{} has mode {:04o}, owner uid {}, group {}", looked_at,
                       facts.st_mode & 07777U, facts.st_uid, facts.st_gid);
}

bool is_no_socket(const std::string& path) {
    struct stat facts {};
    return ::stat(path.c_str(), &facts) == 0 && !S_ISSOCK(facts.st_mode);
}

} // namespace

Error path_too_long(const std::string& path) {
    return fault("path_too_long",
                 fmt::format("The socket's path has {} bytes; a socket's path can have {}.",
                             path.size(), socket_path_length_max),
                 "Choose a shorter path: " + path);
}

Error connect_fault(const std::string& path, int error_number) {
    if (error_number == ENOENT || error_number == ENOTDIR)
        return fault("no_socket", fmt::format("There is no socket at {}.", path), how_to_start);
    if (error_number == ECONNREFUSED && is_no_socket(path))
        return fault("not_a_socket", fmt::format("{} is no socket.", path),
                     "Name the daemon's socket with --socket or BARMKEEP_SOCKET.");
    if (error_number == ECONNREFUSED)
        return fault("nobody_listens",
                     fmt::format("There is a socket at {}, but no daemon listens on it.", path),
                     how_to_start);
    if (error_number == EACCES || error_number == EPERM)
        return fault("no_permission",
                     fmt::format("You (uid {}) may not connect to {}: {}.", ::geteuid(), path,
                                 who_may(path)),
                     "Ask the cellar's owner to add you to the group of the socket.");
    if (error_number == EAGAIN)
        return fault("timed_out", fmt::format("The daemon at {} accepts no connections now.", path),
                     "Try again later, or wait longer with --time-out.");
    return fault("no_connection",
                 fmt::format("No connection to {}: {}.", path, std::strerror(error_number)),
                 how_to_start);
}

} // namespace barmkeep::client
