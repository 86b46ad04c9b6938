// How sure a count is.
//
// Cells settle on squares at random, so a count scatters as Poisson at best (STU);
// clumps, poor mixing and a badly filled chamber scatter it more.  Both are looked at:
//
//   Poisson   exact interval of the sum n: gamma quantiles with shapes n and n + 1
//             (GAR)
//   observed  mean +- t x s / sqrt(k) over k fields, t with k - 1 degrees of freedom
//             (STU08)
//
// and the wider of the two is given.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/chamber.hpp"
#include "sdk/brewing/estimate.hpp"

#include <cstdint>
#include <span>

namespace barmkeep::brewing {

/// An interval that holds the true value with a stated confidence.
struct Interval {
    double low = 0.0;
    double high = 0.0;
    [[nodiscard]] constexpr double width() const noexcept { return high - low; }
};

inline constexpr double usual_confidence = 0.95;

/// Largest count taken, far above any chamber's: the quantiles converge up to here.
inline constexpr std::uint64_t most_cells_counted = 1'000'000'000;

/// Exact two-sided interval for the mean of a Poisson count.  At a count of zero it reaches from 0
/// to 3.69 at 95 %.  Throws OutOfRange for a confidence outside 0.5 to 0.9999 and for a count above
/// most_cells_counted.
[[nodiscard]] Interval poisson_interval(std::uint64_t counted,
                                        double confidence = usual_confidence);

/// Rule of thumb for the largest error of a count, as a share: 2 / sqrt(n), 0.2 at 100 cells (MLA).
/// Throws OutOfRange for a count of zero, of which no share can be computed.
[[nodiscard]] double greatest_counting_error(std::uint64_t counted);

/// The inverse: cells to count for an error of at most `share`.
/// Throws OutOfRange unless 0.0001 <= share <= 1.
[[nodiscard]] std::uint64_t cells_to_count(double share);

enum class Scatter {
    poisson,  ///< the interval is that of chance alone
    observed, ///< the fields differ by more, and the interval follows them
};

/// Mean cells a field, with its interval.
struct FieldMean {
    Estimate<double> cells; ///< likely is the mean; low never below 0
    Scatter scatter = Scatter::poisson;
};

/// Mean of equal fields and the wider interval of the two above.
///
/// One field alone has only the Poisson interval.  The low end of the observed interval is cut at
/// zero, for there are no negative cells.
/// Throws OutOfRange for no fields and for a confidence outside 0.5 to 0.9999.
[[nodiscard]] FieldMean field_mean(std::span<const std::uint32_t> fields,
                                   double confidence = usual_confidence);

/// A chamber as it was counted.
struct ChamberCount {
    std::span<const std::uint32_t> fields; ///< cells in each square counted
    Square square = middle_square;
    double dilution = 1.0; ///< all dilutions multiplied, the stain's too
    double depth_mm = usual_chamber_depth_mm;
};

/// Million cells a millilitre of the undiluted sample, with its interval.
struct CountedDensity {
    Estimate<double> million_per_millilitre;
    Scatter scatter = Scatter::poisson;
};

/// The density a count gives.  The interval is that of the count alone: pipetting and dilution are
/// not in it.  Throws OutOfRange as field_mean() and as million_per_millilitre().
[[nodiscard]] CountedDensity counted_density(const ChamberCount& count,
                                             double confidence = usual_confidence);

} // namespace barmkeep::brewing
