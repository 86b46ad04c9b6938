#include "plugins/cost/cost.hpp"

#include "plugins/cost/exact.hpp"
#include "plugins/cost/sheets.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/plugin/pages.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::cost {
namespace {

using contract::Category;
using plugin::PluginCall;

bool means(const contract::Lot& lot, const std::string& what) {
    try {
        return lot.good == what || parse_lot_code(what) == lot.code;
    } catch (const std::invalid_argument&) {
        return false;
    }
}

/// All lots of concentrate, empty ones too.
std::vector<contract::Lot> concentrate(const PluginCall& call) {
    contract::StockList::Params params;
    params.category = Category::concentrate;
    params.all = true;
    std::vector<contract::Lot> lots;
    for (const auto& shelf : call.call<contract::StockList>(params).shelves)
        lots.insert(lots.end(), shelf.lots.begin(), shelf.lots.end());
    return lots;
}

/// The lots that `what` names, by good.  Throws Error(not_found) if there are none.
std::map<std::string, std::vector<contract::Lot>>
lots_meant(const std::vector<contract::Lot>& all, const std::optional<std::string>& what) {
    std::map<std::string, std::vector<contract::Lot>> lots;
    for (const auto& lot : all)
        if (!what || means(lot, *what))
            lots[lot.good].push_back(lot);
    if (lots.empty())
        throw Error(ErrorKind::not_found, "no_such_concentrate",
                    what ? fmt::format("'{}' is not a lot or a good of canned concentrate.", *what)
                         : "There is no canned concentrate yet.",
                    "List it with: barm stock list --category concentrate", "/what");
    return lots;
}

std::set<LotCode> failed_seals(const std::vector<contract::Lot>& lots) {
    std::set<LotCode> failed;
    for (const auto& lot : lots)
        for (const auto& hold : lot.holds)
            if (hold.kind == contract::HoldKind::seal_failed)
                failed.insert(lot.code);
    return failed;
}

/// Entries by number, each asked for once.
class Journal {
public:
    explicit Journal(const PluginCall& call) : call_{call} {}

    /// The entry that filled a lot.  A lot that is filled again after its entry was undone comes
    /// from the new entry.
    const contract::Entry& filled(const contract::Lot& lot) { return entry(lot.origin); }

    /// The entry that made what is in a lot: a split only moved it from another lot.
    const contract::Entry& made(const contract::Lot& lot) {
        const contract::Entry* entry = &filled(lot);
        while (entry->kind == contract::EntryKind::split) {
            const auto from = std::ranges::find_if(
                entry->lines, [](const contract::Line& line) { return line.quantity.steps < 0; });
            if (from == entry->lines.end())
                break;
            entry = &filled(call_.call<contract::LotShow>({from->lot}));
        }
        return *entry;
    }

    [[nodiscard]] std::map<std::int64_t, contract::Entry> entries() && {
        return std::move(entries_);
    }

private:
    const contract::Entry& entry(std::int64_t number) {
        const auto known = entries_.find(number);
        if (known != entries_.end())
            return known->second;
        return entries_.emplace(number, call_.call<contract::EntryShow>({number})).first->second;
    }

    const PluginCall& call_;
    std::map<std::int64_t, contract::Entry> entries_;
};

/// The batches to value: of the lots with jars on hand; if there are none, of the newest lot.
struct Valued {
    std::vector<Batch> batches;
    std::map<std::int64_t, contract::Entry> origins;
};

void add_batch(Valued& valued, Journal& journal, const contract::Lot& lot,
               std::span<const contract::JarSize> sizes) {
    if (auto batch = batch_of(lot, &journal.filled(lot), sizes)) {
        batch->made_by = journal.made(lot).number;
        valued.batches.push_back(std::move(*batch));
    }
}

Valued value_lots(const PluginCall& call, const std::vector<contract::Lot>& lots,
                  std::span<const contract::JarSize> sizes) {
    Valued valued;
    Journal journal{call};
    for (const auto& lot : lots)
        if (lot.on_hand.steps > 0)
            add_batch(valued, journal, lot, sizes);
    if (valued.batches.empty()) {
        auto counted_lots = lots;
        std::erase_if(counted_lots, [](const contract::Lot& lot) { return !has_cost(lot); });
        const auto newest = std::ranges::max_element(
            counted_lots, {}, [](const contract::Lot& lot) { return lot.code.number(); });
        if (newest != counted_lots.end())
            add_batch(valued, journal, *newest, sizes);
    }
    valued.origins = std::move(journal).entries();
    return valued;
}

void require_extract(const Valued& valued, const std::string& good) {
    if (valued.batches.empty())
        throw Error(ErrorKind::conflict, "no_jars",
                    fmt::format("No jar of {} is left, and no earlier one has a cost.", good),
                    "List the entries with: barm entry list", "/what");
    if (totals_of(valued.batches).extract_mg > 0)
        return;
    const auto& lot = valued.batches.front().lot;
    throw Error(
        ErrorKind::conflict, "extract_unknown",
        fmt::format("The extract in a jar of {} ({}) is not known.", to_text(lot.code), lot.good),
        hint_for(lot.code), "/what");
}

std::int64_t used_of(const PluginCall& call, const std::vector<contract::Lot>& lots, Date today) {
    std::int64_t used = 0;
    for (const auto& lot : lots) {
        contract::EntryList::Params params;
        params.lot = lot.code;
        plugin::each_page<contract::EntryList>(
            call, params, [&](const contract::EntryList::Result& page) {
                used = total(used, used_last_year(page.entries, lot.code, today));
                call.throw_if_cancelled();
            });
    }
    return used;
}

std::vector<std::string> notes_on(const Valued& valued, const std::vector<contract::Lot>& lots) {
    std::vector<std::string> notes{
        "The cost contains only what was entered as used for the jars: no "
        "fuel, no work, no wear of jars and rings."};
    for (const auto& batch : valued.batches)
        if (!batch.extract_mg)
            notes.push_back(fmt::format("{} is left out: its extract is not known. {}",
                                        to_text(batch.lot.code), hint_for(batch.lot.code)));
    for (const auto& lot : lots)
        if (lot.on_hand.steps > 0 && !has_cost(lot))
            notes.push_back(fmt::format("{} is left out: its jars never become shelf stock.",
                                        to_text(lot.code)));
    if (std::ranges::all_of(valued.batches,
                            [](const Batch& batch) { return batch.lot.on_hand.steps == 0; }))
        notes.emplace_back("No jar is left; the figures are those of the newest lot.");
    return notes;
}

} // namespace

void Cost::declare(plugin::Declaration<Cost>& declaration) {
    declaration.method<CostJar>(&Cost::jar);
    declaration.method<CostCompare>(&Cost::compare);
    declaration.sheet<CostJar>(&sheets::jar);
    declaration.sheet<CostCompare>(&sheets::compared);
}

CostJar::Result Cost::jar(const PluginCall& call, const CostJar::Params& params) const {
    const auto meant = lots_meant(concentrate(call), params.what);
    const auto sizes = call.call<contract::EquipmentList>({}).jars;
    const auto goods =
        plugin::all_pages<contract::GoodList>(call, {}, &contract::GoodList::Result::all);
    CostJar::Result result;
    result.currency = call.call<contract::CellarShow>({}).currency;
    result.gravity = params.gravity;
    for (const auto& [good, lots] : meant) {
        const auto valued = value_lots(call, lots, sizes);
        if (params.what)
            require_extract(valued, good);
        if (valued.batches.empty())
            continue;
        result.goods.push_back(cost_of(valued.batches, params.gravity));
        result.goods.back().parts = parts_of(valued.batches, valued.origins, goods);
    }
    return result;
}

CostCompare::Result Cost::compare(const PluginCall& call, const CostCompare::Params& params) const {
    const auto all = concentrate(call);
    const auto meant = lots_meant(all, params.what);
    if (meant.size() > 1)
        throw Error(ErrorKind::params, "which_concentrate",
                    "There are several goods of canned concentrate.",
                    "Name a good or a lot, as listed by: barm stock list --category concentrate",
                    "/what");
    const auto& lots = meant.begin()->second;
    const auto sizes = call.call<contract::EquipmentList>({}).jars;
    const auto goods =
        plugin::all_pages<contract::GoodList>(call, {}, &contract::GoodList::Result::all);
    auto valued = value_lots(call, lots, sizes);
    require_extract(valued, lots.front().good);
    const auto notes = notes_on(valued, lots);
    std::erase_if(valued.batches, [](const Batch& batch) { return !batch.extract_mg; });
    const auto glance = call.call<contract::CellarGlance>({});
    const Totals known = totals_of(valued.batches);
    const auto cost = cost_of(valued.batches, brewing::Gravity::sg(1.040));

    CostCompare::Result result;
    result.currency = glance.cellar.currency;
    result.good = cost.good;
    result.jars = known.jars;
    result.jar = cost.jar;
    result.extract = *cost.extract / static_cast<double>(known.jars);
    result.per_100g = *cost.per_100g;
    result.parts = parts_of(valued.batches, valued.origins, goods);
    result.lost = lost_of(valued.batches, valued.origins, failed_seals(all));
    result.used_last_year = used_of(call, lots, glance.today);
    const auto prices =
        plugin::all_pages<contract::PriceList>(call, {}, &contract::PriceList::Result::prices);
    for (const auto& can : cans_known(prices, goods, glance.shelves, sizes, params.can))
        result.cans.push_back(compare_can(can, known, result.used_last_year));
    result.notes = notes;
    return result;
}

} // namespace barmkeep::cost
