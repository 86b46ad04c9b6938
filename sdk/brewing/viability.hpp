// How much of stored yeast still lives.
//
// Published statements differ by factors, so the answer is always a range: low and high are the
// extremes of the statements that cover the case (viability_models.hpp lists them), likely is the
// mean of those with the best evidence.  A cell count of one's own outranks all of them
// (personal.hpp).
//
// A statement that ends at some age keeps one meaning afterwards: what was dead by then stays dead.
// So a figure never rises with age, even where a gloomier source falls away.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"
#include "sdk/brewing/viability_models.hpp"

namespace barmkeep::brewing {

/// Share alive (0 to 1) by one published statement.
/// Throws OutOfRange, naming the valid range, if its age or temperature range does not hold the
/// case; NaN is outside every range.
[[nodiscard]] Estimate<double> viable_share_by(const ViabilityModel& model, double age_days,
                                               Temperature kept_at);

/// Share alive (0 to 1) across all statements on `material` that cover the temperature and age.
///
/// Falls, or stays, as age grows.  `sources` names the statements by their keys.
/// Throws OutOfRange if no statement covers the temperature, or none the age at that temperature;
/// the message names the range that is covered.
[[nodiscard]] Estimate<double> viable_share(YeastMaterial material, double age_days,
                                            Temperature kept_at);

/// The oldest age, in days, that viable_share() answers for at this temperature.
/// Throws OutOfRange if no statement covers the temperature.
[[nodiscard]] double oldest_covered_age(YeastMaterial material, Temperature kept_at);

/// A share that may lie beyond everything published.
struct ExtrapolatedShare {
    Estimate<double> share;
    double covered_to_days = 0.0; ///< the last age with a source
    bool extrapolated = false;    ///< true: a guess, to be shown with a warning
};

/// As viable_share(), but goes on beyond the last age with a source, and says so.
///
/// Beyond it the likely share falls exponentially, at the faster of two paces: that of the whole
/// covered time and that of its second half.  The low share falls twice as fast and the high share
/// half as fast, so the range widens the further the guess reaches.  This rule is ours and has no
/// source: old yeast wants a cell count or a small first step.
/// Throws OutOfRange for a temperature without a source, and for an age that is negative or not
/// finite.
[[nodiscard]] ExtrapolatedShare viable_share_extrapolated(YeastMaterial material, double age_days,
                                                          Temperature kept_at);

} // namespace barmkeep::brewing
