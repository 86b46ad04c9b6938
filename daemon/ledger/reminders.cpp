#include "daemon/ledger/reminders.hpp"

#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/links.hpp"
#include "daemon/ledger/methods.hpp"
#include "sdk/method/nearest.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Reminder;
using contract::ReminderState;

constexpr std::string_view select_reminders =
    "SELECT number, name, title, note, due, state, until, cause, every_days, owner "
    "FROM reminder ";

struct Kept {
    std::int64_t number = 0;
    Reminder reminder;
};

Kept read_reminder(const Row& row) {
    Kept kept;
    Reminder& one = kept.reminder;
    take_row(row, kept.number, one.name, one.title, one.note, one.due, one.state, one.until,
             one.cause, one.every_days, one.owner);
    return kept;
}

std::optional<Reminder> find(const View& view, const std::string& name) {
    auto kept = view.first(std::string(select_reminders) + "WHERE name = ?", read_reminder, name);
    if (!kept)
        return std::nullopt;
    kept->reminder.about = links_of(view, LinkSource::reminder, kept->number);
    return std::move(kept->reminder);
}

Reminder require(const View& view, const std::string& name) {
    auto found = find(view, name);
    if (found)
        return std::move(*found);
    const auto near =
        nearest(name, view.all("SELECT name FROM reminder ORDER BY name", take_one<std::string>));
    throw Error(ErrorKind::not_found, "reminder_unknown",
                "There is no reminder named '" + name + "'.",
                near ? "Did you mean '" + *near + "'?"
                     : "List the reminders with: barm reminder list --all",
                "/name");
}

/// Stores a reminder with its links.
void keep(Transaction& transaction, const Reminder& one) {
    const auto number =
        transaction
            .first("INSERT INTO reminder (name, title, note, due, state, until, cause, "
                   "every_days, owner) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) "
                   "ON CONFLICT (name) DO UPDATE SET title = excluded.title, "
                   "note = excluded.note, due = excluded.due, state = excluded.state, "
                   "until = excluded.until, cause = excluded.cause, "
                   "every_days = excluded.every_days RETURNING number",
                   take_one<std::int64_t>, one.name, one.title, one.note, one.due, one.state,
                   one.until, one.cause, one.every_days, one.owner)
            .value();
    drop_links(transaction, LinkSource::reminder, number);
    add_links(transaction, LinkSource::reminder, number, one.about);
    transaction.event(contract::Topic::reminder_changed,
                      {{"reminder", one.name}, {"about", to_json(one.about)}});
}

/// The reminder on a day: a snoozed one is open again from its day on.
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
    check_links(transaction, params.about, "/about");
    Reminder one;
    one.name = params.name;
    one.title = params.title;
    one.note = params.note;
    one.due = params.due;
    one.cause = params.cause;
    one.every_days = params.every_days;
    one.about = params.about;
    one.owner = owner;
    if (const auto there = find(transaction, params.name)) {
        if (there->title == one.title && there->note == one.note && there->due == one.due &&
            there->cause == one.cause && there->every_days == one.every_days &&
            there->about == one.about)
            return on_day(*there, transaction.today());
        one.owner = there->owner;
        if (there->state == ReminderState::snoozed) { // snoozed by a person: stays so
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
    if (one.every_days) { // comes again
        one.state = ReminderState::open;
        one.due = plus_days(transaction.today(), static_cast<int>(*one.every_days));
    }
    keep(transaction, one);
    return one;
}

Reminder snooze(Transaction& transaction, const Call&,
                const contract::ReminderSnooze::Params& params) {
    Reminder one = require(transaction, params.name);
    if (one.state == ReminderState::done)
        throw Error(ErrorKind::conflict, "reminder_done",
                    "The reminder '" + one.name + "' is already done.",
                    "There is nothing to snooze.", "/name");
    if (params.until <= transaction.today())
        throw Error(ErrorKind::params, "day_past",
                    "The day " + to_text(params.until) + " is not in the future; today is " +
                        to_text(transaction.today()) + ".",
                    "Give a later day.", "/until");
    one.state = ReminderState::snoozed;
    one.until = params.until;
    keep(transaction, one);
    return one;
}

contract::ReminderClear::Result clear(Transaction& transaction, const Call&,
                                      const contract::ReminderClear::Params& params) {
    if (params.name.has_value() == params.about.has_value())
        throw Error(ErrorKind::params, "missing",
                    "Either a name or what the reminder is about is needed, not both.",
                    "Give --name or --about.", "/name");
    const auto gone =
        params.name
            ? transaction.all(std::string(select_reminders) + "WHERE name = ?", read_reminder,
                              *params.name)
            : transaction.all(std::string(select_reminders) +
                                  "WHERE number IN (SELECT source_number FROM link WHERE "
                                  "target = ?1 AND target_number = ?2 AND source = 'reminder') "
                                  "AND (?3 IS NULL OR cause = ?3)",
                              read_reminder, params.about->to, params.about->number, params.cause);
    for (const Kept& kept : gone) {
        drop_links(transaction, LinkSource::reminder, kept.number);
        transaction.run("DELETE FROM reminder WHERE number = ?", kept.number);
        transaction.event(contract::Topic::reminder_cleared, {{"reminder", kept.reminder.name}});
    }
    return {static_cast<std::int64_t>(gone.size())};
}

} // namespace

contract::ReminderList::Result list_reminders(const View& view, const Call&,
                                              const contract::ReminderList::Params& params) {
    const Date today = view.today();
    const auto [due, name] = place_after<contract::ReminderList, 2>(params);
    if (params.about)
        check_link(view, *params.about, "/about");
    const auto target = params.about ? std::optional{params.about->to} : std::nullopt;
    const auto number = params.about ? params.about->number : 0;
    auto kept = view.all(std::string(select_reminders) +
                             "WHERE (?1 OR state = 'open' OR (state = 'snoozed' AND until <= ?2)) "
                             "AND (?3 IS NULL OR (due, name) > (?3, ?4)) "
                             "AND (?6 IS NULL OR number IN (SELECT source_number FROM link WHERE "
                             "target = ?6 AND target_number = ?7 AND source = 'reminder')) "
                             "ORDER BY due, name LIMIT ?5",
                         read_reminder, std::int64_t{params.all}, today, due, name,
                         params.limit + 1, target, number);
    contract::ReminderList::Result result;
    result.next = cut_page<contract::ReminderList>(params, kept, [](const Kept& last) {
        return Place<2>{to_text(last.reminder.due), last.reminder.name};
    });
    std::vector<std::int64_t> numbers;
    for (const Kept& one : kept)
        numbers.push_back(one.number);
    auto links = links_of(view, LinkSource::reminder, numbers);
    for (Kept& one : kept) {
        one.reminder.about = std::move(links[one.number]);
        result.reminders.push_back(on_day(std::move(one.reminder), today));
    }
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
