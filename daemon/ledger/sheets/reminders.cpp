#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using contract::Reminder;
using contract::ReminderState;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

// With its command a reminder takes two lines; a screen has room for so many.
constexpr std::size_t with_command = 8;

sheet::Action done(const Reminder& reminder) {
    return sheet::offer("done", "reminder.done", {{"name", reminder.name}});
}

Text words_of(const Reminder& reminder) {
    Text words = text(reminder.title);
    if (reminder.state == ReminderState::snoozed && reminder.until)
        words.append(", hidden until ").append(*reminder.until);
    if (reminder.note)
        words.append(": ").append(*reminder.note);
    return words;
}

SheetBuilder about(const Reminder& reminder) {
    SheetBuilder made("Reminder ", reminder.name);
    made.facts({{"to do", text(reminder.title)},
                {"by", text(reminder.due)},
                {"why", text(reminder.note.value_or(""))},
                {"comes again after",
                 reminder.every_days ? text(sheet::count(*reminder.every_days, "day")) : Text{}},
                {"from", text(reminder.owner)}});
    follow(made, {"reminder.", "day."});
    return made;
}

} // namespace

sheet::Sheet reminder_list(const contract::ReminderList::Params& params,
                           const contract::ReminderList::Result& result) {
    SheetBuilder made("Reminders");
    if (result.reminders.empty())
        made.lead("There is nothing to be reminded of.");
    else
        made.lead(sheet::count(static_cast<std::int64_t>(result.reminders.size()), "reminder"),
                  "; first, by ", result.reminders[0].due, ": ", result.reminders[0].title, ".");
    sheet::Steps steps;
    for (const Reminder& reminder : result.reminders) {
        sheet::Step step{text(words_of(reminder)), text(reminder.due), sheet::StepState::later, {}};
        if (reminder.state == ReminderState::done)
            step.state = sheet::StepState::done;
        else if (steps.steps.size() < with_command)
            step.action = done(reminder);
        steps.steps.push_back(std::move(step));
    }
    made.add(std::move(steps));
    offer_next(made, "reminder.list", params, result.next);
    if (!result.reminders.empty())
        made.action(asking("hide one until a day", "reminder.snooze", {}, {"name", "until"}, "h"));
    follow(made, {"reminder.", "day."});
    return made;
}

sheet::Sheet reminder_post(const contract::ReminderPost::Params&, const Reminder& reminder) {
    SheetBuilder made = about(reminder);
    if (reminder.state == ReminderState::done)
        made.lead("It is already done: ", reminder.title, ".");
    else
        made.lead("You will be reminded on ", reminder.due, ": ", reminder.title, ".");
    if (reminder.state != ReminderState::done) {
        sheet::Action end = done(reminder);
        end.letter = "d";
        made.action(std::move(end));
    }
    return made;
}

sheet::Sheet reminder_done(const contract::ReminderDone::Params&, const Reminder& reminder) {
    SheetBuilder made = about(reminder);
    if (reminder.state == ReminderState::done)
        made.lead("Done: ", reminder.title, ".");
    else
        made.lead("Done: ", reminder.title, ". It comes again on ", reminder.due, ".");
    made.action(sheet::offer("what else is due", "reminder.list", {}, "r"));
    return made;
}

sheet::Sheet reminder_snooze(const contract::ReminderSnooze::Params& params,
                             const Reminder& reminder) {
    SheetBuilder made = about(reminder);
    made.lead("Hidden until ", reminder.until.value_or(params.until), ": ", reminder.title, ".");
    sheet::Action end = done(reminder);
    end.letter = "d";
    made.action(std::move(end));
    return made;
}

sheet::Sheet reminder_clear(const contract::ReminderClear::Params&,
                            const contract::ReminderClear::Result& result) {
    SheetBuilder made("Reminders removed");
    if (result.cleared == 0)
        made.lead("There was none to remove.");
    else
        made.lead(sheet::count(result.cleared, "reminder"), " removed.");
    made.action(sheet::offer("what is due", "reminder.list", {}, "r"));
    return made.topic("reminder.");
}

} // namespace barmkeep::ledger::sheets
