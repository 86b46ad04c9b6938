// Charts as text: one character a place, in at most 16 rows.
#include "sdk/sheet/chart_frame.hpp"
#include "sdk/sheet/text_page.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::sheet {
namespace {

constexpr std::size_t rows_max = 16; ///< with caption, axis and legend
constexpr std::size_t legend_rows_max = 3;

/// Signs for each kind of series, by its number among those of its kind.
std::string sign_of(SeriesKind kind, std::size_t number, bool unicode) {
    static constexpr std::array<std::string_view, 4> lines{"\u25cf", "\u25cb", "\u25c6", "\u25c7"};
    static constexpr std::array<std::string_view, 4> ascii_lines{"*", "o", "+", "x"};
    static constexpr std::array<std::string_view, 2> bars{"\u2588", "\u2593"};
    static constexpr std::array<std::string_view, 2> ascii_bars{"#", "="};
    switch (kind) {
    case SeriesKind::band:
        return unicode ? "\u2591" : ":";
    case SeriesKind::bars:
        return std::string((unicode ? bars : ascii_bars).at(number % bars.size()));
    default:
        return std::string((unicode ? lines : ascii_lines).at(number % lines.size()));
    }
}

/// The sign of a marker: 1 to 9, then a to z.
std::string marker_sign(std::size_t number) {
    constexpr std::string_view signs = "123456789abcdefghijklmnopqrstuvwxyz";
    return std::string(1, signs[number % signs.size()]);
}

class Canvas {
public:
    Canvas(const ChartFrame& frame, std::size_t columns, std::size_t rows)
        : frame_{frame}, columns_{columns}, rows_{rows}, signs_(columns * rows, " ") {}

    void draw(const Series& series, const std::string& sign) {
        const Point* before = nullptr;
        for (const Point& point : series.points) {
            if (!is_drawable(point))
                continue;
            if (series.kind == SeriesKind::bars)
                bar(point, sign);
            else if (series.kind == SeriesKind::band)
                band(before != nullptr ? *before : point, point, sign);
            else
                line(before != nullptr ? *before : point, point, sign);
            before = &point;
        }
    }
    void mark(const Point& point, const std::string& sign) {
        put(column_of(point.x), row_of(point.y), sign);
    }

    [[nodiscard]] std::string row(std::size_t from_top) const {
        std::string text;
        for (std::size_t i = 0; i < columns_; ++i)
            text += signs_[from_top * columns_ + i];
        return text;
    }
    /// The row of a place on y, counted from the top.
    [[nodiscard]] std::size_t row_of(double canonical_y) const {
        return row_at(frame_.up(canonical_y));
    }
    [[nodiscard]] std::size_t row_at(double up) const {
        const double place = std::clamp(up, 0.0, 1.0) * static_cast<double>(rows_ - 1);
        return rows_ - 1 - static_cast<std::size_t>(std::lround(place));
    }

private:
    [[nodiscard]] std::size_t column_of(double x) const {
        const double place = std::clamp(frame_.across(x), 0.0, 1.0);
        return static_cast<std::size_t>(std::lround(place * static_cast<double>(columns_ - 1)));
    }
    void put(std::size_t column, std::size_t row, const std::string& sign) {
        signs_[row * columns_ + column] = sign;
    }
    void upright(std::size_t column, std::size_t row, std::size_t other, const std::string& sign) {
        for (std::size_t i = std::min(row, other); i <= std::max(row, other); ++i)
            put(column, i, sign);
    }
    /// Calls `draw_at` with the share of the way for each place from one point to the other.
    template <class DrawAt>
    void along(const Point& from, const Point& to, const DrawAt& draw_at) const {
        const std::size_t begin = column_of(from.x);
        const std::size_t end = column_of(to.x);
        const std::size_t steps = 2 * ((end > begin ? end - begin : 0) + rows_);
        for (std::size_t i = 0; i <= steps; ++i)
            draw_at(static_cast<double>(i) / static_cast<double>(steps));
    }
    void line(const Point& from, const Point& to, const std::string& sign) {
        along(from, to, [&](double way) {
            put(column_of(std::lerp(from.x, to.x, way)), row_of(std::lerp(from.y, to.y, way)),
                sign);
        });
    }
    void band(const Point& from, const Point& to, const std::string& sign) {
        along(from, to, [&](double way) {
            const double low = std::lerp(from.low.value_or(from.y), to.low.value_or(to.y), way);
            const double high = std::lerp(from.high.value_or(from.y), to.high.value_or(to.y), way);
            upright(column_of(std::lerp(from.x, to.x, way)), row_of(low), row_of(high), sign);
        });
    }
    void bar(const Point& point, const std::string& sign) {
        if (point.y == 0)
            return;
        const double half = frame_.bar_distance * 0.35;
        std::size_t foot = row_at((0 - frame_.y_low) / (frame_.y_high - frame_.y_low));
        std::size_t head = row_of(point.y);
        // The row of zero is below the bars that stand on it, so that their heights are in ratio.
        if (head < foot)
            --foot;
        for (std::size_t i = column_of(point.x - half); i <= column_of(point.x + half); ++i)
            upright(i, head, foot, sign);
    }

    const ChartFrame& frame_;
    std::size_t columns_;
    std::size_t rows_;
    std::vector<std::string> signs_;
};

/// Draws all series, bands behind the others and markers before them, and returns the words of the
/// legend, in the order of the series.
std::string draw_all(const Chart& chart, Canvas& canvas, const Reader& reader) {
    std::string legend;
    const auto tell = [&](const std::string& sign, const std::string& label) {
        if (!label.empty())
            legend += (legend.empty() ? "" : " | ") +
                      with_tight_blanks(sign + " " + plain_text(label, reader));
    };
    std::array<std::size_t, 4> numbers{}; // of each kind so far
    std::vector<std::string> signs;
    for (const Series& series : chart.series)
        signs.push_back(sign_of(series.kind, numbers.at(static_cast<std::size_t>(series.kind))++,
                                reader.unicode));
    for (const SeriesKind kind : {SeriesKind::band, SeriesKind::bars, SeriesKind::line})
        for (std::size_t i = 0; i < signs.size(); ++i)
            if (chart.series[i].kind == kind)
                canvas.draw(chart.series[i], signs[i]);
    std::size_t markers = 0;
    for (std::size_t i = 0; i < signs.size(); ++i) {
        const Series& series = chart.series[i];
        if (series.kind != SeriesKind::markers) {
            tell(signs[i], series.label);
            continue;
        }
        for (const Point& point : series.points)
            if (is_drawable(point)) {
                const std::string sign = marker_sign(markers++);
                canvas.mark(point, sign);
                tell(sign, point.label.empty() ? series.label : point.label);
            }
    }
    return legend;
}

/// The texts under the axis: at both ends, and in the middle the axis's name or what is halfway.
/// Says whether the name of the axis had room.
struct XLabels {
    std::string text;
    bool has_name = false;
};

XLabels x_labels(const Chart& chart, const ChartFrame& frame, std::size_t columns,
                 const Reader& reader) {
    const double half = frame.bar_distance / 2;
    const std::string first = x_text(chart, frame, frame.x_low + half, reader);
    const std::string last = x_text(chart, frame, frame.x_high - half, reader);
    if (first == last || first.size() + last.size() + 1 > columns)
        return {first.size() <= columns ? first : ""};
    const std::string name = plain_text(chart.x_label, reader);
    std::string middle = name;
    if (name.empty() && chart.x != XKind::numbers)
        middle = x_text(chart, frame, (frame.x_low + frame.x_high) / 2, reader);
    const std::size_t wide = width_of(middle);
    const std::size_t between = columns - first.size() - last.size();
    constexpr std::size_t apart = 3;
    if (middle == first || middle == last || wide + 2 * apart > between)
        return {first + std::string(between, ' ') + last};
    const std::size_t before = (columns - wide) / 2 - std::min((columns - wide) / 2, first.size());
    const std::size_t kept = std::clamp(before, apart, between - wide - apart);
    return {first + std::string(kept, ' ') + middle + std::string(between - wide - kept, ' ') +
                last,
            !name.empty()};
}

} // namespace

void write_chart(const Chart& chart, TextPage& page) {
    const Reader& reader = page.reader();
    const auto frame = frame_of(chart, reader);
    if (!frame)
        return;
    std::size_t label_width = 0;
    for (const Tick& tick : frame->y_ticks)
        label_width = std::max(label_width, tick.text.size());
    if (label_width + 8 > page.room()) {
        page.paragraph("", frame->caption + ": there is no room here for the chart.");
        return;
    }
    const std::size_t columns = page.room() - label_width - 2;
    const auto captions = wrapped(frame->caption, page.room());
    const std::size_t taken = captions.size() + 3 + legend_rows_max;
    const std::size_t rows = taken + 4 > rows_max ? 4 : std::min<std::size_t>(rows_max - taken, 10);
    Canvas canvas{*frame, columns, rows};
    const std::string legend = draw_all(chart, canvas, reader);
    page.heading(Text(frame->caption));
    std::vector<std::string> labels(rows);
    for (const Tick& tick : frame->y_ticks)
        labels[canvas.row_at((tick.at - frame->y_low) / (frame->y_high - frame->y_low))] =
            tick.text;
    const std::string_view upright = reader.unicode ? "\u2502" : "|";
    const std::string_view level = reader.unicode ? "\u2500" : "-";
    const std::string_view corner = reader.unicode ? "\u2514" : "+";
    for (std::size_t row = 0; row < rows; ++row)
        page.line(padded(labels[row], label_width, true).append(" ").append(upright) +
                  canvas.row(row));
    std::string axis = std::string(label_width + 1, ' ').append(corner);
    for (std::size_t i = 0; i < columns; ++i)
        axis += level;
    page.line(std::move(axis));
    const XLabels under = x_labels(chart, *frame, columns, reader);
    page.line(std::string(label_width + 2, ' ') + under.text);
    std::string words = under.has_name ? "" : plain_text(chart.x_label, reader);
    words += (words.empty() || legend.empty() ? "" : " | ") + legend;
    auto below = wrapped(words, columns);
    below.resize(std::min(below.size(), legend_rows_max));
    for (auto& one : below)
        page.line(std::string(label_width + 2, ' ') + one);
}

} // namespace barmkeep::sheet
