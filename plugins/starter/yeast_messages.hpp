// starter.yeast: the yeast on the shelf and what of it still lives.
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
            field<&LivingYeast::good>("Its good."),
            field<&LivingYeast::strain>("Its strain."),
            field<&LivingYeast::material>("What it is kept as."),
            field<&LivingYeast::amount>("How much of it is meant."),
            field<&LivingYeast::age_days>("Its age on the day asked about."),
            field<&LivingYeast::aged_from>("The day the age is counted from."),
            field<&LivingYeast::alive>("Share of the cells still alive, by the sources."),
            field<&LivingYeast::cells>(
                "Living cells in the amount; left out where nothing can be said, and the notes say "
                "why."),
            field<&LivingYeast::best_by>("The last day its maker calls it good for."),
            field<&LivingYeast::past_best_by>("Whether that day has gone by."),
            field<&LivingYeast::extrapolated>(
                "Whether it is older than any source covers, so that the figure is a guess."),
            field<&LivingYeast::notes>("What to know about the figures.")};
    }
};

struct StarterYeast {
    static constexpr About about{
        "starter.yeast", Access::look, Effect::reads,
        "Shows the yeast that is free to use, its age and how many of its cells still live."};
    struct Params {
        std::optional<Date> day;
        std::optional<brewing::Temperature> kept_at;
        static FieldList fields(auto) {
            return {field<&Params::day>("The day asked about; today if left out.").positional(),
                    field<&Params::kept_at>(
                        "Temperature the yeast was kept at; the plugin's setting if left out.")
                        .between(-30, 40)
                        .like("4 C")};
        }
    };
    struct Result {
        Date day;
        std::vector<LivingYeast> yeast;
        static FieldList fields(auto) {
            return {field<&Result::day>("The day asked about."),
                    field<&Result::yeast>("One row for each lot with some free, first to expire "
                                          "first within a good.")};
        }
    };
};

} // namespace barmkeep::starter
