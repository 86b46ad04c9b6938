// Equipment: canners, jar sizes and flasks.
#pragma once

#include "sdk/contract/clearing.hpp"
#include "sdk/contract/listing.hpp"
#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

enum class Gauge { dial, weighted };
constexpr auto enum_names(Gauge) {
    return std::array{EnumName<Gauge>{Gauge::dial, "dial"},
                      EnumName<Gauge>{Gauge::weighted, "weighted"}};
}

/// How many jars of one size the canner takes.
struct Capacity {
    std::string jar;
    std::int64_t count = 0;
    static FieldList fields(auto) {
        return {
            field<&Capacity::jar>("Name of the jar size. Add it first with jar.set.").length(1, 60),
            field<&Capacity::count>("Jars of that size in one load.").between(1, 1000)};
    }
};

struct Canner {
    std::string name;
    Gauge gauge = Gauge::dial;
    std::vector<Capacity> capacity;
    std::optional<Date> gauge_tested;
    std::optional<brewing::GaugePressure> gauge_error;
    static FieldList fields(auto) {
        return {field<&Canner::name>("Its name.").positional().length(1, 60),
                field<&Canner::gauge>("The kind of gauge: dial or weighted.").positional(),
                field<&Canner::capacity>("Jars in one load, by jar size.").length(1, 20),
                field<&Canner::gauge_tested>("The day on which its dial gauge was last tested. "
                                             "Without it no run starts with a dial gauge."),
                field<&Canner::gauge_error>(
                    "How much the dial reads above the true pressure; negative if it reads below. "
                    "Without it the dial is taken to read right.")
                    .between(-100, 100)};
    }
};

/// The size that a jar counts as in published processes, as the brewer states it.  A jar between
/// two sizes counts as the larger one.
enum class JarClass { half_pint, pint, quart, larger };
constexpr auto enum_names(JarClass) {
    using N = EnumName<JarClass>;
    return std::array{N{JarClass::half_pint, "half_pint"}, N{JarClass::pint, "pint"},
                      N{JarClass::quart, "quart"}, N{JarClass::larger, "larger"}};
}

struct JarSize {
    std::string name;
    brewing::Volume fill;
    std::optional<brewing::Length> headspace;
    std::optional<brewing::Mass> glass;
    std::optional<JarClass> size;
    static FieldList fields(auto) {
        return {
            field<&JarSize::name>("Its name, such as pint.").positional().length(1, 60),
            field<&JarSize::fill>(
                "Volume of liquid in the jar, filled up to its headspace, as you measured it.")
                .positional()
                .above(0)
                .at_most(20)
                .like("420 mL"),
            field<&JarSize::headspace>(
                "Empty height between the liquid and the rim. Unknown if it was never given.")
                .above(0)
                .at_most(0.2)
                .like("1 in"),
            field<&JarSize::glass>("Mass of the empty jar. Unknown if it was never given.")
                .above(0)
                .at_most(10000),
            field<&JarSize::size>(
                "The size as which it counts in published processes. For a jar between two sizes, "
                "the larger one. Without it Barmkeep refuses to can with this jar size.")};
    }
};

struct Flask {
    std::string name;
    brewing::Volume volume;
    static FieldList fields(auto) {
        return {field<&Flask::name>("Its name.").positional().length(1, 60),
                field<&Flask::volume>("What it holds to the brim.")
                    .positional()
                    .above(0)
                    .at_most(100)
                    .like("2 L")};
    }
};

struct CannerSet {
    static constexpr About about{
        "canner.set", Access::keep, Effect::writes,
        "Adds a canner, or changes the one of that name. What you leave out stays as it is."};
    struct Params : Canner {
        std::vector<std::string> clear;
        static FieldList fields(auto) {
            return joined(Canner::fields(0), {clear_field<&Params::clear>("gauge_error")});
        }
    };
    using Result = Canner;
};
struct JarSet {
    static constexpr About about{
        "jar.set", Access::keep, Effect::writes,
        "Adds a jar size, or changes the one of that name. What you leave out stays as it is."};
    struct Params : JarSize {
        std::vector<std::string> clear;
        static FieldList fields(auto) {
            return joined(JarSize::fields(0), {clear_field<&Params::clear>("headspace")});
        }
    };
    using Result = JarSize;
};
struct FlaskSet {
    static constexpr About about{"flask.set", Access::keep, Effect::writes,
                                 "Adds a flask, or changes the one of that name."};
    using Params = Flask;
    using Result = Flask;
};

struct EquipmentList {
    static constexpr About about{"equipment.list", Access::look, Effect::reads,
                                 "Lists canners, jar sizes and flasks."};
    using Params = Nothing;
    struct Result {
        std::vector<Canner> canners;
        std::vector<JarSize> jars;
        std::vector<Flask> flasks;
        static FieldList fields(auto) {
            return {field<&Result::canners>("The canners."), field<&Result::jars>("The jar sizes."),
                    field<&Result::flasks>("The flasks.")};
        }
    };
};

enum class EquipmentKind { canner, jar, flask };
constexpr auto enum_names(EquipmentKind) {
    using W = EnumName<EquipmentKind>;
    return std::array{W{EquipmentKind::canner, "canner"}, W{EquipmentKind::jar, "jar"},
                      W{EquipmentKind::flask, "flask"}};
}

struct EquipmentRemove {
    static constexpr About about{"equipment.remove", Access::keep, Effect::writes,
                                 "Removes a canner, jar size or flask."};
    struct Params {
        EquipmentKind kind = EquipmentKind::canner;
        std::string name;
        static FieldList fields(auto) {
            return {field<&Params::kind>("The kind of equipment.").positional(),
                    field<&Params::name>("Its name.").positional().length(1, 60)};
        }
    };
    using Result = Nothing;
};

} // namespace barmkeep::contract
