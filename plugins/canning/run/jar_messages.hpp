// Messages about the jars of a run once they are shelved: measured, held, released.
#pragma once

#include "plugins/canning/run/messages.hpp"
#include "sdk/contract/lot.hpp"

namespace barmkeep::canning {

/// run.measure
struct RunMeasure {
    static constexpr About about{
        "run.measure", Access::keep, Effect::writes,
        "Records gravity and fill that you measured in jars of a lot. Every later plan uses them."};
    struct Params {
        LotCode lot;
        std::vector<brewing::Gravity> gravity;
        std::vector<brewing::Volume> fill;
        bool correct_extract = false;
        static FieldList fields(auto) {
            return {
                field<&Params::lot>("Code of the jar lot.").positional(),
                field<&Params::gravity>("Gravities that you measured, one for each jar. If left "
                                        "out, the known gravity stays.")
                    .defaulted()
                    .length(0, 100),
                field<&Params::fill>(
                    "Fills that you measured, one for each jar. If left out, the known fill stays.")
                    .defaulted()
                    .length(0, 100),
                field<&Params::correct_extract>(
                    "Also correct the potential of the extract lot. It works only if the run used "
                    "one lot. Off if left out.")
                    .defaulted()};
        }
    };
    struct Result {
        contract::Lot lot;
        std::optional<brewing::Gravity> planned_gravity;
        brewing::Gravity gravity;
        brewing::Volume fill;
        brewing::Mass extract;
        std::optional<double> points_found;
        std::optional<LotCode> extract_lot;
        bool extract_corrected = false;
        std::vector<std::string> notes;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::lot>("The lot with its new facts."),
                field<&Result::planned_gravity>("Gravity that the plan gave."),
                field<&Result::gravity>("Mean of the gravities, or the known one."),
                field<&Result::fill>("Mean of the fills, or the known one."),
                field<&Result::extract>("Dissolved extract in one jar, from gravity and fill."),
                field<&Result::points_found>(
                    "Extract potential that follows, in gravity points of one pound made up to one "
                    "US gallon. Left out if several extract lots went in."),
                field<&Result::extract_lot>(
                    "Code of the extract lot that it follows for. Left out with points_found."),
                field<&Result::extract_corrected>("Whether that lot was corrected."),
                field<&Result::notes>("What you must know about the lot, such as a short process."),
                field<&Result::cautions>("The cautions of storing jars.")};
        }
    };
};

struct RunDecision {
    RunSummary run;
    std::vector<contract::Lot> lots;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&RunDecision::run>("The run."),
                field<&RunDecision::lots>("The jar lots that changed."),
                field<&RunDecision::cautions>("The cautions of sealed jars.")};
    }
};

/// run.hold
struct RunHold {
    static constexpr About about{"run.hold", Access::keep, Effect::writes,
                                 "Puts all jars of a run in quarantine."};
    struct Params {
        std::int64_t run = 0;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::run>("Number of the run.").positional().at_least(1),
                    field<&Params::reason>("Why. The reason stays with the jars.")
                        .positional()
                        .length(1, 400)};
        }
    };
    using Result = RunDecision;
};

/// run.release
struct RunRelease {
    static constexpr About about{
        "run.release", Access::keep, Effect::writes,
        "Ends one kind of hold of all jars of a run. Every later use shows the reason. It never "
        "releases jars of a known deviation or jars that failed to seal."};
    struct Params : RunHold::Params {
        contract::HoldKind kind = contract::HoldKind::evidence_missing;
        static FieldList fields(auto) {
            return joined(
                RunHold::Params::fields(0),
                {field<&Params::kind>("Kind of hold to end. evidence_missing if left out.")
                     .defaulted()});
        }
    };
    using Result = RunDecision;
};

} // namespace barmkeep::canning
