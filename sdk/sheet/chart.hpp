// The chart of a sheet: series of points over one pair of axes.
//
// The terminal draws it with characters in at most 16 rows, a page as SVG.  Both print the axes in
// the reader's units.
//
// Thread safety: values; no shared state.
#pragma once

#include "sdk/sheet/text.hpp"

namespace barmkeep::sheet {

/// What the x of a point counts.
enum class XKind {
    days,     ///< days since 1970-01-01, local; see x_of(Date)
    instants, ///< seconds since 1970-01-01T00:00Z; see x_of(Instant)
    numbers,  ///< plain numbers
};
constexpr auto enum_names(XKind) {
    using N = EnumName<XKind>;
    return std::array{N{XKind::days, "days"}, N{XKind::instants, "instants"},
                      N{XKind::numbers, "numbers"}};
}
[[nodiscard]] double x_of(Date day);
[[nodiscard]] double x_of(Instant instant);

enum class SeriesKind {
    line,    ///< points joined by a line
    band,    ///< the area between `low` and `high` of each point
    bars,    ///< a bar from zero to y
    markers, ///< single points, each with its label
};
constexpr auto enum_names(SeriesKind) {
    using N = EnumName<SeriesKind>;
    return std::array{N{SeriesKind::line, "line"}, N{SeriesKind::band, "band"},
                      N{SeriesKind::bars, "bars"}, N{SeriesKind::markers, "markers"}};
}

struct Point {
    double x = 0;
    double y = 0;                 ///< in the unit of the chart's kind
    std::optional<double> low{};  ///< lower edge of a band; y where it is absent
    std::optional<double> high{}; ///< upper edge of a band; y where it is absent
    std::string label{};          ///< of a marker
    bool operator==(const Point&) const = default;
    static FieldList fields(auto) {
        return {field<&Point::x>("Place on the x axis: days or seconds since 1970, or a number."),
                field<&Point::y>("Value, in the unit of the y axis.").defaulted(),
                field<&Point::low>("Lower edge of a band."),
                field<&Point::high>("Upper edge of a band."),
                field<&Point::label>("What a marker marks.").defaulted()};
    }
};

struct Series {
    std::string label{};
    SeriesKind kind = SeriesKind::line;
    std::vector<Point> points{}; ///< in order of x
    bool operator==(const Series&) const = default;
    static FieldList fields(auto) {
        return {field<&Series::label>("What it shows; for the legend.").defaulted(),
                field<&Series::kind>("How it is drawn.").defaulted(),
                field<&Series::points>("Its points, in order of x.")};
    }
};

struct Chart {
    Text title{};
    XKind x = XKind::days;
    std::string x_label{}; ///< may be empty: days and instants need none
    QuantityKind y = QuantityKind::number;
    std::string y_label{};
    std::vector<Series> series{};
    bool operator==(const Chart&) const = default;
    static FieldList fields(auto) {
        return {field<&Chart::title>("What the chart shows."),
                field<&Chart::x>("What x counts.").defaulted(),
                field<&Chart::x_label>("Name of the x axis.").defaulted(),
                field<&Chart::y>("What y measures, and so its unit.").defaulted(),
                field<&Chart::y_label>("Name of the y axis.").defaulted(),
                field<&Chart::series>("The series, drawn in this order.")};
    }
};

} // namespace barmkeep::sheet
