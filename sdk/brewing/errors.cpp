#include "sdk/brewing/errors.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <utility>

namespace barmkeep::brewing {
namespace {

std::string number_text(double value) {
    if (std::isnan(value))
        return "not a number";
    if (std::isinf(value))
        return value > 0 ? "infinity" : "minus infinity";
    std::array<char, 32> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value).ptr;
    return {text.data(), end};
}

std::string with_unit(double value, std::string_view unit) {
    std::string text = number_text(value);
    if (!unit.empty())
        text.append(" ").append(unit);
    return text;
}

std::string range_text(double lowest, double highest, std::string_view unit) {
    if (std::isinf(highest))
        return "valid from " + with_unit(lowest, unit) + " up";
    return "valid from " + number_text(lowest) + " to " + with_unit(highest, unit);
}

std::string finding_of(std::string_view quantity, double given, double lowest, double highest,
                       std::string_view unit) {
    return std::string(quantity) + " is " +
           (std::isnan(given) ? number_text(given) : with_unit(given, unit)) + ", " +
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
                         unit,     "give a finite amount that is not negative"};
}

void require_positive(std::string_view quantity, double given, std::string_view unit) {
    if (!(given > 0.0) || std::isinf(given))
        throw OutOfRange{quantity, given,
                         0.0,      std::numeric_limits<double>::infinity(),
                         unit,     "give a finite amount above zero"};
}

} // namespace barmkeep::brewing
