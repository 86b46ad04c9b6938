// What waits for the client to read it.
#pragma once

#include <cstddef>
#include <deque>
#include <optional>
#include <string>

namespace barmkeep::protocol {

/// A bounded queue of lines.  Not thread-safe: its session guards it.
class Outbox {
public:
    explicit Outbox(std::size_t bytes_max) : bytes_max_{bytes_max} {}

    /// Whether a line still fits.  One line always does, if nothing waits.
    [[nodiscard]] bool has_room(std::size_t line_bytes) const noexcept {
        return lines_.empty() || bytes_ + line_bytes < bytes_max_;
    }
    [[nodiscard]] bool is_half_full() const noexcept { return bytes_ >= bytes_max_ / 2; }
    [[nodiscard]] bool is_empty() const noexcept { return lines_.empty(); }

    /// Adds a line, to which the line break is added here.
    void push(std::string line);
    /// Takes whole lines off the front: the first, and more while all are at most `bytes_wanted`.
    [[nodiscard]] std::optional<std::string> pop(std::size_t bytes_wanted);
    void clear() noexcept;

private:
    std::size_t bytes_max_;
    std::size_t bytes_ = 0;
    std::deque<std::string> lines_;
};

} // namespace barmkeep::protocol
