#include "plugins/canning/sheets/parts.hpp"

#include <cmath>

namespace barmkeep::canning::sheets {

sheet::Count jars_of(std::int64_t number, std::string_view size) {
    std::string noun(size);
    if (!noun.ends_with("jar"))
        noun += " jar";
    return sheet::count(number, noun);
}

sheet::Count jars_in(const Amount& pieces) {
    return sheet::count(pieces.steps, "jar");
}

std::string_view words_of(Phase phase) {
    switch (phase) {
    case Phase::filling:
        return "filling the jars";
    case Phase::venting:
        return "venting";
    case Phase::pressurising:
        return "coming up to pressure";
    case Phase::at_pressure:
        return "at pressure";
    case Phase::cooling:
        return "cooling";
    case Phase::seal_test:
        return "waiting for the seal test";
    case Phase::shelved:
        return "seals tested";
    case Phase::abandoned:
        break;
    }
    return "abandoned";
}

std::string_view words_of(Step step) {
    switch (step) {
    case Step::steam_flows:
        return "steam flows freely";
    case Step::weight_on:
        return "weight on";
    case Step::heat_off:
        return "heat off";
    case Step::heat_on:
        return "heat on again";
    case Step::forced_cooling:
        return "cooled by force";
    case Step::opened:
        break;
    }
    return "canner opened";
}

std::string_view words_of(Sign sign) {
    switch (sign) {
    case Sign::swollen_lid:
        return "swollen lid";
    case Sign::unsealed_lid:
        return "unsealed lid";
    case Sign::leaking:
        return "leak";
    case Sign::dried_streaks:
        return "dried streaks";
    case Sign::rising_bubbles:
        return "rising bubbles";
    case Sign::unnatural_colour:
        return "unnatural colour";
    case Sign::spurting:
        return "spurting liquid";
    case Sign::off_odour:
        return "off odour";
    case Sign::mould:
        return "mould";
    case Sign::hissing:
        return "hissing";
    case Sign::other:
        break;
    }
    return "another sign";
}

Text codes(const std::vector<LotCode>& lots) {
    std::vector<Text> all;
    for (const LotCode& lot : lots)
        all.push_back(text(lot));
    return sheet::listed(all);
}

brewing::GaugePressure to_reach(brewing::GaugePressure pressure) {
    constexpr double per_kilopascal = 10; // no gauge is read finer
    constexpr double tolerance = 1e-6;    // of a conversion, not of the brewer
    const double size = pressure.in(brewing::kilopascal_gauge)*per_kilopascal;
    return std::ceil(size - tolerance) / per_kilopascal * brewing::kilopascal_gauge;
}

sheet::Table card_table(const std::vector<CardLine>& card) {
    using sheet::Align;
    using sheet::column;
    sheet::Table table;
    table.title = text("Weigh into each jar");
    table.columns = {column("jars"), column("lot"), column("extract", Align::right),
                     column("water", Align::right), column("nutrient", Align::right)};
    for (const CardLine& line : card) {
        Text jars = text(sheet::number(static_cast<double>(line.first)));
        if (line.last > line.first)
            jars.append(" to ").append(sheet::number(static_cast<double>(line.last)));
        table.rows.push_back(sheet::row(jars, line.lot, line.extract,
                                        line.water ? text(*line.water) : Text{},
                                        line.nutrient ? text(*line.nutrient) : Text{}));
    }
    return table;
}

Text holds_of(const contract::Lot& lot) {
    std::vector<Text> reasons;
    for (const contract::Hold& hold : lot.holds)
        reasons.push_back(hold.note.empty()
                              ? text(contract::meaning_of(hold.kind))
                              : text(contract::meaning_of(hold.kind), " (", hold.note, ")"));
    return sheet::listed(reasons);
}

Text why_not(const contract::Lot& lot) {
    Text why = holds_of(lot);
    if (lot.kept != contract::Keeping::shelf) {
        why.append(why.empty() ? "kept in the " : "; kept in the ").append(to_string(lot.kept));
        if (lot.best_by)
            why.append(" until ").append(*lot.best_by);
        why.append(", never for the shelf");
    } else if (why.empty() && lot.available.steps + lot.reserved.steps < lot.on_hand.steps) {
        why = lot.best_by ? text("past its best-by day, ", *lot.best_by) : text("not available");
    }
    return why;
}

void add_past(SheetBuilder& made, const contract::Lot& lot) {
    if (lot.facts.process_note)
        made.warning("short_process", lot.code, ": its process is ", *lot.facts.process_note, ".");
    for (const contract::Hold& hold : lot.released)
        made.warning("released", lot.code,
                     ": released in spite of: ", contract::meaning_of(hold.kind), " (", hold.note,
                     "). Reason: ", hold.end_reason.value_or("none given"), ".");
}

sheet::Table lots_table(const std::vector<contract::Lot>& lots) {
    using sheet::Align;
    using sheet::column;
    sheet::Table table;
    table.columns = {column("lot"), column("jars", Align::right), column("best by"),
                     column("not to use, because")};
    for (const contract::Lot& lot : lots) {
        const Text why = why_not(lot);
        // A day beside the reason would read as if the jars were good until then.
        const Text best_by = why.empty() && lot.best_by ? text(*lot.best_by) : Text{};
        table.rows.push_back(sheet::row(
            lot.code, sheet::number(static_cast<double>(lot.on_hand.steps)), best_by, why));
    }
    return table;
}

void add_process_note(SheetBuilder& made, const std::optional<std::string>& note) {
    if (note)
        made.warning("short_process", "Your process is ", *note, ".");
}

void add_warnings(SheetBuilder& made, std::string_view key,
                  const std::vector<std::string>& warnings) {
    for (const std::string& warning : warnings)
        made.warning(std::string(key), warning);
}

void add_here(SheetBuilder& made, const std::vector<Caution>& all,
              std::initializer_list<std::string_view> keys) {
    const std::vector<std::string_view> here(keys);
    made.cautions(all, here);
    // An answer from which one was left out must not be silent about this step.
    for (const Caution& caution : contract::all_cautions()) {
        const auto is_it = [&](const auto& other) {
            return other.key == caution.key;
        };
        const bool is_wanted =
            std::any_of(here.begin(), here.end(), [&](auto key) { return key == caution.key; });
        if (is_wanted && std::none_of(all.begin(), all.end(), is_it))
            made.caution(caution.key, caution.text, true);
    }
}

} // namespace barmkeep::canning::sheets
