#include "plugins/starter/sheets/parts.hpp"

#include "sdk/brewing/units.hpp"
#include "sdk/contract/safety.hpp"
#include "sdk/sheet/source_words.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <set>

namespace barmkeep::starter::sheets {

using sheet::Align;
using sheet::column;
using sheet::Fact;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// Less than this left in a jar is what sticks to the glass.
constexpr brewing::Volume least_left = 1.0 * brewing::millilitre;

Text vessel_text(const Plan& plan) {
    if (plan.flask)
        return text("flask '", *plan.flask, "'");
    if (plan.vessel)
        return text("a vessel of at least ", *plan.vessel);
    return "the vessel";
}

/// Every jar is emptied, or of the last lot only a part is poured.
Text pour_text(const Step& step) {
    for (const JarsOpened& jars : step.jars)
        if (jars.left >= least_left)
            return step.jars.size() == 1
                       ? text("pour ", jars.poured)
                       : text("pour ", jars.poured, " of ", jars.lot, ", all of the others,");
    return "pour all";
}

Text fill_step_text(const Plan& plan, const Step& step) {
    if (step.jars.empty())
        return step.extract_missing ? text("Get other wort: no jar is available, and ",
                                           *step.extract_missing, " of extract is needed.")
                                    : text("Make ", step.wort, " of wort at ", step.gravity, ".");
    Text whole = text("Open ", jars_text(step), "; ", pour_text(step));
    if (step.water)
        whole.append(" and ").append(*step.water).append(" of water");
    if (step.nutrient)
        whole.append(", with ").append(*step.nutrient).append(" of nutrient,");
    whole.append(" into ").append(vessel_text(plan));
    if (step.extract_missing)
        return whole.append(". ").append(*step.extract_missing).append(" of extract is missing.");
    return whole.append(": ").append(step.wort).append(" at ").append(step.gravity).append(".");
}

Text pitch_step_text(const Plan& plan, bool is_first) {
    Text whole = text("Boil it, let it cool, and add ");
    if (is_first) {
        std::vector<Text> packs;
        for (const LivingYeast& yeast : plan.yeast)
            packs.push_back(yeast_text(yeast));
        whole.append(packs.empty() ? Text("the yeast") : listed(packs));
    } else {
        whole.append("it to the yeast");
    }
    return whole.append(plan.stirred ? "; stir it." : ".");
}

sheet::Table yeast_table(const Plan& plan) {
    sheet::Table table{{column("yeast"), column("amount", Align::right),
                        column("age", Align::right, 2), column("alive", Align::right, 2),
                        column("living cells")},
                       {},
                       Text("Yeast")};
    for (const LivingYeast& yeast : plan.yeast)
        table.rows.push_back(
            sheet::row(text(yeast.lot, " ", yeast.good), amount_of_yeast(yeast.amount),
                       yeast.age_days ? text(sheet::count(*yeast.age_days, "day")) : Text{},
                       yeast.alive ? text(sheet::share(yeast.alive->likely)) : Text{},
                       yeast.cells ? cells_with_sources(*yeast.cells) : Text{}));
    return table;
}

sheet::Table growth_table(const Plan& plan) {
    sheet::Table table{{column("step"), column("wort", Align::right),
                        column("gravity", Align::right, 2), column("extract", Align::right, 3),
                        column("at the start"), column("at the end")},
                       {},
                       Text("Growth")};
    std::size_t number = 0;
    for (const Step& step : plan.steps)
        table.rows.push_back(sheet::row(std::to_string(++number), step.wort, step.gravity,
                                        step.extract, step.before, step.after));
    return table;
}

} // namespace

sheet::Run amount_of_yeast(const Amount& amount) {
    if (amount.measure != Measure::pieces)
        return amount;
    return sheet::count(amount.steps, "pack");
}

Text yeast_text(const LivingYeast& yeast) {
    return text(amount_of_yeast(yeast.amount), " of ", yeast.lot, " (", yeast.good, ")");
}

Text purpose(const Plan& plan) {
    return plan.brew
               ? text("brew day ", std::to_string(*plan.brew))
               : text(plan.volume, " of ", std::string(to_string(plan.beer)), " at ", plan.gravity);
}

Text jars_text(const Step& step) {
    std::vector<Text> lots;
    for (const JarsOpened& jars : step.jars) {
        Text one = text(sheet::count(jars.jars, "jar"), " of ", jars.lot);
        if (jars.held)
            one.append(" (NOT SHELF STOCK: " + *jars.held + ")");
        lots.push_back(std::move(one));
    }
    return sheet::listed(lots);
}

std::int64_t jars_in(const std::vector<Step>& steps) {
    std::int64_t all = 0;
    for (const Step& step : steps)
        for (const JarsOpened& jars : step.jars)
            all += jars.jars;
    return all;
}

std::vector<sheet::Step> recipe(const Plan& plan, std::size_t index, Text when,
                                sheet::StepState state) {
    const Step& step = plan.steps.at(index);
    const bool is_first = index == 0;
    const bool waits = !is_first && state != sheet::StepState::now;
    Text fill = waits ? Text("When the yeast has grown: ") : Text{};
    Text filled = fill_step_text(plan, step);
    if (waits)
        if (auto* verb = std::get_if<std::string>(&filled.runs.front().value); !verb->empty())
            verb->front() =
                static_cast<char>(std::tolower(static_cast<unsigned char>(verb->front())));
    fill.append(filled);
    return {sheet::Step{std::move(fill), std::move(when), state, {}},
            sheet::Step{pitch_step_text(plan, is_first), {}, sheet::StepState::later, {}}};
}

Text cells_with_sources(const Range<brewing::Cells>& cells) {
    Text whole = text(cells);
    if (const Text said = sheet::source_words(cells.sources); !said.empty())
        whole.append(" ").append(said);
    return whole;
}

void add_releases(SheetBuilder& made, const std::vector<contract::UsedDespite>& despite) {
    for (const contract::UsedDespite& one : despite) {
        Text said = text(one.lot, " was on hold: ", meaning_of(one.hold.kind));
        if (!one.hold.note.empty())
            said.append(" (" + one.hold.note + ")");
        made.warning("released_hold", said,
                     ". Released with this reason: ", one.hold.end_reason.value_or("none given"));
    }
}

void add_warnings(SheetBuilder& made, const std::vector<std::string>& warnings) {
    std::set<std::string_view> said;
    for (const std::string& warning : warnings)
        if (said.insert(warning).second)
            made.warning("", sheet::cited(warning));
}

void add_cautions(SheetBuilder& made, const std::vector<std::string>& cautions,
                  const std::vector<std::string_view>& here) {
    const auto known = contract::cautions(contract::Moment::opening);
    for (const std::string& whole : cautions) {
        const auto row = std::ranges::find(known, whole, &contract::Caution::text);
        const std::string key = row == known.end() ? "" : row->key;
        made.caution(key, Text(whole), std::ranges::find(here, key) != here.end());
    }
}

SheetBuilder reasons(const Plan& plan) {
    SheetBuilder made;
    made.facts({Fact{"to pitch", text(plan.volume, " of ", std::string(to_string(plan.beer)),
                                      " at ", plan.gravity)},
                Fact{"cells now", cells_with_sources(plan.cells_now)},
                Fact{"cells needed", cells_with_sources(plan.cells_needed)},
                Fact{"reckoned with", text(plan.target, ": ", sheet::cited(plan.target_reason))},
                Fact{"at the end", cells_with_sources(plan.cells_end)},
                Fact{"growth", sheet::cited(plan.growth_model)},
                Fact{"most in a step", text(sheet::number(plan.max_fold, 1),
                                            "-fold: ", sheet::cited(plan.max_fold_reason))}});
    made.table(yeast_table(plan));
    made.table(growth_table(plan));
    for (const LivingYeast& yeast : plan.yeast)
        for (const std::string& note : yeast.notes)
            made.line(yeast.lot, ": ", sheet::cited(note));
    return made;
}

sheet::Table jars_table(const std::vector<Step>& steps) {
    sheet::Table table{{column("step"), column("lot"), column("good", Align::left, 3),
                        column("jars", Align::right), column("gravity", Align::right, 2),
                        column("in a jar", Align::right, 2), column("pour", Align::right),
                        column("left over", Align::right, 2), column("extract", Align::right, 3)},
                       {},
                       {}};
    std::size_t number = 0;
    for (const Step& step : steps) {
        ++number;
        for (const JarsOpened& jars : step.jars)
            table.rows.push_back(sheet::row(
                std::to_string(number), jars.lot, jars.good,
                sheet::number(static_cast<double>(jars.jars)), jars.gravity, jars.fill, jars.poured,
                jars.left >= least_left ? text(jars.left) : Text{}, jars.extract));
    }
    return table;
}

void add_topics(SheetBuilder& made) {
    for (const std::string_view topic : {"lot.", "entry.", "brew.", "record.", "good."})
        made.topic(std::string(topic));
}

} // namespace barmkeep::starter::sheets
