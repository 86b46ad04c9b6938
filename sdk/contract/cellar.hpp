// The cellar itself: its facts, and the whole of it at a glance.
#pragma once

#include "sdk/contract/brew.hpp"
#include "sdk/contract/reminder.hpp"

namespace barmkeep::contract {

enum class Units { metric, us };
constexpr auto enum_names(Units) {
    return std::array{EnumName<Units>{Units::metric, "metric"}, EnumName<Units>{Units::us, "us"}};
}

/// The code of no currency (ISO 4217): what a cellar has before one is set.
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
                field<&Cellar::altitude>("Altitude above sea level. Canning needs it."),
                field<&Cellar::currency>("The currency of every sum: an ISO 4217 code."),
                field<&Cellar::units>("The units in which answers are shown."),
                field<&Cellar::time_zone>("The time zone of its days: an IANA name."),
                field<&Cellar::scale_step>("The smallest step that the scale shows.").defaulted()};
    }
};

struct CellarShow {
    static constexpr About about{
        "cellar.show", Access::look, Effect::reads,
        "Shows the cellar's name, altitude, currency, units, time zone and scale."};
    using Params = Nothing;
    using Result = Cellar;
};

struct CellarSet {
    static constexpr About about{
        "cellar.set", Access::manage, Effect::writes,
        "Sets the cellar's name, altitude, currency, units, time zone or scale. What you leave out "
        "stays as it is. You cannot change the currency after money was recorded."};
    struct Params {
        std::optional<std::string> name;
        std::optional<brewing::Length> altitude;
        std::optional<std::string> currency;
        std::optional<Units> units;
        std::optional<std::string> time_zone;
        std::optional<brewing::Mass> scale_step;
        std::vector<std::string> clear;
        static FieldList fields(auto) {
            return {
                field<&Params::name>("The cellar's name. It stays as it is if left out.")
                    .length(1, 60),
                field<&Params::altitude>("Altitude above sea level. It stays as it is if left out.")
                    .between(-430, 6000)
                    .like("520 m"),
                field<&Params::currency>(
                    "Currency: an ISO 4217 code. It stays as it is if left out.")
                    .length(3, 3)
                    .like("EUR"),
                field<&Params::units>(
                    "Metric or US units for what is shown. It stays as it is if left out."),
                field<&Params::time_zone>("Time zone: an IANA name. It stays as it is if left out.")
                    .length(1, 60)
                    .like("Europe/Vienna"),
                field<&Params::scale_step>(
                    "The smallest step that the scale shows. A rest of a lot below it goes with "
                    "the last weighing. It stays as it is if left out.")
                    .between(0.001, 100)
                    .like("1 g"),
                clear_field<&Params::clear>("altitude")};
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
        return {field<&Glance::sequence>("Number of the last event that this answer includes."),
                field<&Glance::today>("Today, in the cellar's time zone."),
                field<&Glance::cellar>("The cellar's facts."),
                field<&Glance::shelves>("The stock, a row for each good."),
                field<&Glance::value>("What the stock on hand cost."),
                field<&Glance::due>("Open reminders, first due first."),
                field<&Glance::brews>("The next brew days.")};
    }
};

struct CellarGlance {
    static constexpr About about{
        "cellar.glance", Access::look, Effect::reads,
        "Shows the cellar at a glance: what is due, the stock and the next brew days."};
    using Params = Nothing;
    using Result = Glance;
};

} // namespace barmkeep::contract
