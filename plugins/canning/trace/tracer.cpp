#include "plugins/canning/trace/tracer.hpp"

#include <algorithm>
#include <map>

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

/// The run that an entry belongs to.
std::optional<std::int64_t> run_of(const Entry& entry) {
    return contract::linked(entry.about, "canning.run");
}

class Tracer {
public:
    explicit Tracer(const Journal& journal) : journal_{journal} {}

    LotTrace from(const LotCode& lot) {
        back(lot, 0);
        on(lot, 0);
        for (const auto& [code, found] : found_)
            trace_.lots.push_back({journal_.lot(code), found.steps, found.run});
        std::ranges::stable_sort(trace_.lots, {}, &TracedLot::steps);
        std::ranges::stable_sort(trace_.uses, {}, &TracedUse::entry);
        return std::move(trace_);
    }

private:
    struct Found {
        std::int64_t steps = 0;
        std::optional<std::int64_t> run; ///< that made it
    };

    const std::vector<Entry>& entries(const LotCode& lot) {
        auto found = read_.find(lot);
        if (found == read_.end()) {
            auto all = journal_.entries(lot);
            std::erase_if(all, [](const Entry& entry) {
                return entry.undone_by || entry.kind == EntryKind::undone;
            });
            found = read_.emplace(lot, std::move(all)).first;
        }
        return found->second;
    }

    /// Whether a lot was not met yet, or only nearer.
    bool is_farther(const LotCode& lot, std::int64_t steps) {
        const auto [found, is_new] = found_.try_emplace(lot, Found{steps, std::nullopt});
        if (!is_new && std::abs(steps) <= std::abs(found->second.steps))
            return false;
        found->second.steps = steps;
        return true;
    }

    void back(const LotCode& lot, std::int64_t steps) {
        if (!is_farther(lot, steps))
            return;
        for (const Entry& entry : entries(lot)) {
            const bool makes = entry.kind == EntryKind::converted || entry.kind == EntryKind::split;
            if (!makes || change_of(entry, lot) <= 0)
                continue;
            note_run(lot, run_of(entry));
            for (const auto& line : entry.lines)
                if (line.quantity.steps < 0)
                    back(line.lot, steps - 1);
        }
    }

    void on(const LotCode& lot, std::int64_t steps) {
        if (steps != 0 && !is_farther(lot, steps))
            return;
        for (const Entry& entry : entries(lot)) {
            const std::int64_t change = change_of(entry, lot);
            if (change >= 0)
                continue;
            if (entry.kind == EntryKind::converted || entry.kind == EntryKind::split)
                follow(entry, steps);
            else
                note_use(entry, lot, change);
        }
    }

    void follow(const Entry& entry, std::int64_t steps) {
        for (const auto& line : entry.lines)
            if (line.quantity.steps > 0) {
                on(line.lot, steps + 1);
                note_run(line.lot, run_of(entry));
            }
    }

    void note_use(const Entry& entry, const LotCode& lot, std::int64_t change) {
        const auto is_noted = [&](const TracedUse& use) {
            return use.entry == entry.number && use.lot == lot;
        };
        if (std::ranges::any_of(trace_.uses, is_noted))
            return;
        const auto line = std::ranges::find(entry.lines, lot, &contract::Line::lot);
        trace_.uses.push_back({lot, entry.number, entry.kind, entry.day,
                               Amount{-change, line->quantity.measure}, entry.brew, entry.note});
        if (entry.brew)
            add_once(trace_.brews, *entry.brew);
    }

    void note_run(const LotCode& lot, const std::optional<std::int64_t>& run) {
        if (!run)
            return;
        found_[lot].run = run;
        add_once(trace_.runs, *run);
    }

    const Journal& journal_;
    std::map<LotCode, std::vector<Entry>> read_;
    std::map<LotCode, Found> found_;
    LotTrace trace_;
};

} // namespace

LotTrace trace_of(const LotCode& lot, const Journal& journal) {
    return Tracer{journal}.from(lot);
}

void merge(LotTrace& into, LotTrace from) {
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
