#include "daemon/client/table.hpp"

#include <algorithm>

namespace barmkeep::barm {
namespace {

constexpr std::size_t gap = 2;

std::string padded(const std::string& text, std::size_t width, bool to_the_right) {
    const std::string space(width - std::min(width, width_of(text)), ' ');
    return to_the_right ? space + text : text + space;
}

std::vector<std::size_t> column_widths(const Table& table) {
    std::vector<std::size_t> widths;
    for (const auto& column : table.columns)
        widths.push_back(width_of(column.label));
    for (const auto& row : table.rows)
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], width_of(row[i]));
    return widths;
}

std::string without_trailing_space(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

std::string plain_line(const std::vector<std::string>& cells) {
    std::string line;
    for (const auto& cell : cells)
        line += (&cell == &cells.front() ? "" : "\t") + cell;
    return line + '\n';
}

std::string plain_table(const Table& table) {
    std::vector<std::string> labels;
    for (const auto& column : table.columns)
        labels.push_back(column.label);
    std::string text = plain_line(labels);
    for (const auto& row : table.rows)
        text += plain_line(row);
    return text;
}

std::string blocks(const Table& table, const Style& style, std::size_t indent) {
    std::string text;
    for (const auto& row : table.rows) {
        Record record;
        for (std::size_t i = 0; i < row.size(); ++i)
            record.lines.emplace_back(table.columns[i].label, row[i]);
        text += (text.empty() ? "" : "\n") + record_text(record, style, indent);
    }
    return text;
}

} // namespace

void Table::drop_empty_columns() {
    for (std::size_t i = columns.size(); i-- > 0;) {
        const auto at = static_cast<std::ptrdiff_t>(i);
        if (!std::all_of(rows.begin(), rows.end(), [&](const auto& row) { return row[i].empty(); }))
            continue;
        columns.erase(columns.begin() + at);
        for (auto& row : rows)
            row.erase(row.begin() + at);
    }
}

std::size_t Table::width() const {
    std::size_t total = 0;
    for (const std::size_t width : column_widths(*this))
        total += width + gap;
    return total - std::min(total, gap);
}

std::string table_text(const Table& table, const Style& style, std::size_t indent) {
    if (style.is_plain)
        return plain_table(table);
    if (table.width() + indent > static_cast<std::size_t>(style.width))
        return blocks(table, style, indent);
    const auto widths = column_widths(table);
    const auto line = [&](const auto& cell_at) {
        std::string text(indent, ' ');
        for (std::size_t i = 0; i < widths.size(); ++i)
            text += padded(cell_at(i), widths[i], table.columns[i].to_the_right) +
                    std::string(gap, ' ');
        return without_trailing_space(std::move(text));
    };
    std::string text =
        style.heading(line([&](std::size_t i) { return table.columns[i].label; })) + '\n';
    for (const auto& row : table.rows)
        text += line([&](std::size_t i) { return row[i]; }) + '\n';
    return text;
}

std::string record_text(const Record& record, const Style& style, std::size_t indent) {
    std::size_t label_width = 0;
    for (const auto& [label, value] : record.lines)
        if (!value.empty())
            label_width = std::max(label_width, width_of(label));
    const std::size_t value_at = indent + label_width + gap;
    std::string text;
    for (const auto& [label, value] : record.lines) {
        if (value.empty())
            continue;
        if (style.is_plain)
            text += label + '\t' + value + '\n';
        else
            text += std::string(indent, ' ') + padded(label, label_width + gap, false) +
                    wrapped(value, static_cast<std::size_t>(style.width), value_at) + '\n';
    }
    return text;
}

} // namespace barmkeep::barm
