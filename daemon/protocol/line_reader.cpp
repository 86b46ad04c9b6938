#include "daemon/protocol/line_reader.hpp"

namespace barmkeep::protocol {

void LineReader::feed(std::string_view bytes) {
    if (overlong_)
        return;
    drop_taken();
    buffer_ += bytes;
}

void LineReader::finish() {
    if (!overlong_ && partial_bytes() > 0)
        buffer_ += '\n';
}

std::optional<std::string> LineReader::next() {
    if (overlong_)
        return std::nullopt;
    const auto end = buffer_.find('\n', searched_);
    const std::size_t length = (end == std::string::npos ? buffer_.size() : end) - begin_;
    if (length > line_bytes_max_) {
        overlong_ = true;
        buffer_ = {};
        begin_ = searched_ = 0;
        return std::nullopt;
    }
    if (end == std::string::npos) {
        searched_ = buffer_.size();
        return std::nullopt;
    }
    std::string line = buffer_.substr(begin_, length);
    begin_ = searched_ = end + 1;
    return line;
}

void LineReader::drop_taken() {
    buffer_.erase(0, begin_);
    searched_ -= begin_;
    begin_ = 0;
}

} // namespace barmkeep::protocol
