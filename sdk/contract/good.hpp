// Goods: what a cellar can hold.
#pragma once

#include "sdk/contract/clearing.hpp"
#include "sdk/contract/listing.hpp"
#include "sdk/method/amount.hpp"
#include "sdk/method/quantity_codecs.hpp"

namespace barmkeep::contract {

/// The class of a good decides its usual measure, the letter of its lots and who takes note of it.
enum class GoodClass { extract, yeast, lids, nutrient, glass, concentrate, bought_can, other };
constexpr auto enum_names(GoodClass) {
    using W = EnumName<GoodClass>;
    return std::array{W{GoodClass::extract, "extract"},   // malt extract, dry or liquid: by mass, E
                      W{GoodClass::yeast, "yeast"},       // packs: by pieces, Y
                      W{GoodClass::lids, "lids"},         // single-use lids: by pieces, L
                      W{GoodClass::nutrient, "nutrient"}, // by mass, N
                      W{GoodClass::glass, "glass"},       // empty jars: by pieces, G
                      W{GoodClass::concentrate, "concentrate"}, // filled jars: by pieces, J
                      W{GoodClass::bought_can, "bought_can"},   // bought canned wort: by pieces, C
                      W{GoodClass::other, "other"}};            // X
}

/// The letter of the class's lot codes.
constexpr char lot_letter(GoodClass goods) {
    switch (goods) {
    case GoodClass::extract:
        return 'E';
    case GoodClass::yeast:
        return 'Y';
    case GoodClass::lids:
        return 'L';
    case GoodClass::nutrient:
        return 'N';
    case GoodClass::glass:
        return 'G';
    case GoodClass::concentrate:
        return 'J';
    case GoodClass::bought_can:
        return 'C';
    case GoodClass::other:
        break;
    }
    return 'X';
}

/// Sealed low-acid food.
constexpr bool is_sealed_food(GoodClass goods) {
    return goods == GoodClass::concentrate || goods == GoodClass::bought_can;
}

/// How a class is measured unless a good says otherwise; none for `other`.
constexpr std::optional<Measure> usual_measure(GoodClass goods) {
    switch (goods) {
    case GoodClass::extract:
    case GoodClass::nutrient:
        return Measure::mass;
    case GoodClass::other:
        return std::nullopt;
    default:
        return Measure::pieces;
    }
}

/// The form of a malt extract or a yeast.  A slurry was harvested from a batch.
enum class Form { dry, liquid, slurry };
constexpr auto enum_names(Form) {
    using N = EnumName<Form>;
    return std::array{N{Form::dry, "dry"}, N{Form::liquid, "liquid"}, N{Form::slurry, "slurry"}};
}

/// What is known of a good or, outranking it, of one lot.  All optional: nothing is filled in.
struct Facts {
    std::optional<brewing::Gravity> potential;
    std::optional<double> solids;
    std::optional<brewing::Gravity> gravity;
    std::optional<brewing::Volume> fill;
    std::optional<brewing::Mass> extract;
    std::optional<std::string> jar;
    std::optional<brewing::Cells> cells;
    std::optional<std::string> strain;
    std::optional<Form> form;
    std::optional<std::string> process_note;

    static FieldList fields(auto) {
        return {
            field<&Facts::potential>(
                "Extract potential: the gravity of one pound made up to one US "
                "gallon.")
                .between(1.0, 1.06)
                .like("1.044"),
            field<&Facts::solids>("Share of dry solids by mass.").between(0, 1),
            field<&Facts::gravity>("Measured gravity of the liquid in the jar or can.")
                .between(1.0, 1.5)
                .like("1.090"),
            field<&Facts::fill>("Liquid in one jar or can.").above(0).at_most(20).like("420 mL"),
            field<&Facts::extract>("Dissolved extract in one jar or can.").above(0).at_most(20000),
            field<&Facts::jar>("Name of the jar size.").length(1, 60),
            field<&Facts::cells>("Viable cells in one pack when it was packed.")
                .above(0)
                .at_most(1e6)
                .like("100 B"),
            field<&Facts::strain>("The yeast's strain.").length(1, 80),
            field<&Facts::form>("Form of the good."),
            field<&Facts::process_note>(
                "What must be said of the canning process wherever the lot is shown and at each "
                "use.")
                .length(1, 200)};
    }
};

struct Good {
    std::string name;
    GoodClass goods = GoodClass::other;
    Measure measure = Measure::pieces;
    std::optional<Amount> package;
    Facts facts;
    std::optional<std::string> note;

    static FieldList fields(auto) {
        return {field<&Good::name>("Its name."),
                field<&Good::goods>("Its class."),
                field<&Good::measure>("How it is measured, for ever."),
                field<&Good::package>("The package it is usually bought in."),
                field<&Good::facts>("What is known of all its lots."),
                field<&Good::note>("A note.")};
    }
};

struct GoodAdd {
    static constexpr About about{"good.add", Access::keep, Effect::writes,
                                 "Makes a good known, so that lots of it can be kept."};
    struct Params {
        std::string name;
        GoodClass goods = GoodClass::other;
        std::optional<Measure> measure;
        std::optional<AmountGiven> package;
        Facts facts;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {field<&Params::name>("Name of the good.")
                        .positional()
                        .length(1, 60)
                        .like("light dry extract"),
                    field<&Params::goods>("Class of the good.").positional(),
                    field<&Params::measure>(
                        "Mass, volume or pieces; the class's usual one if left out."),
                    field<&Params::package>("The package it is usually bought in.").like("1.5 kg"),
                    field<&Params::facts>("What is known of all its lots.").defaulted(),
                    field<&Params::note>("A note.").length(1, 400)};
        }
    };
    using Result = Good;
};

struct GoodList {
    static constexpr About about{"good.list", Access::look, Effect::reads,
                                 "Lists the goods known."};
    struct Params : Page {
        std::optional<GoodClass> goods;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::goods>("Only goods of this class.").positional()},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<Good> all;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::all>("The goods.")}, NextPage::fields(0));
        }
    };
};

struct GoodChange {
    static constexpr About about{"good.change", Access::keep, Effect::writes,
                                 "Changes what is known of a good; its class and measure stay."};
    struct Params {
        std::string name;
        std::optional<std::string> rename;
        std::optional<AmountGiven> package;
        std::optional<Facts> facts;
        std::optional<std::string> note;
        std::vector<std::string> clear;
        static FieldList fields(auto) {
            return {field<&Params::name>("Name of the good.").positional().length(1, 60),
                    field<&Params::rename>("Its new name.").length(1, 60),
                    field<&Params::package>("The package it is usually bought in."),
                    field<&Params::facts>("Facts to set; those left out stay as they are."),
                    field<&Params::note>("A note.").length(1, 400),
                    clear_field<&Params::clear>()};
        }
    };
    using Result = Good;
};

} // namespace barmkeep::contract
