#include "plugins/canning/seal.hpp"

#include "plugins/canning/run_names.hpp"
#include "plugins/canning/zone.hpp"
#include "sdk/method/text.hpp"

namespace barmkeep::canning {
namespace {

using contract::ConvertInput;
using contract::ConvertOutput;
using contract::Facts;

constexpr std::size_t hold_length_max = 400;

std::string joined(const std::vector<std::string>& sentences) {
    std::string text;
    for (const auto& sentence : sentences)
        text += (text.empty() ? "" : " ") + sentence;
    if (text.size() <= hold_length_max)
        return text;
    return std::string(cut_at_character(text, hold_length_max - 3)) + "...";
}

void check_counts(const RunDocument& run, const SealCounts& seals) {
    if (seals.all() == run.jars)
        return;
    throw Error(ErrorKind::params, "counts_differ",
                "The counts add up to " + std::to_string(seals.all()) + " jars, and run " +
                    std::to_string(run.run) + " has " + std::to_string(run.jars) + ".",
                "Count again: held, failed, lost_liquid and broken are all the jars of the load.",
                "/held");
}

void check_phase(const RunDocument& run, const RunState& state, Instant now) {
    if (has_ended(state.phase))
        throw Error(ErrorKind::conflict, "already_ended",
                    "Run " + std::to_string(run.run) + " has ended already: it is " +
                        std::string(to_string(state.phase)) + ".",
                    "run.show tells how; nothing was changed.", "/run");
    if (state.phase != Phase::seal_test)
        throw Error(ErrorKind::conflict, "not_now",
                    "Run " + std::to_string(run.run) + " is in its phase " +
                        std::string(to_string(state.phase)) +
                        "; seals are tested after the canner "
                        "was opened.",
                    "Log the turns that are missing (run.turn).", "/run");
    const Seconds waited = std::chrono::floor<Seconds>(now - state.since);
    if (waited < seal_test_earliest)
        throw Error(ErrorKind::conflict, "too_early",
                    "The jars have stood for " + to_text(waited) +
                        "; seals are tested after 12 to 24 hours.",
                    "Come back in " + to_text(seal_test_earliest - waited) + ".", "/run");
}

void check_failed(const RunDocument& run, const RunState& state, const RunSeal::Params& params,
                  Instant now) {
    if (params.failed == 0 || params.failed_to == FailedTo::discard)
        return;
    const Instant ended = state.heat_off.value_or(state.since);
    if (now - ended > failed_jar_latest)
        throw Error(ErrorKind::conflict, "too_late",
                    "The process ended more than 24 hours ago; jars whose seal failed may neither "
                    "be processed again nor be kept.",
                    "Throw them out and log it: failed_to discard.", "/failed_to");
    if (params.failed_to == FailedTo::reprocess && run.again)
        throw Error(ErrorKind::conflict, "processed_twice",
                    "These jars were processed a second time already.",
                    "Choose refrigerator or discard.", "/failed_to");
}

Date checked_best_by(const RunSeal::Params& params, Date canned, const ShelfRules& rules) {
    const Date usual = plus_days(canned, rules.best_by_days);
    if (!params.best_by)
        return usual;
    if (*params.best_by > plus_days(canned, 365) && !params.reason)
        throw Error(ErrorKind::params, "reason_missing",
                    "A best by more than a year after canning needs a reason.",
                    "Published advice is to use jars within one year; give `reason`.", "/reason");
    return *params.best_by;
}

Facts unsealed(Facts facts) {
    facts.unsealed = true;
    return facts;
}

Facts without_amount(Facts facts) {
    facts.fill.reset();
    facts.extract.reset();
    return facts;
}

/// The outputs of the conversion while they are gathered.
class Outputs {
public:
    Outputs(const RunDocument& run, Date canned, std::optional<std::string> hold)
        : run_{run}, canned_{canned}, hold_{std::move(hold)} {}

    void add(std::int64_t jars, double weight, Date best_by, Facts facts,
             std::optional<std::string> hold) {
        if (jars == 0)
            return;
        all_.push_back({run_.good, pieces(jars), weight, canned_, best_by, std::move(facts),
                        hold ? hold : hold_});
        weight_ += weight;
    }

    std::vector<ConvertOutput> all() && {
        // Where only unsealed jars are left, they carry the value after all.
        if (weight_ == 0)
            for (ConvertOutput& output : all_)
                output.weight.reset();
        return std::move(all_);
    }

private:
    const RunDocument& run_;
    Date canned_;
    std::optional<std::string> hold_;
    std::vector<ConvertOutput> all_;
    double weight_ = 0;
};

std::vector<ConvertInput> inputs_of(const RunDocument& run) {
    std::vector<ConvertInput> inputs;
    if (run.again)
        inputs.push_back({to_text(*run.again), pieces(run.jars)});
    for (const Taken& taken : run.lots)
        inputs.push_back({to_text(taken.lot), amount_of(taken.mass)});
    for (const Used& used : run.used)
        inputs.push_back({used.good, used.amount});
    return inputs;
}

std::vector<ConvertOutput> outputs_of(const RunDocument& run, const RunSeal::Params& params,
                                      const Sealing& sealing, Date canned, Date today) {
    std::optional<std::string> hold;
    if (!sealing.held_because.empty())
        hold = joined(sealing.held_because);
    Outputs outputs{run, canned, hold};
    const auto count = [](std::int64_t jars) {
        return static_cast<double>(jars);
    };
    outputs.add(params.held, count(params.held), sealing.best_by, run.facts, {});
    outputs.add(params.lost_liquid, count(params.lost_liquid), sealing.best_by,
                without_amount(run.facts),
                "Lost liquid in the canner: look at them, measure one, and decide.");
    if (params.failed_to == FailedTo::refrigerator)
        outputs.add(params.failed, 0, sealing.refrigerator_until.value_or(today),
                    unsealed(run.facts), {});
    if (params.failed_to == FailedTo::reprocess)
        outputs.add(params.failed, count(params.failed), plus_days(today, 1), run.facts,
                    std::string(unsealed_hold) + "process again with new lids, or refrigerate, " +
                        "before " + sealing.unsealed_until + "; then they can only be thrown out.");
    return std::move(outputs).all();
}

} // namespace

std::vector<contract::StockUse::Params> thrown_out(const RunDocument& run) {
    std::vector<contract::StockUse::Params> all;
    for (const ConvertInput& input : inputs_of(run))
        all.push_back({input.what, input.amount, {}, {}, memo_of(run.run)});
    return all;
}

Sealing sealing(const RunDocument& run, const RunState& state, const RunSeal::Params& params,
                Date today, Instant now, const ShelfRules& rules, const std::string& zone) {
    check_phase(run, state, now);
    Sealing made;
    made.unsealed_until =
        local_text(state.heat_off.value_or(state.since) + failed_jar_latest, zone);
    made.seals = {params.held, params.failed, params.lost_liquid, params.broken};
    check_counts(run, made.seals);
    check_failed(run, state, params, now);
    const Date canned = run.canned.value_or(today);
    made.best_by = checked_best_by(params, canned, rules);
    made.held_because = state.missing();
    if (params.failed > 0 && params.failed_to == FailedTo::refrigerator)
        made.refrigerator_until = plus_days(today, rules.refrigerator_days);

    auto outputs = outputs_of(run, params, made, canned, today);
    if (outputs.empty()) {
        made.thrown_out = thrown_out(run);
        return made;
    }
    const std::int64_t discarded = params.failed_to == FailedTo::discard ? params.failed : 0;
    made.conversion =
        contract::StockConvert::Params{inputs_of(run), std::move(outputs),
                                       params.broken + discarded, std::nullopt, memo_of(run.run)};
    return made;
}

Money lost_value(Money value, const SealCounts& seals, FailedTo failed_to) {
    const bool failed_carry =
        failed_to == FailedTo::reprocess ||
        (failed_to == FailedTo::refrigerator && seals.held + seals.lost_liquid == 0);
    const std::int64_t lost = seals.broken + (failed_carry ? 0 : seals.failed);
    return seals.all() == 0 ? Money{} : share_of(value, lost, seals.all());
}

} // namespace barmkeep::canning
