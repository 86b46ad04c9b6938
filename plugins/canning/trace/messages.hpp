// Messages of tracing: from a jar back to the bags, and from a bag on to the beers.
#pragma once

#include "plugins/canning/run/messages.hpp"
#include "sdk/contract/brew.hpp"
#include "sdk/contract/entry.hpp"

namespace barmkeep::canning {

/// A lot met on the way. `steps` is 0 for the lot asked for, below zero for what it was made of,
/// above for what was made of it.
struct TracedLot {
    contract::Lot lot;
    std::int64_t steps = 0;
    std::optional<std::int64_t> run;
    static FieldList fields(auto) {
        return {
            field<&TracedLot::lot>("The lot, with its supplier and what is left of it."),
            field<&TracedLot::steps>("Number of conversions away, by the longest way: negative for "
                                     "what the lot was made of, positive for what was made of it."),
            field<&TracedLot::run>("Number of the run that made it. Left out if no run did.")};
    }
};

/// A run met on the way, with its readings.
struct TracedRun {
    std::int64_t run = 0;
    Phase phase = Phase::filling;
    Process process;
    std::optional<std::string> process_note;
    Instant started;
    std::int64_t restarts = 0;
    std::vector<Warning> warnings;
    std::optional<SealCounts> seals;
    std::vector<LogLine> log;
    static FieldList fields(auto) {
        return {
            field<&TracedRun::run>("Number of the run."),
            field<&TracedRun::phase>("Phase that the run is in."),
            field<&TracedRun::process>("Your process."),
            field<&TracedRun::process_note>(
                "What Barmkeep says about the process. Left out if there is nothing to say."),
            field<&TracedRun::started>("When it started."),
            field<&TracedRun::restarts>("How often the time at pressure started again from zero."),
            field<&TracedRun::warnings>("All warnings of the run."),
            field<&TracedRun::seals>(
                "Number of jars by the result of the seal test. Left out before the test."),
            field<&TracedRun::log>("Its log, with the gauge readings.")};
    }
};

/// Something taken from a traced lot.
struct TracedUse {
    LotCode lot;
    std::int64_t entry = 0;
    contract::EntryKind kind = contract::EntryKind::used;
    Date day;
    Amount amount;
    std::optional<std::int64_t> brew;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {field<&TracedUse::lot>("Code of the lot."),
                field<&TracedUse::entry>("Number of the journal entry."),
                field<&TracedUse::kind>("Whether it was used or thrown out."),
                field<&TracedUse::day>("Day of the entry."),
                field<&TracedUse::amount>("Amount that was taken."),
                field<&TracedUse::brew>("Number of the brew day. Left out if it was for none."),
                field<&TracedUse::note>("Note of the entry. Left out if there is none.")};
    }
};

struct TraceResult {
    std::vector<TracedLot> lots;
    std::vector<TracedRun> runs;
    std::vector<std::string> suppliers;
    std::vector<TracedUse> uses;
    std::vector<contract::Brew> brews;
    std::vector<std::string> notes;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&TraceResult::lots>("The lots, from the first bag to the last jar."),
                field<&TraceResult::runs>("The runs between them, with their logs."),
                field<&TraceResult::suppliers>("Suppliers of what went in."),
                field<&TraceResult::uses>("What was used or thrown out of these lots."),
                field<&TraceResult::brews>("The brew days that used them."),
                field<&TraceResult::notes>(
                    "What you must know about the jar lots, such as a short process."),
                field<&TraceResult::cautions>("The cautions of storing jars.")};
    }
};

/// trace.lot
struct TraceLot {
    static constexpr About about{
        "trace.lot", Access::look, Effect::reads,
        "Traces a lot both ways: back to its run, extract lots and suppliers, and on to the brew "
        "days that used it."};
    struct Params {
        LotCode lot;
        static FieldList fields(auto) {
            return {field<&Params::lot>("Code of the lot.").positional()};
        }
    };
    using Result = TraceResult;
};

/// trace.brew
struct TraceBrew {
    static constexpr About about{
        "trace.brew", Access::look, Effect::reads,
        "Traces a brew day back to jars, runs, extract lots and suppliers."};
    struct Params {
        std::int64_t brew = 0;
        static FieldList fields(auto) {
            return {field<&Params::brew>("Number of the brew day.").positional().at_least(1)};
        }
    };
    using Result = TraceResult;
};

} // namespace barmkeep::canning
