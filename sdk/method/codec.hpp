// How a C++ type travels in JSON: reading, writing and its schema, once for each type.
//
// `Codec<T>` has three static functions:
//     std::optional<T> read(const json::value&, ParseContext&);  nothing after noting a fault
//     json::value write(const T&);
//     json::object schema(Direction);                       JSON Schema, draft 07
// and, where bounds make sense, `double measure(const T&)` in the unit the schema names.
//
// This header has the plain types; kinds of quantities, money, dates and lot codes stand beside
// those types; described structs are in structure.hpp.
#pragma once

#include "sdk/method/parse_context.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

namespace barmkeep {

/// A schema says what is taken (people may write `4 oz`) or what is sent (always a plain number).
enum class Direction { taken, sent };

template <class T>
struct Codec;

template <class T>
concept HasCodec = requires(const T& value) {
    { Codec<T>::write(value) } -> std::convertible_to<json::value>;
};
template <class T>
concept Measured = requires(const T& value) {
    { Codec<T>::measure(value) } -> std::convertible_to<double>;
};

template <>
struct Codec<bool> {
    static std::optional<bool> read(const json::value& value, ParseContext& reading);
    static json::value write(bool value) { return value; }
    static json::object schema(Direction) { return {{"type", "boolean"}}; }
};

template <>
struct Codec<std::int64_t> {
    static std::optional<std::int64_t> read(const json::value& value, ParseContext& reading);
    static json::value write(std::int64_t value) { return value; }
    static json::object schema(Direction) { return {{"type", "integer"}}; }
    static double measure(std::int64_t value) { return static_cast<double>(value); }
};

template <>
struct Codec<double> {
    static std::optional<double> read(const json::value& value, ParseContext& reading);
    static json::value write(double value) { return value; }
    static json::object schema(Direction) { return {{"type", "number"}}; }
    static double measure(double value) { return value; }
};

/// Text without control characters (a tab or line break in a note breaks every table).
template <>
struct Codec<std::string> {
    static constexpr std::size_t length_max = 4000;
    static std::optional<std::string> read(const json::value& value, ParseContext& reading);
    static json::value write(const std::string& value) { return json::value(value); }
    static json::object schema(Direction direction) {
        if (direction == Direction::sent)
            return {{"type", "string"}};
        return {{"type", "string"}, {"maxLength", length_max}};
    }
};

/// Any JSON: for documents that belong to a plugin.
template <>
struct Codec<json::value> {
    static std::optional<json::value> read(const json::value& value, ParseContext&) {
        return value;
    }
    static json::value write(const json::value& value) { return value; }
    static json::object schema(Direction) { return {}; }
};
template <>
struct Codec<json::object> {
    static std::optional<json::object> read(const json::value& value, ParseContext& reading);
    static json::value write(const json::object& value) { return value; }
    static json::object schema(Direction) { return {{"type", "object"}}; }
};

/// Absent and null mean the same; an absent optional is not written.
template <class T>
struct Codec<std::optional<T>> {
    static std::optional<std::optional<T>> read(const json::value& value, ParseContext& reading) {
        if (value.is_null())
            return std::optional<T>{};
        auto inner = Codec<T>::read(value, reading);
        if (!inner)
            return std::nullopt;
        return std::optional<T>{std::move(*inner)};
    }
    static json::value write(const std::optional<T>& value) {
        return value ? Codec<T>::write(*value) : json::value(nullptr);
    }
    static json::object schema(Direction direction) { return Codec<T>::schema(direction); }
};

template <class T>
struct Codec<std::vector<T>> {
    static std::optional<std::vector<T>> read(const json::value& value, ParseContext& reading) {
        const auto* array = value.if_array();
        if (array == nullptr) {
            reading.fault("wrong_type", "A list is wanted here.");
            return std::nullopt;
        }
        std::vector<T> all;
        bool whole = true;
        for (std::size_t i = 0; i < array->size(); ++i) {
            const ParseContext::Step step{reading, i};
            auto one = Codec<T>::read((*array)[i], reading);
            if (one)
                all.push_back(std::move(*one));
            else
                whole = false;
        }
        if (!whole)
            return std::nullopt;
        return all;
    }
    static json::value write(const std::vector<T>& value) {
        json::array array;
        array.reserve(value.size());
        for (const auto& one : value)
            array.push_back(Codec<T>::write(one));
        return array;
    }
    static json::object schema(Direction direction) {
        return {{"type", "array"}, {"items", Codec<T>::schema(direction)}};
    }
};

template <class T>
struct Codec<std::map<std::string, T>> {
    static std::optional<std::map<std::string, T>> read(const json::value& value,
                                                        ParseContext& reading) {
        const auto* object = value.if_object();
        if (object == nullptr) {
            reading.fault("wrong_type", "An object is wanted here.");
            return std::nullopt;
        }
        std::map<std::string, T> all;
        bool whole = true;
        for (const auto& member : *object) {
            const ParseContext::Step step{reading, member.key()};
            auto one = Codec<T>::read(member.value(), reading);
            if (one)
                all.emplace(member.key(), std::move(*one));
            else
                whole = false;
        }
        if (!whole)
            return std::nullopt;
        return all;
    }
    static json::value write(const std::map<std::string, T>& value) {
        json::object object;
        for (const auto& [name, one] : value)
            object.emplace(name, Codec<T>::write(one));
        return object;
    }
    static json::object schema(Direction direction) {
        return {{"type", "object"}, {"additionalProperties", Codec<T>::schema(direction)}};
    }
};

/// Enumerations are described by a function found beside them:
///     constexpr auto enum_names(Access) { return std::array{EnumName{Access::look, "look"}, ...};
///     }
template <class E>
struct EnumName {
    E value;
    std::string_view text;
};

template <class E>
concept NamedEnum = std::is_enum_v<E> && requires {
    enum_names(E{});
};

/// The word of an enumerator.  REQUIRES: it is in the list.
template <NamedEnum E>
constexpr std::string_view to_string(E value) {
    for (const auto& one : enum_names(E{}))
        if (one.value == value)
            return one.text;
    return {};
}

/// The enumerator of a word, if it is one.
template <NamedEnum E>
constexpr std::optional<E> from_string(std::string_view text) {
    for (const auto& one : enum_names(E{}))
        if (one.text == text)
            return one.value;
    return std::nullopt;
}

/// Notes that a word is none of `known`, with the nearest one as a hint.
void fault_unknown_word(ParseContext& reading, std::string_view given,
                        const std::vector<std::string>& known);

template <NamedEnum E>
struct Codec<E> {
    static std::vector<std::string> all_words() {
        std::vector<std::string> all;
        for (const auto& one : enum_names(E{}))
            all.emplace_back(one.text);
        return all;
    }
    static std::optional<E> read(const json::value& value, ParseContext& reading) {
        const auto* text = value.if_string();
        if (text != nullptr)
            if (const auto known = from_string<E>(*text))
                return known;
        fault_unknown_word(reading, text != nullptr ? std::string_view(*text) : "", all_words());
        return std::nullopt;
    }
    static json::value write(E value) { return json::value(to_string(value)); }
    static json::object schema(Direction) {
        json::array all;
        for (const auto& one : enum_names(E{}))
            all.push_back(json::value(one.text));
        return {{"type", "string"}, {"enum", std::move(all)}};
    }
};

} // namespace barmkeep
