// Tables of docs/science.md that are computed, not compared: each a whole Markdown table.
#pragma once

#include <string>

namespace barmkeep::published {

/// Four ounces of dry extract in a pint jar, and made up to a litre, against the rule of thumb.
std::string jar_rule_table();
/// The shortcut of gravity points against mass balance.
std::string points_table();
/// Steam temperature by gauge pressure and altitude.
std::string steam_table();

} // namespace barmkeep::published
