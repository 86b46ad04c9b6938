#include "sdk/brewing/sources.hpp"

#include "sdk/brewing/pack.hpp"
#include "sdk/brewing/pitch_rates.hpp"
#include "sdk/brewing/starter_plan.hpp"
#include "sdk/brewing/viability_models.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::brewing {
namespace {

constexpr std::array publications{
    Source{"ALS", "home brewer's article on storage in water", "viability in sterile water"},
    Source{"BAR", "web page repeating a rule on packs", "viability of liquid packs"},
    Source{"BQ1", "textbook on brewing yeast, 2001, web copy", "viability of slurry"},
    Source{"BQ2", "textbook on brewing yeast, 2001, web copy of another section",
           "bound of the yield"},
    Source{"BSI", "laboratory's page on counting cells", "pitching rates; the counting chamber"},
    Source{"BYO1", "magazine article on pitching rates", "pitching rates of ale"},
    Source{"BYO2", "magazine column on pitching rates", "a worked example of the arithmetic"},
    Source{"CAS", "peer-reviewed paper on strong wort and viability, 1983, abstract",
           "limits of a stained count"},
    Source{"CBG", "brewers' guild, methods of counting yeast", "pitching rates of ale"},
    Source{"CLP", "paper on limits of a share, 1934", "interval of a share alive"},
    Source{"CONE", "maker's technical reply, quoted in a forum", "viability of dry yeast"},
    Source{"CRO", "brewery laboratory's formula, on a web page, 2007", "pitching rates"},
    Source{"DEC", "textbook figure, cited in a forum in 2015", "yield of stirred starters"},
    Source{"ESC2", "laboratory's page on yeast storage", "how long slurry is covered"},
    Source{"EX1", "sugar table of a standards bureau, and a published fit to it",
           "degrees Plato and gravity"},
    Source{"EX2", "laboratory table of a society of brewing chemists, and a published fit to it",
           "degrees Plato and gravity up to 1.083"},
    Source{"EX3", "paper on the density of water, 1990", "density of water"},
    Source{"EX4", "polynomial of a sugar commission, in a handbook of 1995",
           "density of sugar solutions"},
    Source{"EX5", "international table of refractometer corrections", "refractometer temperature"},
    Source{"EX6", "encyclopedia article on the sugar scale", "refractometer scale"},
    Source{"EX7", "handbooks of exact unit factors", "units"},
    Source{"EX8", "article on specific gravity and extract, 1993", "extract potential"},
    Source{"EX9", "table of pounds of solids in a gallon, 1992", "checks of density"},
    Source{"EX10", "paper on the density of water, 2001", "checks of density"},
    Source{"EX11", "paper on the density of water, 1975", "checks of density"},
    Source{"EX12", "international formulation for water, 1995", "checks of density"},
    Source{"EX13", "handbook of chemistry and physics, 53rd edition", "checks of density"},
    Source{"EX14", "sugar beet handbook, one table", "checks of degrees Plato"},
    Source{"EX15", "handbook of receipts, about 1880", "checks of degrees Plato"},
    Source{"FBI", "home brewing site's article on pitching rates",
           "a worked example of the arithmetic"},
    Source{"FER1", "maker's brochure of doses", "pitching rates and cells of dry yeast"},
    Source{"FER3", "maker's data sheet, quoted in a forum", "cells and mass of a dry pack"},
    Source{"FIS", "textbook of statistics, 1925", "test of scatter"},
    Source{"FIX", "book on brewing technique, 1997, as cited in three texts", "pitching rates"},
    Source{"GAR", "paper on limits of a count, 1936", "interval of a count"},
    Source{"GEL", "textbook of statistics", "learning from own counts"},
    Source{"JIB59", "paper on yeast viability, 1959, abstract", "limits of a stained count"},
    Source{"KAI2", "home brewer's growth experiments, 2012, set-up only",
           "the thinnest start of a stirred starter"},
    Source{"KSU", "peer-reviewed study of active dry yeast, as reported",
           "viability of hot dry yeast"},
    Source{"LAL1", "maker's product page", "cells of dry yeast"},
    Source{"LAL3", "maker's sheet, on a shop's page", "pitching rates and cells of dry yeast"},
    Source{"LAL4", "maker's trial of lager strains", "pitching rates of lager"},
    Source{"LAL5", "maker's sheet on shelf life, on a shop's page",
           "how long dry yeast is covered"},
    Source{"MAD", "beer review's article on pitching rates, 2012",
           "pitching rates and cells of dry yeast"},
    Source{"MBAA", "brewmasters' forum, a count of ten fields, 2022", "a test of scatter"},
    Source{"MCB", "peer-reviewed paper on storage of pitching yeast, 1985, abstract",
           "viability of slurry"},
    Source{"MEN", "home brewer's article on starters, 2014", "pitching rates of ale"},
    Source{"MLA", "mead makers' pages on the counting chamber",
           "the counting chamber; counting error"},
    Source{"OCC", "paper on methylene blue, 1997, abstract", "limits of a stained count"},
    Source{"PLU", "classroom exercise on the counting chamber", "a worked example of counting"},
    Source{"RAI", "article on propagation, quoted in a forum", "largest growth in one step"},
    Source{"S31", "bulletin on canning meat at home, 1970s, web copy",
           "dial gauges that read high"},
    Source{"S56", "manual of piping, fuel gas table", "heating values"},
    Source{"S58", "standard for gas appliances, 2007", "heating value of propane"},
    Source{"S62", "energy agency's average for natural gas, 2021", "heating value of natural gas"},
    Source{"S63", "newspaper column on cooktop tests", "burner efficiency"},
    Source{"S64", "research report on induction cooking", "burner efficiency"},
    Source{"S65", "fact sheet on induction cooking", "burner efficiency"},
    Source{"S66", "press report of a reply in parliament, 2021", "burner efficiency"},
    Source{"S67", "release on the properties of water and steam, 2012",
           "pressure and temperature of steam"},
    Source{"S68", "steam program of the distribution", "checks of steam"},
    Source{"S69", "standard atmosphere, 1976", "pressure of the air by altitude"},
    Source{"S70", "engineering handbook, table of the standard atmosphere",
           "checks of the pressure of the air"},
    Source{"S71", "engineering reference site, two tables", "checks of the pressure of the air"},
    Source{"SAC", "producer's instructions for agar slants", "cells in a slant"},
    Source{"SHA", "home brewer's cell counts of two strains, 2009",
           "spread between strains; the densest starter counted"},
    Source{"STU", "paper on counting with a chamber, 1907", "how a count scatters"},
    Source{"STU08", "paper on the error of a mean, 1908", "interval of a mean"},
    Source{"SUI", "peer-reviewed paper on pitching rate in strong wort, 1993, abstract",
           "pitching rates of lager; yield in strong wort"},
    Source{"SUIK", "home laboratory's trial of dried yeast, 2019",
           "viability of yeast dried at home"},
    Source{"SVH", "chemostat study of a mutant, abstract", "bound of the yield"},
    Source{"TEN", "paper on propagation in strong wort, abstract", "yield in strong wort"},
    Source{"WIKI", "home brewers' wiki, 2011", "pitching rates"},
    Source{"WIL", "paper on limits of a share, 1927", "second interval of a share alive"},
    Source{"WL1", "maker's article on pitching rates in a trade magazine", "pitching rates"},
    Source{"WL2", "maker's answer, carried by a shop", "viability of old vials and of slurry"},
    Source{"WL3", "maker's six-month series of pack viability, copied in a forum",
           "viability of liquid packs"},
    Source{"WL4", "maker's statement on lots of 40 mL packs, quoted in a forum in 2021",
           "cells in a liquid pack"},
    Source{"WL6", "maker's leaflet of an older vial, on a shop's page", "cells in a liquid pack"},
    Source{"WL7", "maker's statement on an older vial, quoted in a forum",
           "cells in a liquid pack"},
    Source{"WL8", "maker's report on one lot, quoted in a forum", "cells in a liquid pack"},
    Source{"WOO1", "home brewer's measurements of refrigerated slurry, 2012",
           "viability of slurry"},
    Source{"WOO2", "home brewer's page on yeast storage, 2013", "cells in slurry"},
    Source{"WOO4", "home brewer's trials of starters side by side, 2013",
           "yield of stirred starters"},
    Source{"WOO5", "home brewer's measurements of slurry at room temperature, 2012",
           "viability of slurry"},
    Source{"WYE1", "maker's chart of pitching rates, about 2011", "pitching rates of ale"},
    Source{"WYE2", "maker's page on pitching rates", "cells in a liquid pack"},
    Source{"WYE4", "maker's advice on starters, posted again by a shop in 2010",
           "usual gravity of a starter"},
    Source{"WZ1", "book on yeast, 2010, an extract", "growth in unstirred starters"},
    Source{"WZ2", "abridgement of the same book's figure on a web page, 2014",
           "growth in unstirred starters"},
    Source{"WZ3", "two figures of the same book, restated in a forum",
           "growth in unstirred starters"},
    Source{"ZWI", "home brewer's page on starters, 2021", "largest growth in one step"},
    Source{"own", "your own count, note or label", "cells of a lot of yeast"},
};

/// Statements that no table of sdk/brewing holds.
constexpr std::array others{
    std::array<std::string_view, 4>{"GR02",
                                    "widest experiment, 1 to 270 million a millilitre at 10 P",
                                    "the thinnest start of a stirred starter", "KAI2"},
    std::array<std::string_view, 4>{
        "GR06", "0.72 billion new cells a gram of extract at the start, one dry strain",
        "yield of stirred starters, low figure", "WOO4"},
    std::array<std::string_view, 4>{
        "GR13", "282 million a millilitre at the end of a stirred starter, one strain",
        "spread between strains; the densest starter counted", "SHA"},
    std::array<std::string_view, 4>{
        "GR14", "133 million a millilitre at the end of the same starter, another strain",
        "spread between strains", "SHA"},
    std::array<std::string_view, 4>{"GR15", "1.0 to 1.5 billion new cells a gram of extract",
                                    "yield of stirred starters, likely and high figure", "DEC"},
    std::array<std::string_view, 4>{"GR26", "the growth rate falls as wort gets stronger",
                                    "the strongest wort of a starter", "TEN"},
    std::array<std::string_view, 4>{"GR33", "the yeast crop falls as wort gets stronger",
                                    "the strongest wort of a starter", "SUI"},
    std::array<std::string_view, 4>{
        "GR36", "bound while fermenting: 0.9 to 2.0 billion new cells a gram of sugar, derived",
        "bound of the yield of stirred starters", "SVH BQ2 SUI"},
    std::array<std::string_view, 4>{"SP01", "starter wort near 1.040, 100 g of dry extract a litre",
                                    "usual gravity of a starter", "WYE4"},
};

void add(std::vector<Statement>& all, std::string_view key, std::string_view what,
         std::string_view used_for, std::string_view source) {
    // A figure that is all its source says has the key of its source, which the table has.
    const bool is_source = std::ranges::find(publications, key, &Source::key) != publications.end();
    const bool is_known = std::ranges::find(all, key, &Statement::key) != all.end();
    if (!is_source && !is_known)
        all.push_back(
            {std::string(key), std::string(what), std::string(used_for), std::string(source)});
}

} // namespace

std::span<const Source> sources() noexcept {
    return publications;
}

std::vector<Statement> statements() {
    std::vector<Statement> all;
    for (const auto& [key, what, used_for, source] : others)
        add(all, key, what, used_for, source);
    for (const PitchRate& rate : pitch_rates())
        add(all, rate.key, rate.conditions, "pitching rates", rate.source);
    for (const PackFigure& figure : pack_figures())
        add(all, figure.key, figure.conditions, "cells at packing", figure.source);
    for (const StepLimit& limit : step_limits())
        add(all, limit.key, limit.conditions, "largest growth in one step", limit.source);
    for (const auto material :
         {YeastMaterial::liquid_pack, YeastMaterial::slurry, YeastMaterial::dry_pack,
          YeastMaterial::home_dried, YeastMaterial::sterile_water})
        for (const ViabilityModel& model : viability_models(material))
            add(all, model.key, model.description, "viability in storage", model.source);
    std::ranges::sort(all, {}, &Statement::key);
    return all;
}

} // namespace barmkeep::brewing
