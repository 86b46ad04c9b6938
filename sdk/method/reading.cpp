#include "sdk/method/reading.hpp"

namespace barmkeep {

void Reading::fault(std::string_view reason, std::string_view message, std::string_view hint) {
    if (is_full())
        return;
    faults_.push_back({pointer_, std::string(reason), std::string(message), std::string(hint)});
}

void Reading::throw_faults() const {
    if (!faults_.empty())
        throw Error(ErrorKind::params, faults_);
}

Reading::Step::Step(Reading& reading, std::string_view member)
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

Reading::Step::Step(Reading& reading, std::size_t index) : Step(reading, std::to_string(index)) {}

Reading::Step::~Step() {
    reading_.pointer_.resize(length_before_);
}

} // namespace barmkeep
