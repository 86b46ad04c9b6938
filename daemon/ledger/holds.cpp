#include "daemon/ledger/holds.hpp"

#include "daemon/ledger/links.hpp"

#include <algorithm>

namespace barmkeep::ledger {
namespace {

using contract::Hold;
using contract::HoldEnd;

/// A kind that this program does not know stays a hold that nobody can end.
contract::HoldKind kind_of(const std::string& word) {
    return from_string<contract::HoldKind>(word).value_or(contract::HoldKind::unknown);
}

} // namespace

std::map<std::int64_t, std::vector<Hold>> holds_of(const View& view,
                                                   const std::vector<std::int64_t>& lots) {
    std::map<std::int64_t, std::vector<Hold>> all;
    std::vector<std::int64_t> numbers;
    view.each(
        "SELECT lot, number, kind, note, at, who, ended_at, ended_by, end_reason FROM hold "
        "WHERE lot IN (SELECT value FROM json_each(?)) ORDER BY number",
        [&](const Row& row) {
            std::int64_t lot = 0;
            std::string kind;
            Hold hold;
            take_row(row, lot, hold.number, kind, hold.note, hold.at, hold.who, hold.ended_at,
                     hold.ended_by, hold.end_reason);
            hold.kind = kind_of(kind);
            numbers.push_back(hold.number);
            all[lot].push_back(std::move(hold));
        },
        number_list(lots));
    if (numbers.empty())
        return all;
    auto links = links_of(view, LinkSource::hold, numbers);
    for (auto& [lot, holds] : all)
        for (Hold& hold : holds)
            hold.about = std::move(links[hold.number]);
    return all;
}

std::int64_t set_hold(Transaction& transaction, const Call& call, std::int64_t lot,
                      const contract::HoldGiven& hold, const contract::Links& about) {
    transaction.run("INSERT INTO hold (lot, kind, note, at, who) VALUES (?, ?, ?, ?, ?)", lot,
                    hold.kind, hold.note, transaction.now(), call.caller.name);
    const std::int64_t number = transaction.last_number();
    add_links(transaction, LinkSource::hold, number, about);
    return number;
}

void end_hold(Transaction& transaction, const Call& call, std::int64_t hold,
              const std::string& reason) {
    transaction.run("UPDATE hold SET ended_at = ?, ended_by = ?, end_reason = ? WHERE number = ?",
                    transaction.now(), call.caller.name, reason, hold);
}

void copy_holds(Transaction& transaction, const Call& call, std::int64_t lot,
                const std::vector<Hold>& holds) {
    for (const Hold& hold : holds) {
        const auto copy = set_hold(transaction, call, lot, {hold.kind, hold.note}, hold.about);
        if (hold.ended_at)
            end_hold(transaction, call, copy, hold.end_reason.value_or(""));
    }
}

std::map<std::int64_t, std::vector<Hold>> releases_of(const View& view,
                                                      const std::vector<std::int64_t>& lots) {
    auto all = holds_of(view, lots);
    for (auto& [lot, holds] : all)
        std::erase_if(holds,
                      [](const Hold& hold) { return !hold.ended_at || !is_remembered(hold.kind); });
    return all;
}

std::string holds_text(const std::vector<Hold>& holds) {
    std::string text;
    for (const Hold& hold : holds)
        text += (text.empty() ? "" : "; ") + std::string(meaning_of(hold.kind)) + " (" + hold.note +
                ")";
    return text;
}

std::string way_out(const LotCode& lot, const std::vector<Hold>& holds) {
    const auto any = [&](HoldEnd end) {
        return std::any_of(holds.begin(), holds.end(),
                           [&](const Hold& hold) { return end_of(hold.kind) == end; });
    };
    if (any(HoldEnd::never))
        return "It never becomes shelf stock. Throw it out, unless it was kept cold and its days "
               "are "
               "not over. Enter that with: barm stock discard " +
               to_text(lot);
    if (any(HoldEnd::by_process))
        return "Take another lot. If you know how and when it was canned, enter that with: barm "
               "lot "
               "vouch " +
               to_text(lot);
    return "Take another lot. If you have decided that it may be used, release it with: barm lot "
           "release " +
           to_text(lot);
}

} // namespace barmkeep::ledger
