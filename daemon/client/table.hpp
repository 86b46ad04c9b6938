// Rows and columns as text.
#pragma once

#include "daemon/client/style.hpp"

#include <vector>

namespace barmkeep::barm {

struct Table {
    struct Column {
        std::string label;
        bool to_the_right = false;
    };
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows; ///< each as long as `columns`

    /// Takes out the columns that are empty in every row.
    void drop_empty_columns();
    /// Columns that it takes as a table.
    [[nodiscard]] std::size_t width() const;
};

/// The table's lines, each begun with `indent` spaces.  Where it is wider than the terminal, each
/// row becomes a block of labelled lines.  Plain: a line of labels and a line for each row,
/// divided by tabs, never wrapped.
[[nodiscard]] std::string table_text(const Table& table, const Style& style, std::size_t indent);

/// Labelled values under each other; empty ones are left out.  A value without a label goes on
/// under the one before.
struct Record {
    std::vector<std::pair<std::string, std::string>> lines;
};
/// Plain: label, tab, value.  Else the labels in one width and long values wrapped.
[[nodiscard]] std::string record_text(const Record& record, const Style& style, std::size_t indent);

} // namespace barmkeep::barm
