// Texts and calls in words, on the way to a writer.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/columns.hpp"
#include "sdk/sheet/reader.hpp"

namespace barmkeep::sheet {

/// One value in words, harmless, its blanks tight.
[[nodiscard]] std::string value_text(const Value& value, const Reader& reader);
/// A text in words, harmless, with the blanks inside its values tight.
[[nodiscard]] std::string laid_text(const Text& text, const Reader& reader);
/// A plain label, harmless, in the reader's letters.
[[nodiscard]] std::string plain_text(std::string_view text, const Reader& reader);
/// The command of a call, harmless.
[[nodiscard]] std::string command_text(const std::string& method, const json::object& params,
                                       const std::vector<std::string>& ask, const Reader& reader);

/// All alarms of a sheet, those within `more` too; they stand first.
[[nodiscard]] std::vector<const Warning*> alarms_of(const std::vector<Block>& blocks);
/// All cautions that are not `here`, those within `more` too; each key once.
[[nodiscard]] std::vector<const Caution*> other_cautions(const std::vector<Block>& blocks);
/// Columns of a table that have a value in some row, by index.
[[nodiscard]] std::vector<std::size_t> filled_columns(const Table& table);

} // namespace barmkeep::sheet
