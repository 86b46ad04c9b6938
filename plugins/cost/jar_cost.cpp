#include "plugins/cost/jar_cost.hpp"

#include "plugins/cost/exact.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/extract.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <fmt/format.h>

namespace barmkeep::cost {
namespace {

using brewing::Mass;
using brewing::milligram;

constexpr std::int64_t milligrams_in_100g = 100'000;

std::int64_t whole_milligrams(Mass mass) {
    return std::llround(mass.in(milligram));
}

Mass as_grams(std::int64_t milligrams) {
    return static_cast<double>(milligrams) * milligram;
}

std::optional<brewing::Volume> fill_of(const contract::Facts& facts,
                                       std::span<const contract::JarSize> sizes) {
    if (facts.fill || !facts.jar)
        return facts.fill;
    const auto size = std::ranges::find(sizes, *facts.jar, &contract::JarSize::name);
    if (size == sizes.end())
        return std::nullopt;
    return size->fill;
}

/// What holds a lot, in words; nothing if it is free.
std::optional<std::string> why_held(const contract::Lot& lot) {
    std::string why;
    for (const contract::Hold& hold : lot.holds)
        why += (why.empty() ? "" : "; ") + std::string(contract::meaning_of(hold.kind));
    if (why.empty() && lot.kept != contract::Keeping::shelf)
        why = "kept in the " + std::string(to_string(lot.kept));
    return why.empty() ? std::nullopt : std::optional{why};
}

LotCost row_of(const Batch& batch) {
    LotCost row;
    row.held = why_held(batch.lot);
    row.lot = batch.lot.code;
    row.jars = batch.jars;
    row.is_empty = batch.lot.on_hand.steps == 0;
    row.value = batch.value;
    row.jar = scaled(batch.value, 1, batch.jars);
    if (batch.extract_mg) {
        row.extract = as_grams(*batch.extract_mg);
        row.per_100g =
            scaled(row.value, milligrams_in_100g, product(*batch.extract_mg, batch.jars));
    } else {
        row.note = "Its extract is not known. " + hint_for(batch.lot.code);
    }
    return row;
}

} // namespace

bool has_cost(const contract::Lot& lot) {
    return std::ranges::none_of(lot.holds, [](const contract::Hold& hold) {
        return contract::end_of(hold.kind) == contract::HoldEnd::never;
    });
}

std::string hint_for(const LotCode& lot) {
    return fmt::format("Measure the gravity and the fill of one jar, and enter them with: barm lot "
                       "change {} --gravity 1.090 --fill '420 mL' --reason measured",
                       to_text(lot));
}

std::optional<std::int64_t> extract_in_one(const contract::Facts& facts,
                                           std::span<const contract::JarSize> sizes,
                                           std::string_view whose) {
    try {
        const auto fill = fill_of(facts, sizes);
        std::int64_t milligrams = 0;
        if (facts.gravity && fill)
            milligrams = whole_milligrams(brewing::extract_in({*fill, *facts.gravity}));
        else if (facts.extract)
            milligrams = whole_milligrams(*facts.extract);
        if (milligrams <= 0)
            return std::nullopt;
        return milligrams;
    } catch (const brewing::OutOfRange& error) {
        throw Error(
            ErrorKind::conflict, "facts_out_of_range",
            fmt::format("The gravity or fill of {} cannot be right: {}", whose, error.what()),
            "Correct it with barm lot change, barm good change or barm price set.");
    }
}

std::optional<Batch> batch_of(const contract::Lot& lot, const contract::Entry* origin,
                              std::span<const contract::JarSize> sizes) {
    if (!has_cost(lot) || (origin != nullptr && origin->kind == contract::EntryKind::recounted))
        return std::nullopt;
    Batch batch{lot, lot.on_hand.steps, lot.value,
                extract_in_one(lot.facts, sizes, to_text(lot.code)),
                origin != nullptr ? origin->number : lot.origin};
    if (batch.jars > 0)
        return batch;
    if (origin == nullptr)
        return std::nullopt;
    const auto line = std::ranges::find(origin->lines, lot.code, &contract::Line::lot);
    if (line == origin->lines.end() || line->quantity.steps <= 0)
        return std::nullopt;
    batch.jars = line->quantity.steps;
    batch.value = line->value;
    return batch;
}

Totals totals_of(std::span<const Batch> batches) {
    Totals known;
    for (const auto& batch : batches)
        if (batch.extract_mg) {
            known.jars = total(known.jars, batch.jars);
            known.extract_mg = total(known.extract_mg, product(*batch.extract_mg, batch.jars));
            known.value = sum(known.value, batch.value);
        }
    return known;
}

GoodCost cost_of(std::span<const Batch> batches, brewing::Gravity starter) {
    assert(!batches.empty());
    GoodCost cost;
    cost.good = batches.front().lot.good;
    for (const auto& batch : batches) {
        cost.jars = total(cost.jars, batch.jars);
        cost.value = sum(cost.value, batch.value);
        cost.lots.push_back(row_of(batch));
    }
    cost.jar = scaled(cost.value, 1, cost.jars);
    const Totals known = totals_of(batches);
    if (known.extract_mg == 0)
        return cost;
    const auto in_a_litre = whole_milligrams(brewing::extract_in({1.0 * brewing::litre, starter}));
    cost.extract = as_grams(known.extract_mg);
    cost.per_gram = scaled(known.value, 1000, known.extract_mg);
    cost.per_100g = scaled(known.value, milligrams_in_100g, known.extract_mg);
    cost.per_litre = scaled(known.value, in_a_litre, known.extract_mg);
    return cost;
}

} // namespace barmkeep::cost
