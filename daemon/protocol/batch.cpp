#include "daemon/protocol/batch.hpp"

#include <cassert>

namespace barmkeep::protocol {

void Batch::put(std::size_t place, std::string reply) {
    assert(missing_ > 0);
    bytes_ += reply.size() + 1;
    replies_.at(place) = std::move(reply);
    --missing_;
}

std::optional<std::string> Batch::text() const {
    assert(is_complete());
    std::string all;
    for (const auto& reply : replies_) {
        if (reply.empty())
            continue;
        all += all.empty() ? '[' : ',';
        all += reply;
    }
    if (all.empty())
        return std::nullopt;
    return all + ']';
}

} // namespace barmkeep::protocol
