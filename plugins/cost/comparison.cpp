#include "plugins/cost/comparison.hpp"

#include "plugins/cost/exact.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::cost {
namespace {

using contract::Category;
using contract::Entry;
using contract::Good;
using contract::PriceNote;

constexpr std::int64_t milligrams_in_100g = 100'000;

const Good* good_named(std::span<const Good> goods, const std::string& name) {
    const auto found = std::ranges::find(goods, name, &Good::name);
    return found == goods.end() ? nullptr : &*found;
}

std::optional<Can> can_of(const PriceNote& note, std::span<const Good> goods,
                          std::span<const contract::JarSize> sizes) {
    Can can{note.item, note.where, note.day, note.price};
    contract::Facts own;
    own.fill = note.volume;
    own.gravity = note.gravity;
    if (const auto extract = extract_in_one(own, {}, note.item)) {
        can.extract_mg = *extract;
        return can;
    }
    const Good* good = good_named(goods, note.item);
    if (good == nullptr || good->category != Category::bought_can)
        return std::nullopt;
    const auto extract = extract_in_one(good->facts, sizes, note.item);
    if (!extract)
        return std::nullopt;
    can.count = note.pieces.value_or(1);
    can.extract_mg = product(*extract, can.count);
    return can;
}

/// The cans of a good on the shelf, by what was paid for those whose extract is known.
std::optional<Can> can_of(const contract::Shelf& shelf, std::span<const contract::JarSize> sizes) {
    std::vector<Batch> batches;
    for (const auto& lot : shelf.lots)
        if (auto batch = batch_of(lot, nullptr, sizes))
            batches.push_back(std::move(*batch));
    const Totals known = totals_of(batches);
    if (known.extract_mg == 0)
        return std::nullopt;
    return Can{shelf.good, "on the shelf", std::nullopt, known.value, known.extract_mg, known.jars};
}

/// A line that took something out, with its value made positive.
struct Input {
    std::string good;
    std::int64_t worth = 0; ///< millionths
};

std::vector<Input> inputs_of(const Entry& entry) {
    std::vector<Input> inputs;
    for (const auto& line : entry.lines)
        if (line.quantity.steps < 0)
            inputs.push_back({line.good, std::max<std::int64_t>(0, -line.value.millionths)});
    return inputs;
}

const Entry* conversion_of(const Batch& batch, const std::map<std::int64_t, Entry>& origins) {
    const auto origin = origins.find(batch.made_by);
    const bool converted =
        origin != origins.end() && origin->second.kind == contract::EntryKind::converted;
    return converted ? &origin->second : nullptr;
}

/// Jars that came out of a conversion.
struct JarsOut {
    std::int64_t good = 0;
    std::int64_t failed = 0;
};

JarsOut jars_out(const Entry& entry, const std::set<LotCode>& failed) {
    JarsOut jars;
    jars.failed = entry.lost.value_or(0);
    for (const auto& line : entry.lines) {
        if (line.quantity.steps <= 0 || line.quantity.measure != Measure::pieces)
            continue;
        std::int64_t& count = failed.contains(line.lot) ? jars.failed : jars.good;
        count = total(count, line.quantity.steps);
    }
    return jars;
}

void add_parts(std::map<std::string, Money>& by_good, const Batch& batch, const Entry* conversion) {
    const auto inputs = conversion != nullptr ? inputs_of(*conversion) : std::vector<Input>{};
    std::vector<std::int64_t> weights;
    std::int64_t any = 0;
    for (const auto& input : inputs)
        any |= weights.emplace_back(input.worth);
    if (any == 0) { // not made here, or made of things that cost nothing
        by_good[batch.lot.good] = sum(by_good[batch.lot.good], batch.value);
        return;
    }
    const auto shares = split(batch.value, weights);
    for (std::size_t i = 0; i < inputs.size(); ++i)
        by_good[inputs[i].good] = sum(by_good[inputs[i].good], shares[i]);
}

} // namespace

std::vector<Can> cans_known(std::span<const PriceNote> notes, std::span<const Good> goods,
                            std::span<const contract::Shelf> shelves,
                            std::span<const contract::JarSize> sizes,
                            const std::optional<std::string>& only) {
    std::vector<Can> cans;
    for (const auto& note : notes)
        if (!only || note.item == *only)
            if (auto can = can_of(note, goods, sizes))
                cans.push_back(std::move(*can));
    for (const auto& shelf : shelves)
        if (shelf.category == Category::bought_can && (!only || shelf.good == *only))
            if (auto can = can_of(shelf, sizes))
                cans.push_back(std::move(*can));
    if (cans.empty())
        throw Error(ErrorKind::not_found, "no_can_price",
                    only ? fmt::format("No price of '{}' is known with volume and gravity.", *only)
                         : "No price of a bought can is known with volume and gravity.",
                    fmt::format("Enter one with: barm price set '{}' 4.50 --volume '500 mL' "
                                "--gravity 1.080",
                                only.value_or("canned wort")),
                    "/can");
    std::ranges::stable_sort(cans, {}, &Can::item);
    return cans;
}

CanComparison compare_can(const Can& can, const Totals& jars, std::int64_t used) {
    CanComparison row;
    row.item = can.item;
    row.where = can.where;
    row.day = can.day;
    row.price = scaled(can.price, 1, can.count);
    row.extract =
        static_cast<double>(can.extract_mg) / static_cast<double>(can.count) * brewing::milligram;
    row.per_100g = scaled(can.price, milligrams_in_100g, can.extract_mg);
    // What all the jars' extract would cost as cans; one jar is a share of that.
    const Money all = scaled(can.price, jars.extract_mg, can.extract_mg);
    row.same_extract = scaled(all, 1, jars.jars);
    const Money saving = sum(all, -jars.value);
    row.saving_per_jar = scaled(saving, 1, jars.jars);
    row.saving_last_year = scaled(saving, used, jars.jars);
    if (jars.value > Money{})
        row.times = all.units() / jars.value.units();
    return row;
}

std::vector<CostPart> parts_of(std::span<const Batch> batches,
                               const std::map<std::int64_t, Entry>& origins,
                               std::span<const Good> goods) {
    std::map<std::string, Money> by_good;
    std::int64_t jars = 0;
    Money whole;
    for (const auto& batch : batches) {
        add_parts(by_good, batch, conversion_of(batch, origins));
        jars = total(jars, batch.jars);
        whole = sum(whole, batch.value);
    }
    std::vector<CostPart> parts;
    for (const auto& [name, value] : by_good) {
        CostPart part{name, std::nullopt, value, scaled(value, 1, jars)};
        if (const Good* good = good_named(goods, name))
            part.category = good->category;
        if (whole > Money{})
            part.per_mille = scaled({1000}, value.millionths, whole.millionths).millionths;
        parts.push_back(std::move(part));
    }
    std::ranges::stable_sort(parts, std::greater<>{}, &CostPart::value);
    return parts;
}

std::optional<CostLost> lost_of(std::span<const Batch> batches,
                                const std::map<std::int64_t, Entry>& origins,
                                const std::set<LotCode>& failed) {
    CostLost lost;
    std::int64_t jars = 0;
    std::set<std::int64_t> counted; // an entry's failed jars are counted once, whatever it made
    for (const auto& batch : batches) {
        jars = total(jars, batch.jars);
        const Entry* entry = conversion_of(batch, origins);
        if (entry == nullptr)
            continue;
        const JarsOut out = jars_out(*entry, failed);
        if (out.good == 0)
            continue;
        // Of all that were filled, this part failed, and the good ones carry its cost.
        lost.value =
            sum(lost.value, share_of(batch.value, out.failed, total(out.good, out.failed)));
        if (counted.insert(entry->number).second)
            lost.jars = total(lost.jars, out.failed);
    }
    if (counted.empty())
        return std::nullopt;
    lost.jar = scaled(lost.value, 1, jars);
    return lost;
}

std::int64_t used_last_year(std::span<const Entry> entries, const LotCode& lot, Date today) {
    std::int64_t used = 0;
    for (const auto& entry : entries) {
        if (entry.kind != contract::EntryKind::used || entry.undone_by)
            continue;
        // A year ago to the day is out; 29 February has its year begin on 1 March.
        if (entry.day > today || std::chrono::sys_days{entry.day} <=
                                     std::chrono::sys_days{today - std::chrono::years{1}})
            continue;
        for (const auto& line : entry.lines)
            if (line.lot == lot)
                used -= line.quantity.steps;
    }
    return used;
}

} // namespace barmkeep::cost
