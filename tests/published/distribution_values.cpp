// Intervals and tails of counts, and the quantiles under them, at many places.
#include "sdk/brewing/counting.hpp"
#include "sdk/brewing/dispersion.hpp"
#include "sdk/brewing/distributions.hpp"
#include "sdk/brewing/stain.hpp"
#include "tests/published/values.hpp"

#include <array>
#include <cstdint>

namespace barmkeep::published {
namespace {

using namespace brewing;

constexpr std::array confidences{0.5, 0.9, 0.95, 0.99, 0.9999};

void add_poisson(std::vector<Value>& all) {
    for (const double confidence : confidences)
        for (std::uint64_t cells = 1; cells < 2'000'000; cells = cells * 3 + 1) {
            const Interval interval = poisson_interval(cells, confidence);
            const double n = static_cast<double>(cells);
            const double tail = (1.0 - confidence) / 2.0;
            all.push_back({"distribution", "gamma_quantile", {n, tail}, interval.low});
            all.push_back({"distribution", "gamma_quantile", {n + 1, 1 - tail}, interval.high});
        }
    all.push_back({"distribution", "gamma_quantile", {1, 0.975}, poisson_interval(0).high});
}

void add_shares(std::vector<Value>& all) {
    for (const double confidence : confidences)
        for (std::uint64_t living = 1; living < 100'000; living = living * 4 + 3)
            for (std::uint64_t dead = 1; dead < 10'000; dead = dead * 5 + 2) {
                const Estimate<double> share = stained_share({living, dead}, confidence);
                const double a = static_cast<double>(living);
                const double b = static_cast<double>(dead);
                const double tail = (1.0 - confidence) / 2.0;
                all.push_back({"distribution", "beta_quantile", {a, b + 1, tail}, share.low});
                all.push_back({"distribution", "beta_quantile", {a + 1, b, 1 - tail}, share.high});
            }
}

/// One field of `cells` among `fields - 1` of half as many: some scattered, some too even.
void add_dispersion(std::vector<Value>& all) {
    for (std::size_t fields = 2; fields < 500; fields = fields * 2 + 1)
        for (std::uint32_t cells = 2; cells < 300; cells = cells * 2 + 2) {
            std::vector<std::uint32_t> counts(fields, cells / 2);
            counts.front() = cells;
            const DispersionTest test = dispersion_test(counts);
            all.push_back({"distribution",
                           "chi_square_above",
                           {test.degrees, test.chi_square},
                           test.p_value});
        }
}

void add_quantiles(std::vector<Value>& all) {
    for (const double confidence : confidences) {
        const double p = 0.5 + confidence / 2.0;
        all.push_back({"distribution", "normal_quantile", {p}, normal_quantile(p)});
        for (double degrees = 1; degrees < 1000; degrees *= 2)
            all.push_back({"distribution", "t_quantile", {degrees, p}, t_quantile(degrees, p)});
    }
}

} // namespace

std::vector<Value> distribution_values() {
    std::vector<Value> all;
    add_poisson(all);
    add_shares(all);
    add_dispersion(all);
    add_quantiles(all);
    return all;
}

} // namespace barmkeep::published
