#include "plugins/canning/run/seal.hpp"

#include "plugins/canning/run/records.hpp"
#include "sdk/method/text.hpp"
#include "sdk/method/zone.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::ConvertInput;
using contract::ConvertOutput;
using contract::Facts;
using contract::HoldKind;
using contract::Keeping;

constexpr std::size_t note_length_max = 400;

std::string joined(const std::vector<Warning>& warnings) {
    std::string text;
    for (const auto& warning : warnings)
        text += (text.empty() ? "" : " ") + warning.text;
    if (text.size() <= note_length_max)
        return text;
    return std::string(cut_at_character(text, note_length_max - 3)) + "...";
}

/// An earlier count that was undone, and when it was made.
struct Earlier {
    Instant at;
    SealTest test;
};
std::optional<Earlier> earlier_count(const Run& run) {
    for (auto line = run.log.rbegin(); line != run.log.rend(); ++line)
        if (line->kind == LineKind::seal_test && line->seal_test)
            return Earlier{line->at, *line->seal_test};
    return std::nullopt;
}

/// One seal test while it is checked and sorted.
class SealSorter {
public:
    SealSorter(const Run& run, const RunState& state, const RunSealTest::Params& params,
               const SealTime& moment, const JarRules& rules)
        : run_{run}, state_{state}, params_{params}, moment_{moment}, rules_{rules},
          deviates_{state.has_deviation()}, earlier_{earlier_count(run)} {}

    SealOutcome made() {
        check_phase();
        made_.test.seals = {params_.held, params_.failed, params_.lost_liquid, params_.lost_half,
                            params_.broken};
        check_counts();
        made_.test.failed_to = params_.failed_to;
        made_.test.deviation_to = params_.deviation_to;
        made_.test.canned =
            local_day(state_.heat_off.value_or(state_.opened.value_or(state_.since)), moment_.zone);
        deviates_ ? sort_deviating() : sort_by_seals();
        convert();
        return std::move(made_);
    }

private:
    [[noreturn]] static void refuse(std::string_view reason, const std::string& message,
                                    const std::string& hint, std::string_view pointer = "/run") {
        throw Error(ErrorKind::conflict, reason, message, hint, pointer);
    }

    void check_phase() const {
        const std::string named = "Run " + std::to_string(run_.number);
        if (has_ended(state_.phase))
            refuse("already_ended",
                   named + " has ended: it is " + std::string(to_string(state_.phase)) + ".",
                   "Nothing was changed. See the run: barm run show " +
                       std::to_string(run_.number));
        if (state_.phase != Phase::seal_test)
            refuse("not_now",
                   named + " is in the phase " + std::string(to_string(state_.phase)) +
                       ". You test seals after the canner was opened.",
                   "Log the missing steps: barm run log " + std::to_string(run_.number));
        const Seconds waited = std::chrono::floor<Seconds>(moment_.now - state_.since);
        if (!deviates_ && waited < seal_test_earliest)
            refuse("too_early",
                   "The jars have stood for " + to_text(waited) +
                       ". Seals are tested after 12 to 24 hours. [S19]",
                   "Come back in " + to_text(seal_test_earliest - waited) + ".");
    }

    void check_counts() const {
        if (made_.test.seals.all() == run_.begun.jars)
            return;
        throw Error(
            ErrorKind::params, "counts_differ",
            "The counts add up to " + std::to_string(made_.test.seals.all()) + " jars, and run " +
                std::to_string(run_.number) + " has " + std::to_string(run_.begun.jars) + ".",
            "Count again: held, --failed, --lost-liquid, --lost-half and --broken together are "
            "all jars of the load.",
            "/held");
    }

    /// A deviation belongs to all jars of the run, whatever their seals are like.
    void sort_deviating() {
        const std::int64_t jars = run_.begun.jars - params_.broken;
        if (params_.deviation_to == DeviationTo::discard || jars == 0)
            return;
        const bool was_there = earlier_ && earlier_->test.deviation_to == params_.deviation_to;
        const Instant moved = was_there ? earlier_->at : moment_.now;
        const Instant opened = state_.opened.value_or(state_.since);
        if (moved - opened > deviation_window)
            refuse("too_late",
                   "The canner was opened more than " + to_text(deviation_window) +
                       " ago, and a step of the run went wrong. [S86 S74]",
                   "Throw the jars out, and log it with --deviation-to discard. A looser source "
                   "allows 24 hours. [S75]",
                   "/deviation_to");
        const bool is_frozen = params_.deviation_to == DeviationTo::freezer;
        made_.test.cold_until = plus_days(local_day(moved, moment_.zone),
                                          is_frozen ? rules_.best_by_days : deviation_cold_days);
        ConvertOutput& output = add(JarKind::deviating, jars, *made_.test.cold_until);
        output.kept = is_frozen ? Keeping::freezer : Keeping::refrigerator;
        output.facts = without_amount(output.facts, params_.lost_liquid + params_.lost_half > 0);
        output.holds = {
            {HoldKind::deviation_known, joined(state_.standing(HoldKind::deviation_known))}};
    }

    void sort_by_seals() {
        check_failed();
        const Date best_by = checked_best_by();
        if (params_.held > 0)
            add(JarKind::sealed, params_.held, best_by);
        // Used first [S91 S110]: a day earlier is first in the order of taking.
        if (params_.lost_liquid > 0)
            add(JarKind::lost_liquid, params_.lost_liquid, plus_days(best_by, -1)).facts =
                without_amount(run_.begun.facts, true);
        if (params_.held + params_.lost_liquid > 0)
            made_.test.best_by = best_by;
        const auto missing = state_.standing(HoldKind::evidence_missing);
        if (!missing.empty())
            hold_all(HoldKind::evidence_missing, joined(missing));
        hold_for_spoiled();
        if (params_.failed > 0 && params_.failed_to == FailedTo::refrigerator)
            add_failed();
    }

    void hold_all(HoldKind kind, const std::string& note) {
        for (ConvertOutput& output : outputs_)
            output.holds.push_back({kind, note});
    }

    /// Jars of the run were found spoiled after a count that was undone since: what that means for
    /// the rest is not undone with it.
    void hold_for_spoiled() {
        if (state_.spoiled > 0)
            hold_all(HoldKind::run_suspect, "A jar of this run was spoiled.");
        if (state_.spoiled > 1)
            hold_all(HoldKind::deviation_known, "Two jars of this run or more were spoiled.");
    }

    /// Jars that failed, as they were counted before if that count was undone.
    [[nodiscard]] bool were_counted_before() const {
        return earlier_ && earlier_->test.failed_to == FailedTo::refrigerator &&
               earlier_->test.cold_until && params_.failed <= earlier_->test.seals.failed;
    }

    void check_failed() const {
        if (params_.failed == 0 || params_.failed_to == FailedTo::discard)
            return;
        const std::string how = "Throw them out, and log it with --failed-to discard.";
        if (!state_.is_complete())
            refuse("log_incomplete",
                   "The log of run " + std::to_string(run_.number) +
                       " has a gap, so jars that failed to seal can only be thrown out.",
                   how, "/failed_to");
        const Instant found = were_counted_before() ? earlier_->at : moment_.now;
        // From heat off, not from the opening of the canner: the jars cool from then on.
        if (found - state_.heat_off.value_or(state_.since) > failed_jar_latest)
            refuse(
                "too_late",
                "The heat went off more than 24 hours ago, so jars that failed to seal can only be "
                "thrown out. [S75]",
                how, "/failed_to");
    }

    void add_failed() {
        made_.test.cold_until = were_counted_before()
                                    ? *earlier_->test.cold_until
                                    : plus_days(moment_.today, rules_.refrigerator_days);
        ConvertOutput& output = add(JarKind::failed, params_.failed, *made_.test.cold_until);
        output.kept = Keeping::refrigerator;
        output.weight = 0;
        output.holds = {
            {HoldKind::seal_failed,
             "Failed to seal. Keep it in the refrigerator, use it within days, and boil it first. "
             "[S20 S75] A stricter source allows only 2 hours. [S74]"}};
    }

    [[nodiscard]] Date checked_best_by() const {
        const Date usual = plus_days(made_.test.canned, rules_.best_by_days);
        if (!params_.best_by)
            return usual;
        if (*params_.best_by > plus_days(made_.test.canned, 365) && !params_.reason)
            throw Error(ErrorKind::params, "reason_missing",
                        "A best by more than a year after canning needs a reason. [S23 S25]",
                        "Give the reason, or leave the best by out.", "/reason");
        return *params_.best_by;
    }

    static Facts without_amount(Facts facts, bool lost) {
        if (lost) {
            facts.fill.reset();
            facts.extract.reset();
        }
        return facts;
    }

    ConvertOutput& add(JarKind kind, std::int64_t jars, Date best_by) {
        ConvertOutput output;
        output.good = run_.begun.good;
        output.amount = pieces(jars);
        output.weight = static_cast<double>(jars);
        output.canned = made_.test.canned;
        output.best_by = best_by;
        output.facts = run_.begun.facts;
        const auto codes = codes_on_lids(run_);
        if (const auto code = codes.find(kind); code != codes.end())
            output.lot = code->second;
        made_.test.lots.push_back(kind);
        return outputs_.emplace_back(std::move(output));
    }

    void convert() {
        if (outputs_.empty()) {
            made_.thrown_out = thrown_out(run_);
            return;
        }
        // Where only jars without a value are left, they carry it after all.
        const auto has_no_weight = [](const ConvertOutput& output) {
            return output.weight == 0;
        };
        if (std::ranges::all_of(outputs_, has_no_weight))
            for (ConvertOutput& output : outputs_)
                output.weight.reset();
        contract::StockConvert::Params params;
        for (const LotUse& taken : run_.begun.lots)
            params.inputs.push_back({to_text(taken.lot), amount_of(taken.mass)});
        for (const GoodUse& used : run_.begun.used)
            params.inputs.push_back({used.good, used.amount});
        std::int64_t kept = 0;
        for (const ConvertOutput& output : outputs_)
            kept += output.amount.as(Measure::pieces, "").steps;
        params.outputs = std::move(outputs_);
        params.lost = run_.begun.jars - kept;
        params.about = about_run(run_.number);
        made_.conversion = std::move(params);
    }

    const Run& run_;
    const RunState& state_;
    const RunSealTest::Params& params_;
    const SealTime& moment_;
    const JarRules& rules_;
    bool deviates_;
    std::optional<Earlier> earlier_;
    SealOutcome made_;
    std::vector<ConvertOutput> outputs_;
};

} // namespace

std::map<JarKind, LotCode> codes_on_lids(const Run& run) {
    std::map<JarKind, LotCode> codes;
    const SealTest* counted = nullptr;
    for (const LogLine& line : run.log) {
        if (line.kind == LineKind::seal_test && line.seal_test)
            counted = &*line.seal_test;
        if (line.kind != LineKind::seal_test_undone || !line.lots || counted == nullptr)
            continue;
        for (std::size_t i = 0; i < std::min(line.lots->size(), counted->lots.size()); ++i)
            codes[counted->lots[i]] = (*line.lots)[i];
    }
    return codes;
}

std::vector<contract::StockUse::Params> thrown_out(const Run& run) {
    std::vector<contract::StockUse::Params> all;
    const auto use = [&](std::string what, const Amount& amount) {
        contract::StockUse::Params params;
        params.what = std::move(what);
        params.amount = amount;
        params.note = "thrown out with run " + std::to_string(run.number);
        params.about = about_run(run.number);
        all.push_back(std::move(params));
    };
    for (const LotUse& taken : run.begun.lots)
        use(to_text(taken.lot), amount_of(taken.mass));
    for (const GoodUse& used : run.begun.used)
        use(used.good, used.amount);
    return all;
}

SealOutcome seal_outcome(const Run& run, const RunState& state, const RunSealTest::Params& params,
                         const SealTime& moment, const JarRules& rules) {
    return SealSorter{run, state, params, moment, rules}.made();
}

Money lost_value(Money value, const SealTest& test) {
    const SealCounts& seals = test.seals;
    if (seals.all() == 0 || test.lots.empty())
        return {};
    const auto is_kept = [&](JarKind kind) {
        return std::ranges::find(test.lots, kind) != test.lots.end();
    };
    std::int64_t lost = seals.broken;
    if (!is_kept(JarKind::deviating)) {
        lost += seals.lost_half;
        // If only jars that failed are left, they carry the value after all.
        if (is_kept(JarKind::sealed) || is_kept(JarKind::lost_liquid))
            lost += seals.failed;
    }
    return share_of(value, lost, seals.all());
}

std::string what_now_of(const SealTest& test, const RunState& state) {
    const auto cold = [&](std::string_view jars, std::string_view place) {
        return std::string(jars) + " into the " + std::string(place) + ", use " +
               (test.seals.all() == 1 ? "it" : "them") + " until " + to_text(*test.cold_until) +
               ", and boil first.";
    };
    if (state.has_deviation()) {
        if (test.deviation_to == DeviationTo::discard || !test.cold_until)
            return "Throw out all jars of the run: a step went wrong, and they never go on the "
                   "shelf. [S86]";
        return cold("Put all jars", to_string(test.deviation_to)) + " They never go on the shelf.";
    }
    std::string text = "Wash the good jars, take their bands off, and write the codes on the lids.";
    if (test.seals.lost_liquid > 0)
        text +=
            " Use those that lost liquid first, and do not open or refill them before. [S91 S110]";
    if (test.seals.lost_half > 0)
        text += " Throw out those that lost half or more. [S91 S86]";
    if (test.seals.failed > 0)
        text += " " + (test.failed_to == FailedTo::refrigerator && test.cold_until
                           ? cold("Put those that failed", "refrigerator")
                           : std::string("Throw out those that failed."));
    return text;
}

} // namespace barmkeep::canning
