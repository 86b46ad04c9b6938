// The haemacytometer: from cells in squares to cells in a millilitre.
//
// A counting chamber is 0.1 mm deep over a ruled square of 1 mm, cut into 25 squares of 0.2 mm,
// each of those into 16 of 0.05 mm.  So a square holds side x side x depth, and
//
//     cells a millilitre = cells / squares / (side^2 x depth) x 1000 mm3/mL x dilution
//
// which gives the factors 1e4, 2.5e5 and 4e6 a square (MLA), and 5e4 for the sum of five of the 25
// (BSI).  Rules for counting: a bud smaller than half its mother is not a cell of its own; of cells
// on the border those on two adjoining sides count (BSI).
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/quantity.hpp"

#include <string_view>

namespace barmkeep::brewing {

inline constexpr double usual_chamber_depth_mm = 0.1;

/// A ruled square of a counting chamber.
struct Square {
    std::string_view name;
    double side_mm;
};

inline constexpr Square large_square{"1 mm square", 1.0};
inline constexpr Square middle_square{"1/25 square", 0.2};
inline constexpr Square small_square{"1/400 square", 0.05};

/// Liquid over one square.  REQUIRES: side and depth above zero.
[[nodiscard]] constexpr Volume volume_over(const Square& square,
                                           double depth_mm = usual_chamber_depth_mm) noexcept {
    // A cubic millimetre is a microlitre.
    return square.side_mm * square.side_mm * depth_mm * 0.001 * millilitre;
}

/// How many times thinner a sample becomes: dilution_factor(1, 9) is 10, and an equal volume of
/// stain, dilution_factor(1, 1), doubles whatever dilution there was.  Serial dilutions multiply.
/// Throws OutOfRange unless the sample is above zero, what is added not negative, both finite.
[[nodiscard]] constexpr double dilution_factor(double sample, double added) {
    if (!(sample > 0.0 && sample < 1e300))
        require_positive("volume of the sample", sample, "");
    if (!(added >= 0.0 && added < 1e300))
        require_not_negative("volume added", added, "");
    return (sample + added) / sample;
}

/// Throws OutOfRange unless the dilution is at least 1 and finite.
constexpr void require_dilution(double dilution) {
    if (!(dilution >= 1.0 && dilution <= 1e12))
        require_within("dilution factor", dilution, 1.0, 1e12, "",
                       "1 is undiluted; one part in ten is 10.");
}

/// Million cells a millilitre of the undiluted sample.
///
/// @param cells    sum over all squares counted; need not be whole, so means can be passed
/// @param squares  how many squares that were, of the same kind
/// @param dilution all dilutions multiplied, the stain's too
/// Throws OutOfRange for cells negative or not finite, squares not above zero, a
/// dilution below 1, and for a side or depth outside 0.001 to 1000 mm.
[[nodiscard]] constexpr double million_per_millilitre(double cells, double squares,
                                                      const Square& square, double dilution,
                                                      double depth_mm = usual_chamber_depth_mm) {
    if (!(cells >= 0.0 && cells < 1e300))
        require_not_negative("cells counted", cells, "");
    if (!(squares > 0.0 && squares < 1e300))
        require_positive("squares counted", squares, "");
    if (!(square.side_mm >= 0.001 && square.side_mm <= 1e3))
        require_within("side of a square", square.side_mm, 0.001, 1e3, "mm", "");
    if (!(depth_mm >= 0.001 && depth_mm <= 1e3))
        require_within("depth of the chamber", depth_mm, 0.001, 1e3, "mm", "");
    require_dilution(dilution);
    return cells / squares / volume_over(square, depth_mm).in(millilitre)*dilution / 1e6;
}

/// Cells in a volume of the sample; a million a millilitre is a billion a litre.
/// Throws OutOfRange for a density or volume negative or not finite.
[[nodiscard]] constexpr Cells cells_in(Volume sample, double million_per_ml) {
    if (!(sample.in(litre) >= 0.0 && sample.in(litre) < 1e300))
        require_not_negative("volume of the sample", sample.in(litre), "L");
    if (!(million_per_ml >= 0.0 && million_per_ml < 1e300))
        require_not_negative("cell density", million_per_ml, "million/mL");
    return sample.in(litre)*million_per_ml * billion_cells;
}

} // namespace barmkeep::brewing
