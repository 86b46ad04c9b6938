// What a method is, described once.
//
// A method is a struct with its name, rights and doc, its parameters and its results:
//
//     struct StockBuy {
//         static constexpr About about{"stock.buy", Access::keep, Effect::writes,
//                                      "Records goods bought, as a new lot."};
//         struct Params { ...; static FieldList fields(auto) ... };
//         struct Result { ...; static FieldList fields(auto) ... };
//     };
//
// From it come the check of what is sent (structure.hpp), the description that clients, manuals
// and discovery read (`describe`), and the types that callers and handlers share.
#pragma once

#include "sdk/method/structure.hpp"

namespace barmkeep {

/// What a caller must be allowed to do.  Each includes the ones before it.
enum class Access {
    look,   ///< read the cellar
    keep,   ///< record what happens in it
    manage, ///< change its settings, plugins and copies
};
constexpr auto enum_names(Access) {
    return std::array{EnumName<Access>{Access::look, "look"},
                      EnumName<Access>{Access::keep, "keep"},
                      EnumName<Access>{Access::manage, "manage"}};
}

/// Whether a call changes the cellar's stored state.  A writing method takes a request key.
enum class Effect { reads, writes };
constexpr auto enum_names(Effect) {
    return std::array{EnumName<Effect>{Effect::reads, "reads"},
                      EnumName<Effect>{Effect::writes, "writes"}};
}

/// What goes first when more waits than there are threads; the first of these is the highest.
enum class Lane {
    log,   ///< keeps a log of what happens now: a gauge reading, a step of a run
    write, ///< records something else
    look,  ///< reads
};
constexpr auto enum_names(Lane) {
    return std::array{EnumName<Lane>{Lane::log, "log"}, EnumName<Lane>{Lane::write, "write"},
                      EnumName<Lane>{Lane::look, "look"}};
}

struct About {
    std::string_view name;
    Access access = Access::look;
    Effect effect = Effect::reads;
    std::string_view doc;
    bool is_long = false;       ///< sends progress and takes note of cancellation
    std::optional<Lane> lane{}; ///< nothing: by the effect
};

/// The field that every writing method takes beside its own.  The daemon takes it out before the
/// method sees its params.
inline constexpr std::string_view request_key_field = "key";
inline constexpr std::size_t request_key_length_max = 120;

/// A parameterless method's params, or an empty result.
struct Nothing {
    static FieldList fields(auto) { return {}; }
};

/// A method's description as data: what crosses the plugin boundary and fills the discover
/// document.
struct Description {
    std::string name;
    Access access = Access::look;
    Effect effect = Effect::reads;
    std::string doc;
    bool is_long = false;
    json::object params; ///< schema of the params, an object schema
    json::object result; ///< schema of the result
    /// The word of a Lane.  A text, so that a word of a later version is no fault: see lane_of().
    std::optional<std::string> lane{};
    bool has_sheet = false; ///< its maker makes a sheet of its answers

    static FieldList fields(auto) {
        return {field<&Description::name>("The method's name: noun, dot, verb."),
                field<&Description::access>("The rights it needs."),
                field<&Description::effect>("Whether it changes stored state."),
                field<&Description::doc>("What it does."),
                field<&Description::is_long>("Whether it sends progress.").defaulted(),
                field<&Description::params>("Schema of its parameters."),
                field<&Description::result>("Schema of its result."),
                field<&Description::lane>("What it goes before: log, write or look. Left out, or "
                                          "another word: by the effect."),
                field<&Description::has_sheet>("Whether there is a sheet for its answers.")
                    .defaulted()};
    }
};

/// The lane in which a method waits for a thread: the one it names, or else the one of its effect.
/// A method that only reads is never in the log lane.
[[nodiscard]] Lane lane_of(const Description& method) noexcept;

template <class M>
concept Method = requires {
    { M::about } -> std::convertible_to<const About&>;
    typename M::Params;
    typename M::Result;
};

template <Method M>
[[nodiscard]] Description describe() {
    return {std::string(M::about.name),
            M::about.access,
            M::about.effect,
            std::string(M::about.doc),
            M::about.is_long,
            Codec<typename M::Params>::schema(Direction::taken),
            Codec<typename M::Result>::schema(Direction::sent),
            M::about.lane ? std::make_optional(std::string(to_string(*M::about.lane)))
                          : std::nullopt,
            false};
}

/// Puts the properties of an object schema that are required before the others, and makes an empty
/// set of them where there is none.  Otherwise their order stays.  This is the order of positions,
/// and discovery documents demand it so; MethodTable::add does it for every method.
void put_required_first(json::object& schema);

/// Turns positional params (an array, in the order of the description) into named ones, and
/// absent ones into an empty object.  Throws Error(params) for too many of them, or for a value
/// that is neither array nor object.
[[nodiscard]] json::object named_params(const json::value* params, const Description& method);

} // namespace barmkeep
