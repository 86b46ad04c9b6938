#include "daemon/service_manager.hpp"

#include "sdk/method/error.hpp"

#include <cstdlib>
#include <sys/socket.h>
#include <sys/stat.h>
#include <systemd/sd-daemon.h>

namespace barmkeep::daemon {

std::optional<int> inherited_socket() {
    const int count = sd_listen_fds(1);
    if (count <= 0)
        return std::nullopt;
    const bool usable =
        count == 1 && sd_is_socket_unix(SD_LISTEN_FDS_START, SOCK_STREAM, 1, nullptr, 0) > 0;
    if (!usable)
        throw Error(ErrorKind::params, "bad_inherited_socket",
                    "The service manager handed over something else than one listening Unix stream "
                    "socket.",
                    "Check the .socket unit: one ListenStream= with a path.");
    return SD_LISTEN_FDS_START;
}

void tell_ready(const std::string& status) {
    sd_notify(0, ("READY=1\nSTATUS=" + status).c_str());
}
void tell_reloading() {
    sd_notify(0, "RELOADING=1");
}
void tell_stopping(const std::string& status) {
    sd_notify(0, ("STOPPING=1\nSTATUS=" + status).c_str());
}
void tell_alive() {
    sd_notify(0, "WATCHDOG=1");
}

std::optional<std::chrono::microseconds> alive_interval() {
    std::uint64_t microseconds = 0;
    if (sd_watchdog_enabled(0, &microseconds) <= 0)
        return std::nullopt;
    return std::chrono::microseconds{microseconds / 2};
}

bool stderr_is_journal() {
    // The journal names the stream it gave us by device and inode.
    const char* named = std::getenv("JOURNAL_STREAM");
    struct stat status {};
    if (named == nullptr || fstat(2, &status) != 0)
        return false;
    return std::to_string(status.st_dev) + ":" + std::to_string(status.st_ino) == named;
}

} // namespace barmkeep::daemon
