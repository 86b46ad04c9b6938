#include "daemon/client/schema.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace barmkeep::barm {
namespace {

bool is_plain(Shape shape) {
    return shape == Shape::text || shape == Shape::number || shape == Shape::integer ||
           shape == Shape::flag;
}

Shape shape_of_list(const json::object& schema) {
    const Shape item = shape_of(schema_at(schema, "items"));
    if (item == Shape::record)
        return Shape::records;
    return is_plain(item) ? Shape::texts : Shape::json;
}

std::string bounds_phrase(const json::object& schema) {
    const std::string unit = text_of(schema, "x-unit");
    const std::string tail = unit.empty() || unit == "SG" ? "" : " " + unit;
    const auto lowest = number_of(schema, "minimum");
    const auto above = number_of(schema, "exclusiveMinimum");
    const auto highest = number_of(schema, "maximum");
    if (lowest && highest)
        return fmt::format("{} to {}{}", *lowest, *highest, tail);
    std::string phrase;
    if (lowest)
        phrase = fmt::format("at least {}{}", *lowest, tail);
    if (above)
        phrase = fmt::format("more than {}{}", *above, tail);
    if (highest)
        phrase += fmt::format("{}at most {}{}", phrase.empty() ? "" : ", ", *highest, tail);
    return phrase;
}

/// Units whose letter alone says too little.
std::string unit_phrase(const std::string& unit) {
    if (unit == "B")
        return "billions of cells";
    if (unit == "SG")
        return "specific gravity";
    return unit == "s" ? "seconds" : "number in " + unit;
}

std::string plain_text(const json::value& value) {
    return value.is_string() ? std::string(value.get_string()) : write_json(value);
}

} // namespace

bool has_type(const json::object& schema, std::string_view type) {
    const auto* types = schema.if_contains("type");
    if (types == nullptr)
        return false;
    if (const auto* all = types->if_array())
        return std::any_of(all->begin(), all->end(),
                           [&](const auto& one) { return one == json::value(type); });
    return *types == json::value(type);
}

Shape shape_of(const json::object& schema) {
    if (has_type(schema, "string"))
        return Shape::text;
    if (has_type(schema, "integer"))
        return Shape::integer;
    if (has_type(schema, "number"))
        return Shape::number;
    if (has_type(schema, "boolean"))
        return Shape::flag;
    if (has_type(schema, "array"))
        return shape_of_list(schema);
    if (!properties_of(schema).empty())
        return Shape::record;
    if (!schema_at(schema, "additionalProperties").empty())
        return Shape::members;
    return Shape::json;
}

bool is_true(const json::object& schema, std::string_view member) {
    const auto* value = schema.if_contains(member);
    return value != nullptr && *value == true;
}

const json::object& properties_of(const json::object& schema) {
    return schema_at(schema, "properties");
}

std::vector<std::string> enum_words(const json::object& schema) {
    std::vector<std::string> words;
    const auto* listed = schema.if_contains("enum");
    if (listed != nullptr && listed->is_array())
        for (const auto& word : listed->get_array())
            words.push_back(plain_text(word));
    return words;
}

bool is_range(const json::object& schema) {
    const auto& properties = properties_of(schema);
    return properties.size() <= 4 && properties.contains("low") && properties.contains("likely") &&
           properties.contains("high");
}

std::string kind_phrase(const json::object& schema) {
    const std::string kind = text_of(schema, "x-kind");
    const std::string unit = text_of(schema, "x-unit");
    const std::string format = text_of(schema, "format");
    if (const auto words = enum_words(schema); !words.empty())
        return fmt::format("one of {}", fmt::join(words, ", "));
    if (kind == "amount")
        return has_type(schema, "string") ? "amount with its unit" : "amount";
    if (kind == "money")
        return "sum of money";
    if (kind == "lot")
        return "lot code";
    if (format == "date")
        return "date";
    if (format == "date-time")
        return "time in UTC";
    if (!unit.empty())
        return unit_phrase(unit) + (has_type(schema, "string") ? ", or text with a unit" : "");
    switch (shape_of(schema)) {
    case Shape::text:
        return "text";
    case Shape::number:
        return "number";
    case Shape::integer:
        return "whole number";
    case Shape::flag:
        return "true or false";
    case Shape::record:
        return is_range(schema) ? "range" : "object";
    case Shape::members:
        return fmt::format("object of names, each with: {}",
                           kind_phrase(schema_at(schema, "additionalProperties")));
    case Shape::texts:
    case Shape::records:
        return fmt::format("list, each: {}", kind_phrase(schema_at(schema, "items")));
    case Shape::json:
        break;
    }
    return has_type(schema, "object")  ? "JSON object"
           : has_type(schema, "array") ? "JSON list"
                                       : "any JSON";
}

std::string rules_phrase(const json::object& schema) {
    std::vector<std::string> phrases;
    if (auto bounds = bounds_phrase(schema); !bounds.empty())
        phrases.push_back(std::move(bounds));
    if (const auto* usual = schema.if_contains("default");
        usual != nullptr && !usual->is_structured() && !usual->is_bool())
        phrases.push_back("default " + plain_text(*usual));
    if (const auto* examples = schema.if_contains("examples");
        examples != nullptr && examples->is_array() && !examples->get_array().empty()) {
        const json::value& first = examples->get_array().front();
        const auto* list = first.if_array(); // of a list one element is example enough
        phrases.push_back("as in " +
                          plain_text(list != nullptr && !list->empty() ? list->front() : first));
    }
    return fmt::format("{}", fmt::join(phrases, "; "));
}

} // namespace barmkeep::barm
