// How the science's quantities travel: a plain number in the unit the schema names (x-unit), or,
// on the way in, what a person writes with a unit.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"
#include "sdk/method/structure.hpp"

namespace barmkeep {

namespace detail {

json::object quantity_schema(Direction direction, std::string_view unit, std::string_view kind);

/// A number as it is, a text through `parse`; faults noted.  `parse` may throw UnitError.
std::optional<double> read_quantity(const json::value& value, ParseContext& reading,
                                    double (*parse)(std::string_view));

} // namespace detail

// One entry a quantity: its wire unit, and how its canonical number is read from text.
// The step keeps the wire free of digits that no scale or hydrometer ever had.
#define BARMKEEP_QUANTITY_CODEC(Type)                                                              \
    template <>                                                                                    \
    struct Codec<brewing::Type> {                                                                  \
        static std::optional<brewing::Type> read(const json::value& value, ParseContext& reading); \
        static json::value write(brewing::Type value);                                             \
        static json::object schema(Direction direction);                                           \
        static double measure(brewing::Type value);                                                \
    };

BARMKEEP_QUANTITY_CODEC(Mass)                  // g, to the milligram
BARMKEEP_QUANTITY_CODEC(Volume)                // L, to the microlitre
BARMKEEP_QUANTITY_CODEC(Temperature)           // C, to 0.001
BARMKEEP_QUANTITY_CODEC(TemperatureDifference) // K, to 0.001
BARMKEEP_QUANTITY_CODEC(GaugePressure)         // kPa above the air around, to 0.001
BARMKEEP_QUANTITY_CODEC(AbsolutePressure)      // kPa, to 0.001; x-kind absolute_pressure
BARMKEEP_QUANTITY_CODEC(Length)                // m, to 0.0001
BARMKEEP_QUANTITY_CODEC(Energy)                // kJ, to 0.001
BARMKEEP_QUANTITY_CODEC(Cells)                 // billion, to 0.0001
BARMKEEP_QUANTITY_CODEC(Gravity)               // SG, to 0.00001

#undef BARMKEEP_QUANTITY_CODEC

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

    static FieldList fields(auto) {
        return {
            field<&Range::low>("The low end of what the sources and the inputs allow."),
            field<&Range::likely>("The likely figure."), field<&Range::high>("The high end."),
            field<&Range::sources>("Keys of the sources that made it; docs/science.md lists them.")
                .defaulted()};
    }
};

extern template struct detail::MemberOperations<brewing::Mass>;
extern template struct detail::MemberOperations<std::optional<brewing::Mass>>;
extern template struct detail::MemberOperations<brewing::Volume>;
extern template struct detail::MemberOperations<std::optional<brewing::Volume>>;
extern template struct detail::MemberOperations<brewing::Temperature>;
extern template struct detail::MemberOperations<std::optional<brewing::Temperature>>;
extern template struct detail::MemberOperations<brewing::TemperatureDifference>;
extern template struct detail::MemberOperations<std::optional<brewing::TemperatureDifference>>;
extern template struct detail::MemberOperations<brewing::GaugePressure>;
extern template struct detail::MemberOperations<std::optional<brewing::GaugePressure>>;
extern template struct detail::MemberOperations<brewing::AbsolutePressure>;
extern template struct detail::MemberOperations<std::optional<brewing::AbsolutePressure>>;
extern template struct detail::MemberOperations<brewing::Length>;
extern template struct detail::MemberOperations<std::optional<brewing::Length>>;
extern template struct detail::MemberOperations<brewing::Energy>;
extern template struct detail::MemberOperations<std::optional<brewing::Energy>>;
extern template struct detail::MemberOperations<brewing::Cells>;
extern template struct detail::MemberOperations<std::optional<brewing::Cells>>;
extern template struct detail::MemberOperations<brewing::Gravity>;
extern template struct detail::MemberOperations<std::optional<brewing::Gravity>>;
extern template struct detail::MemberOperations<Range<double>>;
extern template struct detail::MemberOperations<std::optional<Range<double>>>;
extern template struct detail::MemberOperations<Range<brewing::Mass>>;
extern template struct detail::MemberOperations<std::optional<Range<brewing::Mass>>>;
extern template struct detail::MemberOperations<Range<brewing::Volume>>;
extern template struct detail::MemberOperations<std::optional<Range<brewing::Volume>>>;
extern template struct detail::MemberOperations<Range<brewing::Cells>>;
extern template struct detail::MemberOperations<std::optional<Range<brewing::Cells>>>;
extern template struct detail::MemberOperations<Range<brewing::Gravity>>;
extern template struct detail::MemberOperations<std::optional<Range<brewing::Gravity>>>;

} // namespace barmkeep
