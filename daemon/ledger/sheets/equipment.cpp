#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"
#include "sdk/contract/safety.hpp"

namespace barmkeep::ledger::sheets {

using contract::Canner;
using contract::Gauge;
using contract::JarClass;
using contract::JarSize;
using sheet::Align;
using sheet::column;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

std::string_view words_of(JarClass size) {
    switch (size) {
    case JarClass::half_pint:
        return "half pint";
    case JarClass::larger:
        return "larger than a quart";
    default:
        return to_string(size);
    }
}

/// "0.5 psi high", or nothing.
Text error_words(const Canner& canner) {
    if (!canner.gauge_error)
        return {};
    sheet::Quantity off = sheet::quantity(*canner.gauge_error);
    if (off.number == 0)
        return text("true");
    const bool is_high = off.number > 0;
    off.number = std::abs(off.number);
    return text(off, is_high ? " high" : " low");
}

Text capacity_words(const Canner& canner) {
    std::vector<Text> parts;
    for (const contract::Capacity& one : canner.capacity)
        parts.push_back(text(sheet::count(one.count, "jar"), " of ", one.jar));
    return listed(parts, "or");
}

/// What canning needs to know of a canner and nobody set.
void add_gaps(SheetBuilder& made, const Canner& canner) {
    if (canner.gauge != Gauge::dial)
        return;
    if (!canner.gauge_tested)
        made.add(to_put_right(
            "gauge_not_tested",
            text("No test of the dial gauge of ", canner.name, " is noted. Have it tested."),
            asking("note the test", "canner.set", {{"name", canner.name}, {"gauge", "dial"}},
                   {"capacity", "gauge_tested", "gauge_error"})));
    else if (!canner.gauge_error)
        made.warning("gauge_error_unknown", "How far the dial gauge of ", canner.name,
                     " is off is not noted.");
}

void add_gaps(SheetBuilder& made, const JarSize& jar) {
    if (!jar.size)
        made.warning("no_jar_class", "The size as which ", jar.name,
                     " counts in published processes is not set. Canning needs it.");
    else if (*jar.size == JarClass::larger)
        made.warning("jar_too_large", "Do not can in ", jar.name, ": it is larger than a quart.");
}

/// The one safety text about this piece, in full.
void add_caution(SheetBuilder& made, std::string_view key) {
    for (const contract::Caution& caution : contract::cautions(contract::Moment::planning))
        if (caution.key == key)
            made.caution(caution.key, caution.text, true);
}

/// "1 canner and 2 flasks": what there is; what is missing has its warnings.
Text counted(const contract::EquipmentList::Result& result) {
    std::vector<Text> parts;
    const auto add = [&](const auto& all, const char* noun) {
        if (!all.empty())
            parts.push_back(sheet::count(static_cast<std::int64_t>(all.size()), noun));
    };
    add(result.canners, "canner");
    add(result.jars, "jar size");
    add(result.flasks, "flask");
    return parts.empty() ? "Nothing is set up yet" : listed(parts);
}

sheet::Table canners_table(const std::vector<Canner>& canners) {
    sheet::Table table;
    table.title = text("Canners");
    table.columns = {column("name"), column("gauge", Align::left, 3), column("takes"),
                     column("gauge tested", Align::left, 2), column("reads", Align::left, 2)};
    for (const Canner& canner : canners)
        table.rows.push_back(sheet::row(
            canner.name, to_string(canner.gauge), capacity_words(canner),
            canner.gauge_tested ? text(*canner.gauge_tested) : Text{}, error_words(canner)));
    return table;
}

sheet::Table jars_table(const std::vector<JarSize>& jars) {
    sheet::Table table;
    table.title = text("Jar sizes");
    table.columns = {column("name"), column("fill", Align::right), column("counts as"),
                     column("headspace", Align::right, 2), column("empty", Align::right, 3)};
    for (const JarSize& jar : jars)
        table.rows.push_back(sheet::row(
            jar.name, jar.fill, jar.size ? text(words_of(*jar.size)) : Text{},
            jar.headspace ? text(*jar.headspace) : Text{}, jar.glass ? text(*jar.glass) : Text{}));
    return table;
}

sheet::Table flasks_table(const std::vector<contract::Flask>& flasks) {
    sheet::Table table;
    table.title = text("Flasks");
    table.columns = {column("name"), column("holds", Align::right)};
    for (const contract::Flask& flask : flasks)
        table.rows.push_back(sheet::row(flask.name, flask.volume));
    return table;
}

} // namespace

sheet::Sheet equipment_list(const Nothing&, const contract::EquipmentList::Result& result) {
    SheetBuilder made("Equipment");
    made.lead(counted(result), ".");
    if (result.jars.empty())
        made.add(to_put_right("no_jar_size", "No jar size is set. Canning needs one.",
                              asking("add one", "jar.set", {}, {"name", "fill", "size"})));
    if (result.canners.empty())
        made.add(to_put_right("no_canner", "No canner is set. Canning needs one.",
                              asking("add one", "canner.set", {}, {"name", "gauge", "capacity"})));
    if (result.flasks.empty())
        made.add(to_put_right("no_flask", "No flask is set. Starters need one.",
                              asking("add one", "flask.set", {}, {"name", "volume"})));
    for (const Canner& canner : result.canners)
        add_gaps(made, canner);
    for (const JarSize& jar : result.jars)
        add_gaps(made, jar);
    made.table(canners_table(result.canners));
    made.table(jars_table(result.jars));
    made.table(flasks_table(result.flasks));
    made.action(asking("remove a piece", "equipment.remove", {}, {"kind", "name"}, "r"));
    return made.topic("equipment.");
}

sheet::Sheet canner_set(const contract::CannerSet::Params&, const Canner& canner) {
    SheetBuilder made("Canner ", canner.name);
    made.lead("It takes ", capacity_words(canner), " and has a ", to_string(canner.gauge),
              " gauge.");
    made.facts({{"gauge tested", canner.gauge_tested ? text(*canner.gauge_tested) : Text{}},
                {"gauge reads", error_words(canner)}});
    add_gaps(made, canner);
    if (canner.gauge == Gauge::dial)
        add_caution(made, "gauge");
    made.action(sheet::offer("all equipment", "equipment.list", {}, "e"));
    return made.topic("equipment.");
}

sheet::Sheet jar_set(const contract::JarSet::Params&, const JarSize& jar) {
    SheetBuilder made("Jar size ", jar.name);
    made.lead("It holds ", jar.fill, " of liquid",
              jar.size ? text(" and counts as: ", words_of(*jar.size)) : Text{}, ".");
    made.facts({{"headspace", jar.headspace ? text(*jar.headspace) : Text{}},
                {"empty jar", jar.glass ? text(*jar.glass) : Text{}}});
    add_gaps(made, jar);
    add_caution(made, "jar_size");
    made.action(sheet::offer("all equipment", "equipment.list", {}, "e"));
    return made.topic("equipment.");
}

sheet::Sheet flask_set(const contract::FlaskSet::Params&, const contract::Flask& flask) {
    SheetBuilder made("Flask ", flask.name);
    made.lead("It holds ", flask.volume, " to the brim.");
    made.action(sheet::offer("all equipment", "equipment.list", {}, "e"));
    return made.topic("equipment.");
}

sheet::Sheet equipment_remove(const contract::EquipmentRemove::Params& params, const Nothing&) {
    SheetBuilder made("Equipment removed");
    made.lead("The ",
              params.kind == contract::EquipmentKind::jar ? "jar size" : to_string(params.kind),
              " ", params.name, " is removed.");
    made.action(sheet::offer("all equipment", "equipment.list", {}, "e"));
    return made.topic("equipment.");
}

} // namespace barmkeep::ledger::sheets
