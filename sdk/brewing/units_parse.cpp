// The parsers of units.hpp.
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/plato.hpp"
#include "sdk/brewing/unit_text.hpp"
#include "sdk/brewing/units.hpp"

#include <cmath>
#include <limits>

namespace barmkeep::brewing {
namespace {

using unit_text::Term;

constexpr double lowest_sg = 0.98; // all of a strong beer's sugar fermented stays above this
constexpr double highest_sg = 1.6; // solid sugar
constexpr double fewest_bare_cells = 1e6;

const UnitRow& unit_of(std::string_view text, const Term& term, const UnitTable& table) {
    const UnitRow* row = unit_text::find(table, term.word);
    if (row == nullptr)
        unit_text::refuse_word(text, term, table);
    return *row;
}

Term single(std::string_view text, const UnitTable& table) {
    const std::vector<Term> terms = unit_text::split(text, table);
    if (terms.size() > 1)
        throw UnitError{unit_text::in_quotes(text) + " has more than one number",
                        unit_text::hint(table)};
    return terms.front();
}

/// Every later term of `1 lb 4 oz` must be of a smaller unit, without a sign.
void require_descending(std::string_view text, const UnitTable& table, const UnitRow& larger,
                        const UnitRow& smaller, const Term& term) {
    if (!(smaller.canonical_per_unit < larger.canonical_per_unit) || std::signbit(term.count))
        throw UnitError{unit_text::in_quotes(text) +
                            " is not a sum of units from large to small, as 1 lb 4 oz is",
                        unit_text::hint(table)};
}

/// An amount in canonical units.
double amount(std::string_view text, const UnitTable& table) {
    const std::vector<Term> terms = unit_text::split(text, table);
    const UnitRow* before = nullptr;
    double sum = 0.0;
    for (const Term& term : terms) {
        const UnitRow& unit = unit_of(text, term, table);
        if (before != nullptr)
            require_descending(text, table, *before, unit, term);
        const double part = term.count * unit.canonical_per_unit;
        sum += std::signbit(terms.front().count) && before != nullptr ? -part : part;
        before = &unit;
    }
    require_within(table.kind, sum, -std::numeric_limits<double>::max(),
                   std::numeric_limits<double>::max(), table.canonical, "write a smaller number");
    return sum;
}

double amount_not_negative(std::string_view text, const UnitTable& table) {
    const double canonical = amount(text, table);
    require_not_negative(table.kind, canonical, table.canonical);
    return canonical;
}

} // namespace

Mass parse_mass(std::string_view text) {
    return Mass::of_canonical(amount_not_negative(text, unit_table("mass")));
}

Volume parse_volume(std::string_view text) {
    return Volume::of_canonical(amount_not_negative(text, unit_table("volume")));
}

Energy parse_energy(std::string_view text) {
    return Energy::of_canonical(amount_not_negative(text, unit_table("energy")));
}

AbsolutePressure parse_absolute_pressure(std::string_view text) {
    return AbsolutePressure::of_canonical(
        amount_not_negative(text, unit_table("absolute pressure")));
}

GaugePressure parse_gauge_pressure(std::string_view text) {
    return GaugePressure::of_canonical(amount(text, unit_table("gauge pressure")));
}

Length parse_length(std::string_view text) {
    return Length::of_canonical(amount(text, unit_table("length")));
}

TemperatureDifference parse_temperature_difference(std::string_view text) {
    const UnitTable& table = unit_table("temperature difference");
    const Term term = single(text, table);
    return TemperatureDifference::of_canonical(term.count *
                                               unit_of(text, term, table).canonical_per_unit);
}

Temperature parse_temperature(std::string_view text) {
    const UnitTable& table = unit_table("temperature");
    const Term term = single(text, table);
    const UnitRow& scale = unit_of(text, term, table);
    const double celsius = (term.count - scale.zero_at) * scale.canonical_per_unit;
    require_within("temperature", celsius, -273.15, std::numeric_limits<double>::max(), "°C",
                   "nothing is colder than absolute zero");
    return Temperature::celsius(celsius);
}

Gravity parse_gravity(std::string_view text) {
    const UnitTable& table = unit_table("gravity");
    const Term term = single(text, table);
    const bool bare = term.word.empty();
    if (!bare && unit_of(text, term, table).symbol == "°P")
        return gravity_of(Plato::degrees(term.count));
    if (bare && (term.count < 0.9 || term.count > 2.0))
        throw UnitError{unit_text::in_quotes(text) + " is neither a specific gravity nor marked as "
                                                     "degrees Plato",
                        "write a specific gravity as 1.048, or degrees Plato as 12 P"};
    require_within("specific gravity", term.count, lowest_sg, highest_sg, "",
                   "write a specific gravity as 1.048, or degrees Plato as 12 P");
    return Gravity::sg(term.count);
}

Cells parse_cells(std::string_view text) {
    const UnitTable& table = unit_table("cells");
    Term term = single(text, table);
    // "100 billion cells": the last word adds nothing to the unit before it.
    constexpr std::string_view suffix = " cells";
    if (term.word.size() > suffix.size() && term.word.ends_with(suffix))
        term.word.resize(term.word.size() - suffix.size());
    if (term.word.empty() && std::abs(term.count) >= fewest_bare_cells)
        term.word = "cells";
    const double canonical = term.count * unit_of(text, term, table).canonical_per_unit;
    require_not_negative("count of cells", canonical, "B");
    return Cells::of_canonical(canonical);
}

} // namespace barmkeep::brewing
