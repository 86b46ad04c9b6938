#include "tests/canning/runs.hpp"

#include "plugins/canning/process_check.hpp"

#include <algorithm>

namespace barmkeep::canning::test {

RunDocument sample_run() {
    RunDocument run;
    run.run = 1;
    run.started = parse_instant("2026-03-02T08:00:00Z");
    run.started_by = "anna";
    run.session = "first";
    run.process = {"test",      "pint",        contract::Gauge::dial, 11 * brewing::psi_gauge,
                   minutes(20), "a test only", std::nullopt};
    run.at_altitude = at_altitude(run.process.gauge, run.process.pressure, 500 * brewing::metre);
    run.canner = "kettle";
    run.target = 11 * brewing::psi_gauge;
    run.good = "wort";
    run.jars = 7;
    run.facts.gravity = brewing::Gravity::sg(1.09);
    run.facts.fill = 420 * brewing::millilitre;
    run.facts.extract = 90 * brewing::gram;
    run.facts.jar = "pint";
    run.lots = {{LotCode{'E', 1}, 700 * brewing::gram, 24.69, {}, {}, {}}};
    run.used = {{"lids", pieces(7)}};
    return run;
}

Hand& Hand::turn(Turn turn) {
    log_turn(run_, Rules{}, turn, {}, logging());
    return *this;
}

Hand& Hand::shows(double psi) {
    log_reading(run_, Rules{}, psi * brewing::psi_gauge, logging());
    return *this;
}

Hand& Hand::hold(double psi, std::int64_t for_minutes) {
    for (std::int64_t left = for_minutes; left > 0;) {
        const std::int64_t step = std::min<std::int64_t>(left, 5);
        left -= step;
        wait(minutes(step)).shows(psi);
    }
    return *this;
}

Hand& Hand::by_the_book() {
    wait(minutes(30)).turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on);
    wait(minutes(4)).shows(11.5).hold(11.5, 20).turn(Turn::heat_off);
    return wait(minutes(35)).shows(0).wait(minutes(10)).turn(Turn::opened);
}

bool warned(const RunState& state, std::string_view key) {
    return std::ranges::find(state.warnings, key, &Warning::key) != state.warnings.end();
}

bool holds(const RunState& state, std::string_view key) {
    return std::ranges::any_of(state.warnings, [&](const Warning& warning) {
        return warning.key == key && warning.holds;
    });
}

} // namespace barmkeep::canning::test
