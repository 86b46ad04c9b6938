// Messages about the jars of a run once they are shelved: measured, held, released.
#pragma once

#include "plugins/canning/run/messages.hpp"
#include "sdk/contract/lot.hpp"

namespace barmkeep::canning {

/// run.measure
struct RunMeasure {
    static constexpr About about{
        "run.measure", Access::keep, Effect::writes,
        "Takes gravity and fill measured in one or more jars of a lot as the lot's own; every "
        "plan uses them from then on."};
    struct Params {
        LotCode lot;
        std::vector<brewing::Gravity> gravity;
        std::vector<brewing::Volume> fill;
        bool correct_extract = false;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot of jars.").positional(),
                    field<&Params::gravity>("Gravities measured, one a jar.")
                        .defaulted()
                        .length(0, 100),
                    field<&Params::fill>("Fills measured, one a jar.").defaulted().length(0, 100),
                    field<&Params::correct_extract>(
                        "Also set the potential of the extract lot, where the run used one only.")
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
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::lot>("The lot as it is known now."),
                    field<&Result::planned_gravity>("What the plan said."),
                    field<&Result::gravity>("The mean of the gravities."),
                    field<&Result::fill>("The mean of the fills."),
                    field<&Result::extract>("Extract in one jar, from both."),
                    field<&Result::points_found>(
                        "The potential this means for the extract: points of a pound in a gallon."),
                    field<&Result::extract_lot>("The lot of extract it means."),
                    field<&Result::extract_corrected>("Whether that lot was corrected."),
                    field<&Result::cautions>("The cautions of canning.")};
        }
    };
};

struct RunDecided {
    RunNow run;
    std::vector<contract::Lot> lots;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&RunDecided::run>("The run."),
                field<&RunDecided::lots>("The lots that it was about."),
                field<&RunDecided::cautions>("The cautions of canning.")};
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
            return {field<&Params::run>("The run.").positional().at_least(1),
                    field<&Params::reason>("Why.").positional().length(1, 400)};
        }
    };
    using Result = RunDecided;
};

/// run.release
struct RunRelease {
    static constexpr About about{
        "run.release", Access::keep, Effect::writes,
        "Ends one kind of hold of all jars of a run, by the brewer's own decision.  The reason is "
        "shown at every later use.  Jars of a known deviation and jars that failed to seal are "
        "never released."};
    struct Params : RunHold::Params {
        contract::HoldKind kind = contract::HoldKind::evidence_missing;
        static FieldList fields(auto) {
            return joined(RunHold::Params::fields(0),
                          {field<&Params::kind>("Which holds end.").defaulted()});
        }
    };
    using Result = RunDecided;
};

} // namespace barmkeep::canning
