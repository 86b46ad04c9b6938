#include "daemon/socket/place.hpp"

#include "sdk/method/error.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include <cerrno>
#include <cstddef>
#include <cstring>
#include <fmt/format.h>
#include <system_error>
#include <utility>

namespace barmkeep::socket {
namespace {

namespace fs = std::filesystem;

/// For a system call that failed just now.
Error failed(std::string_view what, const fs::path& path) {
    const bool is_forbidden = errno == EACCES || errno == EPERM;
    return {is_forbidden ? ErrorKind::refused : ErrorKind::unavailable, "socket_failed",
            fmt::format("{} {}: {}.", what, path.string(), std::generic_category().message(errno))};
}

Error unsafe_folder(const std::string& message, std::string_view hint) {
    return {ErrorKind::refused, "unsafe_folder", message, hint};
}

Error bad_path(const std::string& message, std::string_view hint) {
    return {ErrorKind::params, "bad_socket_path", message, hint};
}

Descriptor open_folder(const fs::path& folder) {
    Descriptor opened{::open(folder.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC)};
    if (opened.get() < 0)
        throw failed("Cannot open the socket's folder", folder);
    struct stat found {};
    if (::fstat(opened.get(), &found) != 0)
        throw failed("Cannot examine", folder);
    if (found.st_uid != ::geteuid() && found.st_uid != 0)
        throw unsafe_folder(fmt::format("{} belongs to uid {}, not to the daemon (uid {}) or root.",
                                        folder.string(), found.st_uid, ::geteuid()),
                            "Whoever owns the folder could put another socket in its place.");
    if ((found.st_mode & (S_IWGRP | S_IWOTH)) != 0)
        throw unsafe_folder(fmt::format("{} can be written by others (mode {:04o}).",
                                        folder.string(), found.st_mode & 07777),
                            "Use a folder of its own: chmod go-w.");
    return opened;
}

Descriptor take_lock(int folder, const fs::path& path) {
    const std::string name = path.filename().string() + ".lock";
    Descriptor lock{
        ::openat(folder, name.c_str(), O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0600)};
    if (lock.get() < 0)
        throw failed("Cannot open the lock file", path.parent_path() / name);
    if (::flock(lock.get(), LOCK_EX | LOCK_NB) == 0)
        return lock;
    if (errno != EWOULDBLOCK)
        throw failed("Cannot lock", path.parent_path() / name);
    throw Error(ErrorKind::conflict, "already_running",
                fmt::format("Another daemon serves {}.", path.string()),
                "Stop it first, or set another [socket] path.");
}

/// Binds to a name in the opened folder.  The way over /proc keeps the address short and goes to
/// the folder that was checked, even if its path has come to mean another.
void bind_in(int folder, const std::string& name, int listener, const fs::path& path) {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    const std::string target = fmt::format("/proc/self/fd/{}/{}", folder, name);
    if (target.size() > path_bytes_max)
        throw bad_path("The socket's name is too long: " + path.string(),
                       "Set [socket] path to one with a shorter last part.");
    std::memcpy(address.sun_path, target.c_str(), target.size() + 1);
    const auto* generic = reinterpret_cast<const sockaddr*>(&address); // as bind() wants it
    if (::bind(listener, generic, sizeof address) != 0)
        throw failed("Cannot bind", path);
}

Descriptor make_socket(const fs::path& path) {
    Descriptor made{::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0)};
    if (made.get() < 0)
        throw failed("Cannot make a socket for", path);
    return made;
}

/// Under a temporary name until its mode is right and it listens.
void put_in_place(int folder, const std::string& name, int listener, const Place& place) {
    const std::string temporary = fmt::format(".bind-{}", ::getpid());
    ::unlinkat(folder, temporary.c_str(), 0); // of a crash with our number: we hold the lock
    bind_in(folder, temporary, listener, place.path);
    try {
        if (place.group && ::fchownat(folder, temporary.c_str(), static_cast<uid_t>(-1),
                                      *place.group, AT_SYMLINK_NOFOLLOW) != 0)
            throw failed(fmt::format("Cannot give to group {}", *place.group), place.path);
        if (::fchmodat(folder, temporary.c_str(), place.mode, 0) != 0)
            throw failed(fmt::format("Cannot set mode {:04o} of", place.mode), place.path);
        if (::listen(listener, SOMAXCONN) != 0)
            throw failed("Cannot listen on", place.path);
        if (::renameat(folder, temporary.c_str(), folder, name.c_str()) != 0)
            throw failed("Cannot put in place", place.path);
    } catch (const Error&) {
        ::unlinkat(folder, temporary.c_str(), 0);
        throw;
    }
}

int option_of(int number, int option) {
    int value = -1;
    socklen_t size = sizeof value;
    return ::getsockopt(number, SOL_SOCKET, option, &value, &size) == 0 ? value : -1;
}

/// The name a socket is bound to in the file system; empty if it has none there.
std::string path_of(int number) {
    sockaddr_un address{};
    socklen_t size = sizeof address;
    auto* generic = reinterpret_cast<sockaddr*>(&address); // as getsockname() wants it
    if (::getsockname(number, generic, &size) != 0 || size <= offsetof(sockaddr_un, sun_path))
        return {};
    return {address.sun_path, ::strnlen(address.sun_path, sizeof address.sun_path)};
}

} // namespace

void check_path(const fs::path& path) {
    if (!path.is_absolute() || !path.has_filename())
        throw bad_path(fmt::format("The socket's path '{}' is not absolute.", path.string()),
                       "Set [socket] path to one that begins with '/'.");
    if (const auto length = path.native().size(); length > path_bytes_max)
        throw bad_path(fmt::format("The socket's path has {} bytes; the system takes at most {}: "
                                   "{}",
                                   length, path_bytes_max, path.string()),
                       "Set [socket] path to a shorter one.");
}

Bound Bound::at(const Place& place) {
    check_path(place.path);
    Bound bound;
    bound.folder_ = open_folder(place.path.parent_path());
    bound.lock_ = take_lock(bound.folder_.get(), place.path);
    bound.listener_ = make_socket(place.path);
    const std::string name = place.path.filename().string();
    put_in_place(bound.folder_.get(), name, bound.listener_.get(), place);
    struct stat found {};
    if (::fstatat(bound.folder_.get(), name.c_str(), &found, AT_SYMLINK_NOFOLLOW) != 0)
        throw failed("Cannot examine", place.path);
    bound.path_ = place.path;
    bound.name_ = name;
    bound.inode_ = found.st_ino;
    return bound;
}

Bound Bound::inherited(int number) {
    if (option_of(number, SO_DOMAIN) != AF_UNIX || option_of(number, SO_TYPE) != SOCK_STREAM ||
        option_of(number, SO_ACCEPTCONN) != 1)
        throw Error(ErrorKind::params, "bad_inherited_socket",
                    fmt::format("Descriptor {} is not a listening Unix stream socket.", number),
                    "The socket unit needs ListenStream= with a path, and Accept=no.");
    Bound bound;
    bound.path_ = path_of(number);
    bound.listener_ = Descriptor{number};
    return bound;
}

Bound::~Bound() {
    remove_name();
}

void Bound::remove_name() noexcept {
    if (name_.empty() || !folder_)
        return;
    struct stat found {};
    if (::fstatat(folder_.get(), name_.c_str(), &found, AT_SYMLINK_NOFOLLOW) == 0 &&
        found.st_ino == inode_)
        ::unlinkat(folder_.get(), name_.c_str(), 0);
    name_.clear();
}

} // namespace barmkeep::socket
