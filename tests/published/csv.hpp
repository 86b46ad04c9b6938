// Reads the CSV files of tests/published/data: a head line with column names, fields that may be
// quoted, quotes doubled inside quotes.
//
// Every fault is an exception with file and line, so that a test never passes on rows it did not
// read: a missing file, a missing column, an empty table and text where a number should be.
#pragma once

#include <cstdlib>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#ifndef BARMKEEP_PUBLISHED_DATA
#error "BARMKEEP_PUBLISHED_DATA must name the folder of the CSV files"
#endif

namespace barmkeep::published {

/// One line of a table, by column name.
class Row {
public:
    Row(std::string place, std::map<std::string, std::string, std::less<>> fields)
        : place_{std::move(place)}, fields_{std::move(fields)} {}

    /// The text of a field; throws std::runtime_error if there is no such column.
    [[nodiscard]] const std::string& operator[](std::string_view column) const {
        const auto found = fields_.find(column);
        if (found == fields_.end())
            throw std::runtime_error{place_ + ": no column " + std::string{column}};
        return found->second;
    }
    [[nodiscard]] bool has(std::string_view column) const { return !(*this)[column].empty(); }

    /// The whole field as a number; throws std::runtime_error if it is not one.
    [[nodiscard]] double number(std::string_view column) const {
        const std::string& text = (*this)[column];
        char* end = nullptr;
        const double value = std::strtod(text.c_str(), &end);
        if (text.empty() || *end != '\0')
            throw std::runtime_error{place_ + ": '" + text + "' is no number"};
        return value;
    }

    /// File and line, for the message of a failing test.
    [[nodiscard]] const std::string& place() const { return place_; }

private:
    std::string place_;
    std::map<std::string, std::string, std::less<>> fields_;
};

inline std::vector<std::string> split_csv_line(std::string_view line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (c == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"')
            fields.back() += line[i++];
        else if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            fields.emplace_back();
        else if (c != '\r')
            fields.back() += c;
    }
    if (quoted)
        throw std::runtime_error{"quote not closed: " + std::string{line}};
    return fields;
}

/// All rows of a file named relative to tests/published/data, e.g.
/// "extract/sg_plato_published.csv".
inline std::vector<Row> read_csv(const std::string& name) {
    std::ifstream file{std::string{BARMKEEP_PUBLISHED_DATA} + "/" + name};
    std::string line;
    if (!std::getline(file, line))
        throw std::runtime_error{name + " cannot be read"};
    const std::vector<std::string> columns = split_csv_line(line);
    std::vector<Row> rows;
    for (int number = 2; std::getline(file, line); ++number) {
        const std::string place = name + ":" + std::to_string(number);
        std::vector<std::string> values = split_csv_line(line);
        if (values.size() != columns.size())
            throw std::runtime_error{place + ": fields do not match the head line"};
        std::map<std::string, std::string, std::less<>> fields;
        for (std::size_t i = 0; i < columns.size(); ++i)
            fields.emplace(columns[i], std::move(values[i]));
        rows.emplace_back(place, std::move(fields));
    }
    if (rows.empty())
        throw std::runtime_error{name + " has no rows"};
    return rows;
}

} // namespace barmkeep::published
