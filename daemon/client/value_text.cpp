#include "daemon/client/value_text.hpp"

#include "daemon/client/local_time.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/time.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

using namespace brewing;

std::string pressure_text(double number, const json::object& schema, const Style& style) {
    if (text_of(schema, "x-kind") == "absolute_pressure")
        return print(AbsolutePressure::of_canonical(number), style.system);
    return print(GaugePressure::of_canonical(number), style.system);
}

std::string plain_number(double number) {
    return fmt::format("{:.6g}", number);
}

std::string quantity_text(double number, const json::object& schema, const Style& style) {
    const std::string unit = text_of(schema, "x-unit");
    if (unit == "g")
        return print(Mass::of_canonical(number), style.system);
    if (unit == "L")
        return print(Volume::of_canonical(number), style.system);
    if (unit == "C")
        return print(Temperature::celsius(number), style.system);
    if (unit == "K")
        return print(TemperatureDifference::of_canonical(number), style.system);
    if (unit == "kPa")
        return pressure_text(number, schema, style);
    if (unit == "m")
        return print(Length::of_canonical(number), style.system);
    if (unit == "kJ")
        return print(Energy::of_canonical(number), style.system);
    if (unit == "B")
        return print(Cells::of_canonical(number));
    if (unit == "SG")
        return print(Gravity::sg(number));
    if (unit == "s")
        return to_text(Seconds{static_cast<std::int64_t>(number)});
    return plain_number(number) + " " + unit; // a unit that a plugin brought along
}

std::string amount_text(const json::object& amount, const Style& style) {
    const auto* quantity = amount.if_contains("quantity");
    const std::string unit = text_of(amount, "unit");
    if (quantity == nullptr || !quantity->is_number())
        return write_json(amount);
    const double number = quantity->to_number<double>();
    if (unit == "g")
        return print(Mass::of_canonical(number), style.system);
    if (unit == "L")
        return print(Volume::of_canonical(number), style.system);
    return plain_number(number);
}

std::string range_text(const json::object& range, const json::object& schema, const Style& style) {
    const auto end = [&](std::string_view name) {
        const auto* value = range.if_contains(name);
        return value_text(value != nullptr ? *value : json::value(nullptr),
                          schema_at(properties_of(schema), name), style);
    };
    return fmt::format("{} ({} to {})", end("likely"), end("low"), end("high"));
}

std::string list_text(const json::array& list, const json::object& schema, const Style& style) {
    const auto& items = schema_at(schema, "items");
    if (shape_of(schema) == Shape::records) // none is no answer, and its column is dropped
        return list.empty() ? "" : std::to_string(list.size());
    std::string text;
    for (const auto& item : list) {
        const std::string_view gap = text.empty() ? "" : text.ends_with('.') ? " " : ", ";
        text += std::string(gap) + value_text(item, items, style);
    }
    return text;
}

/// "2026-03-14 09:30:00 CET" for "2026-03-14T08:30:00Z"; a program gets UTC.
std::string instant_text(const std::string& text, const Style& style) {
    try {
        return local_text(parse_instant(text), style.is_plain ? "UTC" : style.time_zone);
    } catch (const std::invalid_argument&) { // shown as it came
        return printable(text);
    }
}

/// A sum of one or more is shown to the hundredth; a smaller one, such as the price of a gram, and
/// one that a program reads, with all its decimals.
std::string money_text(std::string text, const Style& style) {
    try {
        const Money exact = parse_money(text);
        constexpr std::int64_t one = 1'000'000;
        constexpr std::int64_t hundredth = one / 100;
        if (!style.is_plain && (exact.millionths >= one || exact.millionths <= -one)) {
            const std::int64_t half = exact.millionths < 0 ? -hundredth / 2 : hundredth / 2;
            text = to_text(Money{(exact.millionths + half) / hundredth * hundredth});
        }
    } catch (const std::invalid_argument&) { // shown as it came
    }
    return style.currency.empty() ? text : text + " " + style.currency;
}

std::string string_text(std::string text, const json::object& schema, const Style& style) {
    if (text_of(schema, "x-kind") == "money")
        return money_text(printable(text), style);
    if (text_of(schema, "format") == "date-time")
        return instant_text(text, style);
    return printable(text);
}

std::string object_text(const json::object& object, const json::object& schema,
                        const Style& style) {
    if (text_of(schema, "x-kind") == "amount")
        return amount_text(object, style);
    if (is_range(schema))
        return range_text(object, schema, style);
    return object.empty() ? "" : printable(write_json(object));
}

} // namespace

std::string value_text(const json::value& value, const json::object& schema, const Style& style) {
    switch (value.kind()) {
    case json::kind::null:
        return "";
    case json::kind::bool_:
        return value.get_bool() ? "yes" : "no";
    case json::kind::string:
        return string_text(std::string(value.get_string()), schema, style);
    case json::kind::array:
        return list_text(value.get_array(), schema, style);
    case json::kind::object:
        return in_letters_of(style, object_text(value.get_object(), schema, style));
    default:
        break;
    }
    if (!text_of(schema, "x-unit").empty())
        return in_letters_of(style, quantity_text(value.to_number<double>(), schema, style));
    return value.is_double() ? plain_number(value.get_double()) : write_json(value);
}

bool is_numeric(const json::object& schema) {
    const std::string kind = text_of(schema, "x-kind");
    const Shape shape = shape_of(schema);
    return kind == "amount" || kind == "money" || !text_of(schema, "x-unit").empty() ||
           shape == Shape::integer || shape == Shape::number;
}

std::string label_of(std::string_view field) {
    std::string label(field);
    std::replace(label.begin(), label.end(), '_', ' ');
    return label;
}

} // namespace barmkeep::barm
