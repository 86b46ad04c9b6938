#include "tests/sheet/examples.hpp"

#include "sdk/contract/safety.hpp"

namespace barmkeep::sheet::examples {
namespace {

using namespace brewing;

constexpr Date day(unsigned month, unsigned number, int year = 2026) {
    return Date{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{number}};
}

const LotCode first_lot{'J', 10};
const LotCode second_lot{'J', 16};

} // namespace

Sheet starter() {
    const Estimate<Cells> cells{17.6 * billion_cells, 72.4 * billion_cells, 75.2 * billion_cells,
                                "GR1 GR36"};
    const auto cautions = contract::cautions(contract::Moment::opening);
    return SheetBuilder("Starter for Dunkel")
        .lead("Open ", count(3, "jar"), " in two steps from ", day(10, 18), ": ", share(0.783),
              " sure to reach ", 383.2 * billion_cells, ".")
        .step({text("Fill the 2 L flask with one jar of ", first_lot, " and ", 0.61 * litre,
                    " of water. Boil it for ", Seconds{14 * 60}, ", let it cool and pitch ",
                    count(1, "pack"), "."),
               day(10, 18), StepState::now, offer("make it", "starter.make", {{"brew", 12}}, "m")})
        .step({text("Move to the 5 L flask: add ", first_lot, " and ", second_lot, " with ",
                    1.2 * litre, " of water."),
               day(10, 20), StepState::next})
        .step({text("Put the flask into the refrigerator."), day(10, 22)})
        .warning("old_pack", "The pack is ", Seconds{181 * 86400}, " old by then.")
        .cautions(cautions, {"boil_before_use"})
        .more("How this was computed",
              SheetBuilder()
                  .facts({{"cells now", text(cells, " ", sources(cells.sources))},
                          {"largest growth", number(5.25, 1)}})
                  .note("Own counts would make the range narrower."))
        .usual_action(offer("make it", "starter.make", {{"brew", 12}}, "m"))
        .action(offer("see other plans", "starter.plan", {{"brew", 12}, {"all", true}}, "o"))
        .topic("lot.");
}

Sheet shelf() {
    return SheetBuilder("Shelf")
        .lead(count(7, "jar"), " are good for ", count(7, "starter"), "; take ", first_lot,
              " first.")
        .table({{column("lot"), column("jars", Align::right), column("best by"),
                 column("in each", Align::right, 2), column("from", Align::left, 3),
                 column("note", Align::left, 2), column("never filled")},
                {row(first_lot, pieces(2), day(3, 21, 2027), 0.473176 * litre,
                     "load 1, wort of the Dunkel", "lost some liquid, so use them first", Text{}),
                 row(second_lot, pieces(5), day(7, 4, 2027), 0.473176 * litre, "load 3", Text{},
                     Text{})},
                "Ready"})
        .facts({{"extract", text(amount_of(2900 * gram), ": ", count(26, "jar"))},
                {"lids", text(pieces(25))},
                {"a jar costs", Money{1'877'400}}})
        .line("Two jars did not seal: use them by ", day(10, 19), ".")
        .line("One jar is a gift, and nobody knows how it was processed.");
}

Sheet load() {
    const Instant now = parse_instant("2026-10-18T17:30:00Z");
    using std::chrono::minutes;
    return SheetBuilder("Load ", number(2))
        .lead("The canner is at pressure. Keep the dial at ", 12.5 * psi_gauge, " or above.")
        .add(Warning{text("Heat went off after ", Seconds{16 * 60}, " of ", Seconds{25 * 60},
                          ". Turn it on now and start the whole time again."),
                     "heat_off", Severity::alarm,
                     offer("heat is on", "run.log", {{"run", 2}, {"step", "heat_on"}}, "o")})
        .clock_to("heat off", now + minutes{16} + Seconds{12})
        .clock_since("last reading", now - minutes{25})
        .steps({{text("Vent for ", Seconds{600}, "."), now - minutes{60}, StepState::done},
                {text("Hold ", 12.5 * psi_gauge, " at ", altitude(3937 * foot), "."),
                 now - minutes{9}, StepState::now},
                {text("Let it cool by itself."), Text{}, StepState::next}},
               "Steps");
}

Sheet charts() {
    Series likely{"likely", SeriesKind::line, {}};
    Series band{"5 to 95 of 100", SeriesKind::band, {}};
    for (int i = 0; i <= 6; ++i) {
        const double x = x_of(day(10, 18)) + i;
        const double grown = 72.0 + 52.0 * i;
        likely.points.push_back({x, grown});
        band.points.push_back({x, grown, grown * 0.7, grown * 1.2});
    }
    Series pitch{"", SeriesKind::markers, {{x_of(day(10, 20)), 176, {}, {}, "second step"}}};
    Series jars{"jars used", SeriesKind::bars, {}};
    for (int month = 1; month <= 6; ++month)
        jars.points.push_back({static_cast<double>(month), month % 4 + 1.0});
    return SheetBuilder("Growth")
        .lead("The second step begins on ", day(10, 20), ".")
        .chart(
            {"Cells in the flask", XKind::days, "", QuantityKind::cells, "", {band, likely, pitch}})
        .chart({"Jars", XKind::numbers, "month", QuantityKind::number, "used", {jars}});
}

Reader reader(brewing::System units, int width) {
    Reader made;
    made.units = units;
    made.width = width;
    made.currency = "EUR";
    made.time_zone = "Europe/Vienna";
    made.now = parse_instant("2026-10-18T17:30:00Z");
    made.command = command;
    return made;
}

std::string command(const std::string& method, const json::object& params,
                    const std::vector<std::string>& ask) {
    std::string text = "barm " + method;
    for (char& c : text)
        c = c == '.' ? ' ' : c;
    for (const auto& member : params)
        text += member.value() == true
                    ? " --" + std::string(member.key())
                    : " " + (member.value().is_string() ? std::string(member.value().get_string())
                                                        : write_json(member.value()));
    for (const std::string& name : ask)
        text += " --" + name + " ...";
    return text;
}

} // namespace barmkeep::sheet::examples
