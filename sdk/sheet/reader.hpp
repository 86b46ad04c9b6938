// For whom a sheet is written: units, currency, clock, screen.
//
// Thread safety: a value; `command` is called from the thread that writes.
#pragma once

#include "sdk/brewing/units.hpp"
#include "sdk/sheet/sheet.hpp"

#include <functional>

namespace barmkeep::sheet {

/// Writes the command for a call, as this reader would type it: "barm starter make 12".  `ask` has
/// the names of parameters that the person still has to give.  It is trusted to return no line
/// breaks; control characters are taken out all the same.
using CommandText = std::function<std::string(const std::string& method, const json::object& params,
                                              const std::vector<std::string>& ask)>;

struct Reader {
    /// The narrowest and the widest text; `width` outside is brought to the nearer one.
    static constexpr int width_min = 20;
    static constexpr int width_max = 200;

    brewing::System units = brewing::System::metric;
    /// Small volumes in spoons and cups with fractions, "1/4 tsp", where a fraction is near enough.
    /// Only for units that are not metric.
    bool kitchen = false;
    std::string currency;          ///< of the cellar, ISO 4217; empty: sums have none
    std::string time_zone = "UTC"; ///< IANA name; UTC where this machine does not know it
    Instant now{};                 ///< makes "today", "tomorrow" and clocks; no clock is read
    /// Days as "today" and "Sat"; false: always with their date, as for paper.
    bool days_are_near = true;
    int width = 80;      ///< columns of the text
    bool unicode = true; ///< false: the output is ASCII
    bool colour = false; ///< ANSI colours, only for what matters: alarms, warnings, what is due
    bool full = false;   ///< cautions in full, `more` unfolded, no column left out
    bool keys = false;   ///< show the letters of actions instead of commands: while following
    std::string full_hint = "--full"; ///< what to add to a command to read it in full
    /// Empty: the method and its parameters, "starter.make brew=12".
    CommandText command;
};

/// The reader's day now.
[[nodiscard]] Date today(const Reader& reader);

/// A text in one line, as this reader reads it.  A blank inside a value is a plain blank.  No
/// control characters, and ASCII if the reader wants it.
[[nodiscard]] std::string one_line(const Text& text, const Reader& reader);

} // namespace barmkeep::sheet
