// Tables as text: columns left out by priority, the last text wrapped, or labelled lines.
#include "sdk/sheet/text_page.hpp"

#include <algorithm>

namespace barmkeep::sheet {
namespace {

constexpr std::size_t column_gap = 2;
/// A wrapped column narrower than this is no pleasure to read.
constexpr std::size_t wrapped_least = 12;

/// One column with its cells in words.
struct TextColumn {
    const Column* column;
    std::string label;
    std::vector<std::string> cells;
    std::size_t width = 0;

    [[nodiscard]] bool is_right() const { return column->align == Align::right; }
};

std::vector<TextColumn> columns_of(const Table& table, const Reader& reader) {
    std::vector<TextColumn> columns;
    for (const std::size_t i : filled_columns(table)) {
        TextColumn one{&table.columns[i], plain_text(table.columns[i].label, reader), {}, 0};
        one.width = width_of(one.label);
        for (const Row& row : table.rows) {
            one.cells.push_back(i < row.cells.size() ? laid_text(row.cells[i], reader) : "");
            one.width = std::max(one.width, width_of(one.cells.back()));
        }
        columns.push_back(std::move(one));
    }
    return columns;
}

std::size_t total_width(const std::vector<TextColumn>& columns) {
    std::size_t total = 0;
    for (const auto& one : columns)
        total += one.width + column_gap;
    return total - std::min(total, column_gap);
}

/// Takes out the column that may go first; false if all have to stay.
bool leave_one_out(std::vector<TextColumn>& columns) {
    auto goes = columns.end();
    for (auto one = columns.begin(); one != columns.end(); ++one)
        if (one->column->priority > 1 &&
            (goes == columns.end() || one->column->priority >= goes->column->priority))
            goes = one;
    if (goes == columns.end())
        return false;
    columns.erase(goes);
    return true;
}

/// Makes the last column of text so narrow that the table fits; false if that is too narrow.
bool narrow_last_text(std::vector<TextColumn>& columns, std::size_t room) {
    const auto last = std::find_if(columns.rbegin(), columns.rend(),
                                   [](const TextColumn& one) { return !one.is_right(); });
    if (last == columns.rend())
        return false;
    const std::size_t others = total_width(columns) - last->width;
    if (others + wrapped_least > room)
        return false;
    last->width = room - others;
    return true;
}

/// The lines of one row, as many as its longest cell takes.
std::vector<std::string> row_lines(const std::vector<TextColumn>& columns, std::size_t row) {
    std::vector<std::vector<std::string>> cells;
    std::size_t height = 1;
    for (const auto& one : columns) {
        cells.push_back(wrapped(one.cells[row], std::max<std::size_t>(one.width, 2)));
        height = std::max(height, cells.back().size());
    }
    std::vector<std::string> lines(height);
    for (std::size_t i = 0; i < columns.size(); ++i)
        for (std::size_t n = 0; n < height; ++n)
            lines[n] += (i == 0 ? "" : std::string(column_gap, ' ')) +
                        padded(n < cells[i].size() ? cells[i][n] : "", columns[i].width,
                               columns[i].is_right());
    return lines;
}

void write_heading(const std::vector<TextColumn>& columns, TextPage& page) {
    if (std::all_of(columns.begin(), columns.end(),
                    [](const TextColumn& one) { return one.label.empty(); }))
        return;
    std::vector<TextColumn> labels = columns;
    for (auto& one : labels)
        one.cells.assign(1, one.label);
    for (auto& line : row_lines(labels, 0))
        page.line(std::move(line), Tone::heading);
}

void write_labelled_rows(const Table& table, const std::vector<TextColumn>& columns,
                         TextPage& page) {
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (row > 0)
            page.gap();
        std::vector<LabelledText> values;
        for (const auto& one : columns)
            values.push_back({one.label, one.cells[row]});
        write_labelled(values, page);
        write_action(table.rows[row].action, "    ", page);
    }
}

} // namespace

void write_table(const Table& table, TextPage& page) {
    const std::vector<TextColumn> all = columns_of(table, page.reader());
    if (all.empty())
        return;
    page.heading(table.title);
    std::vector<TextColumn> columns = all;
    while (total_width(columns) > page.room() && !page.reader().full && leave_one_out(columns)) {
    }
    if (columns.empty())
        columns.push_back(all.front());
    if (total_width(columns) > page.room() && !narrow_last_text(columns, page.room())) {
        write_labelled_rows(table, page.reader().full ? all : columns, page);
        return;
    }
    write_heading(columns, page);
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        for (auto& line : row_lines(columns, row))
            page.line(std::move(line));
        write_action(table.rows[row].action, "    ", page);
    }
}

} // namespace barmkeep::sheet
