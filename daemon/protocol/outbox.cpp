#include "daemon/protocol/outbox.hpp"

namespace barmkeep::protocol {

void Outbox::push(std::string line) {
    line += '\n';
    bytes_ += line.size();
    lines_.push_back(std::move(line));
}

std::optional<std::string> Outbox::pop(std::size_t bytes_wanted) {
    if (lines_.empty())
        return std::nullopt;
    std::string taken;
    do {
        if (taken.empty())
            taken = std::move(lines_.front());
        else
            taken += lines_.front();
        lines_.pop_front();
    } while (!lines_.empty() && taken.size() + lines_.front().size() <= bytes_wanted);
    bytes_ -= taken.size();
    return taken;
}

void Outbox::clear() noexcept {
    lines_.clear();
    bytes_ = 0;
}

} // namespace barmkeep::protocol
