#include "sdk/client/troff.hpp"

#include <fmt/format.h>

namespace barmkeep::client {

std::string troff(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\')
            out += "\\e";
        else if (c == '-')
            out += "\\-";
        else
            out += c;
    }
    if (!out.empty() && (out.front() == '.' || out.front() == '\''))
        out.insert(0, "\\&");
    return out;
}

std::string man_item(std::string_view term, std::string_view meaning) {
    return fmt::format(".TP\n.B {}\n{}\n", troff(term), troff(meaning));
}

} // namespace barmkeep::client
