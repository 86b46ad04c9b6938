// The two ways in which the science refuses what it was given.
//
// OutOfRange: a number no formula here holds for.  UnitError: text that is not a quantity of the
// kind wanted.  Both say what to do about it.  Nothing in sdk/brewing clamps a value silently.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace barmkeep::brewing {

/// A value outside the range a formula or a quantity is valid in, or not a number at all.
///
/// `what()` is a whole sentence: the quantity, what was given, the valid range and the advice.
class OutOfRange : public std::domain_error {
public:
    /// @param quantity what was out of range, in the field's words: "apparent specific gravity"
    /// @param given    the value, in `unit`; may be NaN or infinite
    /// @param lowest   the lowest valid value, in `unit`
    /// @param highest  the highest valid value, in `unit`; infinity where there is no upper end
    /// @param unit     symbol of the unit of the three numbers; empty for a plain number
    /// @param advice   a sentence: what the reader can do
    OutOfRange(std::string_view quantity, double given, double lowest, double highest,
               std::string_view unit, std::string_view advice);

    /// The sentence without its advice, for those who show that by itself.
    [[nodiscard]] std::string finding() const;
    [[nodiscard]] const std::string& quantity() const noexcept { return quantity_; }
    [[nodiscard]] double given() const noexcept { return given_; }
    [[nodiscard]] double lowest() const noexcept { return lowest_; }
    [[nodiscard]] double highest() const noexcept { return highest_; }
    [[nodiscard]] const std::string& unit() const noexcept { return unit_; }
    [[nodiscard]] const std::string& advice() const noexcept { return advice_; }

private:
    std::string quantity_;
    double given_;
    double lowest_;
    double highest_;
    std::string unit_;
    std::string advice_;
};

/// Text that could not be read as a quantity: no number, no unit, or a unit of another kind.
class UnitError : public std::invalid_argument {
public:
    /// @param message what is wrong, naming the text
    /// @param hint    what to write instead, with examples
    UnitError(const std::string& message, std::string hint);

    [[nodiscard]] const std::string& hint() const noexcept { return hint_; }

private:
    std::string hint_;
};

/// Throws OutOfRange unless `lowest <= given <= highest`; NaN never passes, and an infinite value
/// passes no finite end.
void require_within(std::string_view quantity, double given, double lowest, double highest,
                    std::string_view unit, std::string_view advice);

/// Throws OutOfRange unless `given` is a finite number of at least zero.
void require_not_negative(std::string_view quantity, double given, std::string_view unit);

/// Throws OutOfRange unless `given` is a finite number above zero.
void require_positive(std::string_view quantity, double given, std::string_view unit);

} // namespace barmkeep::brewing
