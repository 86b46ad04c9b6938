// One connection to the daemon's socket: lines out, lines in, each with a time-out.
#pragma once

#include "sdk/client/interruption.hpp"
#include "sdk/client/wire.hpp"
#include "sdk/system/descriptor.hpp"

#include <chrono>
#include <stdexcept>
#include <string>

namespace barmkeep::client {

using Deadline = std::chrono::steady_clock::time_point;
/// The deadline so far from now.
[[nodiscard]] Deadline after(std::chrono::milliseconds time);

/// The other side closed the connection, or the system did.
class ConnectionLost : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

enum class Waited { ready, timed_out, interrupted };

/// Waits until `descriptor` is ready for `events` (as poll has them), the deadline has come or
/// the interruption wants in.  `descriptor` may be -1: then it waits for the other two only.
[[nodiscard]] Waited wait_for(int descriptor, short events, Deadline deadline,
                              const Interruption* interruption);

/// Thread safety: one thread at a time.
class Connection {
public:
    /// Connects.  Throws Error(unavailable) that says why not and what to do: no socket at the
    /// path and how to start a daemon; nobody listening; no permission, with path, uid and mode;
    /// a path too long; a time-out.
    Connection(const std::string& path, Deadline deadline);

    /// Throws ConnectionLost if the other side is gone, or takes nothing until the deadline.
    void send(std::string_view bytes, Deadline deadline);

    struct Line {
        Waited waited = Waited::ready;
        std::string text; ///< the line, when `waited` is ready
    };
    /// The next line.  What arrived before the other side closed is still read.  Throws
    /// ConnectionLost once there is nothing more, Error(text) for a line over the limit.
    [[nodiscard]] Line read_line(Deadline deadline, const Interruption* interruption = nullptr);

private:
    bool receive(); ///< false if there was nothing yet

    Descriptor descriptor_;
    LineBuffer buffer_;
};

} // namespace barmkeep::client
