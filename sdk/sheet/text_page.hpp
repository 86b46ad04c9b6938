// The lines of a sheet's text, on their way out.
//
// Thread safety: none; lives within one call of write_text.
#pragma once

#include "sdk/sheet/wording.hpp"

namespace barmkeep::sheet {

/// What a line is, and so its colour where there is any.
enum class Tone { plain, heading, alarm, warning, due, done };

class TextPage {
public:
    explicit TextPage(const Reader& reader);

    [[nodiscard]] const Reader& reader() const noexcept { return reader_; }
    /// Columns between the indent and the right edge.
    [[nodiscard]] std::size_t room() const noexcept { return width_ - indent_; }

    /// A blank line before what comes next, unless it is the first.
    void gap();
    /// One line as it is.  REQUIRES: it fits in room().
    void line(std::string text, Tone tone = Tone::plain);
    /// A text wrapped into the room behind a prefix; the lines after the first stand under the
    /// text.  A prefix that leaves too little room stands alone.
    void paragraph(std::string_view prefix, std::string_view text, Tone tone = Tone::plain);
    void heading(const Text& title);
    /// What `write` adds stands two columns further in, while there is room.
    template <class Write>
    void indented(const Write& write) {
        const std::size_t before = indent_;
        indent_ = std::min(indent_ + 2, width_ / 3);
        write();
        indent_ = before;
    }

    /// All lines, each ended.
    [[nodiscard]] std::string finish() const;

private:
    struct Line {
        std::string text;
        Tone tone;
    };

    const Reader& reader_;
    std::size_t width_;
    std::size_t indent_ = 0;
    bool gap_wanted_ = false;
    std::vector<Line> lines_;
};

/// The command of an action, or its letter while following, behind an indent.
void write_action(const std::optional<Action>& action, std::string_view indent, TextPage& page);
void write_table(const Table& table, TextPage& page);
void write_chart(const Chart& chart, TextPage& page);

/// Labelled values under each other.  Those without a value are left out.
struct LabelledText {
    std::string label;
    std::string value;
};
void write_labelled(const std::vector<LabelledText>& values, TextPage& page);

} // namespace barmkeep::sheet
