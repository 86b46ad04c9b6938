#include "sdk/method/structure.hpp"

#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::detail {
namespace {

std::string unit_of(const json::object& schema) {
    const auto* unit = schema.if_contains("x-unit");
    return unit != nullptr ? " " + std::string(unit->as_string()) : "";
}

} // namespace

void check_bounds(double measured, const Rules& rules, Reading& reading,
                  const json::object& schema) {
    const bool too_low = rules.lowest_excluded ? measured <= rules.lowest : measured < rules.lowest;
    if (!too_low && measured <= rules.highest)
        return;
    const std::string unit = unit_of(schema);
    const std::string bound =
        too_low ? fmt::format("{} {:.7g}{}", rules.lowest_excluded ? "more than" : "at least",
                              rules.lowest, unit)
                : fmt::format("at most {:.7g}{}", rules.highest, unit);
    reading.fault("out_of_range",
                  fmt::format("{:.7g}{} is out of range; it must be {}.", measured, unit, bound),
                  "Check the number and its unit.");
}

std::size_t characters_in(std::string_view text) noexcept {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char byte) {
        return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; // no continuation
    }));
}

void check_length(std::size_t length, bool is_text, const Rules& rules, Reading& reading) {
    const char* what = is_text ? "characters" : "entries";
    if (length < rules.length_min)
        reading.fault("too_short", length == 0 ? "This must not be empty."
                                               : fmt::format("At least {} {} are wanted here.",
                                                             rules.length_min, what));
    if (length > rules.length_max)
        reading.fault("too_long",
                      fmt::format("At most {} {} are taken here.", rules.length_max, what));
}

void check_unknown(const json::object& object, const std::vector<std::string>& known,
                   Reading& reading) {
    if (reading.unknown() == Unknown::passed_over)
        return;
    for (const auto& member : object) {
        const std::string name(member.key());
        if (std::find(known.begin(), known.end(), name) != known.end())
            continue;
        if (reading.is_full())
            return; // a search for a near name each would take long for a whole document of them
        const Reading::Step step{reading, name};
        const auto near = nearest(name, known);
        reading.fault("unknown_field", "There is no field '" + name + "' here.",
                      near ? "Did you mean '" + *near + "'?" : "See the method's description.");
    }
}

void add_rules(json::object& schema, const Rules& rules) {
    if (std::isfinite(rules.lowest))
        schema[rules.lowest_excluded ? "exclusiveMinimum" : "minimum"] = rules.lowest;
    if (std::isfinite(rules.highest))
        schema["maximum"] = rules.highest;
    const bool is_list = schema.contains("items");
    if (rules.length_min > 0)
        schema[is_list ? "minItems" : "minLength"] = rules.length_min;
    if (rules.length_max != std::numeric_limits<std::size_t>::max())
        schema[is_list ? "maxItems" : "maxLength"] = rules.length_max;
    schema["description"] = json::value(rules.doc);
    if (rules.is_positional)
        schema["x-positional"] = true;
    if (rules.is_variadic)
        schema["x-variadic"] = true;
    if (!rules.example.empty())
        schema["examples"] = json::array{json::value(rules.example)};
}

} // namespace barmkeep::detail
