// Goods: what a cellar can hold.
#pragma once

#include "sdk/contract/clearing.hpp"
#include "sdk/contract/listing.hpp"
#include "sdk/method/amount.hpp"
#include "sdk/method/quantity_codecs.hpp"

namespace barmkeep::contract {

/// The class of a good decides its usual measure, the letter of its lots and who takes note of it.
enum class Category { extract, yeast, lids, nutrient, glass, concentrate, bought_can, other };
constexpr auto enum_names(Category) {
    using W = EnumName<Category>;
    return std::array{W{Category::extract, "extract"},   // malt extract, dry or liquid: by mass, E
                      W{Category::yeast, "yeast"},       // packs: by pieces, Y
                      W{Category::lids, "lids"},         // single-use lids: by pieces, L
                      W{Category::nutrient, "nutrient"}, // by mass, N
                      W{Category::glass, "glass"},       // empty jars: by pieces, G
                      W{Category::concentrate, "concentrate"}, // filled jars: by pieces, J
                      W{Category::bought_can, "bought_can"},   // bought canned wort: by pieces, C
                      W{Category::other, "other"}};            // X
}

/// The letter of the class's lot codes.
constexpr char lot_letter(Category category) {
    switch (category) {
    case Category::extract:
        return 'E';
    case Category::yeast:
        return 'Y';
    case Category::lids:
        return 'L';
    case Category::nutrient:
        return 'N';
    case Category::glass:
        return 'G';
    case Category::concentrate:
        return 'J';
    case Category::bought_can:
        return 'C';
    case Category::other:
        break;
    }
    return 'X';
}

/// Sealed low-acid food.
constexpr bool is_sealed_food(Category category) {
    return category == Category::concentrate || category == Category::bought_can;
}

/// How a class is measured unless a good says otherwise; none for `other`.
constexpr std::optional<Measure> usual_measure(Category category) {
    switch (category) {
    case Category::extract:
    case Category::nutrient:
        return Measure::mass;
    case Category::other:
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
            field<&Facts::potential>("Extract potential: the gravity of one pound dissolved and "
                                     "filled up to one US gallon.")
                .between(1.0, 1.06)
                .like("1.044"),
            field<&Facts::solids>("Share of dry solids by mass, from 0 to 1.").between(0, 1),
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
            field<&Facts::form>("Dry, liquid or slurry."),
            field<&Facts::process_note>("What must be said about the canning process wherever the "
                                        "lot is shown and at each use.")
                .length(1, 200)};
    }
};

struct Good {
    std::string name;
    Category category = Category::other;
    Measure measure = Measure::pieces;
    std::optional<Amount> package;
    Facts facts;
    std::optional<std::string> note;

    static FieldList fields(auto) {
        return {field<&Good::name>("Its name."),
                field<&Good::category>("Its category."),
                field<&Good::measure>(
                    "How it is measured: mass, volume or pieces. This never changes."),
                field<&Good::package>("The package in which it is usually bought."),
                field<&Good::facts>("Facts about all its lots. A lot's own facts go before them."),
                field<&Good::note>("A note.")};
    }
};

struct GoodAdd {
    static constexpr About about{"good.add", Access::keep, Effect::writes,
                                 "Adds a good, so that you can buy and use it."};
    struct Params {
        std::string name;
        Category category = Category::other;
        std::optional<Measure> measure;
        std::optional<AmountGiven> package;
        Facts facts;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {
                field<&Params::name>("Name of the good.")
                    .positional()
                    .length(1, 60)
                    .like("light dry extract"),
                field<&Params::category>("Category of the good. It sets the usual measure and the "
                                         "letter of its lot codes.")
                    .positional(),
                field<&Params::measure>(
                    "Mass, volume or pieces. The usual one of the category if left out."),
                field<&Params::package>(
                    "The package in which it is usually bought. None if left out.")
                    .like("1.5 kg"),
                field<&Params::facts>("Facts about all its lots. A lot's own facts go before them.")
                    .defaulted(),
                field<&Params::note>("A note. None if left out.").length(1, 400)};
        }
    };
    using Result = Good;
};

struct GoodList {
    static constexpr About about{"good.list", Access::look, Effect::reads, "Lists the goods."};
    struct Params : Page {
        std::optional<Category> category;
        static FieldList fields(auto) {
            return joined(
                FieldList{
                    field<&Params::category>("Lists only goods of this category.").positional()},
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
    static constexpr About about{
        "good.change", Access::keep, Effect::writes,
        "Changes a good's name, package, facts or note. Category and measure never change."};
    struct Params {
        std::string name;
        std::optional<std::string> rename;
        std::optional<AmountGiven> package;
        std::optional<Facts> facts;
        std::optional<std::string> note;
        std::vector<std::string> clear;
        static FieldList fields(auto) {
            return {
                field<&Params::name>("Name of the good.").positional().length(1, 60),
                field<&Params::rename>("The new name. It stays as it is if left out.")
                    .length(1, 60),
                field<&Params::package>(
                    "The package in which it is usually bought. It stays as it is if left out."),
                field<&Params::facts>("Facts to set. Facts that you leave out stay as they are."),
                field<&Params::note>("A note. It stays as it is if left out.").length(1, 400),
                clear_field<&Params::clear>("package")};
        }
    };
    using Result = Good;
};

} // namespace barmkeep::contract
