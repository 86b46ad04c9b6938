// The functions of yeast and counting that a plan or a list of lots calls again and again.
#include "sdk/brewing/counting.hpp"
#include "sdk/brewing/dispersion.hpp"
#include "sdk/brewing/personal.hpp"
#include "sdk/brewing/pitching.hpp"
#include "sdk/brewing/stain.hpp"
#include "sdk/brewing/starter_plan.hpp"
#include "sdk/brewing/viability.hpp"

#include <benchmark/benchmark.h>

#include <array>
#include <cstdint>
#include <vector>

namespace barmkeep::brewing {
namespace {

const Temperature refrigerator = Temperature::celsius(4);
const Gravity starter_gravity = Gravity::sg(1.040);
constexpr std::array<std::uint32_t, 10> fields{35, 41, 37, 47, 43, 45, 70, 46, 40, 29};

Cells of(double count) {
    return count * billion_cells;
}

void share_of_a_pack(benchmark::State& state) {
    double age = 0;
    for (auto _ : state) {
        age = age > 180 ? 0 : age + 0.37;
        benchmark::DoNotOptimize(viable_share(YeastMaterial::liquid_pack, age, refrigerator));
    }
}
BENCHMARK(share_of_a_pack);

void share_of_a_slurry(benchmark::State& state) {
    double age = 0;
    for (auto _ : state) {
        age = age > 41 ? 0 : age + 0.37;
        benchmark::DoNotOptimize(viable_share(YeastMaterial::slurry, age, refrigerator));
    }
}
BENCHMARK(share_of_a_slurry);

void cells_for_a_wort(benchmark::State& state) {
    double sg = 1.020;
    for (auto _ : state) {
        sg = sg > 1.100 ? 1.020 : sg + 0.0003;
        benchmark::DoNotOptimize(cells_needed(20.0 * litre, Gravity::sg(sg), BeerClass::lager));
    }
}
BENCHMARK(cells_for_a_wort);

void growth_of_a_starter(benchmark::State& state) {
    const auto stirring = static_cast<Stirring>(state.range(0));
    double litres = 0.6;
    for (auto _ : state) {
        litres = litres > 3.9 ? 0.6 : litres + 0.01;
        benchmark::DoNotOptimize(new_cells(of(100), {litres * litre, starter_gravity}, stirring));
    }
}
BENCHMARK(growth_of_a_starter)->Arg(0)->Arg(1);

void volume_of_a_starter(benchmark::State& state) {
    const auto stirring = static_cast<Stirring>(state.range(0));
    double target = 130;
    for (auto _ : state) {
        target = target > 180 ? 130 : target + 1;
        benchmark::DoNotOptimize(
            starter_volume_needed(of(100), of(target), starter_gravity, stirring));
    }
}
BENCHMARK(volume_of_a_starter)->Arg(0)->Arg(1);

/// From a slant, through a vessel so small that the large steps have to come first.
void plan_in_steps(benchmark::State& state) {
    const StarterGoal goal{{of(2), of(2), of(2), {}}, of(200), 2.0 * litre, starter_gravity,
                           Stirring::unstirred,       8.0};
    for (auto _ : state)
        benchmark::DoNotOptimize(plan_starter(goal));
}
BENCHMARK(plan_in_steps);

void interval_of_a_count(benchmark::State& state) {
    const auto cells = static_cast<std::uint64_t>(state.range(0));
    for (auto _ : state)
        benchmark::DoNotOptimize(poisson_interval(cells));
}
BENCHMARK(interval_of_a_count)->Arg(10)->Arg(400)->Arg(1'000'000);

void density_of_ten_fields(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(counted_density({fields, middle_square, 200}));
}
BENCHMARK(density_of_ten_fields);

void scatter_of_ten_fields(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(dispersion_test(fields));
}
BENCHMARK(scatter_of_ten_fields);

void share_of_a_stained_count(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(stained_share({372, 28}));
}
BENCHMARK(share_of_a_stained_count);

void learn_from_own_starters(benchmark::State& state) {
    const std::vector<OwnGrowth> own(static_cast<std::size_t>(state.range(0)),
                                     {of(100), of(120), of(10)});
    const Estimate<Cells> published{of(60), of(100), of(150), {}};
    for (auto _ : state)
        benchmark::DoNotOptimize(personal_growth(published, own));
}
BENCHMARK(learn_from_own_starters)->Arg(1)->Arg(100);

void learn_from_own_stains(benchmark::State& state) {
    const std::vector<OwnViability> own(static_cast<std::size_t>(state.range(0)), {0.9, {360, 40}});
    const Estimate<double> published{0.5, 0.8, 0.9, {}};
    for (auto _ : state)
        benchmark::DoNotOptimize(personal_viability(published, own));
}
BENCHMARK(learn_from_own_stains)->Arg(1)->Arg(100);

} // namespace
} // namespace barmkeep::brewing
