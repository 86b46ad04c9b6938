#include "daemon/protocol/limits.hpp"

namespace barmkeep::protocol {

json::object Limits::to_json() const {
    return {{"line_bytes_max", line_bytes_max}, {"batch_length_max", batch_length_max},
            {"in_flight_max", in_flight_max},   {"unanswered_max", unanswered_max},
            {"id_bytes_max", id_bytes_max},     {"reply_bytes_max", reply_bytes_max},
            {"json_depth_max", json_depth_max}};
}

} // namespace barmkeep::protocol
