// How long the physics takes.  The inputs change from call to call, so that nothing is computed
// once and for all.
#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/density.hpp"
#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/fuel.hpp"
#include "sdk/brewing/hydrometer.hpp"
#include "sdk/brewing/refractometer.hpp"
#include "sdk/brewing/steam.hpp"
#include "sdk/brewing/units.hpp"

#include <benchmark/benchmark.h>

namespace {

using namespace barmkeep::brewing;

/// Walks from 0 to 1 over and over.
class Walk {
public:
    double next() {
        place_ += 0.001;
        if (place_ >= 1.0)
            place_ = 0.0;
        return place_;
    }

private:
    double place_ = 0.0;
};

/// Times `work` on places from 0 to 1.
template <class Work>
void time(benchmark::State& state, Work work) {
    Walk walk;
    for (auto _ : state)
        benchmark::DoNotOptimize(work(walk.next()));
}

Gravity gravity_at(double place) {
    return Gravity::sg(1.02 + 0.15 * place);
}

void plato_of_gravity(benchmark::State& state) {
    time(state, [](double at) { return plato_of(gravity_at(at)); });
}
BENCHMARK(plato_of_gravity);

void gravity_of_plato(benchmark::State& state) {
    time(state, [](double at) { return gravity_of(Plato::degrees(39.0 * at)); });
}
BENCHMARK(gravity_of_plato);

void density_of_sucrose(benchmark::State& state) {
    time(state, [](double at) {
        return sucrose_density(Plato::degrees(60.0 * at), Temperature::celsius(70.0 * at));
    });
}
BENCHMARK(density_of_sucrose);

void made_up_to_a_volume(benchmark::State& state) {
    time(state, [](double at) { return made_up(300.0 * at * gram, 1.0 * litre); });
}
BENCHMARK(made_up_to_a_volume);

void diluted_to_a_gravity(benchmark::State& state) {
    time(state, [](double at) {
        return to_gravity({1.0 * litre, gravity_at(at)}, Gravity::sg(1.035)).water;
    });
}
BENCHMARK(diluted_to_a_gravity);

void hydrometer_corrected(benchmark::State& state) {
    time(state, [](double at) {
        return correct_hydrometer(1.01 + 0.1 * at, Temperature::celsius(20.0 + 50.0 * at),
                                  Temperature::celsius(20.0))
            .gravity;
    });
}
BENCHMARK(hydrometer_corrected);

void refractometer_corrected(benchmark::State& state) {
    time(state, [](double at) {
        return refractometer_temperature_correction(30.0 * at, Temperature::celsius(6.0 + 13 * at));
    });
}
BENCHMARK(refractometer_corrected);

void steam_temperature_at_a_gauge(benchmark::State& state) {
    time(state,
         [](double at) { return steam_temperature(15.0 * at * psi_gauge, 2000.0 * at * metre); });
}
BENCHMARK(steam_temperature_at_a_gauge);

void gauge_pressure_for_a_temperature(benchmark::State& state) {
    time(state, [](double at) {
        return gauge_pressure_for(Temperature::celsius(100.0 + 20.0 * at), 2000.0 * at * metre);
    });
}
BENCHMARK(gauge_pressure_for_a_temperature);

void published_band_looked_up(benchmark::State& state) {
    time(state,
         [](double at) { return published_band(GaugeType::dial, 9000.0 * at * foot).pressure; });
}
BENCHMARK(published_band_looked_up);

void propane_estimated(benchmark::State& state) {
    time(state,
         [](double at) { return propane_for(4000.0 * at * kilojoule, GasBurner::cooktop).likely; });
}
BENCHMARK(propane_estimated);

void mass_parsed(benchmark::State& state) {
    const char* texts[] = {"4 oz", "113g", "1 1/2 lb", "1 lb 4 oz"};
    time(state, [&](double at) { return parse_mass(texts[static_cast<std::size_t>(4.0 * at)]); });
}
BENCHMARK(mass_parsed);

void mass_printed(benchmark::State& state) {
    time(state, [](double at) { return print(2000.0 * at * gram, System::us); });
}
BENCHMARK(mass_printed);

} // namespace
