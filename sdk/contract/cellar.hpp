// The cellar itself: its facts, and the whole of it at a glance.
#pragma once

#include "sdk/contract/brew.hpp"
#include "sdk/contract/reminder.hpp"

namespace barmkeep::contract {

enum class Units { metric, us };
constexpr auto enum_names(Units) {
    return std::array{EnumName<Units>{Units::metric, "metric"}, EnumName<Units>{Units::us, "us"}};
}

/// The code of no currency (ISO 4217): what a cellar has before it is told one.
inline constexpr std::string_view no_currency = "XXX";

/// What a kitchen scale shows unless another step is said.
inline constexpr brewing::Mass scale_step_usual = 1.0 * brewing::gram;

struct Cellar {
    std::string name = "cellar";
    std::optional<brewing::Length> altitude;
    std::string currency{no_currency};
    Units units = Units::metric;
    std::string time_zone = "UTC";
    brewing::Mass scale_step = scale_step_usual;
    static FieldList fields(auto) {
        return {field<&Cellar::name>("Its name."),
                field<&Cellar::altitude>("Altitude above the sea; canning needs it."),
                field<&Cellar::currency>("The currency of every sum, by its ISO 4217 code."),
                field<&Cellar::units>("The units its people read."),
                field<&Cellar::time_zone>("The time zone of its days, by its IANA name."),
                field<&Cellar::scale_step>("The smallest step that its scale shows.").defaulted()};
    }
};

struct CellarShow {
    static constexpr About about{"cellar.show", Access::look, Effect::reads,
                                 "Shows the cellar's facts."};
    using Params = Nothing;
    using Result = Cellar;
};

struct CellarSet {
    static constexpr About about{
        "cellar.set", Access::manage, Effect::writes,
        "Sets facts of the cellar.  The currency is fixed once money was recorded."};
    struct Params {
        std::optional<std::string> name;
        std::optional<brewing::Length> altitude;
        std::optional<std::string> currency;
        std::optional<Units> units;
        std::optional<std::string> time_zone;
        std::optional<brewing::Mass> scale_step;
        static FieldList fields(auto) {
            return {field<&Params::name>("Its name.").length(1, 60),
                    field<&Params::altitude>("Altitude above the sea.")
                        .between(-430, 6000)
                        .like("520 m"),
                    field<&Params::currency>("Currency, by its ISO 4217 code.")
                        .length(3, 3)
                        .like("EUR"),
                    field<&Params::units>("Metric or US."),
                    field<&Params::time_zone>("Time zone, by its IANA name.")
                        .length(1, 60)
                        .like("Europe/Vienna"),
                    field<&Params::scale_step>(
                        "The smallest step that the scale shows; what is left of a lot "
                        "below it goes with the last weighing.")
                        .between(0.001, 100)
                        .like("1 g")};
        }
    };
    using Result = Cellar;
};

/// One consistent picture of the cellar.
struct Glance {
    std::int64_t sequence = 0;
    Date today;
    Cellar cellar;
    std::vector<Shelf> shelves;
    Money value;
    std::vector<Reminder> due;
    std::vector<Brew> brews;
    static FieldList fields(auto) {
        return {field<&Glance::sequence>("Number of the last event in this picture."),
                field<&Glance::today>("The cellar's local day."),
                field<&Glance::cellar>("Its facts."),
                field<&Glance::shelves>("The shelf."),
                field<&Glance::value>("What all of it cost."),
                field<&Glance::due>("Open reminders, first due first."),
                field<&Glance::brews>("The next brew days.")};
    }
};

struct CellarGlance {
    static constexpr About about{
        "cellar.glance", Access::look, Effect::reads,
        "Shows the cellar at a glance: shelf, what is due, next brew days."};
    using Params = Nothing;
    using Result = Glance;
};

} // namespace barmkeep::contract
