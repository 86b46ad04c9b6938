#include "plugins/canning/trace.hpp"

#include <algorithm>
#include <set>

namespace barmkeep::canning {
namespace {

using contract::Entry;
using contract::EntryKind;

/// What an entry changed in a lot, in steps.
std::int64_t change_of(const Entry& entry, const LotCode& lot) {
    std::int64_t change = 0;
    for (const auto& line : entry.lines)
        if (line.lot == lot)
            change += line.quantity.steps;
    return change;
}

template <class T>
void add_once(std::vector<T>& all, const T& one) {
    if (std::ranges::find(all, one) == all.end())
        all.push_back(one);
}

class Tracer {
public:
    explicit Tracer(const Journal& journal) : journal_{journal} {}

    Trail from(const LotCode& lot) {
        back(lot, 0);
        seen_.erase(lot);
        on(lot, 0);
        std::ranges::stable_sort(trail_.lots, {}, &TracedLot::steps);
        std::ranges::stable_sort(trail_.uses, {}, &TracedUse::entry);
        return std::move(trail_);
    }

private:
    const std::vector<Entry>& entries(const LotCode& lot) {
        auto found = read_.find(lot);
        if (found == read_.end()) {
            auto all = journal_.entries(lot);
            std::erase_if(all, [](const Entry& entry) {
                return entry.corrected_by || entry.kind == EntryKind::corrected;
            });
            found = read_.emplace(lot, std::move(all)).first;
        }
        return found->second;
    }

    void back(const LotCode& lot, std::int64_t steps) {
        if (!seen_.insert(lot).second)
            return;
        TracedLot traced{journal_.lot(lot), steps, std::nullopt};
        for (const Entry& entry : entries(lot)) {
            if (entry.kind != EntryKind::converted || change_of(entry, lot) <= 0)
                continue;
            traced.run = journal_.run(entry);
            note_run(traced.run);
            for (const auto& line : entry.lines)
                if (line.quantity.steps < 0)
                    back(line.lot, steps - 1);
        }
        trail_.lots.push_back(std::move(traced));
    }

    void on(const LotCode& lot, std::int64_t steps) {
        if (!seen_.insert(lot).second)
            return;
        for (const Entry& entry : entries(lot)) {
            const std::int64_t change = change_of(entry, lot);
            if (change >= 0)
                continue;
            if (entry.kind == EntryKind::converted)
                follow(entry, steps);
            else
                note_use(entry, lot, change);
        }
    }

    void follow(const Entry& entry, std::int64_t steps) {
        const auto run = journal_.run(entry);
        note_run(run);
        for (const auto& line : entry.lines)
            if (line.quantity.steps > 0 && !seen_.contains(line.lot)) {
                trail_.lots.push_back({journal_.lot(line.lot), steps + 1, run});
                on(line.lot, steps + 1);
            }
    }

    void note_use(const Entry& entry, const LotCode& lot, std::int64_t change) {
        const auto line = std::ranges::find(entry.lines, lot, &contract::Line::lot);
        trail_.uses.push_back({lot, entry.sequence, entry.kind, entry.day,
                               Amount{-change, line->quantity.measure}, entry.brew, entry.memo});
        if (entry.brew)
            add_once(trail_.brews, *entry.brew);
    }

    void note_run(const std::optional<std::int64_t>& run) {
        if (run)
            add_once(trail_.runs, *run);
    }

    const Journal& journal_;
    std::map<LotCode, std::vector<Entry>> read_;
    std::set<LotCode> seen_;
    Trail trail_;
};

} // namespace

Trail trail_of(const LotCode& lot, const Journal& journal) {
    return Tracer{journal}.from(lot);
}

void merge(Trail& into, Trail from) {
    for (auto& traced : from.lots) {
        const auto same = [&](const TracedLot& one) {
            return one.lot.code == traced.lot.code;
        };
        if (std::ranges::none_of(into.lots, same))
            into.lots.push_back(std::move(traced));
    }
    for (auto& use : from.uses) {
        const auto same = [&](const TracedUse& one) {
            return one.entry == use.entry && one.lot == use.lot;
        };
        if (std::ranges::none_of(into.uses, same))
            into.uses.push_back(std::move(use));
    }
    for (const auto run : from.runs)
        add_once(into.runs, run);
    for (const auto brew : from.brews)
        add_once(into.brews, brew);
    std::ranges::stable_sort(into.lots, {}, &TracedLot::steps);
}

} // namespace barmkeep::canning
