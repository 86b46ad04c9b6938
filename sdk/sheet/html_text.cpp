#include "sdk/sheet/html_text.hpp"

#include "sdk/sheet/moments.hpp"

#include <fmt/format.h>

namespace barmkeep::sheet {
namespace {

std::string html_run(const Value& value, const Reader& reader) {
    std::string text = escaped(value_text(value, reader));
    if (const auto* day = std::get_if<Date>(&value); day != nullptr && day->ok())
        return fmt::format(R"(<time datetime="{}">{}</time>)", to_text(*day), text);
    if (const auto* instant = std::get_if<Instant>(&value); instant != nullptr && text != "?")
        return fmt::format(R"(<time datetime="{}">{}</time>)", to_text(*instant), text);
    if (std::holds_alternative<Command>(value))
        return "<code>" + text + "</code>";
    if (std::holds_alternative<Source>(value))
        return R"(<span class="source">)" + text + "</span>";
    return text;
}

} // namespace

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text)
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        case '\'':
            out += "&#39;";
            break;
        default:
            out += c;
        }
    return out;
}

std::string html_text(const Text& text, const Reader& reader) {
    std::string whole;
    for (const Run& run : text.runs)
        whole += html_run(run.value, reader);
    return whole;
}

} // namespace barmkeep::sheet
