// Messages of the seal test, which ends a run, and of undoing it.
#pragma once

#include "plugins/canning/run/messages.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::canning {

/// run.seal_test
struct RunSealTest {
    static constexpr About about{
        "run.seal_test", Access::keep, Effect::writes,
        "Ends a run with its seal test. One conversion entry turns extract and lids into jars. "
        "Failed jars go to the refrigerator or are thrown out, and the good jars carry their "
        "cost. If a step of the run went wrong, no jar becomes shelf stock."};
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
                field<&Params::run>("Number of the run.").positional().at_least(1),
                field<&Params::held>("Number of jars whose seal held.")
                    .positional()
                    .between(0, 1000),
                field<&Params::failed>("Number of jars whose seal failed. None if left out.")
                    .defaulted()
                    .between(0, 1000),
                field<&Params::lost_liquid>("Number of sealed jars that lost less than half of "
                                            "their liquid; you use them first. None if left out.")
                    .defaulted()
                    .between(0, 1000),
                field<&Params::lost_half>("Number of jars that lost half of their liquid or more; "
                                          "you throw them out. None if left out.")
                    .defaulted()
                    .between(0, 1000),
                field<&Params::broken>("Number of jars that broke. None if left out.")
                    .defaulted()
                    .between(0, 1000),
                field<&Params::failed_to>("Where the failed jars go: refrigerator, within 24 hours "
                                          "of heat off, or discard. The refrigerator if left out.")
                    .defaulted(),
                field<&Params::deviation_to>(
                    "Where all jars go if a step of the run went wrong: discard, or within 2 hours "
                    "of opening the canner refrigerator or freezer. They are thrown out if left "
                    "out.")
                    .defaulted(),
                field<&Params::best_by>(
                    "Best by of the jars on the shelf. If left out, it follows from the canning "
                    "day and the setting best_by_days. A later day needs a reason."),
                field<&Params::reason>("Why the best by is later than usual. Needed only then.")
                    .length(1, 400)};
        }
    };
    struct Result {
        RunSummary run;
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
                        "Number of the conversion entry. Left out if no jar was kept."),
                    field<&Result::lots>("The jar lots."),
                    field<&Result::swept>("Rests of extract too small for your scale, which went "
                                          "out with the last weighing."),
                    field<&Result::value>("Cost of the load."),
                    field<&Result::lost_value>(
                        "Cost of the failed and broken jars, which the good jars carry."),
                    field<&Result::because>("Why the jars are on hold. Empty if they are not."),
                    field<&Result::what_now>("What to do with the jars now."),
                    field<&Result::cautions>("The cautions of sealed jars.")};
        }
    };
};

/// run.undo_seal_test
struct RunUndoSealTest {
    static constexpr About about{
        "run.undo_seal_test", Access::keep, Effect::writes,
        "Undoes a wrong seal test, so that you can count again. It refuses this once a jar of the "
        "run is used, thrown out or reserved. Deviations of the run stay, and the next count uses "
        "the same lot codes."};
    struct Params {
        std::int64_t run = 0;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::run>("Number of the run.").positional().at_least(1),
                    field<&Params::reason>("What was wrong with the count.").length(1, 400)};
        }
    };
    using Result = RunSummary;
};

} // namespace barmkeep::canning
