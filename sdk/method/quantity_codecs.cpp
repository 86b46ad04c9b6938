#include "sdk/method/quantity_codecs.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/units.hpp"

#include <cmath>

namespace barmkeep {

namespace detail {

json::object quantity_schema(Direction direction, std::string_view unit, std::string_view kind) {
    json::object schema{{"x-unit", unit}};
    if (!kind.empty())
        schema["x-kind"] = kind;
    if (direction == Direction::taken)
        schema["type"] = json::array{"number", "string"};
    else
        schema["type"] = "number";
    return schema;
}

std::optional<double> read_quantity(const json::value& value, ParseContext& reading,
                                    double (*parse)(std::string_view)) {
    if (value.is_number())
        return value.to_number<double>();
    const auto* text = value.if_string();
    if (text == nullptr) {
        reading.fault("wrong_type", "This must be a number, or a text with a unit.");
        return std::nullopt;
    }
    try {
        return parse(*text);
    } catch (const brewing::UnitError& error) {
        reading.fault("wrong_unit", error.what(), error.hint());
    } catch (const brewing::OutOfRange& error) {
        reading.fault("out_of_range", error.finding(), error.advice());
    }
    return std::nullopt;
}

} // namespace detail

namespace {

/// Rounds to a whole number of 1/steps_per_unit.
double rounded(double value, double steps_per_unit) {
    return std::round(value * steps_per_unit) / steps_per_unit;
}

/// A word for quantities that share their unit with another kind.  Pressure above vacuum must
/// never be shown as pressure above the air around.
template <class T>
std::string_view kind_of(std::type_identity<T>) {
    return std::is_same_v<T, brewing::AbsolutePressure> ? "absolute_pressure" : "";
}

} // namespace

#define BARMKEEP_QUANTITY_CODEC(Type, unit, steps_per_unit, parse, make, number)                   \
    std::optional<brewing::Type> Codec<brewing::Type>::read(const json::value& value,              \
                                                            ParseContext& reading) {               \
        const auto canonical = detail::read_quantity(                                              \
            value, reading, [](std::string_view text) { return brewing::parse(text).number(); });  \
        if (!canonical)                                                                            \
            return std::nullopt;                                                                   \
        return brewing::Type::make(*canonical);                                                    \
    }                                                                                              \
    json::value Codec<brewing::Type>::write(brewing::Type value) {                                 \
        return rounded(value.number(), steps_per_unit);                                            \
    }                                                                                              \
    json::object Codec<brewing::Type>::schema(Direction direction) {                               \
        return detail::quantity_schema(direction, unit,                                            \
                                       kind_of(std::type_identity<brewing::Type>{}));              \
    }                                                                                              \
    double Codec<brewing::Type>::measure(brewing::Type value) {                                    \
        return value.number();                                                                     \
    }

BARMKEEP_QUANTITY_CODEC(Mass, "g", 1e3, parse_mass, of_canonical, canonical)
BARMKEEP_QUANTITY_CODEC(Volume, "L", 1e6, parse_volume, of_canonical, canonical)
BARMKEEP_QUANTITY_CODEC(Temperature, "C", 1e3, parse_temperature, celsius, celsius)
BARMKEEP_QUANTITY_CODEC(TemperatureDifference, "K", 1e3, parse_temperature_difference, of_canonical,
                        canonical)
BARMKEEP_QUANTITY_CODEC(GaugePressure, "kPa", 1e3, parse_gauge_pressure, of_canonical, canonical)
BARMKEEP_QUANTITY_CODEC(AbsolutePressure, "kPa", 1e3, parse_absolute_pressure, of_canonical,
                        canonical)
BARMKEEP_QUANTITY_CODEC(Length, "m", 1e4, parse_length, of_canonical, canonical)
BARMKEEP_QUANTITY_CODEC(Energy, "kJ", 1e3, parse_energy, of_canonical, canonical)
BARMKEEP_QUANTITY_CODEC(Cells, "B", 1e4, parse_cells, of_canonical, canonical)
BARMKEEP_QUANTITY_CODEC(Gravity, "SG", 1e5, parse_gravity, sg, sg)

#undef BARMKEEP_QUANTITY_CODEC

template struct detail::MemberOperations<brewing::Mass>;
template struct detail::MemberOperations<std::optional<brewing::Mass>>;
template struct detail::MemberOperations<brewing::Volume>;
template struct detail::MemberOperations<std::optional<brewing::Volume>>;
template struct detail::MemberOperations<brewing::Temperature>;
template struct detail::MemberOperations<std::optional<brewing::Temperature>>;
template struct detail::MemberOperations<brewing::TemperatureDifference>;
template struct detail::MemberOperations<std::optional<brewing::TemperatureDifference>>;
template struct detail::MemberOperations<brewing::GaugePressure>;
template struct detail::MemberOperations<std::optional<brewing::GaugePressure>>;
template struct detail::MemberOperations<brewing::AbsolutePressure>;
template struct detail::MemberOperations<std::optional<brewing::AbsolutePressure>>;
template struct detail::MemberOperations<brewing::Length>;
template struct detail::MemberOperations<std::optional<brewing::Length>>;
template struct detail::MemberOperations<brewing::Energy>;
template struct detail::MemberOperations<std::optional<brewing::Energy>>;
template struct detail::MemberOperations<brewing::Cells>;
template struct detail::MemberOperations<std::optional<brewing::Cells>>;
template struct detail::MemberOperations<brewing::Gravity>;
template struct detail::MemberOperations<std::optional<brewing::Gravity>>;
template struct detail::MemberOperations<Range<double>>;
template struct detail::MemberOperations<std::optional<Range<double>>>;
template struct detail::MemberOperations<Range<brewing::Mass>>;
template struct detail::MemberOperations<std::optional<Range<brewing::Mass>>>;
template struct detail::MemberOperations<Range<brewing::Volume>>;
template struct detail::MemberOperations<std::optional<Range<brewing::Volume>>>;
template struct detail::MemberOperations<Range<brewing::Cells>>;
template struct detail::MemberOperations<std::optional<Range<brewing::Cells>>>;
template struct detail::MemberOperations<Range<brewing::Gravity>>;
template struct detail::MemberOperations<std::optional<Range<brewing::Gravity>>>;

} // namespace barmkeep
