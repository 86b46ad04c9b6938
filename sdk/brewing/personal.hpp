// What one's own counts make of a published figure.
//
// Both estimators learn one number, the ratio m of one's own result to the published one, and scale
// the published figure by it:
//
//   growth      new cells = m x published new cells
//   viability   share     = published share ^ m, that is, m times the published rate of loss
//
// Before any count m is normal with mean 1 and a standard deviation t that spans the published
// range (low to high is read as a central 90 %).  Each own result is an observation m_i with
// standard error s_i.  Normal with normal is conjugate, so
//
//     precision = 1/t^2 + sum 1/s_i^2,   mean = (1/t^2 + sum m_i/s_i^2) / precision
//
// (GEL).  The published range keeps its
// shape and shrinks by (posterior / prior standard deviation) around the new figure.  The normal is
// taken on m itself and not on its logarithm, because a starter that did not grow and a pack that
// lost nothing are results too, and have no logarithm.
//
// With no own counts the published estimate comes back unchanged, bit for bit.  With many, the
// figure goes to their weighted mean, whatever was published.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"
#include "sdk/brewing/stain.hpp"

#include <cstddef>
#include <span>
#include <string_view>

namespace barmkeep::brewing {

/// One's own result over the published one.
struct OwnRatio {
    double ratio = 1.0;
    double standard_error = 0.0; ///< of the ratio; infinite for a result without information
};

/// What is believed of the ratio after some results.
struct LearntRatio {
    double mean = 1.0;
    double shrink = 1.0; ///< standard deviation after over before: 1 nothing learnt, near 0 all
};

/// The conjugate update above, from a prior of mean 1.
/// Throws OutOfRange unless the prior deviation is above zero and finite, every ratio is finite and
/// every standard error above zero (it may be infinite).
[[nodiscard]] LearntRatio learn_ratio(double prior_deviation, std::span<const OwnRatio> results);

/// A published estimate as corrected by own results.
template <class T>
struct PersonalEstimate {
    Estimate<T> estimate;    ///< `sources` stay those of the published figure
    std::size_t own = 0;     ///< own results that took part
    double own_weight = 0.0; ///< 0: all published, 1: all own
};

// --- growth ---------------------------------------------------------------------------------

/// A starter of one's own: what was published for it and what was counted.
struct OwnGrowth {
    Cells published_new;  ///< likely new cells by growth.hpp, for the same start and wort
    Cells counted_new;    ///< cells after less cells before; negative if they died
    Cells standard_error; ///< of the counted difference
};

/// Published growth as one's own starters correct it; never below zero.
///
/// Two starters of one brewer differ beyond their counts; 0.15 of the published figure is added to
/// each standard error (in squares) for that, our own figure without a source.  So no single count,
/// however careful, silences the sources.
/// Throws OutOfRange unless low < high with the likely figure between, every published growth is
/// above zero and finite, counts are finite, and standard errors are not negative and finite.
[[nodiscard]] PersonalEstimate<Cells> personal_growth(const Estimate<Cells>& published,
                                                      std::span<const OwnGrowth> own);

// --- viability ------------------------------------------------------------------------------

/// A stained count of one's own: what was published for that material, age and temperature.
struct OwnViability {
    double published_share = 1.0; ///< likely share by viability.hpp
    StainedCount count;
};

/// Published share alive as one's own stained counts correct it; between 0 and 1.
///
/// A count's loss is -ln(share), its standard error sqrt((1 - share) / (n share)), with half a cell
/// added to the living and the dead for the error so that 0 and 1 have one too; 0.021 is added in
/// squares, the scatter of the fresh-pack series around its line (1.8 points of 87).  A count where
/// the published share is 1 shows nothing of the rate of loss and takes no part.
/// Returns the published estimate unchanged where it is itself 1, for nothing is lost yet to scale.
/// Throws OutOfRange unless 0 < low <= likely <= high <= 1 and low < high, every published share is
/// above 0 and at most 1, and every count has a cell.
[[nodiscard]] PersonalEstimate<double> personal_viability(const Estimate<double>& published,
                                                          std::span<const OwnViability> own);

} // namespace barmkeep::brewing
