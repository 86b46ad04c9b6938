// The plugin's settings: figures that are not published, or lie inside a published range.
#pragma once

#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::canning {

/// The settings of the section [plugin.canning].
struct Settings {
    std::int64_t best_by_days = 365;
    std::int64_t refrigerator_days = 3;
    std::int64_t inspection_days = 90;
    Seconds reading_gap_max{600};
    brewing::Gravity thin = brewing::Gravity::sg(1.060);
    brewing::Gravity thick = brewing::Gravity::sg(1.120);
    static FieldList fields(auto) {
        return {field<&Settings::best_by_days>(
                    "Number of days from canning to best by. 365 if left out, which is the most.")
                    .defaulted()
                    .between(1, 365),
                field<&Settings::refrigerator_days>(
                    "Number of days that a jar that failed to seal may stand in the refrigerator. "
                    "3 if left out, which is the most.")
                    .defaulted()
                    .between(1, 3),
                field<&Settings::inspection_days>(
                    "Number of days between two inspections of stored jars. 90 if left out.")
                    .defaulted()
                    .between(1, 365),
                field<&Settings::reading_gap_max>(
                    "Longest time at pressure between two gauge readings, in seconds. A longer gap "
                    "puts the jars on hold. 600 if left out.")
                    .defaulted()
                    .between(60, 1800),
                field<&Settings::thin>(
                    "Gravity below which a plan warns of a thin concentrate. 1.060 if left out.")
                    .defaulted()
                    .between(1.0, 1.17),
                field<&Settings::thick>(
                    "Gravity above which a plan warns of a thick concentrate. 1.120 if left out.")
                    .defaulted()
                    .between(1.0, 1.17)};
    }
};

/// What the state of a run is computed by.
struct RunRules {
    /// The longest stretch at pressure without a reading that still counts as watched.
    Seconds reading_gap_max{600};
};

/// For how long jars are good.
struct JarRules {
    int best_by_days = 365;    ///< S23 S25: within one year
    int refrigerator_days = 3; ///< S91: 2 to 3 days; S20 says several
};

/// Concentrates outside this range are warned of; common practice, no source.
struct SensibleRange {
    brewing::Gravity low = brewing::Gravity::sg(1.060);
    brewing::Gravity high = brewing::Gravity::sg(1.120);
};

} // namespace barmkeep::canning
