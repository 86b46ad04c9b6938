// The description of one field of a struct.
//
//     struct Params {
//         std::string good;
//         bool empty = false;
//
//         static FieldList fields(auto) {
//             return {field<&Params::good>("Name of the good.").positional().length(1, 60),
//                     field<&Params::empty>("List lots with nothing left too.").defaulted()};
//         }
//     };
//
// The name on the wire is the member's own name, taken from the pointer to it, so that it is
// written in one place only.  The `auto` makes the function a template: a file then compiles only
// those descriptions that it uses, which is most of what it takes to build Barmkeep.
#pragma once

#include "sdk/method/codec.hpp"

#include <algorithm>
#include <limits>
#include <string_view>

namespace barmkeep {

namespace detail {

/// The member's own name, out of what the compiler calls the function that took a pointer to it.
/// g++ and clang both print "... Member = &Outer::Params::good ..."; the name is what stands
/// between the last "::" and the next ";" or "]".
[[nodiscard]] std::string_view member_name(std::string_view signature) noexcept;

template <class Pointer>
struct MemberOf;
template <class Struct, class Value>
struct MemberOf<Value Struct::*> {
    using value_type = Value;
    using struct_type = Struct;
};

} // namespace detail

/// What holds for a field beyond its type; the bounds are in the unit that its schema names.
struct Rules {
    std::string_view doc;
    bool is_positional = false; ///< may be given by place on the command line
    bool is_defaulted = false;  ///< when absent, the struct's own initial value holds
    bool is_variadic = false;   ///< a list that takes every further operand of the command line
    bool is_from_batch = false; ///< in a batch, may be an earlier step's result instead
    double lowest = -std::numeric_limits<double>::infinity();
    double highest = std::numeric_limits<double>::infinity();
    bool lowest_excluded = false;
    std::size_t length_min = 0; ///< of a text in code points, of a list in elements
    std::size_t length_max = std::numeric_limits<std::size_t>::max();
    std::string_view example;
};

/// What can be done with a member whose type is not known any more: one table a type, made by
/// `member_type`.  Descriptions are data, so nothing has to be compiled again for each struct.
struct MemberType {
    bool is_optional;
    /// Reads into `member`, with the rules checked where the context asks for it; false after a
    /// noted error.
    bool (*read)(const json::value& value, ParseContext& context, const Rules& rules, void* member);
    json::value (*write)(const void* member);
    json::object (*schema)(Direction direction);
    bool (*is_absent)(const void* member); ///< an optional without a value
    void (*assign)(void* member, const void* from);
};

/// One described member of a struct.
struct Field : Rules {
    std::string_view name; ///< as on the wire: the member's own name
    const MemberType* type;
    void* (*member)(void* object);

    Field(std::string_view doc_text, std::string_view own_name, const MemberType& operations,
          void* (*place)(void* object))
        : name{own_name}, type{&operations}, member{place} {
        doc = doc_text;
    }

    /// The member in an object of the struct that describes it, or of one derived from that.
    [[nodiscard]] void* in(void* object) const { return member(object); }
    [[nodiscard]] const void* in(const void* object) const {
        return member(const_cast<void*>(object)); // NOLINT: only looked at
    }
    [[nodiscard]] bool is_required() const { return !is_defaulted && !type->is_optional; }

    [[nodiscard]] Field positional() const {
        Field changed = *this;
        changed.is_positional = true;
        return changed;
    }
    [[nodiscard]] Field variadic() const {
        Field changed = positional();
        changed.is_variadic = true;
        return changed;
    }
    [[nodiscard]] Field from_batch() const {
        Field changed = *this;
        changed.is_from_batch = true;
        return changed;
    }
    [[nodiscard]] Field defaulted() const {
        Field changed = *this;
        changed.is_defaulted = true;
        return changed;
    }
    [[nodiscard]] Field at_least(double bound) const {
        Field changed = *this;
        changed.lowest = bound;
        return changed;
    }
    [[nodiscard]] Field above(double bound) const {
        Field changed = at_least(bound);
        changed.lowest_excluded = true;
        return changed;
    }
    [[nodiscard]] Field at_most(double bound) const {
        Field changed = *this;
        changed.highest = bound;
        return changed;
    }
    [[nodiscard]] Field between(double low, double high) const {
        return at_least(low).at_most(high);
    }
    [[nodiscard]] Field length(std::size_t least, std::size_t most) const {
        Field changed = *this;
        changed.length_min = least;
        changed.length_max = most;
        return changed;
    }
    [[nodiscard]] Field like(std::string_view example_text) const {
        Field changed = *this;
        changed.example = example_text;
        return changed;
    }
};

namespace detail {

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;

/// Notes a number outside its bounds, or one above zero that is too small to be kept.
void check_bounds(double measured, const json::value& written, const Rules& rules,
                  ParseContext& context, const json::object& schema);
/// Unicode code points of a UTF-8 text: what a schema's maxLength counts.
[[nodiscard]] std::size_t characters_in(std::string_view text) noexcept;
/// Notes a text or list outside its bounds.
void check_length(std::size_t length, bool is_text, const Rules& rules, ParseContext& context);

template <class T>
void check(const T& value, const Rules& rules, ParseContext& context) {
    if constexpr (is_optional<T>) {
        if (value)
            check(*value, rules, context);
    } else if constexpr (Measured<T>) {
        check_bounds(Codec<T>::measure(value), Codec<T>::write(value), rules, context,
                     Codec<T>::schema(Direction::sent));
    } else if constexpr (std::is_same_v<T, std::string>) {
        check_length(characters_in(value), true, rules, context);
    } else if constexpr (requires {
                             value.size();
                             value.begin();
                         }) {
        check_length(value.size(), false, rules, context);
    }
}

template <class T>
bool read_member(const json::value& value, ParseContext& context, const Rules& rules,
                 void* member) {
    auto read = Codec<T>::read(value, context);
    if (!read)
        return false;
    if (context.checks_rules())
        check(*read, rules, context);
    *static_cast<T*>(member) = std::move(*read);
    return true;
}
template <class T>
json::value write_member(const void* member) {
    return Codec<T>::write(*static_cast<const T*>(member));
}
template <class T>
json::object member_schema(Direction direction) {
    return Codec<T>::schema(direction);
}
template <class T>
bool is_absent_member(const void* member) {
    if constexpr (is_optional<T>)
        return !static_cast<const T*>(member)->has_value();
    else
        return false;
}
template <class T>
void assign_member(void* member, const void* from) {
    *static_cast<T*>(member) = *static_cast<const T*>(from);
}

/// One table a type.  Those of the house's plain types are instantiated once, in field.cpp.
template <class T>
struct MemberOperations {
    static const MemberType table;
};
template <class T>
const MemberType MemberOperations<T>::table{is_optional<T>,       &read_member<T>,
                                            &write_member<T>,     &member_schema<T>,
                                            &is_absent_member<T>, &assign_member<T>};

template <auto Member>
void* member_in(void* object) {
    using Struct = typename MemberOf<decltype(Member)>::struct_type;
    return &(static_cast<Struct*>(object)->*Member);
}

} // namespace detail

/// Describes one member.  The description of a derived struct holds that of its first base.
template <auto Member>
[[nodiscard]] Field field(std::string_view doc) {
    using Value = typename detail::MemberOf<decltype(Member)>::value_type;
    static_assert(HasCodec<Value>,
                  "A described member has a type with a Codec: bool, std::int64_t, double, "
                  "std::string, an enum with enum_names(), a quantity, Money, Date, Instant, "
                  "Seconds, LotCode, Amount, another described struct, json::value, or an "
                  "optional, vector or map<std::string, T> of one.");
    return Field{doc, detail::member_name(__PRETTY_FUNCTION__),
                 detail::MemberOperations<Value>::table, &detail::member_in<Member>};
}

/// The description of a struct: its members, in the order in which they are shown.
using FieldList = std::vector<Field>;

/// The fields of several lists, in their order: a derived struct's and its first base's.
[[nodiscard]] FieldList joined(const FieldList& first, const FieldList& second,
                               const FieldList& third = {});

/// A struct with a static `fields()`.
template <class T>
concept Described = requires {
    T::fields(0);
};

extern template struct detail::MemberOperations<bool>;
extern template struct detail::MemberOperations<std::optional<bool>>;
extern template struct detail::MemberOperations<std::int64_t>;
extern template struct detail::MemberOperations<std::optional<std::int64_t>>;
extern template struct detail::MemberOperations<double>;
extern template struct detail::MemberOperations<std::optional<double>>;
extern template struct detail::MemberOperations<std::string>;
extern template struct detail::MemberOperations<std::optional<std::string>>;
extern template struct detail::MemberOperations<std::vector<std::string>>;
extern template struct detail::MemberOperations<std::vector<double>>;
extern template struct detail::MemberOperations<json::object>;
extern template struct detail::MemberOperations<json::value>;
extern template struct detail::MemberOperations<std::optional<json::object>>;

} // namespace barmkeep
