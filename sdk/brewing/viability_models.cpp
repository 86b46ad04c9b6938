#include "sdk/brewing/viability_models.hpp"

#include "sdk/brewing/joined_keys.hpp"

#include <algorithm>
#include <array>
#include <cassert>

namespace barmkeep::brewing {
namespace {

constexpr double days_per_month = 365.25 / 12.0;

// --- liquid packs ---------------------------------------------------------------------------

// The maker's series of six months has a shoulder: almost nothing is lost in two months.  The
// spread is twice the residual scatter (1.8 points) of a straight line through months 1 to 6.
constexpr std::array wl3{
    LossPoint{0, 0.964, 1.0, 1.0},          LossPoint{30, 0.9561, 0.9921, 1.0},
    LossPoint{61, 0.9445, 0.9805, 1.0},     LossPoint{91, 0.8666, 0.9026, 0.9386},
    LossPoint{122, 0.8068, 0.8428, 0.8788}, LossPoint{152, 0.7575, 0.7935, 0.8295},
    LossPoint{182, 0.6799, 0.7159, 0.7519},
};
// 75 to 85 % after 30 days: rate = -ln(share) / 30.
constexpr std::array wl2_vial{LossPoint{4, 0.00958940, 0.00743812, 0.00541730}};
// "20 to 25 % a month", read as parts of the first count: three months leave 25 to 40 %.
constexpr std::array bar_linear{LossPoint{0, 1.0, 1.0, 1.0},
                                LossPoint{3 * days_per_month, 0.25, 0.325, 0.40}};
// The same words read as parts of what is left: -ln(0.75), -ln(0.775), -ln(0.80) a month.
constexpr std::array bar_monthly{LossPoint{
    4, 0.28768207 / days_per_month, 0.25489225 / days_per_month, 0.22314355 / days_per_month}};

constexpr std::array liquid_pack_models{
    ViabilityModel{"WL3", "WL3", "fresh packs, maker's monthly series, with its shoulder",
                   YeastMaterial::liquid_pack, Evidence::measured, 'Q', 1, 8, 0, 182,
                   LossShape::series, wl3},
    ViabilityModel{"WL2-vial", "WL2", "old vials: 75 to 85 % after 30 days",
                   YeastMaterial::liquid_pack, Evidence::stated, 'Q', 1, 8, 0, 30,
                   LossShape::exponential, wl2_vial},
    ViabilityModel{"BAR-linear", "BAR", "20 to 25 % of the first count a month, held to 3 months",
                   YeastMaterial::liquid_pack, Evidence::convention, 'Q', 1, 8, 0,
                   3 * days_per_month, LossShape::series, bar_linear},
    ViabilityModel{"BAR-monthly", "BAR", "20 to 25 % of what is left a month, held to 6 months",
                   YeastMaterial::liquid_pack, Evidence::convention, 'Q', 1, 8, 0, 182,
                   LossShape::exponential, bar_monthly},
};

// --- slurry ---------------------------------------------------------------------------------

// Drops of 7 % (1 C) and 14 % (5 C) in 6 days; "up to 68 %" between 10 and 25 C is the worst case
// there, reached by the likely curve only at 25 C.
constexpr std::array mcb{
    LossPoint{1, 0.0241902, 0.0120951, 0.00604756}, LossPoint{5, 0.0502743, 0.0251371, 0.0125686},
    LossPoint{10, 0.189906, 0.0416747, 0.0125686}, LossPoint{25, 0.189906, 0.189906, 0.0125686}};
// "Stayed 90 to 96 %" for three days: at worst 90 out of 96.
constexpr std::array bq1{LossPoint{0, 1.0, 1.0, 1.0}, LossPoint{3, 0.9375, 0.96875, 1.0}};
// Seven slurries, -0.77 to +0.09 points a day, mean -0.20; dead cells do not revive, so the best
// is no loss.  The page gives no length; six weeks is the longest storage ESC2 allows.
constexpr std::array woo1{LossPoint{0, 1.0, 1.0, 1.0}, LossPoint{42, 0.6766, 0.916, 1.0}};
// "Under 50 %" after 30 days: the half is the most it allows, so likely and high are the half.
constexpr std::array wl2_slurry{LossPoint{4, 0.0462098, 0.0231049, 0.0231049}};
// Two strains lost at most 3 % in three days at room temperature.
constexpr std::array woo5{LossPoint{0, 1.0, 1.0, 1.0}, LossPoint{3, 0.97, 0.985, 1.0}};

constexpr std::array slurry_models{
    ViabilityModel{"MCB", "MCB", "lager pitching yeast, 6 days at 1, 5 and 10 to 25 C",
                   YeastMaterial::slurry, Evidence::measured, 'A', 1, 25, 0, 6,
                   LossShape::exponential, mcb},
    ViabilityModel{"BQ1", "BQ1", "lager yeast, 3 days at 1.6 C: stayed 90 to 96 %",
                   YeastMaterial::slurry, Evidence::measured, 'Q', 1, 2.5, 0, 3, LossShape::series,
                   bq1},
    ViabilityModel{"WOO1", "WOO1 ESC2", "refrigerated home slurries, mean and ends of seven",
                   YeastMaterial::slurry, Evidence::measured, 'P', 1, 8, 0, 42, LossShape::series,
                   woo1},
    ViabilityModel{"WOO5", "WOO5", "two slurries left at room temperature for 3 days",
                   YeastMaterial::slurry, Evidence::measured, 'P', 18, 22, 0, 3, LossShape::series,
                   woo5},
    ViabilityModel{"WL2-slurry", "WL2", "home slurry: under 50 % after 30 days",
                   YeastMaterial::slurry, Evidence::stated, 'Q', 1, 8, 0, 30,
                   LossShape::exponential, wl2_slurry},
};

// --- dry and others -------------------------------------------------------------------------

// 5 % a year at 4 C and 20 % at 20 C; below 4 C the rate of 4 C, because cold does not hurt more.
// Held to 24 months, the shortest shelf life printed (LAL5).
constexpr std::array cone{LossPoint{1, 0.000280869, 0.000140435, 0.0000702173},
                          LossPoint{4, 0.000280869, 0.000140435, 0.0000702173},
                          LossPoint{20, 0.00122187, 0.000610934, 0.000305467}};
// Above 20 C: between CONE at 20 C and the loss of 90 % a month at 40 C.
constexpr std::array cone_ksu{LossPoint{20, 0.00122187, 0.000610934, 0.000305467},
                              LossPoint{40, 2 * 2.30258509 / days_per_month,
                                        2.30258509 / days_per_month,
                                        0.5 * 2.30258509 / days_per_month}};
// The figure after 30 days is single, the later ones are ranges.
constexpr std::array suik{LossPoint{0, 1.0, 1.0, 1.0}, LossPoint{30, 0.84, 0.92, 0.96},
                          LossPoint{61, 0.84, 0.86, 0.88}, LossPoint{91, 0.76, 0.77, 0.78}};
// 70 % after six months: -ln(0.7) / 183.
constexpr std::array als{LossPoint{4, 0.00389807, 0.00194904, 0.000974518}};

constexpr std::array dry_pack_models{
    ViabilityModel{"CONE", "CONE LAL5", "sealed dry yeast: 5 % a year at 4 C, 20 % at 20 C",
                   YeastMaterial::dry_pack, Evidence::stated, 'Q', 1, 20, 0, 730,
                   LossShape::exponential, cone},
    ViabilityModel{"CONE-KSU", "CONE KSU", "dry yeast kept hot: 90 % a month at 40 C",
                   YeastMaterial::dry_pack, Evidence::stated, 'Q', 20, 40, 0, 30,
                   LossShape::exponential, cone_ksu},
};
constexpr std::array home_dried_models{
    ViabilityModel{"SUIK", "SUIK", "ale yeast dried at home, in the freezer, three months",
                   YeastMaterial::home_dried, Evidence::measured, 'P', -20, -16, 0, 91,
                   LossShape::series, suik},
};
constexpr std::array sterile_water_models{
    ViabilityModel{"ALS", "ALS", "brewing strains under distilled water: 70 % after 6 months",
                   YeastMaterial::sterile_water, Evidence::measured, 'P', 1, 8, 0, 183,
                   LossShape::exponential, als},
};

template <std::size_t Count>
consteval SourceNames<Count> names_of(const std::array<ViabilityModel, Count>& models) {
    std::array<std::string_view, Count> keys;
    for (std::size_t i = 0; i < Count; ++i)
        keys.at(i) = models.at(i).key;
    return SourceNames<Count>{keys};
}

constexpr auto liquid_pack_names = names_of(liquid_pack_models);
constexpr auto slurry_names = names_of(slurry_models);
constexpr auto dry_pack_names = names_of(dry_pack_models);
constexpr auto home_dried_names = names_of(home_dried_models);
constexpr auto sterile_water_names = names_of(sterile_water_models);

constexpr std::array all_materials{YeastMaterial::liquid_pack, YeastMaterial::slurry,
                                   YeastMaterial::dry_pack, YeastMaterial::home_dried,
                                   YeastMaterial::sterile_water};

} // namespace

std::string_view name_of(YeastMaterial material) noexcept {
    switch (material) {
    case YeastMaterial::liquid_pack:
        return "liquid pack";
    case YeastMaterial::slurry:
        return "slurry";
    case YeastMaterial::dry_pack:
        return "dry pack";
    case YeastMaterial::home_dried:
        return "home-dried yeast";
    case YeastMaterial::sterile_water:
        return "culture in sterile water";
    }
    assert(false);
    return {};
}

std::span<const ViabilityModel> viability_models(YeastMaterial material) noexcept {
    switch (material) {
    case YeastMaterial::liquid_pack:
        return liquid_pack_models;
    case YeastMaterial::slurry:
        return slurry_models;
    case YeastMaterial::dry_pack:
        return dry_pack_models;
    case YeastMaterial::home_dried:
        return home_dried_models;
    case YeastMaterial::sterile_water:
        return sterile_water_models;
    }
    assert(false);
    return {};
}

std::string_view viability_keys(YeastMaterial material, std::size_t mask) noexcept {
    assert(mask < (std::size_t{1} << viability_models(material).size()));
    switch (material) {
    case YeastMaterial::liquid_pack:
        return liquid_pack_names.of(mask);
    case YeastMaterial::slurry:
        return slurry_names.of(mask);
    case YeastMaterial::dry_pack:
        return dry_pack_names.of(mask);
    case YeastMaterial::home_dried:
        return home_dried_names.of(mask);
    case YeastMaterial::sterile_water:
        return sterile_water_names.of(mask);
    }
    assert(false);
    return {};
}

const ViabilityModel* find_viability_model(std::string_view key) noexcept {
    for (const YeastMaterial material : all_materials) {
        const auto models = viability_models(material);
        const auto found = std::ranges::find(models, key, &ViabilityModel::key);
        if (found != models.end())
            return &*found;
    }
    return nullptr;
}

} // namespace barmkeep::brewing
