#include "sdk/client/connection.hpp"

#include "sdk/client/connect_fault.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fmt/format.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>
#include <utility>

namespace barmkeep::client {
namespace {

using std::chrono::milliseconds;

/// Milliseconds as poll takes them, rounded up so that it does not spin before the deadline.
int left_until(Deadline deadline) {
    const auto left =
        std::chrono::ceil<milliseconds>(deadline - std::chrono::steady_clock::now()).count();
    return static_cast<int>(std::clamp<long long>(left, 0, 3'600'000));
}

bool is_past(Deadline deadline) {
    return std::chrono::steady_clock::now() >= deadline;
}

sockaddr_un address_of(const std::string& path) {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    if (path.size() >= sizeof address.sun_path)
        throw path_too_long(path);
    std::memcpy(address.sun_path, path.data(), path.size());
    return address;
}

/// The error number of connecting; 0 if it worked.  A full queue of the listener is no refusal:
/// it is tried again until the deadline.
int try_connect(int descriptor, const sockaddr_un& address, Deadline deadline) {
    for (;;) {
        if (::connect(descriptor, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0)
            return 0;
        const int error = errno;
        if (error == EINTR)
            continue;
        if (error != EAGAIN || is_past(deadline))
            return error;
        // The queue offers nothing to wait on, so it is asked again a little later.
        [[maybe_unused]] const auto waited =
            wait_for(-1, 0, std::min(deadline, after(milliseconds{10})), nullptr);
    }
}

} // namespace

Deadline after(milliseconds time) {
    return std::chrono::steady_clock::now() + time;
}

Waited wait_for(int descriptor, short events, Deadline deadline, const Interruption* interruption) {
    for (;;) {
        std::array<pollfd, 2> waited_for{
            pollfd{descriptor, events, 0},
            pollfd{interruption != nullptr ? interruption->descriptor() : -1, POLLIN, 0}};
        const int ready = ::poll(waited_for.data(), waited_for.size(), left_until(deadline));
        if (ready < 0 && errno != EINTR)
            throw ConnectionLost(std::strerror(errno));
        if (ready > 0 && waited_for[1].revents != 0)
            return Waited::interrupted;
        if (ready > 0)
            return Waited::ready;
        if (ready == 0 && is_past(deadline))
            return Waited::timed_out;
    }
}

Connection::Connection(const std::string& path, Deadline deadline) {
    const sockaddr_un address = address_of(path);
    descriptor_ = Descriptor{::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0)};
    if (!descriptor_)
        throw connect_fault(path, errno);
    if (const int error = try_connect(descriptor_.get(), address, deadline); error != 0)
        throw connect_fault(path, error);
}

void Connection::send(std::string_view bytes, Deadline deadline) {
    while (!bytes.empty()) {
        const auto sent = ::send(descriptor_.get(), bytes.data(), bytes.size(), MSG_NOSIGNAL);
        if (sent >= 0) {
            bytes.remove_prefix(static_cast<std::size_t>(sent));
            continue;
        }
        if (errno == EINTR)
            continue;
        if (errno != EAGAIN)
            throw ConnectionLost(std::strerror(errno));
        if (wait_for(descriptor_.get(), POLLOUT, deadline, nullptr) == Waited::timed_out)
            throw ConnectionLost("the daemon did not take the request in time");
    }
}

bool Connection::receive() {
    std::array<char, 65536> chunk; // NOLINT: filled by recv
    const auto got = ::recv(descriptor_.get(), chunk.data(), chunk.size(), 0);
    if (got > 0) {
        buffer_.append({chunk.data(), static_cast<std::size_t>(got)});
        return true;
    }
    if (got == 0)
        throw ConnectionLost("the daemon closed the connection");
    if (errno == EAGAIN || errno == EINTR)
        return false;
    throw ConnectionLost(std::strerror(errno));
}

Connection::Line Connection::read_line(Deadline deadline, const Interruption* interruption) {
    for (;;) {
        if (auto line = buffer_.next())
            return {Waited::ready, std::move(*line)};
        if (receive())
            continue;
        const Waited waited = wait_for(descriptor_.get(), POLLIN, deadline, interruption);
        if (waited != Waited::ready)
            return {waited, {}};
    }
}

} // namespace barmkeep::client
