// How results are shown to this person on this terminal.
#pragma once

#include "sdk/brewing/units.hpp"

#include <string>
#include <string_view>

namespace barmkeep::barm {

struct Style {
    brewing::System system = brewing::System::metric;
    std::string currency;          ///< ISO 4217; empty if sums have none
    std::string time_zone = "UTC"; ///< IANA name; instants are shown in it
    bool is_plain = false;         ///< columns divided by tabs, for programs
    bool has_colour = false;
    bool has_utf8 = true; ///< whether the locale shows more than ASCII
    int width = 80;       ///< columns of the terminal

    /// The text in the colour of its meaning, if there is colour.
    [[nodiscard]] std::string heading(std::string_view text) const;
    [[nodiscard]] std::string warning(std::string_view text) const; ///< soon to be seen to
    [[nodiscard]] std::string alarm(std::string_view text) const;   ///< overdue, wrong
};

/// The printers' degree and micro signs in ASCII, where the locale has none.
[[nodiscard]] std::string in_letters_of(const Style& style, std::string text);
/// Columns that a UTF-8 text takes: its code points.  Double-width letters count once.
[[nodiscard]] std::size_t width_of(std::string_view text);
/// The text with control characters replaced: a name in the ledger must not steer a
/// terminal.
[[nodiscard]] std::string printable(std::string_view text);
/// Breaks a text that begins at column `indent` into lines that end before column `width`, each
/// after the first begun with `indent` spaces.  A longer word stands alone.  No break at the end.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t width, std::size_t indent);
/// The first sentence of a text without its full stop, in at most `width` columns.  A longer one
/// ends at its last colon or semicolon that fits, or else at a word, with "...".
[[nodiscard]] std::string first_sentence(std::string_view text, std::size_t width);

} // namespace barmkeep::barm
