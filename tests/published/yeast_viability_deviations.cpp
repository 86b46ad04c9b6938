// Loss of viability against the statements it was taken from.  Access codes and what is second hand
// are in the rows.
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/viability.hpp"
#include "tests/published/yeast_comparisons.hpp"

#include <cmath>

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string table = "yeast/viability.csv";
constexpr double days_per_month = 365.25 / 12.0;

Estimate<double> percent_alive(const std::string& key, double days, double celsius) {
    const ViabilityModel* model = find_viability_model(key);
    if (model == nullptr)
        throw std::runtime_error{"no viability model " + key};
    const Estimate<double> share = viable_share_by(*model, days, Temperature::celsius(celsius));
    return {100 * share.low, 100 * share.likely, 100 * share.high, share.sources};
}

/// Low and high of a statement against the range printed in one row.
std::vector<Pair> ends_of(const std::string& id, const std::string& key, double days,
                          double celsius, bool losses = false) {
    const Row row = row_of(table, id);
    const auto [low, high] = range_in(row["viability_pct"]);
    const Estimate<double> alive = percent_alive(key, days, celsius);
    if (losses)
        return {{row.place(), alive.high, 100 - low}, {row.place(), alive.low, 100 - high}};
    return {{row.place(), alive.low, low}, {row.place(), alive.high, high}};
}

/// The likely figure of a statement against the single drop printed in one row.
Pair drop_of(const std::string& id, const std::string& key, double days, double celsius) {
    const Row row = row_of(table, id);
    return {row.place(), 100 - percent_alive(key, days, celsius).likely,
            range_in(row["viability_pct"]).first};
}

/// Rate of loss a day between fresh and `days`, against a fit derived from the same statement.
Pair rate_of(const std::string& id, const std::string& key, double days, double celsius,
             double per = 1.0) {
    const Row row = row_of("yeast/viability_fits.csv", id);
    return {row.place(), -std::log(percent_alive(key, days, celsius).likely / 100) / days * per,
            row.number("value")};
}

Comparison fresh_packs() {
    return {
        "share alive, fresh packs",
        "WL3 (second hand)",
        "1 to 6 months",
        "%",
        0.005,
        pairs_from(
            table, [](const Row& row) { return row["source"] == "WL3"; },
            [](const Row& row) { return percent_alive("WL3", row.number("age_days"), 4).likely; },
            [](const Row& row) { return row.number("viability_pct"); })};
}

Comparison dry_packs() {
    const std::string dry = "yeast/dry_yeast.csv";
    const auto loss = [&](const std::string& id, const std::string& key, double days,
                          double celsius) {
        const Row row = row_of(dry, id);
        return Pair{row.place(), 100 - percent_alive(key, days, celsius).likely,
                    row.number("value")};
    };
    return {"loss of dry yeast",
            "CONE, KSU (second hand)",
            "4 to 40 C",
            "%",
            0.5,
            {loss("DY12", "CONE", 365.25, 4), loss("DY11", "CONE", 365.25, 20),
             loss("DY17", "CONE-KSU", 30, 40)}};
}

Comparison home_slurries() {
    const std::string layers = "yeast/viability_slurries.csv";
    double worst = 0;
    for (const Row& row : read_csv(layers))
        worst = std::min(worst, row.number("change_pct_per_day"));
    const Estimate<double> day = percent_alive("WOO1", 1, 4);
    return {"change of refrigerated slurry",
            "WOO1",
            "mean and worst of 7",
            "%/day",
            0.005,
            {{layers, day.likely - 100, read_csv(layers).back().number("change_pct_per_day")},
             {layers, day.low - 100, worst}}};
}

std::vector<Pair> joined(std::vector<Pair> first, const std::vector<Pair>& second) {
    first.insert(first.end(), second.begin(), second.end());
    return first;
}

} // namespace

std::vector<Comparison> yeast_viability_comparisons() {
    const double month = days_per_month;
    return {
        fresh_packs(),
        // The statements below are printed in whole per cent: half a point.
        {"share alive, old vials", "WL2 (second hand)", "30 days", "%", 0.5,
         ends_of("VI07", "WL2-vial", 30, 4)},
        {"loss by convention", "BAR (second hand)", "1 month", "%", 0.5,
         joined(ends_of("VI09", "BAR-linear", month, 4, true),
                ends_of("VI09", "BAR-monthly", month, 4, true))},
        {"loss of pitching yeast",
         "MCB (abstract)",
         "6 days, 1 and 5 C",
         "%",
         0.5,
         {drop_of("VI10", "MCB", 6, 1), drop_of("VI11", "MCB", 6, 5)}},
        {"largest loss of pitching yeast",
         "MCB (abstract)",
         "6 days, 10 and 25 C",
         "%",
         0.5,
         {{"VI12", 100 - percent_alive("MCB", 6, 10).low,
           range_in(row_of(table, "VI12")["viability_pct"]).second},
          {"VI12", 100 - percent_alive("MCB", 6, 25).likely,
           range_in(row_of(table, "VI12")["viability_pct"]).second}}},
        // "Stayed 90 to 96": read as survival, so at worst 90 of 96.
        {"survival of lager yeast",
         "BQ1 (second hand)",
         "3 days, 1.6 C",
         "%",
         0.5,
         {{"VI13", percent_alive("BQ1", 3, 1.6).low, 100 * 90.0 / 96.0}}},
        home_slurries(),
        // Printed as "under 50", so the half itself is compared.
        {"most a slurry keeps",
         "WL2 (second hand)",
         "30 days",
         "%",
         0.5,
         {{"VI08", percent_alive("WL2-slurry", 30, 4).high,
           range_in(row_of(table, "VI08")["viability_pct"]).first}}},
        {"loss of warm slurry",
         "WOO5",
         "3 days, 20 C",
         "%",
         0.5,
         {{"VI18", 100 - percent_alive("WOO5", 3, 20).low,
           range_in(row_of(table, "VI18")["viability_pct"]).first}}},
        dry_packs(),
        {"share alive, home dried", "SUIK", "61 and 91 days", "%", 0.5,
         joined(ends_of("VI16", "SUIK", 61, -18), ends_of("VI17", "SUIK", 91, -18))},
        {"loss of home dried", "SUIK", "30 days", "%", 0.5, {drop_of("VI15", "SUIK", 30, -18)}},
        {"share alive in sterile water",
         "ALS",
         "183 days",
         "%",
         0.5,
         {{"VI14", percent_alive("ALS", 183, 4).likely,
           row_of(table, "VI14").number("viability_pct")}}},
        // Fits derived independently from the same statements, to their last printed digit; 0.19 is
        // printed to two.
        {"daily rate of loss",
         "fits derived from MCB, ALS",
         "1 and 5 C; fridge",
         "1/day",
         0.00006,
         {rate_of("VF6", "MCB", 6, 1), rate_of("VF7", "MCB", 6, 5), rate_of("VF9", "ALS", 183, 4)}},
        {"daily rate of loss",
         "fit derived from MCB",
         "25 C",
         "1/day",
         0.005,
         {rate_of("VF8", "MCB", 6, 25)}},
        {"monthly rate of loss",
         "fit derived from WL3",
         "0 to 6 months",
         "1/month",
         0.00006,
         {rate_of("VF3", "WL3", 182, 4, 182.0 / 6)}},
    };
}

} // namespace barmkeep::published
