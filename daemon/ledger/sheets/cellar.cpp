#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

Text altitude_of(const contract::Cellar& cellar) {
    return cellar.altitude ? text(sheet::altitude(*cellar.altitude)) : Text{};
}

SheetBuilder about(const contract::Cellar& cellar) {
    SheetBuilder made(text(cellar.name));
    made.facts(
        {{"altitude", altitude_of(cellar)},
         {"currency", cellar.currency == contract::no_currency ? Text{} : text(cellar.currency)},
         {"units shown", cellar.units == contract::Units::us ? "US" : "metric"},
         {"time zone", text(cellar.time_zone)},
         {"smallest step of the scale", text(cellar.scale_step)}});
    warn_of_gaps(made, cellar);
    if (cellar.time_zone == "UTC")
        made.add(to_put_right("time_zone_is_utc",
                              "Days begin and end in UTC. Set your time zone if it is another.",
                              asking("set the time zone", "cellar.set", {}, {"time_zone"})));
    return made.topic("cellar.");
}

/// The lead of both: what is ready, or what is missing.
Text where_it_stands(const contract::Cellar& cellar) {
    std::vector<Text> missing;
    if (!cellar.altitude)
        missing.push_back("its altitude");
    if (cellar.currency == contract::no_currency)
        missing.push_back("its currency");
    if (missing.empty())
        return text("The cellar stands at ", altitude_of(cellar), " and counts in ",
                    cellar.currency, ".");
    return text("The cellar still lacks ", listed(missing), ".");
}

} // namespace

sheet::Sheet cellar_show(const Nothing&, const contract::Cellar& cellar) {
    SheetBuilder made = about(cellar);
    made.lead(where_it_stands(cellar));
    made.note("Canners, jar sizes and flasks: ", sheet::command("equipment.list"));
    return made;
}

sheet::Sheet cellar_set(const contract::CellarSet::Params& params, const contract::Cellar& cellar) {
    SheetBuilder made = about(cellar);
    std::vector<Text> set;
    if (params.name)
        set.push_back(text("named ", cellar.name));
    if (params.altitude)
        set.push_back(text("at ", altitude_of(cellar)));
    if (params.currency)
        set.push_back(text("in ", cellar.currency));
    if (params.units)
        set.push_back(cellar.units == contract::Units::us ? "in US units" : "in metric units");
    if (params.time_zone)
        set.push_back(text("in the time zone ", cellar.time_zone));
    if (params.scale_step)
        set.push_back(text("with a scale that shows ", cellar.scale_step));
    made.lead(set.empty() ? where_it_stands(cellar) : text("The cellar is now ", listed(set), "."));
    if (params.altitude || !params.clear.empty())
        made.note("Check the pressure of each process that you state: it goes by the altitude.");
    return made;
}

} // namespace barmkeep::ledger::sheets
