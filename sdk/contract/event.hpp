// Events: what changed, numbered without a gap.
#pragma once

#include "sdk/contract/cellar.hpp"

namespace barmkeep::contract {

/// The core's own topics.  A plugin's own begin with its name.
enum class Topic {
    entry_posted, ///< about: entry, kind, lots, goods
    lot_changed,
    good_changed,
    brew_changed,
    reminder_changed,
    reminder_cleared,
    record_changed, ///< about: owner, collection, name, version
    price_changed,
    equipment_changed,
    cellar_changed,
    day_begun, ///< about: day; a new day in the cellar's time zone
};
constexpr auto enum_names(Topic) {
    using W = EnumName<Topic>;
    return std::array{W{Topic::entry_posted, "entry.posted"},
                      W{Topic::lot_changed, "lot.changed"},
                      W{Topic::good_changed, "good.changed"},
                      W{Topic::brew_changed, "brew.changed"},
                      W{Topic::reminder_changed, "reminder.changed"},
                      W{Topic::reminder_cleared, "reminder.cleared"},
                      W{Topic::record_changed, "record.changed"},
                      W{Topic::price_changed, "price.changed"},
                      W{Topic::equipment_changed, "equipment.changed"},
                      W{Topic::cellar_changed, "cellar.changed"},
                      W{Topic::day_begun, "day.begun"}};
}

struct Event {
    std::int64_t sequence = 0;
    Instant at;
    std::string topic;
    json::object about;
    static FieldList fields(auto) {
        return {field<&Event::sequence>("Its number: one more than the event before."),
                field<&Event::at>("When it happened."),
                field<&Event::topic>("What changed, such as lot.changed."),
                field<&Event::about>("What it is about: numbers, codes and names.")};
    }
};
inline constexpr std::string_view event_notification = "event.happened";

struct EventWatch {
    static constexpr About about{
        "event.watch", Access::look, Effect::reads,
        "Answers the state and its number, and then sends every later event as the notification "
        "event.happened. With `after`, it sends the events after that number first."};
    struct Params {
        std::optional<std::int64_t> after;
        static FieldList fields(auto) {
            return {field<&Params::after>("The last number that you saw: the events after it are "
                                          "sent first. If left out, you get the state instead.")
                        .at_least(0)};
        }
    };
    struct Result {
        std::int64_t sequence = 0;
        std::optional<Glance> state;
        static FieldList fields(auto) {
            return {field<&Result::sequence>("Events after this number are sent."),
                    field<&Result::state>("The cellar at that number. Left out with `after`.")};
        }
    };
};

struct EventStop {
    static constexpr About about{"event.stop", Access::look, Effect::reads,
                                 "Ends this connection's watch."};
    using Params = Nothing;
    using Result = Nothing;
};

struct EventPost {
    static constexpr About about{"event.post", Access::keep, Effect::writes,
                                 "Posts an event of a plugin."};
    struct Params {
        std::string topic;
        json::object about;
        static FieldList fields(auto) {
            return {field<&Params::topic>("The topic: the plugin's name, a dot and a word.")
                        .length(3, 80),
                    field<&Params::about>("What it is about, at most 16 KiB. Empty if left out.")
                        .defaulted()};
        }
    };
    struct Result {
        std::int64_t sequence = 0;
        static FieldList fields(auto) { return {field<&Result::sequence>("The event's number.")}; }
    };
};

} // namespace barmkeep::contract
