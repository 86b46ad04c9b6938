// The description of one field of a struct.
//
//     struct Params {
//         std::string good;
//         bool empty = false;
//
//         static constexpr auto fields() {
//             return std::tuple{
//                 field<&Params::good>("Name of the good.").positional().length(1, 60),
//                 field<&Params::empty>("List lots with nothing left too.").defaulted()};
//         }
//     };
//
// The name on the wire is the member's own name, taken from the pointer to it, so that it is
// written in one place only.
#pragma once

#include <limits>
#include <string_view>
#include <type_traits>

namespace barmkeep {

namespace detail {

template <auto Member>
consteval std::string_view member_name() {
    // g++ and clang both print "... Member = &Outer::Params::good ..."; the name is what stands
    // between the last "::" and the next ";" or "]".
    std::string_view text = __PRETTY_FUNCTION__;
    text.remove_prefix(text.find("Member = ") + 9);
    text = text.substr(0, text.find_first_of(";]"));
    return text.substr(text.rfind("::") + 2);
}

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
    double lowest = -std::numeric_limits<double>::infinity();
    double highest = std::numeric_limits<double>::infinity();
    bool lowest_excluded = false;
    std::size_t length_min = 0; ///< of a text in code points, of a list in elements
    std::size_t length_max = std::numeric_limits<std::size_t>::max();
    std::string_view example;
};

template <auto Member>
struct Field : Rules {
    using value_type = typename detail::MemberOf<decltype(Member)>::value_type;
    static constexpr auto member = Member;
    static constexpr std::string_view name = detail::member_name<Member>();

    constexpr explicit Field(std::string_view doc_text) { doc = doc_text; }

    [[nodiscard]] constexpr Field positional() const {
        return with([](Rules& r) { r.is_positional = true; });
    }
    [[nodiscard]] constexpr Field variadic() const {
        return with([](Rules& r) { r.is_positional = r.is_variadic = true; });
    }
    [[nodiscard]] constexpr Field defaulted() const {
        return with([](Rules& r) { r.is_defaulted = true; });
    }
    [[nodiscard]] constexpr Field at_least(double bound) const {
        return with([=](Rules& r) { r.lowest = bound; });
    }
    [[nodiscard]] constexpr Field above(double bound) const {
        return with([=](Rules& r) {
            r.lowest = bound;
            r.lowest_excluded = true;
        });
    }
    [[nodiscard]] constexpr Field at_most(double bound) const {
        return with([=](Rules& r) { r.highest = bound; });
    }
    [[nodiscard]] constexpr Field between(double low, double high) const {
        return at_least(low).at_most(high);
    }
    [[nodiscard]] constexpr Field length(std::size_t least, std::size_t most) const {
        return with([=](Rules& r) {
            r.length_min = least;
            r.length_max = most;
        });
    }
    [[nodiscard]] constexpr Field like(std::string_view example_text) const {
        return with([=](Rules& r) { r.example = example_text; });
    }

private:
    template <class Change>
    [[nodiscard]] constexpr Field with(Change change) const {
        Field changed = *this;
        change(changed);
        return changed;
    }
};

template <auto Member>
[[nodiscard]] constexpr Field<Member> field(std::string_view doc) {
    return Field<Member>{doc};
}

/// A struct with a static `fields()`.
template <class T>
concept Described = requires {
    T::fields();
};

} // namespace barmkeep
