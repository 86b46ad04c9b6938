// Reminders: what the keeper should see to, and when.
#pragma once

#include "sdk/contract/link.hpp"
#include "sdk/contract/listing.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

enum class ReminderState { open, snoozed, done };
constexpr auto enum_names(ReminderState) {
    using W = EnumName<ReminderState>;
    return std::array{W{ReminderState::open, "open"}, W{ReminderState::snoozed, "snoozed"},
                      W{ReminderState::done, "done"}};
}

/// There is at most one reminder with a key: posting it again brings it up to date, and posting
/// what is there already changes nothing.
struct Reminder {
    std::string name;
    std::string title;
    std::optional<std::string> note;
    Date due;
    ReminderState state = ReminderState::open;
    std::optional<Date> until;
    std::optional<std::string> cause;
    std::optional<std::int64_t> every_days;
    Links about;
    std::string owner;
    static FieldList fields(auto) {
        return {field<&Reminder::name>("The reminder's name; no two reminders have the same."),
                field<&Reminder::title>("What to do, in a few words."),
                field<&Reminder::note>("Why, with the figures."),
                field<&Reminder::due>("The day by which to do it."),
                field<&Reminder::state>("Open, snoozed or done."),
                field<&Reminder::until>("The day until which it is not shown."),
                field<&Reminder::cause>("The poster's own word for the reason."),
                field<&Reminder::every_days>(
                    "Days after which it comes again after it was marked done."),
                field<&Reminder::about>("What it is about.").defaulted(),
                field<&Reminder::owner>("Who posted it: a plugin or a person.")};
    }
};

struct ReminderPost {
    static constexpr About about{"reminder.post", Access::keep, Effect::writes,
                                 "Posts a reminder, or updates the one of that name."};
    struct Params {
        std::string name;
        std::string title;
        std::optional<std::string> note;
        Date due;
        std::optional<std::string> cause;
        std::optional<std::int64_t> every_days;
        Links about;
        static FieldList fields(auto) {
            return {
                field<&Params::name>("The reminder's name; no two reminders have the same.")
                    .positional()
                    .length(1, 80)
                    .like("sanitiser"),
                field<&Params::title>("What to do, in a few words.").positional().length(1, 120),
                field<&Params::note>("Why, with the figures.").length(1, 1000),
                field<&Params::due>("The day by which to do it.").positional(),
                field<&Params::cause>("A word of your own for the reason, so that you can clear by "
                                      "it later. None if left out.")
                    .length(1, 40),
                field<&Params::every_days>("Days after which it comes again after it was marked "
                                           "done. If left out, it does not come again.")
                    .between(1, 3660),
                links_field<&Params::about>()};
        }
    };
    using Result = Reminder;
};

struct ReminderList {
    static constexpr About about{"reminder.list", Access::look, Effect::reads,
                                 "Lists open reminders, first due first. A snoozed reminder is "
                                 "listed again from its day on."};
    struct Params : Page {
        bool all = false;
        std::optional<Link> about;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::all>("Lists snoozed and done reminders too.").defaulted(),
                          field<&Params::about>(
                              "Lists only what is about this entry, lot, brew day or record.")},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<Reminder> reminders;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::reminders>("The reminders.")},
                          NextPage::fields(0));
        }
    };
};

struct ReminderName {
    std::string name;
    static FieldList fields(auto) {
        return {field<&ReminderName::name>("The reminder's name.").positional().length(1, 80)};
    }
};

struct ReminderDone {
    static constexpr About about{"reminder.done", Access::keep, Effect::writes,
                                 "Marks a reminder done."};
    using Params = ReminderName;
    using Result = Reminder;
};

struct ReminderSnooze {
    static constexpr About about{"reminder.snooze", Access::keep, Effect::writes,
                                 "Hides a reminder until a day."};
    struct Params {
        std::string name;
        Date until;
        static FieldList fields(auto) {
            return {field<&Params::name>("The reminder's name.").positional().length(1, 80),
                    field<&Params::until>("The day on which it is shown again.").positional()};
        }
    };
    using Result = Reminder;
};

struct ReminderClear {
    static constexpr About about{
        "reminder.clear", Access::keep, Effect::writes,
        "Removes reminders whose reason is gone. It is no error if there are none."};
    struct Params {
        std::optional<std::string> name;
        std::optional<Link> about;
        std::optional<std::string> cause;
        static FieldList fields(auto) {
            return {field<&Params::name>("The reminder's name.").positional().length(1, 80),
                    field<&Params::about>(
                        "Removes all reminders about this, instead of one by its name."),
                    field<&Params::cause>("With `about`: removes only those with this cause.")
                        .length(1, 40)};
        }
    };
    struct Result {
        std::int64_t cleared = 0;
        static FieldList fields(auto) {
            return {field<&Result::cleared>("How many were removed.")};
        }
    };
};

} // namespace barmkeep::contract
