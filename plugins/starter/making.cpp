#include "plugins/starter/making.hpp"

#include "sdk/brewing/units.hpp"
#include "sdk/plugin/together.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using contract::StockUse;
using plugin::Together;

StockUse::Params use(std::string what, const AmountGiven& amount, const Made& made) {
    StockUse::Params params;
    params.what = std::move(what);
    params.amount = amount;
    params.brew = made.plan.brew;
    params.memo = fmt::format("starter {}", made.number);
    return params;
}

void refuse_missing_jars(const Step& step) {
    if (!step.extract_missing)
        return;
    throw Error(ErrorKind::not_enough, "not_enough_concentrate",
                fmt::format("The jars that may be opened lack {} of extract for {} of starter.",
                            print(*step.extract_missing, brewing::System::metric),
                            print(step.wort, brewing::System::metric)),
                "Ask for less wort (--wort), name other jars (--concentrate), or can more.",
                "/wort");
}

/// The jars and the nutrient of a step.
void add_step(Together& writes, const Step& step, const Made& made,
              const std::optional<std::string>& nutrient) {
    refuse_missing_jars(step);
    for (const auto& jars : step.jars)
        writes.add<StockUse>(use(to_text(jars.lot), AmountGiven{pieces(jars.jars)}, made));
    if (!nutrient)
        return;
    if (!step.nutrient)
        throw Error(ErrorKind::conflict, "no_dose",
                    "How much nutrient a litre of starter takes is not set.",
                    "Set nutrient_per_litre in the settings of the plugin starter, by the "
                    "nutrient's label; or leave --nutrient out.",
                    "/nutrient");
    writes.add<StockUse>(use(*nutrient, AmountGiven{amount_of(*step.nutrient)}, made));
}

contract::RecordPut::Params record_of(const Made& made, std::int64_t expected) {
    contract::RecordPut::Params put;
    put.collection = collection;
    put.name = record_name(made.number);
    put.document = to_json(made).as_object();
    put.expected = expected;
    return put;
}

} // namespace

std::string record_name(std::int64_t number) {
    return fmt::format("{:08}", number);
}

Made made_of(const contract::Record& record) {
    try {
        // A record written by a newer version may say more than this one knows.
        return decode<Made>(record.document);
    } catch (const Error& error) {
        throw Error(
            ErrorKind::internal, "record_not_understood",
            fmt::format("The record of starter {} cannot be read: {}", record.name, error.what()));
    }
}

contract::LedgerTogether::Params writes_of_making(std::int64_t number, const Plan& plan,
                                                  const std::optional<std::string>& nutrient) {
    if (plan.steps.empty())
        throw Error(ErrorKind::conflict, "no_starter_needed",
                    "The yeast has cells enough as it is, so there is no starter to make.",
                    "Say how much wort it shall have (--wort) if you want one all the same.",
                    "/wort");
    const Made made{number, 1, plan};
    Together writes;
    for (const auto& yeast : plan.yeast)
        writes.add<StockUse>(use(to_text(yeast.lot), AmountGiven{yeast.amount}, made));
    add_step(writes, plan.steps.front(), made, nutrient);
    writes.add<contract::RecordPut>(record_of(made, 0));
    return std::move(writes).steps();
}

contract::LedgerTogether::Params writes_of_feeding(const Made& before, std::int64_t version,
                                                   const std::optional<std::string>& concentrate,
                                                   const std::optional<std::string>& nutrient,
                                                   const Scene& scene, const Settings& settings) {
    Made made = before;
    const auto next = static_cast<std::size_t>(made.steps_made);
    if (next >= made.plan.steps.size())
        throw Error(ErrorKind::conflict, "no_step_left",
                    fmt::format("All {} steps of starter {} are made.", made.plan.steps.size(),
                                made.number),
                    "Plan another starter if it needs more cells.", "/number");
    Step& step = made.plan.steps[next];
    auto stock = jars_on_shelf(scene.shelves, concentrate, scene.taking());
    fill_step(step, stock, scene, settings);
    made.plan.warnings = jar_warnings(step, scene);
    ++made.steps_made;
    Together writes;
    add_step(writes, step, made, nutrient);
    writes.add<contract::RecordPut>(record_of(made, version));
    return std::move(writes).steps();
}

Taken taken_of(const contract::LedgerTogether::Result& written) {
    // The record is the last step, after what was taken from the shelf.
    const std::size_t uses = std::max<std::size_t>(1, written.results.size()) - 1;
    Taken taken;
    for (std::size_t i = 0; i < uses; ++i) {
        const auto posted = Together::result<StockUse>(written, i);
        taken.entries.push_back(posted.entry);
        taken.lines.insert(taken.lines.end(), posted.lines.begin(), posted.lines.end());
    }
    taken.starter = made_of(Together::result<contract::RecordPut>(written, uses));
    return taken;
}

} // namespace barmkeep::starter
