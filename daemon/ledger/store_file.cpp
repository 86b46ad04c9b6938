#include "daemon/ledger/disk.hpp"
#include "daemon/ledger/store.hpp"
#include "sdk/method/error.hpp"
#include "sdk/system/descriptor.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>

namespace barmkeep::ledger {

std::filesystem::path prepare_file(const std::filesystem::path& file) {
    auto path = prepare_folder(file);
    // Nothing may hold locks on the file yet: closing this handle would drop them.
    const Descriptor handle{::open(
        path.c_str(), O_RDONLY | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, S_IRUSR | S_IWUSR)};
    if (!handle && errno == ELOOP)
        throw Error(ErrorKind::unavailable, "is_symbolic_link",
                    fmt::format("The ledger {} is a symbolic link.", path.string()),
                    "Set ledger.file to the file itself.");
    if (!handle)
        throw Error(
            ErrorKind::unavailable, "cannot_open",
            fmt::format("The ledger {} cannot be opened: {}.", path.string(), std::strerror(errno)),
            "Check the owner and mode of the file and of its folder.");
    struct stat about {};
    if (::fstat(handle.get(), &about) != 0 || !S_ISREG(about.st_mode))
        throw Error(ErrorKind::unavailable, "not_a_file",
                    fmt::format("The ledger {} is not a regular file.", path.string()),
                    "Set ledger.file to another file.");
    return path;
}

} // namespace barmkeep::ledger
