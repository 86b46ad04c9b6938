#include "daemon/client/value.hpp"

#include "daemon/client/local_time.hpp"
#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace barmkeep::barm {
namespace {

[[noreturn]] void refuse(std::string_view reason, const std::string& message,
                         std::string_view hint = {}) {
    throw Error(ErrorKind::params, reason, message, hint);
}

template <class Number>
Number number_in(std::string_view text, std::string_view wanted) {
    if (text.starts_with('+'))
        text.remove_prefix(1);
    Number number{};
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc{} || end != text.data() + text.size() || text.empty())
        refuse("wrong_type", fmt::format("'{}' is no {}.", text, wanted));
    if constexpr (std::is_floating_point_v<Number>)
        if (!std::isfinite(number))
            refuse("wrong_type", fmt::format("'{}' is no {}.", text, wanted));
    return number;
}

void check_bounds(const json::object& schema, double number) {
    const auto lowest = number_of(schema, "minimum");
    const auto above = number_of(schema, "exclusiveMinimum");
    const auto highest = number_of(schema, "maximum");
    if ((lowest && number < *lowest) || (above && number <= *above) ||
        (highest && number > *highest))
        refuse("out_of_range", fmt::format("{} is out of range.", number),
               fmt::format("It is {}.", rules_phrase(schema)));
}

bool flag_in(std::string_view text) {
    for (const std::string_view yes : {"true", "yes", "on"})
        if (text == yes)
            return true;
    for (const std::string_view no : {"false", "no", "off"})
        if (text == no)
            return false;
    refuse("wrong_type", fmt::format("'{}' is neither yes nor no.", text));
}

json::value date_in(std::string_view text, const ValueContext& context) {
    if (const auto relative = relative_date(text, context.today))
        return json::value(to_text(*relative));
    try {
        return json::value(to_text(parse_date(text)));
    } catch (const std::invalid_argument& error) {
        refuse("wrong_date", error.what(),
               "You can also write today, tomorrow, yesterday, +10d or +2w.");
    }
}

json::value instant_in(std::string_view text, const ValueContext& context) {
    constexpr const char* hint =
        "Write it by the cellar's clock, as in 09:30, 'yesterday 21:15' or '2026-03-14 09:30'.";
    try {
        const auto local = local_instant(text, context.today, context.time_zone);
        return json::value(to_text(local ? *local : parse_instant(text)));
    } catch (const std::invalid_argument& error) {
        refuse("wrong_instant", error.what(), hint);
    }
}

json::value text_in(const json::object& schema, std::string_view text,
                    const ValueContext& context) {
    const std::string format = text_of(schema, "format");
    if (format == "date")
        return date_in(text, context);
    if (format == "date-time")
        return instant_in(text, context);
    if (const auto words = enum_words(schema);
        !words.empty() && std::find(words.begin(), words.end(), text) == words.end()) {
        const auto near = nearest(text, words);
        refuse("unknown_word", fmt::format("'{}' is not a word that this option takes.", text),
               fmt::format("{}One of: {}.", near ? fmt::format("Did you mean '{}'? ", *near) : "",
                           fmt::join(words, ", ")));
    }
    return json::value(text);
}

json::value json_in(const json::object& schema, std::string_view text,
                    const ValueContext& context) {
    const std::string whole = text == "-" ? context.read_stdin() : std::string(text);
    try {
        return parse_json(whole);
    } catch (const std::invalid_argument& error) {
        if (has_type(schema, "object") || has_type(schema, "array"))
            refuse("not_json", fmt::format("This must be JSON: {}.", error.what()),
                   "Write it as one argument in single quotes, or write - to read it from stdin.");
        return json::value(text); // any JSON at all: a bare word is meant as a text
    }
}

/// Where the next `name=` of a known name begins after a comma; npos if nowhere.
std::size_t next_pair(std::string_view text, const std::vector<Option>& members) {
    for (std::size_t comma = text.find(','); comma != std::string_view::npos;
         comma = text.find(',', comma + 1)) {
        const auto rest = text.substr(comma + 1);
        const auto equals = rest.find('=');
        if (equals == std::string_view::npos)
            return std::string_view::npos;
        if (find_option(members, rest.substr(0, equals)) != nullptr)
            return comma;
    }
    return std::string_view::npos;
}

/// `what=extract,amount=4 oz`: a comma divides only where a known name and `=` follow it.
json::value record_in(const json::object& schema, std::string_view text,
                      const ValueContext& context) {
    if (text.starts_with('{'))
        return json_in(schema, text, context);
    const auto members = options_of(schema);
    json::object record;
    while (!text.empty()) {
        const auto end = next_pair(text, members);
        const auto pair = text.substr(0, end);
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
        const auto equals = pair.find('=');
        const auto* member = equals == std::string_view::npos
                                 ? nullptr
                                 : find_option(members, pair.substr(0, equals));
        if (member == nullptr) {
            std::vector<std::string> names;
            for (const auto& known : members)
                names.push_back(known.name);
            refuse("wrong_pair", fmt::format("'{}' is not name=value with a known name.", pair),
                   fmt::format("Names: {}.", fmt::join(names, ", ")));
        }
        put_value(record, *member, pair.substr(equals + 1), context);
    }
    return record;
}

void put_member(json::object& members, const json::object& schema, std::string_view text,
                const ValueContext& context) {
    if (text.starts_with('{')) {
        const json::value given = json_in(schema, text, context);
        for (const auto& member : given.as_object())
            members[member.key()] = member.value();
        return;
    }
    const auto equals = text.find('=');
    if (equals == std::string_view::npos || equals == 0)
        refuse("wrong_pair", fmt::format("'{}' is not name=value.", text));
    members[text.substr(0, equals)] =
        value_of(schema_at(schema, "additionalProperties"), text.substr(equals + 1), context);
}

json::array& list_at(json::object& params, const Option& option) {
    if (auto* there = find_at(params, option.path); there != nullptr && there->is_array())
        return there->get_array();
    set_at(params, option.path, json::array{});
    return find_at(params, option.path)->get_array();
}

void put_unplaced(json::object& params, const Option& option, std::string_view text,
                  const ValueContext& context) {
    const json::object& items = schema_at(option.schema, "items");
    switch (option.shape) {
    case Shape::texts:
        list_at(params, option).push_back(value_of(items, text, context));
        return;
    case Shape::records: {
        if (!text.starts_with('[')) {
            list_at(params, option).push_back(record_in(items, text, context));
            return;
        }
        set_at(params, option.path, json_in(option.schema, text, context));
        return;
    }
    case Shape::members: {
        auto* there = find_at(params, option.path);
        json::object members =
            there != nullptr && there->is_object() ? there->get_object() : json::object{};
        put_member(members, option.schema, text, context);
        set_at(params, option.path, std::move(members));
        return;
    }
    default:
        set_at(params, option.path, value_of(option.schema, text, context));
    }
}

} // namespace

std::optional<Date> relative_date(std::string_view text, const std::function<Date()>& today) {
    if (text == "today")
        return today();
    if (text == "tomorrow")
        return plus_days(today(), 1);
    if (text == "yesterday")
        return plus_days(today(), -1);
    if (text.size() < 3 || text.size() > 7 || (text[0] != '+' && text[0] != '-') ||
        (text.back() != 'd' && text.back() != 'w'))
        return std::nullopt;
    int count = 0;
    const char* last = text.data() + text.size() - 1;
    const auto [end, fault] = std::from_chars(text.data() + 1, last, count);
    if (fault != std::errc{} || end != last || count < 0)
        return std::nullopt;
    const int days = text.back() == 'w' ? count * 7 : count;
    return plus_days(today(), text[0] == '-' ? -days : days);
}

json::value value_of(const json::object& schema, std::string_view text,
                     const ValueContext& context) {
    switch (shape_of(schema)) {
    case Shape::text:
        return text_in(schema, text, context);
    case Shape::integer: {
        const auto number = number_in<std::int64_t>(text, "whole number");
        check_bounds(schema, static_cast<double>(number));
        return number;
    }
    case Shape::number: {
        const auto number = number_in<double>(text, "number");
        check_bounds(schema, number);
        return number;
    }
    case Shape::flag:
        return flag_in(text);
    case Shape::record:
        return record_in(schema, text, context);
    default:
        break;
    }
    return json_in(schema, text, context);
}

void put_value(json::object& params, const Option& option, std::string_view text,
               const ValueContext& context) {
    try {
        put_unplaced(params, option, text, context);
    } catch (const Error& error) {
        std::vector<FieldError> faults = error.faults();
        for (auto& fault : faults)
            fault.pointer = option.pointer() + fault.pointer;
        throw Error(error.kind(), std::move(faults));
    }
}

} // namespace barmkeep::barm
