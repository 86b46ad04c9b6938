// The replies of a batch, gathered until the last is there.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace barmkeep::protocol {

/// Replies keep the order of their requests, whichever is ready first.  Not thread-safe: the
/// session guards it.
class Batch {
public:
    explicit Batch(std::size_t length) : replies_(length), missing_{length} {}

    /// Puts the reply in its place; an empty one where nothing is answered.
    void put(std::size_t place, std::string reply);
    /// Bytes of the replies so far.
    [[nodiscard]] std::size_t bytes() const noexcept { return bytes_; }
    [[nodiscard]] bool is_complete() const noexcept { return missing_ == 0; }
    /// The array of all replies, or nothing if nothing is answered.  REQUIRES: is_complete().
    [[nodiscard]] std::optional<std::string> text() const;

private:
    std::vector<std::string> replies_;
    std::size_t missing_;
    std::size_t bytes_ = 0;
};

} // namespace barmkeep::protocol
