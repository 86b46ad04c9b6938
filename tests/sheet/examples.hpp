// Sheets such as methods make them, for the tests of the writers.
#pragma once

#include "sdk/sheet/builder.hpp"
#include "sdk/sheet/reader.hpp"

namespace barmkeep::sheet::examples {

/// Two steps of a starter with a warning, cautions and something folded away.
[[nodiscard]] Sheet starter();
/// A table of lots with columns that may go, and one of sentences.
[[nodiscard]] Sheet shelf();
/// A load at pressure that lost its heat: an alarm, a clock, steps of every state.
[[nodiscard]] Sheet load();
/// A line in a band, and bars.
[[nodiscard]] Sheet charts();

/// A reader in Vienna on Sunday, 18 October 2026, 19:30 local time.
[[nodiscard]] Reader reader(brewing::System units = brewing::System::metric, int width = 80);
/// Writes a call as the terminal would: "barm lot show J10N".
[[nodiscard]] std::string command(const std::string& method, const json::object& params,
                                  const std::vector<std::string>& ask);

} // namespace barmkeep::sheet::examples
