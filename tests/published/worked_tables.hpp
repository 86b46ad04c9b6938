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
/// Share alive of packs and slurry by age in the refrigerator.
std::string viability_table();
/// Cells wanted by strength and class of beer.
std::string pitch_table();
/// Cells after a starter of 100 billion, by volume, unstirred and stirred.
std::string growth_table();

} // namespace barmkeep::published
