// The axes of a chart: which part of the plane is shown, and where its ticks are.
//
// Thread safety: values and pure functions.
#pragma once

#include "sdk/sheet/figures.hpp"

namespace barmkeep::sheet {

struct Tick {
    double at = 0; ///< on the axis, in its printed unit
    std::string text;
};

/// A chart's plane in the units that are printed.  Never without extent: x_low < x_high and
/// y_low < y_high.
struct ChartFrame {
    double x_low = 0;
    double x_high = 1;
    double y_low = 0;
    double y_high = 1;
    Scale scale;               ///< of y
    std::vector<Tick> y_ticks; ///< from low to high, two to six
    std::string caption;       ///< the title with the unit of y: "Cells in the flask, in B"
    /// The least distance of two bars on x; 0 without bars.
    double bar_distance = 0;

    /// Places from 0 to 1, from left to right and from bottom to top.
    [[nodiscard]] double across(double x) const { return (x - x_low) / (x_high - x_low); }
    [[nodiscard]] double up(double canonical_y) const {
        return (scale.of(canonical_y) - y_low) / (y_high - y_low);
    }
};

/// Nothing if the chart has not a single point that can be drawn.
[[nodiscard]] std::optional<ChartFrame> frame_of(const Chart& chart, const Reader& reader);
/// Whether all numbers of a point are finite.
[[nodiscard]] bool is_drawable(const Point& point);
/// The text under the axis at an x.
[[nodiscard]] std::string x_text(const Chart& chart, const ChartFrame& frame, double x,
                                 const Reader& reader);

} // namespace barmkeep::sheet
