#include "sdk/brewing/errors.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <utility>

namespace barmkeep::brewing {
namespace {

/// Rounded to so many significant digits; 17 keep every digit.
std::string number_text(double value, int digits = 6) {
    if (std::isnan(value))
        return "not a number";
    if (std::isinf(value))
        return value > 0 ? "infinity" : "minus infinity";
    std::array<char, 32> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value,
                                   std::chars_format::general, digits)
                         .ptr;
    return {text.data(), end};
}

std::string with_unit(std::string text, std::string_view unit) {
    if (!unit.empty())
        text.append(" ").append(unit);
    return text;
}

std::string range_text(double lowest, double highest, std::string_view unit) {
    if (std::isinf(highest))
        return "valid from " + with_unit(number_text(lowest), unit) + " up";
    return "valid from " + number_text(lowest) + " to " + with_unit(number_text(highest), unit);
}

/// A value beside a limit has as many digits as it takes to differ from it.
std::string given_text(double given, double lowest, double highest) {
    std::string text;
    for (const int digits : {6, 9, 12, 15, 17}) {
        text = number_text(given, digits);
        if (text != number_text(lowest, digits) && text != number_text(highest, digits))
            break;
    }
    return text;
}

std::string finding_of(std::string_view quantity, double given, double lowest, double highest,
                       std::string_view unit) {
    return std::string(quantity) + " is " +
           with_unit(given_text(given, lowest, highest), std::isnan(given) ? "" : unit) + ", " +
           range_text(lowest, highest, unit);
}

std::string sentence(const std::string& finding, std::string_view advice) {
    return advice.empty() ? finding : finding + ": " + std::string(advice);
}

} // namespace

OutOfRange::OutOfRange(std::string_view quantity, double given, double lowest, double highest,
                       std::string_view unit, std::string_view advice)
    : std::domain_error{sentence(finding_of(quantity, given, lowest, highest, unit), advice)},
      quantity_{quantity}, given_{given}, lowest_{lowest}, highest_{highest}, unit_{unit},
      advice_{advice} {}

std::string OutOfRange::finding() const {
    return finding_of(quantity_, given_, lowest_, highest_, unit_);
}

UnitError::UnitError(const std::string& message, std::string hint)
    : std::invalid_argument{message}, hint_{std::move(hint)} {}

void require_within(std::string_view quantity, double given, double lowest, double highest,
                    std::string_view unit, std::string_view advice) {
    // Written so that NaN, which compares false with everything, is refused.
    if (!(given >= lowest && given <= highest))
        throw OutOfRange{quantity, given, lowest, highest, unit, advice};
}

void require_not_negative(std::string_view quantity, double given, std::string_view unit) {
    if (!(given >= 0.0) || std::isinf(given))
        throw OutOfRange{quantity, given,
                         0.0,      std::numeric_limits<double>::infinity(),
                         unit,     "give an amount that is not negative"};
}

void require_positive(std::string_view quantity, double given, std::string_view unit) {
    if (!(given > 0.0) || std::isinf(given))
        throw OutOfRange{quantity, given,
                         0.0,      std::numeric_limits<double>::infinity(),
                         unit,     "give an amount above 0"};
}

} // namespace barmkeep::brewing
