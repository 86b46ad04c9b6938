// Messages of tracing: from a jar back to the bags, and from a bag on to the beers.
#pragma once

#include "plugins/canning/run/messages.hpp"
#include "sdk/contract/brew.hpp"
#include "sdk/contract/entry.hpp"

namespace barmkeep::canning {

/// A lot met on the way.  `steps` is 0 for the lot asked for, below zero for what it was made of,
/// above for what was made of it.
struct TracedLot {
    contract::Lot lot;
    std::int64_t steps = 0;
    std::optional<std::int64_t> run;
    static FieldList fields(auto) {
        return {field<&TracedLot::lot>("The lot, with its supplier and what is left."),
                field<&TracedLot::steps>(
                    "Conversions away, by the longest way: below zero before, above zero after."),
                field<&TracedLot::run>("The run that made it.")};
    }
};

/// A run met on the way, with its readings.
struct TracedRun {
    std::int64_t run = 0;
    Phase phase = Phase::filling;
    Process process;
    std::optional<std::string> process_caution;
    Instant started;
    std::int64_t restarts = 0;
    std::vector<Warning> warnings;
    std::optional<SealCounts> seals;
    std::vector<LogLine> log;
    static FieldList fields(auto) {
        return {field<&TracedRun::run>("Its number."),
                field<&TracedRun::phase>("Where it is."),
                field<&TracedRun::process>("The brewer's process."),
                field<&TracedRun::process_caution>("What must be said of the process's time."),
                field<&TracedRun::started>("When it began."),
                field<&TracedRun::restarts>("Restarts of its clock."),
                field<&TracedRun::warnings>("What was warned of."),
                field<&TracedRun::seals>("Jars by seal."),
                field<&TracedRun::log>("Its log, readings included.")};
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
        return {field<&TracedUse::lot>("The lot."),
                field<&TracedUse::entry>("The journal entry."),
                field<&TracedUse::kind>("Used or discarded."),
                field<&TracedUse::day>("The day."),
                field<&TracedUse::amount>("How much."),
                field<&TracedUse::brew>("The brew day it was for."),
                field<&TracedUse::note>("The note given.")};
    }
};

struct Traced {
    std::vector<TracedLot> lots;
    std::vector<TracedRun> runs;
    std::vector<std::string> suppliers;
    std::vector<TracedUse> uses;
    std::vector<contract::Brew> brews;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&Traced::lots>("Lots, from the first bag to the last jar."),
                field<&Traced::runs>("The runs between them, with readings."),
                field<&Traced::suppliers>("Who sold what went in."),
                field<&Traced::uses>("What was used or discarded of the jars and bags."),
                field<&Traced::brews>("The beers."),
                field<&Traced::cautions>("The cautions.")};
    }
};

/// trace.lot
struct TraceLot {
    static constexpr About about{
        "trace.lot", Access::look, Effect::reads,
        "Traces a lot both ways: a jar to its run, readings, extract lots and suppliers and on to "
        "the beers; an extract lot to all its jars and beers."};
    struct Params {
        LotCode lot;
        static FieldList fields(auto) { return {field<&Params::lot>("The lot.").positional()}; }
    };
    using Result = Traced;
};

/// trace.brew
struct TraceBrew {
    static constexpr About about{"trace.brew", Access::look, Effect::reads,
                                 "Traces a beer back to jars, runs, extract lots and suppliers."};
    struct Params {
        std::int64_t brew = 0;
        static FieldList fields(auto) {
            return {field<&Params::brew>("The brew day.").positional().at_least(1)};
        }
    };
    using Result = Traced;
};

} // namespace barmkeep::canning
