// Reading, writing and schema of described structs: the one place that walks their fields.
#pragma once

#include "sdk/method/field.hpp"
#include "sdk/method/kind.hpp"

#include <tuple>

namespace barmkeep {

namespace detail {

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;

template <class F>
constexpr bool is_required(const F& field) {
    return !field.is_defaulted && !is_optional<typename F::value_type>;
}

/// Notes the fault of a number outside its bounds.
void check_bounds(double measured, const Rules& rules, Reading& reading,
                  const json::object& schema);
/// Unicode code points of a UTF-8 text: what a schema's maxLength counts.
[[nodiscard]] std::size_t characters_in(std::string_view text) noexcept;
/// Notes the fault of a text or list outside its bounds.
void check_length(std::size_t length, bool is_text, const Rules& rules, Reading& reading);
/// Notes members of `object` that are none of `known`, unless they are to be passed over.
void check_unknown(const json::object& object, const std::vector<std::string>& known,
                   Reading& reading);
/// Adds the bounds, the doc and the example to a field's schema.
void add_rules(json::object& schema, const Rules& rules);

template <class T>
void check(const T& value, const Rules& rules, Reading& reading) {
    if constexpr (is_optional<T>) {
        if (value)
            check(*value, rules, reading);
    } else if constexpr (Measured<T>) {
        check_bounds(Kind<T>::measure(value), rules, reading, Kind<T>::schema(Direction::sent));
    } else if constexpr (std::is_same_v<T, std::string>) {
        check_length(characters_in(value), true, rules, reading);
    } else if constexpr (requires {
                             value.size();
                             value.begin();
                         }) {
        check_length(value.size(), false, rules, reading);
    }
}

template <class T, class F>
void read_field(const F& field, const json::object& object, T& into, Reading& reading) {
    const auto* given = object.if_contains(F::name);
    const Reading::Step step{reading, F::name};
    if (given == nullptr || (given->is_null() && !is_required(field))) {
        if (is_required(field))
            reading.fault("missing", "'" + std::string(F::name) + "' is missing.",
                          std::string(field.doc));
        return;
    }
    auto value = Kind<typename F::value_type>::read(*given, reading);
    if (!value)
        return;
    check(*value, field, reading);
    into.*F::member = std::move(*value);
}

template <class T, class F>
void write_field(const F&, const T& from, json::object& into) {
    const auto& value = from.*F::member;
    if constexpr (is_optional<typename F::value_type>)
        if (!value)
            return;
    into.emplace(F::name, Kind<typename F::value_type>::write(value));
}

} // namespace detail

/// Schema of one field, with its doc, bounds, default and example.
template <Described T, class F>
json::object field_schema(const F& field, Direction direction) {
    json::object schema = Kind<typename F::value_type>::schema(direction);
    Rules rules = field;
    if (direction == Direction::sent)
        rules.example = {}; // shows what people write, which is not what is sent
    detail::add_rules(schema, rules);
    if (field.is_defaulted && direction == Direction::taken)
        schema["default"] = Kind<typename F::value_type>::write(T{}.*F::member);
    return schema;
}

template <Described T>
std::vector<std::string> field_names() {
    std::vector<std::string> names;
    std::apply([&](const auto&... field) { (names.emplace_back(field.name), ...); }, T::fields());
    return names;
}

template <Described T>
struct Kind<T> {
    static std::optional<T> read(const json::value& value, Reading& reading) {
        const auto* object = value.if_object();
        if (object == nullptr) {
            reading.fault("wrong_type", "An object is wanted here.");
            return std::nullopt;
        }
        const std::size_t faults_before = reading.faults().size();
        detail::check_unknown(*object, field_names<T>(), reading);
        T into{};
        std::apply(
            [&](const auto&... field) { (detail::read_field(field, *object, into, reading), ...); },
            T::fields());
        if (reading.faults().size() != faults_before)
            return std::nullopt;
        return into;
    }
    static json::value write(const T& value) {
        json::object object;
        std::apply([&](const auto&... field) { (detail::write_field(field, value, object), ...); },
                   T::fields());
        return object;
    }
    static json::object schema(Direction direction) {
        json::object properties;
        json::array required;
        std::apply(
            [&](const auto&... field) {
                (properties.emplace(field.name, field_schema<T>(field, direction)), ...);
                ((detail::is_required(field) || (field.is_defaulted && direction == Direction::sent)
                      ? required.push_back(json::value(field.name))
                      : void()),
                 ...);
            },
            T::fields());
        json::object schema{{"type", "object"}, {"properties", std::move(properties)}};
        if (!required.empty())
            schema["required"] = std::move(required);
        if (direction == Direction::taken)
            schema["additionalProperties"] = false;
        return schema;
    }
};

/// Reads a described struct, or throws Error(params) that lists every fault.
template <class T>
T read_as(const json::value& value, Unknown unknown = Unknown::told) {
    Reading reading{unknown};
    auto read = Kind<T>::read(value, reading);
    reading.throw_faults();
    return std::move(*read);
}

template <class T>
json::value to_json(const T& value) {
    return Kind<T>::write(value);
}

} // namespace barmkeep
