// ParseContext, writing and schema of described structs: the one place that walks their fields.
#pragma once

#include "sdk/method/field.hpp"

#include <span>

namespace barmkeep {

namespace detail {

/// The four things that are done with a struct by its description alone.  `object` and `initial`
/// are of the struct that `fields` describes.
[[nodiscard]] bool read_struct(const json::value& value, ParseContext& context,
                               std::span<const Field> fields, void* object);
[[nodiscard]] json::object write_struct(std::span<const Field> fields, const void* object);
[[nodiscard]] json::object struct_schema(std::span<const Field> fields, Direction direction,
                                         const void* initial);
/// Writes into a stored document what the struct says now; members that it does not know stay.
void write_over(std::span<const Field> fields, const void* object, json::object& stored);

/// Notes members of `object` that are none of `known`, unless they are to be passed over.
void check_unknown(const json::object& object, const std::vector<std::string_view>& known,
                   ParseContext& context);

} // namespace detail

/// The description of a struct.
template <Described T>
[[nodiscard]] std::span<const Field> fields_of() {
    static const FieldList fields = T::fields(0);
    return fields;
}

template <Described T>
struct Codec<T> {
    static std::optional<T> read(const json::value& value, ParseContext& context) {
        T into{};
        if (!detail::read_struct(value, context, fields_of<T>(), &into))
            return std::nullopt;
        return into;
    }
    static json::value write(const T& value) {
        return detail::write_struct(fields_of<T>(), &value);
    }
    static json::object schema(Direction direction) {
        const T initial{};
        return detail::struct_schema(fields_of<T>(), direction, &initial);
    }
};

/// Checks what comes in: throws Error(params) that lists every error, each with its place.
template <class T>
T read_as(const json::value& value) {
    ParseContext context;
    auto read = Codec<T>::read(value, context);
    context.throw_faults();
    return std::move(*read);
}

/// Decodes what was stored or answered, perhaps by an older or a newer program: bounds of requests
/// do not count, unknown members are passed over, and an optional or defaulted member that cannot
/// be read counts as absent.  Throws Error(params) where a member that must be there is missing or
/// cannot be read.  `oddities`, if given, gets all that was passed over so.
template <class T>
T decode(const json::value& value, std::vector<FieldError>* oddities = nullptr) {
    ParseContext context{ParseContext::Mode::decode};
    auto read = Codec<T>::read(value, context);
    if (oddities != nullptr)
        *oddities = context.oddities();
    context.throw_faults();
    return std::move(*read);
}

template <class T>
json::value to_json(const T& value) {
    return Codec<T>::write(value);
}

/// A stored document brought up to what `value` says, with the members kept that T does not know.
template <Described T>
json::object written_over(json::object stored, const T& value) {
    detail::write_over(fields_of<T>(), &value, stored);
    return stored;
}

} // namespace barmkeep
