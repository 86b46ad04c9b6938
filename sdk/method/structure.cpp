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

void check_bounds(double measured, const json::value& written, const Rules& rules,
                  ParseContext& context, const json::object& schema) {
    const bool too_low = rules.lowest_excluded ? measured <= rules.lowest : measured < rules.lowest;
    const std::string unit = unit_of(schema);
    if (too_low || measured > rules.highest) {
        const std::string bound =
            too_low ? fmt::format("{} {:.7g}{}", rules.lowest_excluded ? "more than" : "at least",
                                  rules.lowest, unit)
                    : fmt::format("at most {:.7g}{}", rules.highest, unit);
        context.fault(
            "out_of_range",
            fmt::format("{:.7g}{} is out of range; it must be {}.", measured, unit, bound),
            "Check the number and its unit.");
        return;
    }
    if (measured > 0 && written.is_double() && written.get_double() == 0)
        context.fault(
            "too_small",
            fmt::format("{:.7g}{} is too small: it would be stored as 0.", measured, unit),
            "Check the number and its unit.");
}

std::size_t characters_in(std::string_view text) noexcept {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char byte) {
        return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; // no continuation
    }));
}

void check_length(std::size_t length, bool is_text, const Rules& rules, ParseContext& reading) {
    const char* what = is_text ? "characters" : "entries";
    if (length < rules.length_min)
        reading.fault("too_short", length == 0 ? "This must not be empty."
                                               : fmt::format("This must have at least {} {}.",
                                                             rules.length_min, what));
    if (length > rules.length_max)
        reading.fault("too_long",
                      fmt::format("This must have at most {} {}.", rules.length_max, what));
}

void check_unknown(const json::object& object, const std::vector<std::string_view>& known,
                   ParseContext& context) {
    for (const auto& member : object) {
        const std::string_view name = member.key();
        if (std::find(known.begin(), known.end(), name) != known.end())
            continue;
        if (context.is_full())
            return; // a search for a near name each would take long for a whole document of them
        const ParseContext::Step step{context, name};
        if (context.mode() == ParseContext::Mode::decode) {
            context.oddity("unknown_field", "This program does not know this field.");
            continue;
        }
        const auto near = nearest(name, {known.begin(), known.end()});
        context.fault("unknown_field", "There is no field '" + std::string(name) + "' here.",
                      near ? "Did you mean '" + *near + "'?"
                           : "See the description of the method.");
    }
}

namespace {

/// The array of one value.  Not written json::array{value}: for a value that is an array itself,
/// clang takes that for a copy, and g++ for an array in an array.
json::array alone(json::value value) {
    json::array array;
    array.push_back(std::move(value));
    return array;
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
    if (rules.is_from_batch)
        schema["x-from-batch"] = true;
    if (!rules.example.empty()) {
        const json::array examples = alone(json::value(rules.example));
        schema["examples"] = is_list ? alone(examples) : examples;
    }
}

void read_field(const Field& field, const json::object& from, void* object, ParseContext& context) {
    const auto* given = from.if_contains(field.name);
    const ParseContext::Step step{context, field.name};
    if (given == nullptr || (given->is_null() && !field.is_required())) {
        if (field.is_required())
            context.fault("missing", "'" + std::string(field.name) + "' is missing.",
                          std::string(field.doc));
        return;
    }
    const std::size_t before = context.faults().size();
    if (!field.type->read(*given, context, field, field.in(object)) && !field.is_required())
        context.forgive_since(before);
}

std::vector<std::string_view> names_of(std::span<const Field> fields) {
    std::vector<std::string_view> names;
    for (const Field& field : fields)
        names.push_back(field.name);
    return names;
}

/// Schema of one field, with its doc, bounds, default and example.  What is sent has no bounds: a
/// rule tightened later must not make an older answer wrong.
json::object field_schema(const Field& field, Direction direction, const void* initial) {
    json::object schema = field.type->schema(direction);
    Rules rules = field;
    if (direction == Direction::sent) {
        rules = Rules{};
        rules.doc = field.doc;
    }
    add_rules(schema, rules);
    if (field.is_defaulted && direction == Direction::taken)
        schema["default"] = field.type->write(field.in(initial));
    return schema;
}

} // namespace

bool read_struct(const json::value& value, ParseContext& context, std::span<const Field> fields,
                 void* object) {
    const auto* from = value.if_object();
    if (from == nullptr) {
        context.fault("wrong_type", "This must be an object.");
        return false;
    }
    const std::size_t faults_before = context.faults().size();
    check_unknown(*from, names_of(fields), context);
    for (const Field& field : fields)
        read_field(field, *from, object, context);
    return context.faults().size() == faults_before;
}

json::object write_struct(std::span<const Field> fields, const void* object) {
    json::object into;
    into.reserve(fields.size());
    for (const Field& field : fields) {
        const void* member = field.in(object);
        if (!field.type->is_absent(member))
            into.emplace(field.name, field.type->write(member));
    }
    return into;
}

json::object struct_schema(std::span<const Field> fields, Direction direction,
                           const void* initial) {
    json::object properties;
    json::array required;
    for (const Field& field : fields) {
        properties.emplace(field.name, field_schema(field, direction, initial));
        if (field.is_required() || (field.is_defaulted && direction == Direction::sent))
            required.push_back(json::value(field.name));
    }
    json::object schema{{"type", "object"}, {"properties", std::move(properties)}};
    if (!required.empty())
        schema["required"] = std::move(required);
    if (direction == Direction::taken)
        schema["additionalProperties"] = false;
    return schema;
}

void write_over(std::span<const Field> fields, const void* object, json::object& stored) {
    for (const Field& field : fields) {
        const void* member = field.in(object);
        if (field.type->is_absent(member))
            stored.erase(field.name);
        else
            stored[field.name] = field.type->write(member);
    }
}

} // namespace barmkeep::detail
