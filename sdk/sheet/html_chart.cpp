// Charts as inline SVG.
#include "sdk/sheet/html_text.hpp"

#include "sdk/sheet/chart_frame.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <numeric>

namespace barmkeep::sheet {
namespace {

// A drawing as wide as a telephone, so that its letters stay readable there.
constexpr double drawing_width = 400;
constexpr double drawing_height = 230;
constexpr double top = 14;
constexpr double bottom = 200;
constexpr double right = 388;
constexpr double letter_width = 7;
constexpr std::size_t colours = 4;

int depth_of(SeriesKind kind) {
    switch (kind) {
    case SeriesKind::band:
        return 0;
    case SeriesKind::bars:
        return 1;
    case SeriesKind::line:
        return 2;
    case SeriesKind::markers:
        break;
    }
    return 3;
}

class Drawing {
public:
    Drawing(const Chart& chart, const ChartFrame& frame, const Reader& reader)
        : chart_{chart}, frame_{frame}, reader_{reader} {
        std::size_t longest = 1;
        for (const Tick& tick : frame.y_ticks)
            longest = std::max(longest, tick.text.size());
        left_ = 12 + letter_width * static_cast<double>(longest);
    }

    std::string draw() {
        svg_ = fmt::format(R"(<svg class="chart" viewBox="0 0 {:.0f} {:.0f}" role="img" )"
                           R"(aria-label="{}">)",
                           drawing_width, drawing_height, escaped(frame_.caption));
        draw_axes();
        // Bands behind the others, markers before them.
        std::vector<std::size_t> order(chart_.series.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return depth_of(chart_.series[a].kind) < depth_of(chart_.series[b].kind);
        });
        for (const std::size_t i : order) {
            svg_ += fmt::format(R"(<g class="s{}">)", i % colours);
            draw_series(chart_.series[i]);
            svg_ += "</g>";
        }
        return std::move(svg_) + "</svg>";
    }

private:
    [[nodiscard]] double x_of(double x) const {
        return left_ + std::clamp(frame_.across(x), 0.0, 1.0) * (right - left_);
    }
    [[nodiscard]] double y_at(double up) const {
        return bottom - std::clamp(up, 0.0, 1.0) * (bottom - top);
    }
    [[nodiscard]] double y_of(double canonical) const { return y_at(frame_.up(canonical)); }
    [[nodiscard]] double tick_y(double at) const {
        return y_at((at - frame_.y_low) / (frame_.y_high - frame_.y_low));
    }

    void label(double x, double y, std::string_view anchor, std::string_view text) {
        svg_ += fmt::format(R"(<text x="{:.1f}" y="{:.1f}" text-anchor="{}">{}</text>)", x, y,
                            anchor, escaped(text));
    }
    void draw_axes() {
        for (const Tick& tick : frame_.y_ticks) {
            const double y = tick_y(tick.at);
            svg_ +=
                fmt::format(R"(<path class="grid" d="M{:.1f} {:.1f}H{:.1f}"/>)", left_, y, right);
            label(left_ - 5, y + 4, "end", tick.text);
        }
        svg_ += fmt::format(R"(<path class="axis" d="M{:.1f} {:.1f}V{:.1f}H{:.1f}"/>)", left_, top,
                            bottom, right);
        const double half = frame_.bar_distance / 2;
        const double first = frame_.x_low + half;
        const double last = frame_.x_high - half;
        const double y = bottom + 18;
        label(half > 0 ? x_of(first) : left_, y, half > 0 ? "middle" : "start",
              x_text(chart_, frame_, first, reader_));
        if (last > first)
            label(half > 0 ? x_of(last) : right, y, half > 0 ? "middle" : "end",
                  x_text(chart_, frame_, last, reader_));
        const std::string name = plain_text(chart_.x_label, reader_);
        label((left_ + right) / 2, y, "middle",
              name.empty() && chart_.x != XKind::numbers
                  ? x_text(chart_, frame_, (first + last) / 2, reader_)
                  : name);
    }

    void draw_series(const Series& series) {
        switch (series.kind) {
        case SeriesKind::line:
            draw_line(series);
            break;
        case SeriesKind::band:
            draw_band(series);
            break;
        case SeriesKind::bars:
            draw_bars(series);
            break;
        case SeriesKind::markers:
            draw_markers(series);
            break;
        }
    }
    void draw_line(const Series& series) {
        svg_ += R"(<polyline class="line" points=")";
        for (const Point& point : series.points)
            if (is_drawable(point))
                svg_ += fmt::format("{:.1f},{:.1f} ", x_of(point.x), y_of(point.y));
        svg_ += R"("/>)";
    }
    void draw_band(const Series& series) {
        svg_ += R"(<polygon class="band" points=")";
        for (const Point& point : series.points)
            if (is_drawable(point))
                svg_ += fmt::format("{:.1f},{:.1f} ", x_of(point.x),
                                    y_of(point.high.value_or(point.y)));
        for (auto point = series.points.rbegin(); point != series.points.rend(); ++point)
            if (is_drawable(*point))
                svg_ += fmt::format("{:.1f},{:.1f} ", x_of(point->x),
                                    y_of(point->low.value_or(point->y)));
        svg_ += R"("/>)";
    }
    void draw_bars(const Series& series) {
        const double half = frame_.bar_distance * 0.35;
        const double zero = tick_y(0);
        for (const Point& point : series.points) {
            if (!is_drawable(point))
                continue;
            const double from = x_of(point.x - half);
            const double y = y_of(point.y);
            svg_ += fmt::format(
                R"(<rect class="bar" x="{:.1f}" y="{:.1f}" width="{:.1f}" height="{:.1f}"/>)", from,
                std::min(y, zero), std::max(x_of(point.x + half) - from, 1.0),
                std::max(y, zero) - std::min(y, zero));
        }
    }
    void draw_markers(const Series& series) {
        for (const Point& point : series.points) {
            if (!is_drawable(point))
                continue;
            const double x = x_of(point.x);
            const double y = y_of(point.y);
            svg_ += fmt::format(R"(<circle class="marker" cx="{:.1f}" cy="{:.1f}" r="5"/>)", x, y);
            const std::string text = plain_text(point.label, reader_);
            const double wide = letter_width * static_cast<double>(width_of(text));
            const bool fits_right = x + 9 + wide < right;
            label(fits_right ? x + 9 : x - 9, std::max(y - 6, top), fits_right ? "start" : "end",
                  text);
        }
    }

    const Chart& chart_;
    const ChartFrame& frame_;
    const Reader& reader_;
    double left_ = 0;
    std::string svg_;
};

std::string_view swatch_of(SeriesKind kind) {
    switch (kind) {
    case SeriesKind::line:
        return R"(<polyline class="line" points="0,6 28,6"/>)";
    case SeriesKind::band:
        return R"(<polygon class="band" points="0,1 28,1 28,11 0,11"/>)";
    case SeriesKind::bars:
        return R"(<rect class="bar" x="6" y="1" width="16" height="10"/>)";
    case SeriesKind::markers:
        break;
    }
    return R"(<circle class="marker" cx="14" cy="6" r="5"/>)";
}

std::string legend_of(const Chart& chart, const Reader& reader) {
    std::string items;
    for (std::size_t i = 0; i < chart.series.size(); ++i) {
        const Series& series = chart.series[i];
        if (!series.label.empty())
            items += fmt::format(R"(<li class="s{}"><svg viewBox="0 0 28 12" aria-hidden="true">{})"
                                 "</svg>{}</li>",
                                 i % colours, swatch_of(series.kind),
                                 escaped(plain_text(series.label, reader)));
    }
    return items.empty() ? "" : R"(<ul class="legend">)" + items + "</ul>\n";
}

} // namespace

std::string html_chart(const Chart& chart, const Reader& reader) {
    const auto frame = frame_of(chart, reader);
    if (!frame)
        return "";
    return "<figure>\n<figcaption>" + escaped(frame->caption) + "</figcaption>\n" +
           Drawing{chart, *frame, reader}.draw() + "\n" + legend_of(chart, reader) + "</figure>\n";
}

} // namespace barmkeep::sheet
