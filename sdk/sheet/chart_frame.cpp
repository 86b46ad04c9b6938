#include "sdk/sheet/chart_frame.hpp"

#include "sdk/sheet/moments.hpp"
#include "sdk/sheet/wording.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace barmkeep::sheet {
namespace {

constexpr double seconds_a_day = 86400;
constexpr double days_max = 2'500'000; // beyond the year 8000 on both sides

struct Extent {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();

    void add(double number) {
        low = std::min(low, number);
        high = std::max(high, number);
    }
    /// Something on both sides of a single value.
    void widen() {
        if (high > low)
            return;
        const double by = std::max(std::abs(low) * 0.05, 0.5);
        low -= by;
        high += by;
    }
};

/// 1, 2 or 5 times a power of ten, so that about four steps span the extent.
double nice_step(double extent) {
    const double rough = extent / 4;
    const double power = std::pow(10, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (rough <= factor * power * 1.0001)
            return factor * power;
    return 10 * power;
}

/// Kinds whose zero means something: their axis begins there.
bool begins_at_zero(QuantityKind kind) {
    return kind != QuantityKind::gravity && kind != QuantityKind::temperature &&
           kind != QuantityKind::altitude && kind != QuantityKind::absolute_pressure;
}

void set_y(ChartFrame& frame, Extent y, QuantityKind kind, bool has_bars) {
    if (begins_at_zero(kind) || has_bars) {
        y.low = std::min(y.low, 0.0);
        y.high = std::max(y.high, 0.0);
    }
    // An axis needs some room on it, as much as a double can separate.
    const double size = std::max(std::abs(y.low), std::abs(y.high));
    if (!(y.high - y.low > size * 1e-9)) {
        const double by = std::max(kind == QuantityKind::gravity ? 0.002 : 1, size * 1e-6);
        y.high += by;
        y.low -= y.low == 0 ? 0 : by;
    }
    const double step = nice_step(y.high - y.low);
    const double first = std::floor(y.low / step + 1e-9);
    const double last = std::ceil(y.high / step - 1e-9);
    frame.y_low = first * step;
    frame.y_high = last * step;
    const int decimals = std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
    const int fewest = std::max(decimals, frame.scale.decimals_min);
    const auto steps = static_cast<int>(std::clamp(last - first, 1.0, 10.0));
    for (int i = 0; i <= steps; ++i) {
        const double at = (first + i) * step;
        frame.y_ticks.push_back({at, fixed_text(at, fewest, fewest)});
    }
}

double least_distance(std::vector<double> places) {
    std::sort(places.begin(), places.end());
    double least = 0;
    for (std::size_t i = 1; i < places.size(); ++i) {
        const double distance = places[i] - places[i - 1];
        if (distance > 0 && (least == 0 || distance < least))
            least = distance;
    }
    return least == 0 && !places.empty() ? 1 : least;
}

std::string caption_of(const Chart& chart, const Scale& scale, const Reader& reader) {
    std::string caption = laid_text(chart.title, reader);
    const std::string label = plain_text(chart.y_label, reader);
    if (!label.empty())
        caption += (caption.empty() ? "" : ": ") + label;
    const std::string unit = plain_text(scale.unit, reader);
    if (!unit.empty())
        caption += (caption.empty() ? "in " : ", in ") + unit;
    return caption;
}

} // namespace

bool is_drawable(const Point& point) {
    constexpr double most = 1e15; // beyond that no axis has ticks apart from each other
    const auto is_fine = [](double number) {
        return std::isfinite(number) && std::abs(number) < most;
    };
    return is_fine(point.x) && is_fine(point.y) && is_fine(point.low.value_or(0)) &&
           is_fine(point.high.value_or(0));
}

std::optional<ChartFrame> frame_of(const Chart& chart, const Reader& reader) {
    Extent x;
    Extent y;
    std::vector<double> bars;
    for (const Series& series : chart.series)
        for (const Point& point : series.points) {
            if (!is_drawable(point))
                continue;
            x.add(point.x);
            if (series.kind != SeriesKind::band) {
                y.add(point.y);
            } else {
                y.add(point.low.value_or(point.y));
                y.add(point.high.value_or(point.y));
            }
            if (series.kind == SeriesKind::bars)
                bars.push_back(point.x);
        }
    if (x.low > x.high)
        return std::nullopt;
    ChartFrame frame;
    frame.bar_distance = least_distance(bars);
    if (!bars.empty()) {
        x.low -= frame.bar_distance / 2;
        x.high += frame.bar_distance / 2;
    }
    x.widen();
    frame.x_low = x.low;
    frame.x_high = x.high;
    frame.scale = scale_of(chart.y, std::max(std::abs(y.low), std::abs(y.high)), reader);
    set_y(frame, {frame.scale.of(y.low), frame.scale.of(y.high)}, chart.y, !bars.empty());
    frame.caption = caption_of(chart, frame.scale, reader);
    return frame;
}

std::string x_text(const Chart& chart, const ChartFrame& frame, double x, const Reader& reader) {
    const double extent = frame.x_high - frame.x_low;
    constexpr double a_year = 330;
    if (chart.x == XKind::numbers)
        return rounded_text(x, {"", 1, 0, 4, 4});
    const double days = chart.x == XKind::days ? x : x / seconds_a_day;
    if (std::abs(days) > days_max)
        return "?";
    if (chart.x == XKind::instants) {
        const Instant instant{std::chrono::milliseconds{std::llround(x * 1000)}};
        if (extent < 2 * seconds_a_day)
            return time_text(instant, reader);
        Reader dated = reader;
        dated.now = instant;
        return axis_day_text(today(dated), extent > a_year * seconds_a_day);
    }
    const Date day{std::chrono::sys_days{Days{std::llround(days)}}};
    return axis_day_text(day, extent > a_year);
}

} // namespace barmkeep::sheet
