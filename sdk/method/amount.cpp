#include "sdk/method/amount.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/units.hpp"
#include "sdk/method/structure.hpp"

#include <cassert>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace barmkeep {
namespace {

constexpr double steps_max = 1e12; // a thousand tonnes, or a million litres

/// An Amount's own object, as a struct like any other.
struct WireAmount {
    double quantity = 0;
    std::string unit;
    static FieldList fields(auto) {
        return {
            field<&WireAmount::quantity>("How many."),
            field<&WireAmount::unit>("The unit: g for mass, L for volume, pieces for a count.")};
    }
};

std::optional<Measure> measure_of(std::string_view unit) {
    for (const auto& word : enum_names(Measure{}))
        if (wire_unit(word.value) == unit)
            return word.value;
    return std::nullopt;
}

double number_of_pieces(std::string_view text) {
    double number = 0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), number);
    std::string_view rest = text.substr(static_cast<std::size_t>(end.ptr - text.data()));
    while (!rest.empty() && rest.front() == ' ')
        rest.remove_prefix(1);
    if (end.ec == std::errc{} && (rest.empty() || rest == "pieces" || rest == "pcs"))
        return number;
    throw brewing::UnitError(fmt::format("'{}' is not a number of pieces.", text),
                             "Give a whole number, such as 12.");
}

double wire_number(const std::string& text, Measure measure) {
    switch (measure) {
    case Measure::mass:
        return brewing::parse_mass(text).in(brewing::gram);
    case Measure::volume:
        return brewing::parse_volume(text).in(brewing::litre);
    case Measure::pieces:
        break;
    }
    return number_of_pieces(text);
}

std::int64_t rounded_steps(double wire_number, Measure measure, std::string_view pointer) {
    const double steps = wire_number * static_cast<double>(steps_per_wire_unit(measure));
    if (!(std::abs(steps) <= steps_max))
        throw Error(ErrorKind::params, "out_of_range",
                    fmt::format("The amount {} {} is too large.", wire_number, wire_unit(measure)),
                    "Check the number and its unit.", pointer);
    if (measure == Measure::pieces && std::trunc(steps) != steps)
        throw Error(ErrorKind::params, "not_whole",
                    fmt::format("{} pieces is not possible: pieces are whole.", wire_number),
                    "Give a whole number.", pointer);
    return std::llround(steps);
}

} // namespace

std::string_view wire_unit(Measure measure) noexcept {
    switch (measure) {
    case Measure::mass:
        return "g";
    case Measure::volume:
        return "L";
    case Measure::pieces:
        break;
    }
    return "pieces";
}

std::int64_t steps_per_wire_unit(Measure measure) noexcept {
    switch (measure) {
    case Measure::mass:
        return 1000;
    case Measure::volume:
        return 1'000'000;
    case Measure::pieces:
        break;
    }
    return 1;
}

Amount amount_of(brewing::Mass mass) {
    return {std::llround(mass.in(brewing::gram)*1000.0), Measure::mass};
}
Amount amount_of(brewing::Volume volume) {
    return {std::llround(volume.in(brewing::litre)*1e6), Measure::volume};
}
Amount pieces(std::int64_t count) {
    return {count, Measure::pieces};
}

brewing::Mass as_mass(const Amount& amount) {
    assert(amount.measure == Measure::mass);
    return amount.in_wire_unit() * brewing::gram;
}
brewing::Volume as_volume(const Amount& amount) {
    assert(amount.measure == Measure::volume);
    return amount.in_wire_unit() * brewing::litre;
}

std::string to_text(const Amount& amount) {
    if (amount.measure == Measure::pieces)
        return fmt::format("{}", amount.steps);
    return fmt::format("{} {}", amount.in_wire_unit(), wire_unit(amount.measure));
}

AmountGiven::AmountGiven(const Amount& amount) : given(Codec<Amount>::write(amount)) {}

Amount AmountGiven::as(Measure measure, std::string_view pointer) const {
    if (given.is_number())
        return {rounded_steps(given.to_number<double>(), measure, pointer), measure};
    if (const auto* text = given.if_string()) {
        try {
            return {rounded_steps(wire_number(std::string(*text), measure), measure, pointer),
                    measure};
        } catch (const brewing::UnitError& error) {
            throw Error(ErrorKind::params, "wrong_unit", error.what(), error.hint(), pointer);
        } catch (const brewing::OutOfRange& error) {
            throw error_of(error, pointer);
        }
    }
    ParseContext reading;
    const auto exact = Codec<Amount>::read(given, reading);
    if (!exact || exact->measure != measure)
        throw Error(ErrorKind::params, "wrong_unit",
                    fmt::format("This good is measured in {}.", wire_unit(measure)),
                    "Give the amount in that unit.", pointer);
    return *exact;
}

std::optional<Amount> Codec<Amount>::read(const json::value& value, ParseContext& reading) {
    const auto wire = Codec<WireAmount>::read(value, reading);
    if (!wire)
        return std::nullopt;
    const auto measure = measure_of(wire->unit);
    if (!measure) {
        reading.fault("wrong_unit", "The unit of an amount must be g, L or pieces.");
        return std::nullopt;
    }
    try {
        return Amount{rounded_steps(wire->quantity, *measure, ""), *measure};
    } catch (const Error& error) {
        reading.fault(error.reason(), error.what(), error.hint());
        return std::nullopt;
    }
}

json::value Codec<Amount>::write(const Amount& value) {
    return Codec<WireAmount>::write({value.in_wire_unit(), std::string(wire_unit(value.measure))});
}

json::object Codec<Amount>::schema(Direction direction) {
    json::object schema = Codec<WireAmount>::schema(direction);
    schema["x-kind"] = "amount";
    return schema;
}

std::optional<AmountGiven> Codec<AmountGiven>::read(const json::value& value,
                                                    ParseContext& reading) {
    if (value.is_number() || value.is_string() || value.is_object()) {
        AmountGiven given;
        given.given = value;
        return given;
    }
    reading.fault("wrong_type", "This must be an amount.",
                  "Give it with its unit, such as 1.5 kg, 4 oz or 12.");
    return std::nullopt;
}

json::object Codec<AmountGiven>::schema(Direction) {
    return {{"type", json::array{"string", "number", "object"}}, {"x-kind", "amount"}};
}

template struct detail::MemberOperations<Amount>;
template struct detail::MemberOperations<std::optional<Amount>>;
template struct detail::MemberOperations<AmountGiven>;
template struct detail::MemberOperations<std::optional<AmountGiven>>;

} // namespace barmkeep
