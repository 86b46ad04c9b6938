// Inside of the parsers of units.hpp: text to numbers and unit words.  Not part of the public API.
#pragma once

#include "sdk/brewing/units.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace barmkeep::brewing::unit_text {

/// One number with the word after it; the word is empty for a bare number.
struct Term {
    double count = 0.0;
    std::string word; ///< spaces collapsed, points dropped
};

/// The terms of `text`: one, or several of a sum.  `table` is only for the hint of an error.
/// @throws UnitError where no number can be read; OutOfRange for one too large for a double.
[[nodiscard]] std::vector<Term> split(std::string_view text, const UnitTable& table);

/// The unit a word means in a table, or nullptr.  An exact spelling wins; otherwise letters of
/// either case match, unless the case of m and M would separate milli from mega.
[[nodiscard]] const UnitRow* find(const UnitTable& table, std::string_view word) noexcept;

/// Throws the UnitError for a word that is not in `table`: says what the word measures, if any
/// table has it, and what is wanted.
[[noreturn]] void refuse_word(std::string_view text, const Term& term, const UnitTable& table);

/// "write a mass with its unit, such as 4 oz, 113 g; units: g, kg, ..."
[[nodiscard]] std::string hint(const UnitTable& table);

/// The text in quotation marks, cut short if it is long.
[[nodiscard]] std::string in_quotes(std::string_view text);

} // namespace barmkeep::brewing::unit_text
