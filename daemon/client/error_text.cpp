#include "daemon/client/error_text.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

/// What follows the option in the pointer, as members and places: "[0].amount".
std::string inner_place(std::string_view pointer) {
    std::string place;
    while (!pointer.empty()) {
        pointer.remove_prefix(1);
        const auto part = pointer.substr(0, pointer.find('/'));
        pointer.remove_prefix(part.size());
        const bool is_index =
            !part.empty() && part.find_first_not_of("0123456789") == std::string_view::npos;
        place += is_index ? fmt::format("[{}]", part) : fmt::format(".{}", part);
    }
    return place;
}

bool is_part_of_name(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.' || c == '-' ||
           c == '/';
}

/// Whether a method's name goes on at this place: `stock.list_all`, `stock.list.json`.
bool continues_name(const std::string& text, std::size_t at) {
    if (at >= text.size())
        return false;
    if (text[at] == '.') // the end of a sentence, unless a letter follows
        return at + 1 < text.size() && is_part_of_name(text[at + 1]);
    return is_part_of_name(text[at]);
}

std::string paragraph(const std::string& text, const Style& style, std::size_t indent) {
    return std::string(indent, ' ') +
           wrapped(in_letters_of(style, printable(text)), static_cast<std::size_t>(style.width),
                   indent) +
           '\n';
}

} // namespace

std::string option_at(std::string_view pointer, const std::vector<Option>& options) {
    if (pointer.empty())
        return {};
    const Option* nearest_above = nullptr;
    std::string above;
    for (const auto& option : options) {
        const std::string own = option.pointer();
        const bool fits = pointer == own || pointer.starts_with(own + "/");
        if (fits && own.size() > above.size()) {
            nearest_above = &option;
            above = own;
        }
    }
    if (nearest_above == nullptr) { // of a request that a plugin made for this one
        const auto last = pointer.substr(pointer.rfind('/') + 1);
        const auto own = std::ranges::find(options, dashed(last), &Option::name);
        return own == options.end() ? "" : "--" + own->name;
    }
    return "--" + nearest_above->name + inner_place(pointer.substr(above.size()));
}

std::string with_commands(std::string text, const Catalogue& catalogue) {
    for (const auto& command : catalogue.commands()) {
        const std::string& name = command.method.name;
        for (auto at = text.find(name); at != std::string::npos;) {
            const auto end = at + name.size();
            const char before = at > 0 ? text[at - 1] : ' ';
            const bool is_quoted =
                (before == '`' || before == '\'') && end < text.size() && text[end] == before;
            if (is_part_of_name(before) || continues_name(text, end)) {
                at = text.find(name, end);
                continue;
            }
            const std::string mark = is_quoted ? "" : "`";
            const std::string words = mark + "barm " + command.words() + mark;
            text.replace(at, name.size(), words);
            at = text.find(name, at + words.size());
        }
    }
    return text;
}

std::string error_text(const Error& error, std::string_view command,
                       const std::vector<Option>& options, const Catalogue* catalogue,
                       const Style& style) {
    const std::string prefix = command.empty() ? "barm: " : fmt::format("barm: {}: ", command);
    const auto for_person = [&](const std::string& text) {
        return catalogue != nullptr ? with_commands(text, *catalogue) : text;
    };
    std::string text;
    for (const auto& fault : error.faults()) {
        const std::string at = option_at(fault.pointer, options);
        text +=
            paragraph(prefix + (at.empty() ? "" : at + ": ") + for_person(fault.message), style, 0);
        if (!fault.hint.empty())
            text += paragraph(for_person(fault.hint), style, 6);
    }
    return text;
}

std::string error_json(const Error& error) {
    return write_json(json::object{{"error", error.to_json()}}) + '\n';
}

} // namespace barmkeep::barm
