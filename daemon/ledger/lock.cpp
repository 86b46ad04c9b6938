#include "daemon/ledger/lock.hpp"

#include "sdk/method/error.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>

namespace barmkeep::ledger {

InstanceLock::InstanceLock(const std::filesystem::path& ledger_file) {
    const std::string path = ledger_file.string() + ".lock";
    handle_ = Descriptor{
        ::open(path.c_str(), O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, S_IRUSR | S_IWUSR)};
    if (!handle_)
        throw Error(
            ErrorKind::unavailable, "cannot_lock",
            fmt::format("The lock file {} cannot be opened: {}.", path, std::strerror(errno)),
            "Check that the folder exists and belongs to the daemon's user.");
    if (::flock(handle_.get(), LOCK_EX | LOCK_NB) == 0)
        return;
    if (errno == EWOULDBLOCK)
        throw Error(ErrorKind::unavailable, "in_use",
                    fmt::format("Another daemon uses the ledger {} (it holds the lock {}).",
                                ledger_file.string(), path),
                    "Stop that daemon first, or connect to its socket.");
    throw Error(ErrorKind::unavailable, "cannot_lock",
                fmt::format("The lock file {} cannot be locked: {}.", path, std::strerror(errno)));
}

} // namespace barmkeep::ledger
