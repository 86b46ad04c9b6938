#include "daemon/ledger/reminders.hpp"

#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/methods.hpp"
#include "sdk/method/nearest.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Reminder;
using contract::ReminderState;

constexpr std::string_view select_reminders =
    "SELECT name, title, detail, due, state, until, owner FROM reminder ";

Reminder read_reminder(const Row& row) {
    Reminder one;
    take_row(row, one.name, one.title, one.detail, one.due, one.state, one.until, one.owner);
    return one;
}

std::optional<Reminder> find(const View& view, const std::string& name) {
    return view.first(std::string(select_reminders) + "WHERE name = ?", read_reminder, name);
}

Reminder require(const View& view, const std::string& name) {
    auto found = find(view, name);
    if (found)
        return std::move(*found);
    const auto near =
        nearest(name, view.all("SELECT name FROM reminder ORDER BY name", take_one<std::string>));
    throw Error(
        ErrorKind::not_found, "reminder_unknown", "There is no reminder named '" + name + "'.",
        near ? "Did you mean '" + *near + "'?" : "reminder.list shows those there are.", "/name");
}

/// What is kept; the day until which it is put off only where it is.
void keep(Transaction& transaction, const Reminder& one) {
    transaction.run("INSERT INTO reminder (name, title, detail, due, state, until, owner) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (name) DO UPDATE SET "
                    "title = excluded.title, detail = excluded.detail, due = excluded.due, "
                    "state = excluded.state, until = excluded.until",
                    one.name, one.title, one.detail, one.due, one.state, one.until, one.owner);
    transaction.event(contract::Topic::reminder_changed, {{"reminder", one.name}});
}

/// As it stands on a day: once its day has come, a reminder put off is open again.
Reminder on_day(Reminder one, Date today) {
    if (one.state == ReminderState::snoozed && one.until && *one.until <= today) {
        one.state = ReminderState::open;
        one.until.reset();
    }
    return one;
}

Reminder post(Transaction& transaction, const Call& call,
              const contract::ReminderPost::Params& params) {
    const std::string owner = call.caller.plugin.empty() ? call.caller.name : call.caller.plugin;
    Reminder one{params.name,         params.title, params.detail, params.due,
                 ReminderState::open, std::nullopt, owner};
    if (const auto there = find(transaction, params.name)) {
        if (there->title == one.title && there->detail == one.detail && there->due == one.due)
            return on_day(*there, transaction.today());
        one.owner = there->owner;
        if (there->state == ReminderState::snoozed) { // put off by a person: let it be
            one.state = there->state;
            one.until = there->until;
        }
    }
    keep(transaction, one);
    return on_day(one, transaction.today());
}

Reminder mark_done(Transaction& transaction, const Call&,
                   const contract::ReminderDone::Params& params) {
    Reminder one = require(transaction, params.name);
    if (one.state == ReminderState::done)
        return one;
    one.state = ReminderState::done;
    one.until.reset();
    keep(transaction, one);
    return one;
}

Reminder snooze(Transaction& transaction, const Call&,
                const contract::ReminderSnooze::Params& params) {
    Reminder one = require(transaction, params.name);
    if (one.state == ReminderState::done)
        throw Error(ErrorKind::conflict, "reminder_done",
                    "The reminder '" + one.name + "' is done already.", "Nothing to put off.",
                    "/name");
    if (params.until <= transaction.today())
        throw Error(ErrorKind::params, "day_past",
                    to_text(params.until) + " has come already; the reminder is due to show then.",
                    "Name a later day.", "/until");
    one.state = ReminderState::snoozed;
    one.until = params.until;
    keep(transaction, one);
    return one;
}

contract::ReminderClear::Result clear(Transaction& transaction, const Call&,
                                      const contract::ReminderClear::Params& params) {
    if (transaction.run("DELETE FROM reminder WHERE name = ?", params.name) == 0)
        return {false};
    transaction.event(contract::Topic::reminder_cleared, {{"reminder", params.name}});
    return {true};
}

} // namespace

contract::ReminderList::Result list_reminders(const View& view, const Call&,
                                              const contract::ReminderList::Params& params) {
    const Date today = view.today();
    const auto [due, name] = place_after<contract::ReminderList, 2>(params);
    auto reminders =
        view.all(std::string(select_reminders) +
                     "WHERE (?1 OR state = 'open' OR (state = 'snoozed' AND until <= ?2)) "
                     "AND (?3 IS NULL OR (due, name) > (?3, ?4)) ORDER BY due, name LIMIT ?5",
                 read_reminder, std::int64_t{params.all}, today, due, name, params.limit + 1);
    contract::ReminderList::Result result;
    result.next = cut_page<contract::ReminderList>(params, reminders, [](const Reminder& last) {
        return Place<2>{to_text(last.due), last.name};
    });
    for (auto& one : reminders)
        result.reminders.push_back(on_day(std::move(one), today));
    return result;
}

void add_reminders(Methods& methods) {
    methods.writes<contract::ReminderPost>(&post);
    methods.reads<contract::ReminderList>(&list_reminders);
    methods.writes<contract::ReminderDone>(&mark_done);
    methods.writes<contract::ReminderSnooze>(&snooze);
    methods.writes<contract::ReminderClear>(&clear);
}

} // namespace barmkeep::ledger
