#include "sdk/sheet/text_page.hpp"

#include <algorithm>

namespace barmkeep::sheet {
namespace {

/// Fewer columns than this are no room for a sentence.
constexpr std::size_t room_least = 10;

std::string_view colour_of(Tone tone) {
    switch (tone) {
    case Tone::heading:
        return "\x1b[1m";
    case Tone::alarm:
        return "\x1b[1;31m";
    case Tone::warning:
        return "\x1b[33m";
    case Tone::due:
        return "\x1b[1;32m";
    case Tone::done:
        return "\x1b[2m";
    case Tone::plain:
        break;
    }
    return "";
}

} // namespace

TextPage::TextPage(const Reader& reader)
    : reader_{reader}, width_{static_cast<std::size_t>(
                           std::clamp(reader.width, Reader::width_min, Reader::width_max))} {}

void TextPage::gap() {
    gap_wanted_ = true;
}

void TextPage::line(std::string text, Tone tone) {
    if (std::exchange(gap_wanted_, false) && !lines_.empty())
        lines_.push_back({"", Tone::plain});
    text.erase(text.find_last_not_of(' ') + 1);
    if (!text.empty())
        text.insert(0, indent_, ' ');
    lines_.push_back({std::move(text), tone});
}

void TextPage::paragraph(std::string_view prefix, std::string_view text, Tone tone) {
    std::size_t hang = width_of(prefix);
    std::string lead{prefix};
    if (hang > 0 && (hang + room_least > room())) {
        for (auto& one : wrapped(prefix, room()))
            line(std::move(one), tone);
        hang = 2;
        lead = "  ";
    }
    for (const auto& one : wrapped(text, room() - hang)) {
        line(lead + one, tone);
        lead.assign(hang, ' ');
    }
}

void TextPage::heading(const Text& title) {
    paragraph("", laid_text(title, reader_), Tone::heading);
}

std::string TextPage::finish() const {
    std::string whole;
    for (const Line& one : lines_) {
        const std::string_view colour = reader_.colour ? colour_of(one.tone) : "";
        whole += colour;
        whole += with_plain_blanks(one.text);
        whole += colour.empty() ? "\n" : "\x1b[0m\n";
    }
    return whole;
}

void write_action(const std::optional<Action>& action, std::string_view indent, TextPage& page) {
    if (!action)
        return;
    const Reader& reader = page.reader();
    if (reader.keys) {
        if (action->letter)
            page.paragraph(indent, plain_text(*action->letter + " " + action->label, reader));
        return;
    }
    page.paragraph(indent, command_text(action->method, action->params, action->ask, reader));
}

void write_labelled(const std::vector<LabelledText>& values, TextPage& page) {
    std::size_t widest = 0;
    for (const auto& one : values)
        if (!one.value.empty())
            widest = std::max(widest, width_of(one.label));
    for (const auto& one : values) {
        if (one.value.empty())
            continue;
        if (widest == 0) {
            page.paragraph("", one.value);
        } else if (widest + 2 + room_least <= page.room()) {
            page.paragraph(padded(one.label, widest + 2, false), one.value);
        } else {
            page.paragraph("", one.label);
            page.indented([&] { page.paragraph("", one.value); });
        }
    }
}

} // namespace barmkeep::sheet
