#include "sdk/method/parse_context.hpp"

namespace barmkeep {

void ParseContext::fault(std::string_view reason, std::string_view message, std::string_view hint) {
    if (is_full())
        return;
    faults_.push_back({pointer_, std::string(reason), std::string(message), std::string(hint)});
}

void ParseContext::forgive_since(std::size_t count) {
    if (checks_rules())
        return;
    for (auto at = faults_.begin() + static_cast<std::ptrdiff_t>(count); at != faults_.end(); ++at)
        oddities_.push_back(std::move(*at));
    faults_.resize(count);
}

void ParseContext::oddity(std::string_view reason, std::string_view message) {
    if (oddities_.size() < faults_max)
        oddities_.push_back({pointer_, std::string(reason), std::string(message), {}});
}

void ParseContext::throw_faults() const {
    if (!faults_.empty())
        throw Error(ErrorKind::params, faults_);
}

ParseContext::Step::Step(ParseContext& reading, std::string_view member)
    : reading_{reading}, length_before_{reading.pointer_.size()} {
    reading_.pointer_ += '/';
    for (const char c : member) { // RFC 6901, section 3
        if (c == '~')
            reading_.pointer_ += "~0";
        else if (c == '/')
            reading_.pointer_ += "~1";
        else
            reading_.pointer_ += c;
    }
}

ParseContext::Step::Step(ParseContext& reading, std::size_t index)
    : Step(reading, std::to_string(index)) {}

ParseContext::Step::~Step() {
    reading_.pointer_.resize(length_before_);
}

} // namespace barmkeep
