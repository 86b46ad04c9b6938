#include "tests/canning/runs.hpp"

#include "plugins/canning/process/check.hpp"

#include <algorithm>

namespace barmkeep::canning::test {
namespace {

bool holds_for(const RunState& state, std::string_view key, contract::HoldKind kind) {
    return std::ranges::any_of(state.warnings, [&](const Warning& warning) {
        return warning.key == key && warning.holds == kind;
    });
}

} // namespace

Run sample_run() {
    Run run;
    run.number = 1;
    RunDocument& begun = run.begun;
    begun.started = parse_instant("2026-03-02T08:00:00Z");
    begun.started_by = "anna";
    begun.session = {"first", begun.started};
    begun.process.process = {"test",
                             "pint",
                             contract::Gauge::dial,
                             Appliance::pressure_canner,
                             11 * brewing::psi_gauge,
                             minutes(20),
                             "a test only",
                             std::nullopt};
    begun.process.at_altitude =
        at_altitude(contract::Gauge::dial, 11 * brewing::psi_gauge, 500 * brewing::metre);
    begun.canner = "kettle";
    begun.target = 11 * brewing::psi_gauge;
    begun.good = "wort";
    begun.jars = 7;
    begun.facts.gravity = brewing::Gravity::sg(1.09);
    begun.facts.fill = 420 * brewing::millilitre;
    begun.facts.extract = 90 * brewing::gram;
    begun.facts.jar = "pint";
    begun.lots = {{LotCode{'E', 1}, 700 * brewing::gram, 24.69, {}, {}, {}}};
    begun.used = {{"lids", pieces(7)}};
    return run;
}

Hand& Hand::log(LogLine line) {
    run_.log.push_back(std::move(line));
    return *this;
}

Hand& Hand::step(Step step) {
    return log(step_line(run_, RunRules{}, step, {}, logging()));
}

Hand& Hand::shows(double psi) {
    return log(reading_line(run_, RunRules{}, psi * brewing::psi_gauge, logging()));
}

Hand& Hand::strike(std::int64_t line, const std::string& reason) {
    return log(strike_line(run_, RunRules{}, line, reason, logging()));
}

Hand& Hand::keep_pressure(double psi, std::int64_t for_minutes) {
    for (std::int64_t left = for_minutes; left > 0;) {
        const std::int64_t step = std::min<std::int64_t>(left, 5);
        left -= step;
        wait(minutes(step)).shows(psi);
    }
    return *this;
}

Hand& Hand::up_to_pressure(double psi) {
    step(Step::steam_flows).wait(minutes(10)).step(Step::weight_on);
    return wait(minutes(4)).shows(psi);
}

Hand& Hand::cool_and_open() {
    return wait(minutes(35)).shows(0).wait(minutes(10)).step(Step::opened);
}

Hand& Hand::by_the_book() {
    wait(minutes(30)).up_to_pressure().keep_pressure(11.5, 20).step(Step::heat_off);
    return cool_and_open();
}

bool warned(const RunState& state, std::string_view key) {
    return std::ranges::find(state.warnings, key, &Warning::key) != state.warnings.end();
}

bool deviates(const RunState& state, std::string_view key) {
    return holds_for(state, key, contract::HoldKind::deviation_known);
}

bool lacks_evidence(const RunState& state, std::string_view key) {
    return holds_for(state, key, contract::HoldKind::evidence_missing);
}

} // namespace barmkeep::canning::test
