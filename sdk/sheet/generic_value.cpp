#include "sdk/sheet/generic_value.hpp"

#include "sdk/method/schema_words.hpp"
#include "sdk/method/structure.hpp"
#include "sdk/sheet/source_words.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::sheet {
namespace {

struct UnitKind {
    std::string_view unit;
    QuantityKind kind;
};
/// The wire units of quantity_codecs.hpp and time.hpp.
constexpr std::array unit_kinds{
    UnitKind{"g", QuantityKind::mass},        UnitKind{"L", QuantityKind::volume},
    UnitKind{"C", QuantityKind::temperature}, UnitKind{"K", QuantityKind::temperature_difference},
    UnitKind{"kPa", QuantityKind::pressure},  UnitKind{"m", QuantityKind::length},
    UnitKind{"kJ", QuantityKind::energy},     UnitKind{"B", QuantityKind::cells},
    UnitKind{"SG", QuantityKind::gravity},    UnitKind{"s", QuantityKind::duration}};

std::optional<QuantityKind> kind_of(const json::object& schema, std::string_view field) {
    const std::string unit = text_of(schema, "x-unit");
    if (unit == "kPa" && text_of(schema, "x-kind") == "absolute_pressure")
        return QuantityKind::absolute_pressure;
    if (unit == "m" && field == "altitude")
        return QuantityKind::altitude;
    for (const UnitKind& known : unit_kinds)
        if (known.unit == unit)
            return known.kind;
    return std::nullopt;
}

/// The value read as a T, or nothing; whatever is wrong with it, it is shown as it came.
template <class T>
std::optional<T> read_if(const json::value& value) {
    ParseContext context{ParseContext::Mode::decode};
    auto read = Codec<T>::read(value, context);
    return context.clean() ? std::move(read) : std::nullopt;
}

Text string_text(const json::value& value, const json::object& schema) {
    const std::string kind = text_of(schema, "x-kind");
    const std::string format = text_of(schema, "format");
    if (kind == "money")
        if (const auto sum = read_if<Money>(value))
            return *sum;
    if (kind == "lot")
        if (const auto code = read_if<LotCode>(value))
            return *code;
    if (format == "date")
        if (const auto day = read_if<Date>(value))
            return *day;
    if (format == "date-time")
        if (const auto instant = read_if<Instant>(value))
            return *instant;
    std::string plain(value.get_string());
    if (plain.empty())
        return {};
    return schema.contains("enum") ? words_of(plain) : plain;
}

Text number_text(const json::value& value, const json::object& schema, std::string_view field) {
    const double number = value.to_number<double>();
    if (const auto kind = kind_of(schema, field))
        return Quantity{*kind, number};
    const bool is_whole = !value.is_double() || std::trunc(number) == number;
    Text text = is_whole && value.is_int64() && std::abs(number) > 1e15
                    ? Text(write_json(value))
                    : Text(Quantity{QuantityKind::number, number});
    if (is_whole && std::abs(number) <= 1e15)
        text = Text(Number{number, 0});
    const std::string unit = text_of(schema, "x-unit");
    return unit.empty() ? text : text.append(" " + unit); // a unit that a plugin brought along
}

Text range_of(const json::object& range, const json::object& schema, std::string_view field) {
    const auto end = [&](std::string_view name) {
        const auto* member = range.if_contains(name);
        return member != nullptr && member->is_number() ? member->to_number<double>() : 0.0;
    };
    const json::object& likely = schema_at(schema_at(schema, "properties"), "likely");
    Text text = QuantityRange{kind_of(likely, field).value_or(QuantityKind::number), end("low"),
                              end("likely"), end("high")};
    if (const Text said = source_words(text_of(range, "sources")); !said.empty())
        text.append(" ").append(said);
    return text;
}

bool has_numbers(const json::object& object, std::initializer_list<std::string_view> names) {
    return std::all_of(names.begin(), names.end(), [&](std::string_view name) {
        const auto* member = object.if_contains(name);
        return member != nullptr && member->is_number();
    });
}

Text object_text(const json::value& value, const json::object& schema, std::string_view field) {
    const json::object& object = value.get_object();
    if (is_one_value(value, schema)) {
        if (const auto amount = read_if<Amount>(value))
            return *amount;
        return range_of(object, schema, field);
    }
    std::vector<Text> parts;
    const json::object& properties = schema_at(schema, "properties");
    for (const auto& member : object) {
        const Text inside =
            generic_text(member.value(), schema_at(properties, member.key()), member.key());
        if (!inside.empty())
            parts.push_back(text(words_of(member.key()), " ", inside));
    }
    return listed(parts, "and");
}

} // namespace

std::string words_of(std::string_view field) {
    std::string words(field);
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

bool is_one_value(const json::value& value, const json::object& schema) {
    const auto* object = value.if_object();
    if (object == nullptr)
        return false;
    if (text_of(schema, "x-kind") == "amount" && read_if<Amount>(value))
        return true;
    return object->size() <= 4 && has_numbers(*object, {"low", "likely", "high"});
}

bool is_figure(const json::object& schema) {
    const std::string kind = text_of(schema, "x-kind");
    const std::string type = text_of(schema, "type");
    return kind == "amount" || kind == "money" || !text_of(schema, "x-unit").empty() ||
           type == "integer" || type == "number";
}

Text generic_text(const json::value& value, const json::object& schema, std::string_view field) {
    switch (value.kind()) {
    case json::kind::null:
        return {};
    case json::kind::bool_:
        return value.get_bool() ? "yes" : "no";
    case json::kind::string:
        return string_text(value, schema);
    case json::kind::array: {
        std::vector<Text> parts;
        for (const auto& item : value.get_array())
            if (Text part = generic_text(item, schema_at(schema, "items"), field); !part.empty())
                parts.push_back(std::move(part));
        return listed(parts, "and");
    }
    case json::kind::object:
        return object_text(value, schema, field);
    default:
        return number_text(value, schema, field);
    }
}

} // namespace barmkeep::sheet
