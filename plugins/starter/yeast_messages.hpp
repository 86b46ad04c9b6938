// yeast.list: the yeast on the shelf and what of it still lives.
#pragma once

#include "sdk/contract/lot.hpp"

namespace barmkeep::starter {

/// From which day the age of a lot is counted.
enum class AgedFrom { packed, bought };
constexpr auto enum_names(AgedFrom) {
    return std::array{EnumName<AgedFrom>{AgedFrom::packed, "packed"},
                      EnumName<AgedFrom>{AgedFrom::bought, "bought"}};
}

/// How yeast dies in store depends on what it is kept as.
enum class Material { liquid_pack, dry_pack, slurry };
constexpr auto enum_names(Material) {
    return std::array{EnumName<Material>{Material::liquid_pack, "liquid_pack"},
                      EnumName<Material>{Material::dry_pack, "dry_pack"},
                      EnumName<Material>{Material::slurry, "slurry"}};
}

/// An amount of one lot of yeast and its living cells on a day.
struct LivingYeast {
    LotCode lot;
    std::string good;
    std::optional<std::string> strain;
    Material material = Material::liquid_pack;
    Amount amount;
    std::optional<std::int64_t> age_days;
    std::optional<AgedFrom> aged_from;
    std::optional<Range<double>> alive;
    std::optional<Range<brewing::Cells>> cells;
    std::optional<Date> best_by;
    bool past_best_by = false;
    bool extrapolated = false;
    std::vector<std::string> notes;

    static FieldList fields(auto) {
        return {
            field<&LivingYeast::lot>("The lot."),
            field<&LivingYeast::good>("The good of the lot."),
            field<&LivingYeast::strain>("Strain of the yeast. Left out if it is not noted."),
            field<&LivingYeast::material>("Liquid pack, dry pack or slurry."),
            field<&LivingYeast::amount>("Amount of the yeast that the cells are in."),
            field<&LivingYeast::age_days>("Age in days. Left out if it is not known."),
            field<&LivingYeast::aged_from>("Whether the age counts from packing or from buying."),
            field<&LivingYeast::alive>("Share of the cells that are alive, from 0 to 1."),
            field<&LivingYeast::cells>("Living cells in the amount. Left out if no source covers "
                                       "the case. The notes then say why."),
            field<&LivingYeast::best_by>("Best-by day of the lot. Left out if it is not noted."),
            field<&LivingYeast::past_best_by>("Whether that day is past."),
            field<&LivingYeast::extrapolated>("Whether the yeast is older than any source covers. "
                                              "The figures are then a guess."),
            field<&LivingYeast::notes>("Notes about the figures.")};
    }
};

struct YeastList {
    static constexpr About about{
        "yeast.list", Access::look, Effect::reads,
        "Lists the yeast that is available, its age and its living cells."};
    struct Params {
        std::optional<Date> day;
        std::optional<brewing::Temperature> kept_at;
        static FieldList fields(auto) {
            return {field<&Params::day>("Day for which the cells are counted. Left out, today.")
                        .positional(),
                    field<&Params::kept_at>("Temperature at which the yeast was kept. Left out, "
                                            "the setting `kept_at` of the plugin starter.")
                        .between(-30, 40)
                        .like("4 C")};
        }
    };
    struct Result {
        Date day;
        std::vector<LivingYeast> yeast;
        static FieldList fields(auto) {
            return {field<&Result::day>("Day for which the cells are counted."),
                    field<&Result::yeast>("Lots of yeast with some available, in the order in "
                                          "which they expire.")};
        }
    };
};

} // namespace barmkeep::starter
