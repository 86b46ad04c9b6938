#include "plugins/canning/sheets/run_parts.hpp"

#include "plugins/canning/run/state.hpp"

namespace barmkeep::canning::sheets {

using contract::HoldKind;
using sheet::Action;
using sheet::offer;

namespace {

Instant since(const RunSummary& now) {
    return now.at - now.elapsed;
}

bool is_over(const RunSummary& now) {
    return now.remaining && *now.remaining <= Seconds{};
}

bool is_dial(const RunSummary& now) {
    return now.gauge == contract::Gauge::dial;
}

/// Whether the heat went off too early and may still be turned on again.
bool wants_heat(const RunSummary& now) {
    return now.alarm && now.phase == Phase::cooling &&
           (now.alarm->key == "time_not_completed" || now.alarm->key == "no_readings");
}

bool wants_vent(const RunSummary& now) {
    return now.alarm && (now.alarm->key == "vented_short" || now.alarm->key == "vent_skipped");
}

Text lead_under_pressure(const RunSummary& now) {
    if (now.phase == Phase::pressurising)
        return is_dial(now) ? text("Bring the dial to ", to_reach(now.target),
                                   "; the time starts with the first reading there.")
                            : text("Heat until the weight rocks as its manual says; the time "
                                   "starts when you log it.");
    if (is_over(now))
        return text("The ", *now.required, " that you stated are over: turn the heat off.");
    return is_dial(now) ? text("Keep the dial at ", to_reach(now.target), " or slightly above.")
                        : text("Keep the weight rocking as its manual says.");
}

Text lead_after_heat(const RunSummary& now) {
    if (now.phase == Phase::cooling)
        return now.zero_at ? text("Wait ", wait_after_zero,
                                  " after zero, then open the canner and take the jars out.")
                           : text("Let the canner cool by itself to zero, and keep it closed.");
    if (has_deviation(now))
        return text("No jar of this run goes on the shelf: log where the jars go.");
    return is_over(now) ? text("Test each seal now, and log the counts.")
                        : text("Leave the jars untouched; test each seal after 12 to 24 hours.");
}

Text lead_at_end(const RunSummary& now) {
    if (now.phase == Phase::abandoned)
        return text("The run was abandoned: nothing of it goes on the shelf.");
    if (has_deviation(now))
        return text("The run has ended: a step went wrong, and no jar goes on the shelf.");
    return now.log_complete ? text("The run has ended: its seals are tested.")
                            : text("The run has ended: its log has a gap, and its jars are held.");
}

Action logging(const RunSummary& now, std::string label, Step step, std::string letter) {
    return offer(std::move(label), "run.log",
                 {{"run", now.run}, {"step", json::value(to_string(step))}}, std::move(letter));
}

Action reading(const RunSummary& now) {
    if (!is_dial(now))
        return offer("log that the weight rocks", "run.gauge",
                     {{"run", now.run}, {"rocking", true}}, "r");
    Action action = offer("log a reading", "run.gauge", {{"run", now.run}}, "r");
    action.ask = {"shows"};
    return action;
}

Action seal_testing(const RunSummary& now, std::string label, json::object params,
                    std::string letter) {
    params["run"] = now.run;
    Action action = offer(std::move(label), "run.seal_test", std::move(params), std::move(letter));
    action.ask = {"held"};
    return action;
}

Action with_confirmation(Action action, bool is_early) {
    action.confirm = is_early; // what is logged may be struck out, but not what was done
    return action;
}

/// What most people do next; nothing while the alarm has it, and once the run has ended.
std::optional<Action> next_action(const RunSummary& now) {
    switch (now.phase) {
    case Phase::filling:
        return logging(now, "log that steam flows", Step::steam_flows, "s");
    case Phase::venting:
        return with_confirmation(logging(now, "log weight on", Step::weight_on, "w"),
                                 !is_over(now));
    case Phase::pressurising:
        return reading(now);
    case Phase::at_pressure:
        return is_over(now) ? logging(now, "log heat off", Step::heat_off, "h") : reading(now);
    case Phase::cooling:
        if (!now.zero_at)
            return offer("log zero pressure", "run.gauge", {{"run", now.run}, {"shows", 0}}, "z");
        return with_confirmation(logging(now, "log canner opened", Step::opened, "o"),
                                 now.at < *now.zero_at + wait_after_zero);
    case Phase::seal_test:
        if (has_deviation(now))
            return std::nullopt;
        return with_confirmation(seal_testing(now, "log the seal test", {}, "t"), !is_over(now));
    default:
        return std::nullopt;
    }
}

/// What else may happen in a phase.
void add_other_actions(SheetBuilder& made, const RunSummary& now) {
    if (now.phase == Phase::at_pressure && is_over(now))
        made.action(reading(now));
    if (now.phase == Phase::at_pressure && !is_over(now))
        made.action(
            with_confirmation(logging(now, "log heat off early", Step::heat_off, "h"), true));
    if (now.phase == Phase::at_pressure && !is_dial(now))
        made.action(offer("log that the weight stopped", "run.gauge",
                          {{"run", now.run}, {"rocking", false}}, "f"));
    if (now.phase == Phase::seal_test && has_deviation(now) &&
        now.at < since(now) + deviation_window)
        made.action(
            seal_testing(now, "log them as chilled", {{"deviation_to", "refrigerator"}}, "c"));
}

std::optional<Action> alarm_action(const RunSummary& now) {
    if (wants_heat(now))
        return logging(now, "log heat on again", Step::heat_on, "a");
    if (wants_vent(now)) {
        if (now.phase == Phase::cooling)
            return logging(now, "log heat on again", Step::heat_on, "a");
        const bool at_zero = now.phase == Phase::pressurising &&
                             now.last_reading.value_or(brewing::GaugePressure{}) < zero_pressure;
        return at_zero ? logging(now, "log that steam flows", Step::steam_flows, "s")
                       : logging(now, "log heat off", Step::heat_off, "h");
    }
    if (now.phase == Phase::seal_test && has_deviation(now))
        return seal_testing(now, "log them as thrown out", {{"deviation_to", "discard"}}, "x");
    if (now.phase == Phase::pressurising || now.phase == Phase::at_pressure)
        return reading(now);
    return std::nullopt;
}

Text what_now(const Alarm& alarm, const RunSummary& now) {
    if (wants_heat(now))
        return text("Do not open the canner. Turn the heat on again: the whole time starts again "
                    "from zero. Otherwise these jars may not go on the shelf.");
    if (alarm.key == "pressure_dropped")
        return is_dial(now)
                   ? text("Turn the heat up and bring the dial back to ", to_reach(now.target), ".")
                   : text("Turn the heat up until the weight rocks again.");
    if (alarm.key == "reading_late")
        return text("Read the gauge and log it now. Without readings, evidence is missing and the "
                    "jars go on hold.");
    if (alarm.key != "opened_after_deviation")
        return text(alarm.what_now);
    const Instant latest = since(now) + deviation_window;
    const Text never = text("These jars never go on the shelf. Throw them out");
    if (now.at >= latest)
        return text(never, ". ", sheet::source("S86"));
    return text(never, ", or put them into the refrigerator (2 days) or the freezer before ",
                latest, ". ", sheet::sources("S86 S74"), " A looser source allows 24 hours. ",
                sheet::source("S75"));
}

std::vector<std::string_view> cautions_here(const RunSummary& now) {
    if (wants_heat(now))
        return {"heat_off_early"};
    if (wants_vent(now))
        return {"venting"};
    switch (now.phase) {
    case Phase::filling:
        return {"headspace"};
    case Phase::venting:
        return {"venting"};
    case Phase::pressurising:
    case Phase::at_pressure:
        return {"pressure_drop"};
    case Phase::cooling:
        return {now.zero_at ? "opening_the_canner" : "no_forced_cooling"};
    case Phase::seal_test:
        if (has_deviation(now))
            return {"deviation", "never_canned_again"};
        return {"seal_test", "failed_jar"};
    case Phase::shelved:
        return {"untested_jars"};
    case Phase::abandoned:
        break;
    }
    return {"never_canned_again"};
}

} // namespace

bool has_deviation(const RunSummary& now) {
    return std::any_of(now.warnings.begin(), now.warnings.end(), [](const Warning& warning) {
        return warning.holds == HoldKind::deviation_known;
    });
}

Text run_title(const RunSummary& now) {
    return text("Run ", sheet::number(static_cast<double>(now.run)), ": ", words_of(now.phase));
}

Text lead_of(const RunSummary& now) {
    if (wants_heat(now))
        return text("Turn the heat on again; the whole time starts again from zero.");
    if (wants_vent(now))
        return text("Vent again before anything else; then run the whole time.");
    switch (now.phase) {
    case Phase::filling:
        return text("Weigh and fill by the card, load the canner, and heat it until steam flows "
                    "freely.");
    case Phase::venting:
        return is_over(now)
                   ? text("Put the weight on, or close the petcock.")
                   : text("Let steam flow freely for ", vent_least, " before the weight goes on.");
    case Phase::pressurising:
    case Phase::at_pressure:
        return lead_under_pressure(now);
    case Phase::cooling:
    case Phase::seal_test:
        return lead_after_heat(now);
    default:
        return lead_at_end(now);
    }
}

sheet::Warning alarm_of(const Alarm& alarm, const RunSummary& now) {
    sheet::Warning made;
    made.text = text(alarm.text, " ", what_now(alarm, now));
    made.key = alarm.key;
    made.severity = sheet::Severity::alarm;
    made.action = alarm_action(now);
    if (made.action)
        made.action->usual = true;
    return made;
}

Text target_of(const RunSummary& now) {
    if (!is_dial(now))
        return text("rocking, ", to_reach(now.target));
    Text target = text(to_reach(now.target), " or slightly above");
    constexpr brewing::GaugePressure none{};
    if (now.gauge_error && *now.gauge_error > none)
        target.append(text(" (it reads ", *now.gauge_error, " high)"));
    if (now.gauge_error && *now.gauge_error < none)
        target.append(text(" (it reads ", none - *now.gauge_error, " low)"));
    return target;
}

void add_clocks(SheetBuilder& made, const RunSummary& now) {
    const Instant from = since(now);
    if (now.phase == Phase::venting)
        made.clock_to("weight on not before", from + vent_least);
    if (now.phase == Phase::at_pressure && is_over(now))
        made.clock_since("at pressure for", from);
    else if (now.phase == Phase::at_pressure && now.required)
        made.clock_to("heat off not before", from + *now.required);
    if (now.reading_due_by)
        made.clock_to("next reading by", *now.reading_due_by);
    if (now.phase == Phase::cooling && !now.zero_at && !wants_heat(now))
        made.clock_since("cooling for", from);
    if (now.phase == Phase::cooling && now.zero_at && !wants_heat(now))
        made.clock_to("open not before", *now.zero_at + wait_after_zero);
    if (now.phase != Phase::seal_test)
        return;
    if (has_deviation(now)) {
        if (now.at < from + deviation_window)
            made.clock_to("chill or freeze only before", from + deviation_window);
        return;
    }
    if (is_over(now))
        made.clock_since("jars stand for", from);
    else
        made.clock_to("seals not before", from + seal_test_earliest);
    if (now.heat_off)
        made.clock_to("chill a jar that failed before", *now.heat_off + failed_jar_latest);
}

void add_run_warnings(SheetBuilder& made, const RunSummary& now) {
    for (const Warning& warning : now.warnings) {
        const bool is_in_alarm = now.alarm && (now.alarm->key == warning.key ||
                                               (now.alarm->key == "opened_after_deviation" &&
                                                warning.holds == HoldKind::deviation_known));
        if (is_in_alarm)
            continue;
        std::string_view then;
        if (warning.holds == HoldKind::deviation_known)
            then = " For this, no jar of the run goes on the shelf.";
        else if (warning.holds)
            then = " For this, the jars go on hold.";
        const bool has_end = warning.text.ends_with('.') || warning.text.ends_with(']');
        made.warning(warning.key, warning.text, has_end ? "" : ".", then);
    }
    add_process_note(made, now.process_note);
}

void add_run_cautions(SheetBuilder& made, const RunSummary& now,
                      const std::vector<Caution>& cautions) {
    made.cautions(cautions, cautions_here(now));
}

void add_run_actions(SheetBuilder& made, const RunSummary& now) {
    const bool alarm_has_it = now.alarm && alarm_action(now).has_value();
    if (!alarm_has_it)
        if (auto next = next_action(now)) {
            // Seals are tested many hours later; until then it is offered, not proposed.
            const bool is_usual = now.phase != Phase::seal_test || !next->confirm;
            is_usual ? made.usual_action(*std::move(next)) : made.action(*std::move(next));
        }
    if (!wants_heat(now) && !wants_vent(now))
        add_other_actions(made, now);
    if (now.strike_line) {
        auto undo = offer("strike line " + std::to_string(*now.strike_line) + " out", "run.strike",
                          {{"run", now.run}, {"line", *now.strike_line}}, "u");
        undo.ask = {"reason"};
        made.action(std::move(undo));
    }
    made.topic("canning.run").topic("record.");
}

} // namespace barmkeep::canning::sheets
