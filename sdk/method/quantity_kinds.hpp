// How the science's quantities travel: a plain number in the unit the schema names (x-unit), or,
// on the way in, what a person writes with a unit of his own.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"
#include "sdk/method/structure.hpp"

namespace barmkeep {

namespace detail {

json::object quantity_schema(Direction direction, std::string_view unit, std::string_view kind);

/// A number as it is, a text through `parse`; faults noted.  `parse` may throw UnitError.
std::optional<double> read_quantity(const json::value& value, Reading& reading,
                                    double (*parse)(std::string_view));

} // namespace detail

// One entry a quantity: its wire unit, and how its canonical number is read from text.
// The step keeps the wire free of digits that no scale or hydrometer ever had.
#define BARMKEEP_QUANTITY_KIND(Type)                                                               \
    template <>                                                                                    \
    struct Kind<brewing::Type> {                                                                   \
        static std::optional<brewing::Type> read(const json::value& value, Reading& reading);      \
        static json::value write(brewing::Type value);                                             \
        static json::object schema(Direction direction);                                           \
        static double measure(brewing::Type value);                                                \
    };

BARMKEEP_QUANTITY_KIND(Mass)                  // g, to the milligram
BARMKEEP_QUANTITY_KIND(Volume)                // L, to the microlitre
BARMKEEP_QUANTITY_KIND(Temperature)           // C, to 0.001
BARMKEEP_QUANTITY_KIND(TemperatureDifference) // K, to 0.001
BARMKEEP_QUANTITY_KIND(GaugePressure)         // kPa above the air around, to 0.001
BARMKEEP_QUANTITY_KIND(AbsolutePressure)      // kPa, to 0.001; x-kind absolute_pressure
BARMKEEP_QUANTITY_KIND(Length)                // m, to 0.0001
BARMKEEP_QUANTITY_KIND(Energy)                // kJ, to 0.001
BARMKEEP_QUANTITY_KIND(Cells)                 // billion, to 0.0001
BARMKEEP_QUANTITY_KIND(Gravity)               // SG, to 0.00001

#undef BARMKEEP_QUANTITY_KIND

/// A figure known only as a range, as it travels; made from the science's Estimate.
template <class T>
struct Range {
    T low{};
    T likely{};
    T high{};
    std::string sources;

    Range() = default;
    Range(const brewing::Estimate<T>& estimate) // NOLINT: the same thing with its own text
        : low{estimate.low}, likely{estimate.likely}, high{estimate.high}, sources{
                                                                               estimate.sources} {}

    static constexpr auto fields() {
        return std::tuple{
            field<&Range::low>("The low end of what the sources and the inputs allow."),
            field<&Range::likely>("The likely figure."), field<&Range::high>("The high end."),
            field<&Range::sources>("Keys of the sources that made it; docs/science.md lists them.")
                .defaulted()};
    }
};

} // namespace barmkeep
