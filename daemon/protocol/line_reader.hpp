// Bytes in, lines out.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace barmkeep::protocol {

/// Cuts a stream of bytes, however it was split on its way, into lines.
///
/// A line ends with a line break, which is not part of it; a carriage return before it is left to
/// the parser, for which it is white space.  A line longer than the limit cannot be skipped
/// safely, so it is the last thing seen: lines before it still come out, then `is_overlong`.
///
/// Holds at most the longest line and what came with it in one `feed`.
class LineReader {
public:
    explicit LineReader(std::size_t line_bytes_max) : line_bytes_max_{line_bytes_max} {}

    /// Takes bytes as they arrive.  Without effect once a line was overlong.
    void feed(std::string_view bytes);
    /// The end of input: what is left without a line break is the last line.
    void finish();
    /// The next whole line, if there is one.
    [[nodiscard]] std::optional<std::string> next();

    /// No further line will come, because the one at hand is too long.
    [[nodiscard]] bool is_overlong() const noexcept { return overlong_; }
    /// Bytes of a line that has begun and not ended.  REQUIRES: next() gave nothing.
    [[nodiscard]] std::size_t partial_bytes() const noexcept { return buffer_.size() - begin_; }

private:
    void drop_taken();

    std::size_t line_bytes_max_;
    std::string buffer_;
    std::size_t begin_ = 0;    ///< of the line at hand
    std::size_t searched_ = 0; ///< no line break between begin_ and here
    bool overlong_ = false;
};

} // namespace barmkeep::protocol
