#include "daemon/ledger/cellar.hpp"

#include "daemon/ledger/brews.hpp"
#include "daemon/ledger/clearing.hpp"
#include "daemon/ledger/currency.hpp"
#include "daemon/ledger/events.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/reminders.hpp"
#include "daemon/ledger/shelf.hpp"
#include "sdk/method/zone.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Cellar;

constexpr std::int64_t brews_at_a_glance = 10;

bool money_was_recorded(const View& view) {
    return view.number("SELECT EXISTS (SELECT 1 FROM line WHERE value <> 0) "
                       "OR EXISTS (SELECT 1 FROM price)") != 0;
}

void check_currency(const View& view, const std::string& now, const std::string& wanted) {
    if (!is_currency(wanted))
        throw Error(ErrorKind::params, "currency_unknown",
                    "'" + wanted + "' is not a currency code of ISO 4217.",
                    "Give its three capital letters, such as EUR or USD.", "/currency");
    // Sums recorded before a currency was set get the first one that is set.
    if (wanted != now && now != contract::no_currency && money_was_recorded(view))
        throw Error(ErrorKind::conflict, "currency_fixed",
                    "Sums in " + now + " are recorded. They would be shown as " + wanted + ".",
                    "Keep " + now + ", or begin a new cellar.", "/currency");
}

Cellar show(const View& view, const Call&, const Nothing&) {
    return cellar_of(view);
}

Cellar set(Transaction& transaction, const Call&, const contract::CellarSet::Params& params) {
    Cellar cellar = cellar_of(transaction);
    check_clear(params.clear, {"altitude"}, false);
    refuse_both(params.altitude.has_value(), "altitude", params.clear);
    if (params.currency)
        check_currency(transaction, cellar.currency, *params.currency);
    if (params.time_zone)
        (void)local_day(transaction.now(), *params.time_zone); // throws for an unknown one
    transaction.run("UPDATE cellar SET name = coalesce(?, name), altitude = CASE WHEN ? THEN NULL "
                    "ELSE coalesce(?, altitude) END, "
                    "currency = coalesce(?, currency), units = coalesce(?, units), "
                    "time_zone = coalesce(?, time_zone), scale_step = coalesce(?, scale_step)",
                    params.name, std::int64_t{is_cleared(params.clear, "altitude")},
                    params.altitude, params.currency, params.units, params.time_zone,
                    params.scale_step ? std::optional{amount_of(*params.scale_step).steps}
                                      : std::nullopt);
    transaction.event(contract::Topic::cellar_changed, {});
    return cellar_of(transaction);
}

contract::Glance glance(const View& view, const Call& call, const Nothing&) {
    return glance_at(view, call);
}

} // namespace

Cellar cellar_of(const View& view) {
    return view
        .first("SELECT name, altitude, currency, units, time_zone, scale_step FROM cellar",
               [](const Row& row) {
                   Cellar cellar;
                   std::int64_t scale_step = 0;
                   take_row(row, cellar.name, cellar.altitude, cellar.currency, cellar.units,
                            cellar.time_zone, scale_step);
                   cellar.scale_step = as_mass({scale_step, Measure::mass});
                   return cellar;
               })
        .value();
}

contract::Glance glance_at(const View& view, const Call& call) {
    contract::Glance glance;
    glance.sequence = last_event(view);
    glance.today = view.today();
    glance.cellar = cellar_of(view);
    auto stock = list_stock(view, call, {});
    glance.shelves = std::move(stock.shelves);
    glance.value = stock.value;
    contract::ReminderList::Params due;
    due.limit = contract::page_size_max;
    glance.due = list_reminders(view, call, due).reminders;
    contract::BrewList::Params next;
    next.limit = brews_at_a_glance;
    glance.brews = list_brews(view, call, next).brews;
    return glance;
}

void note_day(Transaction& transaction, Instant moment) {
    const Date today = transaction.day_of(moment);
    const auto noted =
        transaction.first("SELECT day_noted FROM cellar", take_one<std::optional<Date>>).value();
    if (noted == today)
        return;
    transaction.run("UPDATE cellar SET day_noted = ?", today);
    transaction.event(contract::Topic::day_begun, {{"day", to_text(today)}});
}

void add_cellar(Methods& methods) {
    methods.reads<contract::CellarShow>(&show);
    methods.writes<contract::CellarSet>(&set);
    methods.reads<contract::CellarGlance>(&glance);
}

} // namespace barmkeep::ledger
