#include "sdk/sheet/figures.hpp"

#include "sdk/sheet/moments.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace barmkeep::sheet {
namespace {

using brewing::System;

constexpr double grams_per_ounce = brewing::ounce.canonical_per_unit;
constexpr double grams_per_pound = brewing::pound.canonical_per_unit;
constexpr double litres_per_gallon = brewing::us_gallon.canonical_per_unit;
constexpr double litres_per_teaspoon = litres_per_gallon / 768;
constexpr double litres_per_imperial_gallon = 4.54609; // exact, as in unit_tables.cpp

/// Whole figures before the decimal point.
int whole_digits(double number) {
    const double size = std::abs(number);
    return size < 1 ? 0 : static_cast<int>(std::floor(std::log10(size))) + 1;
}

Scale mass_scale(double size, System units) {
    if (units == System::metric) {
        if (size >= 999.5)
            return {"kg", 1000};
        return size == 0 || size >= 0.1 ? Scale{"g"} : Scale{"mg", 0.001};
    }
    if (size >= grams_per_pound * 0.9999)
        return {"lb", grams_per_pound};
    // Below that a kitchen scale shows grams, whatever the units.
    return size == 0 || size >= grams_per_ounce / 10 ? Scale{"oz", grams_per_ounce} : Scale{"g"};
}

Scale volume_scale(double size, System units) {
    constexpr double nearly = 0.9999; // 3.7854 L is the gallon that somebody typed
    if (units == System::metric) {
        if (size >= 0.9995)
            return {"L"};
        return size == 0 || size >= 0.0001 ? Scale{"mL", 0.001} : Scale{"\u00b5L", 1e-6};
    }
    if (units == System::imperial) {
        if (size >= litres_per_imperial_gallon * nearly)
            return {"imp gal", litres_per_imperial_gallon};
        if (size >= litres_per_imperial_gallon / 8 * nearly)
            return {"imp pt", litres_per_imperial_gallon / 8};
        return {"imp fl oz", litres_per_imperial_gallon / 160};
    }
    if (size >= litres_per_gallon * nearly)
        return {"gal", litres_per_gallon};
    if (size >= litres_per_gallon / 4 * nearly)
        return {"qt", litres_per_gallon / 4};
    if (size == 0 || size >= litres_per_gallon / 256)
        return {"fl oz", litres_per_gallon / 128};
    return {"tsp", litres_per_teaspoon};
}

Scale temperature_scale(System units) {
    return units == System::us ? Scale{"\u00b0F", 1 / 1.8, 32, 6, 1} : Scale{"\u00b0C", 1, 0, 6, 1};
}

Scale difference_scale(System units) {
    return units == System::us ? Scale{"\u00b0F", 1 / 1.8, 0, 6, 1} : Scale{"K", 1, 0, 6, 1};
}

Scale pressure_scale(System units, bool is_absolute) {
    if (units == System::metric)
        return {"kPa", 1, 0, 4, 1};
    return {is_absolute ? "psia" : "psi", brewing::psi_gauge.canonical_per_unit};
}

Scale length_scale(double size, System units) {
    if (units == System::metric) {
        if (size >= 0.9995)
            return {"m"};
        return size == 0 || size >= 0.01 ? Scale{"cm", 0.01, 0, 3, 1} : Scale{"mm", 0.001, 0, 3, 1};
    }
    constexpr double foot = brewing::foot.canonical_per_unit;
    return size >= 3 * foot * 0.9999 ? Scale{"ft", foot} : Scale{"in", foot / 12};
}

Scale energy_scale(double size, System units) {
    if (units != System::metric)
        return {"BTU", 1.05505585262};
    return size >= 999.5 ? Scale{"MJ", 1000} : Scale{"kJ"};
}

Scale cells_scale(double size) {
    if (size == 0 || size >= 0.9995)
        return {"B", 1, 0, size >= 99.5 ? 3 : 2, size >= 99.5 ? 0 : 1};
    if (size >= 0.9995e-3)
        return {"M", 0.001, 0, size >= 99.5e-3 ? 3 : 2, size >= 99.5e-3 ? 0 : 1};
    return {"cells", 1e-9, 0, 2, 0};
}

/// "1 1/2" for a number that a fraction of these comes within 3 % of; else nothing.
std::optional<std::string> fraction_text(double number, std::initializer_list<int> parts) {
    constexpr double near_enough = 0.03;
    for (const int part : parts) {
        const auto pieces = static_cast<int>(std::lround(number * part));
        if (pieces == 0 ||
            std::abs(static_cast<double>(pieces) / part - number) > near_enough * number)
            continue;
        const int whole = pieces / part;
        const int rest = pieces % part;
        if (rest == 0)
            return std::to_string(whole);
        return (whole > 0 ? std::to_string(whole) + " " : "") + fmt::format("{}/{}", rest, part);
    }
    return std::nullopt;
}

/// "1/4 tsp", "2 tbsp", "1 1/2 cups"; nothing where no fraction is near.
std::optional<std::string> kitchen_text(double litres) {
    const double teaspoons = litres / litres_per_teaspoon;
    if (teaspoons < 2.95) {
        const auto text = fraction_text(teaspoons, {1, 2, 4, 3, 8});
        return text ? std::optional(*text + " tsp") : std::nullopt;
    }
    if (teaspoons < 11.8) {
        const auto text = fraction_text(teaspoons / 3, {1, 2});
        return text ? std::optional(*text + " tbsp") : std::nullopt;
    }
    if (teaspoons > 195)
        return std::nullopt;
    const auto text = fraction_text(teaspoons / 48, {1, 2, 4, 3});
    if (!text)
        return std::nullopt;
    const bool is_one = *text == "1" || text->starts_with("1/") || text->find('/') == 1;
    return *text + (is_one ? " cup" : " cups");
}

std::string with_unit(std::string number, const std::string& unit) {
    return unit.empty() ? number : std::move(number) + " " + unit;
}

/// An odd sure thing is still no certainty.
std::string share_text(double part) {
    if (part > 0 && part < 0.005)
        return "under 1 %";
    if (part < 1 && part >= 0.995)
        return "over 99 %";
    return fixed_text(part * 100, 0, 0) + " %";
}

/// The ends of a range with two figures, the middle as it is worth; in order also where rounding
/// would put an end beyond the middle.
struct RangeTexts {
    std::string low;
    std::string likely;
    std::string high;
};

std::string end_text(double end, double likely, const Scale& scale, QuantityKind kind) {
    if (end == likely)
        return rounded_text(likely, scale);
    Scale coarse = scale;
    if (kind != QuantityKind::gravity && kind != QuantityKind::temperature)
        coarse.figures = std::min(scale.figures, 2);
    const std::string text = rounded_text(end, coarse);
    const std::string middle = rounded_text(likely, scale);
    const double printed = std::strtod(text.c_str(), nullptr);
    const double printed_middle = std::strtod(middle.c_str(), nullptr);
    const bool is_crossed = end < likely ? printed > printed_middle : printed < printed_middle;
    return is_crossed ? middle : text;
}

RangeTexts range_texts(const QuantityRange& measured, const Scale& scale) {
    const double likely = measured.likely.value_or((measured.low + measured.high) / 2);
    return {end_text(scale.of(measured.low), scale.of(likely), scale, measured.kind),
            rounded_text(scale.of(likely), scale),
            end_text(scale.of(measured.high), scale.of(likely), scale, measured.kind)};
}

std::string duration_range(const QuantityRange& measured) {
    const std::string ends = duration_text(measured.low) + " to " + duration_text(measured.high);
    return measured.likely ? duration_text(*measured.likely) + " (" + ends + ")" : ends;
}

std::string small_money(std::int64_t millionths, int digits) {
    const double units = static_cast<double>(millionths) / 1e6;
    const int decimals = std::min(6, 1 - static_cast<int>(std::floor(std::log10(std::abs(units)))));
    return fixed_text(units, std::max(decimals, digits), digits);
}

} // namespace

std::string fixed_text(double number, int decimals, int fewest) {
    if (!std::isfinite(number))
        return "?";
    decimals = std::clamp(decimals, 0, 30);
    const double power = std::pow(10, decimals);
    constexpr double exact_max = 1e15;
    if (std::abs(number) * power < exact_max) // halves away from zero, as people round
        number = std::round(number * power) / power;
    std::string text = fmt::format("{:.{}f}", number, decimals);
    const std::size_t point = text.find('.');
    if (point != std::string::npos) {
        std::size_t kept = text.size();
        while (kept > point + 1 + static_cast<std::size_t>(fewest) && text[kept - 1] == '0')
            --kept;
        text.resize(kept == point + 1 ? point : kept);
    }
    const bool is_zero = text.find_first_of("123456789") == std::string::npos;
    return is_zero && text.starts_with('-') ? text.substr(1) : text;
}

Scale scale_of(QuantityKind kind, double size, const Reader& reader) {
    size = std::abs(size);
    switch (kind) {
    case QuantityKind::mass:
        return mass_scale(size, reader.units);
    case QuantityKind::volume:
        return volume_scale(size, reader.units);
    case QuantityKind::temperature:
        return temperature_scale(reader.units);
    case QuantityKind::temperature_difference:
        return difference_scale(reader.units);
    case QuantityKind::pressure:
    case QuantityKind::absolute_pressure:
        return pressure_scale(reader.units, kind == QuantityKind::absolute_pressure);
    case QuantityKind::length:
        return length_scale(size, reader.units);
    case QuantityKind::altitude:
        return reader.units == System::metric ? Scale{"m", 1, 0, 6, 0}
                                              : Scale{"ft", 0.3048, 0, 6, 0};
    case QuantityKind::gravity:
        return {"", 1, 0, 6, 3, 3};
    case QuantityKind::energy:
        return energy_scale(size, reader.units);
    case QuantityKind::cells:
        return cells_scale(size);
    case QuantityKind::duration:
        return duration_scale(size);
    case QuantityKind::share:
        return {"%", 0.01, 0, 3, 0};
    case QuantityKind::number:
        break;
    }
    return {"", 1, 0, 4, 4};
}

std::string rounded_text(double number, const Scale& scale) {
    if (!std::isfinite(number))
        return "?";
    const int spare = scale.figures - whole_digits(number);
    if (spare >= 0) {
        // Figures below one begin with the first that is not zero.
        const double size = std::abs(number);
        const int zeros = size > 0 && size < 0.1 ? -static_cast<int>(std::log10(size)) : 0;
        return fixed_text(number, std::min(spare + zeros, scale.decimals_max), scale.decimals_min);
    }
    const double step = std::pow(10, -spare);
    return fixed_text(std::round(number / step) * step, 0, 0);
}

std::string quantity_text(const Quantity& measured, const Reader& reader) {
    if (!std::isfinite(measured.number))
        return "?";
    if (measured.kind == QuantityKind::duration)
        return duration_text(measured.number);
    if (measured.kind == QuantityKind::share)
        return share_text(measured.number);
    if (measured.kind == QuantityKind::volume && reader.kitchen && reader.units == System::us &&
        measured.number > 0)
        if (auto text = kitchen_text(measured.number))
            return *text;
    const Scale scale = scale_of(measured.kind, measured.number, reader);
    return with_unit(rounded_text(scale.of(measured.number), scale), scale.unit);
}

std::string range_text(const QuantityRange& measured, const Reader& reader) {
    const double likely = measured.likely.value_or((measured.low + measured.high) / 2);
    if (!std::isfinite(measured.low) || !std::isfinite(likely) || !std::isfinite(measured.high))
        return "?";
    if (measured.kind == QuantityKind::duration)
        return duration_range(measured);
    const Scale scale = scale_of(measured.kind, likely, reader);
    const RangeTexts texts = range_texts(measured, scale);
    const std::string ends = texts.low == texts.high ? texts.low : texts.low + " to " + texts.high;
    if (!measured.likely)
        return with_unit(ends, scale.unit);
    const std::string middle = with_unit(texts.likely, scale.unit);
    return measured.low == measured.high ? middle : middle + " (" + ends + ")";
}

std::string amount_text(const Amount& amount, const Reader& reader) {
    if (amount.measure == Measure::pieces)
        return std::to_string(amount.steps);
    const bool is_mass = amount.measure == Measure::mass;
    const double number = amount.in_wire_unit();
    if (!is_mass && reader.kitchen && reader.units == System::us && number > 0)
        if (auto text = kitchen_text(number))
            return *text;
    Scale scale = scale_of(is_mass ? QuantityKind::mass : QuantityKind::volume, number, reader);
    // What was typed comes back: a figure more than an estimate is worth.
    scale.figures = 4;
    scale.decimals_max = 3;
    return with_unit(rounded_text(scale.of(number), scale), scale.unit);
}

int currency_digits(std::string_view code) {
    constexpr std::array<std::string_view, 16> none{"BIF", "CLP", "DJF", "GNF", "ISK", "JPY",
                                                    "KMF", "KRW", "PYG", "RWF", "UGX", "VND",
                                                    "VUV", "XAF", "XOF", "XPF"};
    constexpr std::array<std::string_view, 7> three{"BHD", "IQD", "JOD", "KWD",
                                                    "LYD", "OMR", "TND"};
    if (std::find(none.begin(), none.end(), code) != none.end())
        return 0;
    return std::find(three.begin(), three.end(), code) != three.end() ? 3 : 2;
}

std::string money_text(const Sum& sum, const Reader& reader) {
    const std::string& code = sum.currency.empty() ? reader.currency : sum.currency;
    const int digits = currency_digits(code);
    std::int64_t step = 1'000'000;
    for (int i = 0; i < digits; ++i)
        step /= 10;
    const std::int64_t given = sum.sum.millionths;
    // Halves away from zero; the quotient first, so that the largest sum does not overflow.
    const std::int64_t rest = given % step;
    std::int64_t steps = given / step;
    if (rest >= step - rest)
        ++steps;
    else if (-rest >= step + rest)
        --steps;
    if (steps == 0 && given != 0) // the price of a gram: not nothing
        return with_unit(small_money(given, digits), code);
    const bool is_negative = steps < 0;
    const std::uint64_t size =
        is_negative ? 0 - static_cast<std::uint64_t>(steps) : static_cast<std::uint64_t>(steps);
    const auto per_unit = static_cast<std::uint64_t>(1'000'000 / step);
    std::string text = (is_negative ? "-" : "") + std::to_string(size / per_unit);
    if (digits > 0)
        text += fmt::format(".{:0{}}", size % per_unit, digits);
    return with_unit(std::move(text), code);
}

} // namespace barmkeep::sheet
