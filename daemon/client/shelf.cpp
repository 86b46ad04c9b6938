#include "daemon/client/shelf.hpp"

#include "daemon/client/table.hpp"
#include "daemon/client/value_text.hpp"

#include <algorithm>

namespace barmkeep::barm {
namespace {

using contract::Lot;
using contract::Shelf;

/// Nothing where there is nothing, so that what there is stands out.
std::string unless_none(const Amount& amount, const Style& style) {
    return amount.steps == 0 ? "" : amount_text(amount, style);
}

std::string date_text(const std::optional<Date>& date) {
    return date ? to_text(*date) : "";
}

template <class Row>
struct ColumnOf {
    std::string label;
    bool to_the_right;
    std::string (*cell)(const Row&, const Style&);
};

const std::vector<ColumnOf<Shelf>>& goods_columns() {
    static const std::vector<ColumnOf<Shelf>> columns{
        {"good", false,
         [](const Shelf& s, const Style&) {
             return printable(s.good);
         }},
        {"available", true,
         [](const Shelf& s, const Style& how) {
             return amount_text(s.available, how);
         }},
        {"reserved", true,
         [](const Shelf& s, const Style& how) {
             return unless_none(s.reserved, how);
         }},
        {"on hand", true,
         [](const Shelf& s, const Style& how) {
             return amount_text(s.on_hand, how);
         }},
        {"best by", false,
         [](const Shelf& s, const Style&) {
             return date_text(s.best_by);
         }},
        {"value", true, [](const Shelf& s, const Style& how) {
             return money_text(s.value, how);
         }}};
    return columns;
}

const std::vector<ColumnOf<Lot>>& lots_columns() {
    static const std::vector<ColumnOf<Lot>> columns{
        {"lot", false,
         [](const Lot& lot, const Style&) {
             return to_text(lot.code);
         }},
        {"good", false,
         [](const Lot& lot, const Style&) {
             return printable(lot.good);
         }},
        {"available", true,
         [](const Lot& lot, const Style& how) {
             return amount_text(lot.available, how);
         }},
        {"reserved", true,
         [](const Lot& lot, const Style& how) {
             return unless_none(lot.reserved, how);
         }},
        {"on hand", true,
         [](const Lot& lot, const Style& how) {
             return amount_text(lot.on_hand, how);
         }},
        {"best by", false,
         [](const Lot& lot, const Style&) {
             return date_text(lot.best_by);
         }},
        {"value", true,
         [](const Lot& lot, const Style& how) {
             return money_text(lot.value, how);
         }},
        {"on hold", false, [](const Lot& lot, const Style&) {
             std::string why;
             for (const auto& hold : lot.holds)
                 why += (why.empty() ? "" : ", ") + label_of(to_string(hold.kind));
             return why;
         }}};
    return columns;
}

template <class Row>
Table table_of(const std::vector<Row>& rows, const std::vector<ColumnOf<Row>>& columns,
               const std::vector<std::string>& without, const Style& style) {
    Table table;
    table.rows.resize(rows.size());
    for (const auto& column : columns) {
        if (std::find(without.begin(), without.end(), column.label) != without.end())
            continue;
        table.columns.push_back({column.label, column.to_the_right});
        for (std::size_t i = 0; i < rows.size(); ++i)
            table.rows[i].push_back(column.cell(rows[i], style));
    }
    if (!style.is_plain) // a program counts on its columns
        table.drop_empty_columns();
    return table;
}

/// The table, without as many of the columns `to_miss` as it takes to fit.
template <class Row>
std::string fitting_table(const std::vector<Row>& rows, const std::vector<ColumnOf<Row>>& columns,
                          const std::vector<std::string>& to_miss, const Style& style,
                          std::size_t indent) {
    std::vector<std::string> without;
    for (const auto& next : to_miss) {
        const Table table = table_of(rows, columns, without, style);
        if (table.width() + indent <= static_cast<std::size_t>(style.width))
            return table_text(table, style, indent);
        without.push_back(next);
    }
    return table_text(table_of(rows, columns, without, style), style, indent);
}

} // namespace

std::string amount_text(const Amount& amount, const Style& style) {
    return value_text(to_json(amount), Codec<Amount>::schema(Direction::sent), style);
}

std::string money_text(Money money, const Style& style) {
    return value_text(to_json(money), Codec<Money>::schema(Direction::sent), style);
}

std::string goods_table(const std::vector<Shelf>& shelves, const Style& style, std::size_t indent) {
    return fitting_table(shelves, goods_columns(), {"value", "on hand", "reserved", "best by"},
                         style, indent);
}

std::string shelf_text(const contract::StockList::Result& shelf, const Style& style) {
    if (shelf.shelves.empty())
        return {};
    std::vector<Lot> lots;
    for (const auto& good : shelf.shelves)
        lots.insert(lots.end(), good.lots.begin(), good.lots.end());
    // What is on hold is never left out.
    return goods_table(shelf.shelves, style, 0) + '\n' +
           fitting_table(lots, lots_columns(), {"value", "on hand", "reserved", "good"}, style, 0) +
           '\n' + record_text({{{"value", money_text(shelf.value, style)}}}, style, 0);
}

} // namespace barmkeep::barm
