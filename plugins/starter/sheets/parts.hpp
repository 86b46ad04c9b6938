// What several of the plugin's sheets share.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/sheets/sheets.hpp"

namespace barmkeep::starter::sheets {

/// "1 pack of Y1K (ale yeast)".
[[nodiscard]] sheet::Text yeast_text(const LivingYeast& yeast);
/// An amount of yeast: pieces are packs.
[[nodiscard]] sheet::Run amount_of_yeast(const Amount& amount);
/// "brew day 12", or the wort to pitch if there is none.
[[nodiscard]] sheet::Text purpose(const Plan& plan);
/// The jars of one step, each lot with why its jars may not stand on the shelf, if so.
[[nodiscard]] sheet::Text jars_text(const Step& step);
[[nodiscard]] std::int64_t jars_in(const std::vector<Step>& steps);
/// The growth step of that index as things to do, one after the other; the first is in `state`.
[[nodiscard]] std::vector<sheet::Step> recipe(const Plan& plan, std::size_t index, sheet::Text when,
                                              sheet::StepState state);
/// "72 B (18 to 75)", with the sources of the figure.
[[nodiscard]] sheet::Text cells_with_sources(const Range<brewing::Cells>& cells);
/// Released holds of stock that is used: shown at every later use.
void add_releases(sheet::SheetBuilder& made, const std::vector<contract::UsedDespite>& despite);
/// Sentences of a result as warnings, each once.
void add_warnings(sheet::SheetBuilder& made, const std::vector<std::string>& warnings);
/// The cautions on opening jars; those named in `here` stand in full.
void add_cautions(sheet::SheetBuilder& made, const std::vector<std::string>& cautions,
                  const std::vector<std::string_view>& here);
/// How the figures of a plan came about: yeast, cells, growth, with their sources.
[[nodiscard]] sheet::SheetBuilder reasons(const Plan& plan);
/// Each lot to open: what is in a jar, what is poured, what is left over.
[[nodiscard]] sheet::Table jars_table(const std::vector<Step>& steps);
/// The events after which a sheet about starters is out of date.
void add_topics(sheet::SheetBuilder& made);

} // namespace barmkeep::starter::sheets
