#include "sdk/method/schema_check.hpp"

#include "sdk/method/lot_code.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/schema_words.hpp"
#include "sdk/method/time.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace barmkeep {
namespace {

const json::array* array_in(const json::object& schema, std::string_view word) {
    const auto* given = schema.if_contains(word);
    return given != nullptr ? given->if_array() : nullptr;
}

struct Type {
    std::string_view name;
    std::string_view wanted;
    bool (*fits)(const json::value&);
};

bool is_whole(const json::value& value) {
    const auto* number = value.if_double();
    return value.is_int64() || value.is_uint64() ||
           (number != nullptr && std::trunc(*number) == *number);
}

constexpr std::array<Type, 7> types{{{"boolean", "true or false",
                                      [](const json::value& value) {
                                          return value.is_bool();
                                      }},
                                     {"integer", "a whole number", is_whole},
                                     {"number", "a number",
                                      [](const json::value& value) {
                                          return value.is_number();
                                      }},
                                     {"string", "a text",
                                      [](const json::value& value) {
                                          return value.is_string();
                                      }},
                                     {"array", "a list",
                                      [](const json::value& value) {
                                          return value.is_array();
                                      }},
                                     {"object", "an object",
                                      [](const json::value& value) {
                                          return value.is_object();
                                      }},
                                     {"null", "null", [](const json::value& value) {
                                          return value.is_null();
                                      }}}};

/// The types that a schema lets through; none if it says nothing that we know.
std::vector<Type> types_of(const json::object& schema) {
    std::vector<Type> all;
    const auto add = [&](const json::value& name) {
        for (const auto& type : types)
            if (name.is_string() && name.get_string() == type.name)
                all.push_back(type);
    };
    if (const auto* several = array_in(schema, "type"))
        std::for_each(several->begin(), several->end(), add);
    else if (const auto* one = schema.if_contains("type"))
        add(*one);
    return all;
}

bool check_type(const json::value& value, const json::object& schema, ParseContext& reading) {
    const auto allowed = types_of(schema);
    std::string wanted;
    for (const auto& type : allowed) {
        if (type.fits(value))
            return true;
        wanted += (wanted.empty() ? "" : " or ") + std::string(type.wanted);
    }
    if (allowed.empty())
        return true;
    reading.fault("wrong_type", "This must be " + wanted + ".");
    return false;
}

void check_enum(const json::value& value, const json::object& schema, ParseContext& reading) {
    const auto* known = array_in(schema, "enum");
    if (known == nullptr || std::find(known->begin(), known->end(), value) != known->end())
        return;
    std::vector<std::string> words;
    for (const auto& one : *known)
        words.push_back(one.is_string() ? std::string(one.get_string()) : write_json(one));
    fault_unknown_word(
        reading, value.is_string() ? std::string(value.get_string()) : write_json(value), words);
}

void check_number(double number, const json::object& schema, ParseContext& reading) {
    Rules rules;
    rules.lowest = number_of(schema, "minimum").value_or(rules.lowest);
    rules.highest = number_of(schema, "maximum").value_or(rules.highest);
    if (const auto bound = number_of(schema, "exclusiveMinimum"); bound && *bound >= rules.lowest) {
        rules.lowest = *bound;
        rules.lowest_excluded = true;
    }
    const std::string unit = text_of(schema, "x-unit");
    detail::check_bounds(number, json::value(number), rules, reading,
                         unit.empty() ? json::object{} : json::object{{"x-unit", unit}});
    if (const auto bound = number_of(schema, "exclusiveMaximum");
        bound && number >= *bound && number <= rules.highest)
        reading.fault("out_of_range",
                      fmt::format("{} is out of range; it must be less than {}.", number, *bound),
                      "Check the number and its unit.");
}

/// Reads a text as a T, if that is what the schema means by it; false if it is not.
template <class T>
bool read_as_kind(const json::value& text, const json::object& schema, ParseContext& reading) {
    static const json::object own = Codec<T>::schema(Direction::taken);
    for (const std::string_view word : {"x-unit", "x-kind", "format"})
        if (text_of(schema, word) != text_of(own, word))
            return false;
    const auto meant = Codec<T>::read(text, reading);
    if constexpr (Measured<T>)
        if (meant)
            check_number(Codec<T>::measure(*meant), schema, reading);
    return true;
}

/// A text of no kind that we know is left as it is.
template <class... Ts>
void check_kinds(const json::value& text, const json::object& schema, ParseContext& reading) {
    (void)(read_as_kind<Ts>(text, schema, reading) || ...);
}

void check_meaning(const json::value& text, const json::object& schema, ParseContext& reading) {
    check_kinds<brewing::Mass, brewing::Volume, brewing::Temperature,
                brewing::TemperatureDifference, brewing::GaugePressure, brewing::AbsolutePressure,
                brewing::Length, brewing::Energy, brewing::Cells, brewing::Gravity, Seconds, Money,
                Date, Instant, LotCode>(text, schema, reading);
}

void check_length(std::size_t length, bool is_text, const json::object& schema,
                  ParseContext& reading) {
    const auto bound = [&](std::string_view word, std::size_t usual) {
        const auto given = number_of(schema, word);
        constexpr double exact_max = 9007199254740992.0; // 2^53
        return given && *given >= 0 && *given <= exact_max ? static_cast<std::size_t>(*given)
                                                           : usual;
    };
    Rules rules;
    rules.length_min = bound(is_text ? "minLength" : "minItems", rules.length_min);
    rules.length_max = bound(is_text ? "maxLength" : "maxItems", rules.length_max);
    detail::check_length(length, is_text, rules, reading);
}

void check_list(const json::array& list, const json::object& schema, ParseContext& reading) {
    check_length(list.size(), false, schema, reading);
    const auto& items = schema_at(schema, "items");
    for (std::size_t i = 0; !items.empty() && i < list.size() && !reading.is_full(); ++i) {
        const ParseContext::Step step{reading, i};
        check_schema(list[i], items, reading);
    }
}

void check_member(const json::object& object, std::string_view name, const json::object& member,
                  bool is_required, ParseContext& reading) {
    const auto* given = object.if_contains(name);
    const ParseContext::Step step{reading, name};
    if (given != nullptr && !(given->is_null() && !is_required))
        check_schema(*given, member, reading);
    else if (is_required)
        reading.fault("missing", "'" + std::string(name) + "' is missing.",
                      text_of(member, "description"));
}

/// The members that `properties` does not name.
void check_others(const json::object& object, const json::object& properties,
                  const json::object& schema, ParseContext& reading) {
    const auto* others = schema.if_contains("additionalProperties");
    const auto* allowed = others != nullptr ? others->if_bool() : nullptr;
    if (allowed != nullptr && !*allowed) {
        std::vector<std::string_view> known;
        for (const auto& property : properties)
            known.emplace_back(property.key());
        detail::check_unknown(object, known, reading);
    }
    if (const auto& described = schema_at(schema, "additionalProperties"); !described.empty())
        for (const auto& member : object)
            if (!properties.contains(member.key()))
                check_member(object, member.key(), described, is_required(schema, member.key()),
                             reading);
}

void check_object(const json::object& object, const json::object& schema, ParseContext& reading) {
    static const json::object nothing;
    const json::object& properties = schema_at(schema, "properties");
    check_others(object, properties, schema, reading);
    for (const auto& property : properties) {
        const auto* described = property.value().if_object();
        check_member(object, property.key(), described != nullptr ? *described : nothing,
                     is_required(schema, property.key()), reading);
    }
    const auto* required = array_in(schema, "required");
    for (std::size_t i = 0; required != nullptr && i < required->size(); ++i)
        if (const auto* name = (*required)[i].if_string();
            name != nullptr && !properties.contains(*name) && !object.contains(*name))
            check_member(object, *name, nothing, true, reading);
}

} // namespace

void check_schema(const json::value& value, const json::object& schema, ParseContext& reading) {
    if (!check_type(value, schema, reading))
        return;
    check_enum(value, schema, reading);
    if (value.is_number())
        check_number(value.to_number<double>(), schema, reading);
    else if (const auto* text = value.if_string()) {
        check_length(detail::characters_in(*text), true, schema, reading);
        check_meaning(value, schema, reading);
    } else if (const auto* list = value.if_array())
        check_list(*list, schema, reading);
    else if (const auto* object = value.if_object())
        check_object(*object, schema, reading);
}

} // namespace barmkeep
