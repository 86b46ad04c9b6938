// Messages of the seal test, which ends a run, and of undoing it.
#pragma once

#include "plugins/canning/run/messages.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::canning {

/// run.seal_test
struct RunSealTest {
    static constexpr About about{
        "run.seal_test", Access::keep, Effect::writes,
        "Ends a run with its seal test: one conversion entry turns extract and lids into jars.  "
        "Jars that failed go to the refrigerator or are thrown out, and the good ones carry their "
        "cost.  Jars of a run in which a step went wrong never become shelf stock."};
    struct Params {
        std::int64_t run = 0;
        std::int64_t held = 0;
        std::int64_t failed = 0;
        std::int64_t lost_liquid = 0;
        std::int64_t lost_half = 0;
        std::int64_t broken = 0;
        FailedTo failed_to = FailedTo::refrigerator;
        DeviationTo deviation_to = DeviationTo::discard;
        std::optional<Date> best_by;
        std::optional<std::string> reason;
        static FieldList fields(auto) {
            return {
                field<&Params::run>("The run.").positional().at_least(1),
                field<&Params::held>("Jars whose seal held.").positional().between(0, 1000),
                field<&Params::failed>("Jars whose seal failed.").defaulted().between(0, 1000),
                field<&Params::lost_liquid>(
                    "Sealed jars that lost less than half of their liquid: they are used first.")
                    .defaulted()
                    .between(0, 1000),
                field<&Params::lost_half>(
                    "Jars that lost half of their liquid or more: they are thrown out.")
                    .defaulted()
                    .between(0, 1000),
                field<&Params::broken>("Jars that broke.").defaulted().between(0, 1000),
                field<&Params::failed_to>(
                    "Where jars go that failed: the refrigerator, within 24 hours of heat off, or "
                    "thrown out.")
                    .defaulted(),
                field<&Params::deviation_to>(
                    "Where the jars go if a step of the run went wrong: thrown out, or within 2 "
                    "hours of opening the canner the refrigerator or the freezer.")
                    .defaulted(),
                field<&Params::best_by>("Best by, where it is not the usual."),
                field<&Params::reason>("Why another best by: kept with the run.").length(1, 400)};
        }
    };
    struct Result {
        RunNow run;
        std::optional<std::int64_t> entry;
        std::vector<contract::Lot> lots;
        std::vector<contract::Swept> swept;
        Money value;
        Money lost_value;
        std::vector<Warning> because;
        std::string what_now;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::run>("The run."),
                    field<&Result::entry>(
                        "Number of the conversion entry; left out if no jar is kept."),
                    field<&Result::lots>("The lots of jars."),
                    field<&Result::swept>("Rests of extract that a scale cannot tell."),
                    field<&Result::value>("What the load cost."),
                    field<&Result::lost_value>(
                        "What failed and broken jars would have carried; the good ones carry it."),
                    field<&Result::because>("Why the jars are on hold; empty if they are not."),
                    field<&Result::what_now>("What to do with the jars now."),
                    field<&Result::cautions>("The cautions of canning.")};
        }
    };
};

/// run.undo_seal_test
struct RunUndoSealTest {
    static constexpr About about{
        "run.undo_seal_test", Access::keep, Effect::writes,
        "Undoes a wrong seal test: the run is at its seal test again.  Refused once any of its "
        "jars is used, thrown out or reserved.  What went wrong in the run stays, and the codes on "
        "the lids are used again by the next count."};
    struct Params {
        std::int64_t run = 0;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::run>("The run.").positional().at_least(1),
                    field<&Params::reason>("What was wrong with the count.").length(1, 400)};
        }
    };
    using Result = RunNow;
};

} // namespace barmkeep::canning
