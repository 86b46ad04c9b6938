// How much one connection may ask for.
#pragma once

#include "sdk/method/json.hpp"

#include <cstddef>

namespace barmkeep::protocol {

/// Limits of one connection.  A client finds those in force in the discover document (`x-limits`).
/// The nesting of JSON is limited too, by json_depth_max.
struct Limits {
    /// Bytes of one line from the client, its line break not counted.  Past it: spoken, closed.
    std::size_t line_bytes_max = 1 << 20;
    /// Elements of a batch.  Past it: the batch is refused as a whole.
    std::size_t batch_length_max = 100;
    /// Requests of a connection whose handlers run at the same time.  The others wait in order;
    /// only call.cancel passes them.
    std::size_t in_flight_max = 32;
    /// Requests taken and not yet answered.  From half of it on no more is read; past it, which
    /// only what was read at one go can reach: spoken, closed.
    std::size_t unanswered_max = 1024;
    /// Bytes of a request's id.  Past it: refused.
    std::size_t id_bytes_max = 128;
    /// Bytes of replies and notifications that wait for the client to read them.  From half of it
    /// on no more is read; past it: spoken, closed.  A single reply is never longer than this.
    std::size_t reply_bytes_max = 8 << 20;

    [[nodiscard]] json::object to_json() const;
};

} // namespace barmkeep::protocol
