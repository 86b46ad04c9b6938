// The plugin across the boundary, with stand-ins for the few methods of the core it asks.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/messages.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "sdk/sheet/limits.hpp"
#include "tests/canning/runs.hpp"

#include <gmock/gmock.h>

namespace barmkeep::canning {
namespace {

using plugin::FakeHost;
using test::error_of;
using testing::HasSubstr;

contract::Good good(std::string name, contract::Category category, Measure measure) {
    return {std::move(name), category, measure, {}, {}, {}};
}

/// A cellar of stand-ins: 900 g of extract in one lot, twenty lids, a canner for seven pints.
class Stage : public testing::Test {
protected:
    Stage() {
        auto extract = good("light extract", contract::Category::extract, Measure::mass);
        extract.package = amount_of(500 * brewing::gram);
        extract.facts.potential = brewing::Gravity::sg(1.044);
        goods.all = {extract, good("lids", contract::Category::lids, Measure::pieces),
                     good("wort jar", contract::Category::concentrate, Measure::pieces)};
        glance.today = parse_date("2026-03-14");
        glance.cellar.altitude = 500 * brewing::metre;
        put(extract, LotCode{'E', 1}, amount_of(900 * brewing::gram));
        put(goods.all[1], LotCode{'L', 2}, pieces(20));
        equipment.jars = {
            {"pint", 415 * brewing::millilitre, 1 * brewing::inch, {}, contract::JarClass::pint}};
        equipment.canners = {{"kettle",
                              contract::Gauge::dial,
                              {{"pint", 7}},
                              parse_date("2026-01-10"),
                              std::nullopt}};
        host.stand_in<contract::CellarGlance>([this](const auto&, const auto&) { return glance; });
        host.stand_in<contract::CellarShow>(
            [this](const auto&, const auto&) { return glance.cellar; });
        host.stand_in<contract::GoodList>([this](const auto&, const auto&) { return goods; });
        host.stand_in<contract::EquipmentList>(
            [this](const auto&, const auto&) { return equipment; });
        // No run was ever begun.
        host.stand_in<contract::RecordList>([this](const auto&, const auto& params) {
            records_listed.push_back(params.collection);
            return contract::RecordList::Result{};
        });
        host.start<Canning>();
    }

    void put(const contract::Good& of, const LotCode& code, const Amount& amount) {
        contract::Lot lot;
        lot.code = code;
        lot.good = of.name;
        lot.category = of.category;
        lot.on_hand = lot.reserved = lot.available = amount;
        lot.reserved.steps = 0;
        lot.facts = of.facts;
        contract::Shelf shelf;
        shelf.good = of.name;
        shelf.category = of.category;
        shelf.on_hand = shelf.reserved = shelf.available = amount;
        shelf.lots = {lot};
        glance.shelves.push_back(shelf);
    }

    static CanningPlan::Params litre_at_1035(std::optional<std::int64_t> jars = {}) {
        CanningPlan::Params wanted;
        wanted.jar = "pint";
        wanted.jars = jars;
        wanted.makes = 1 * brewing::litre;
        wanted.at = brewing::Gravity::sg(1.035);
        return wanted;
    }

    contract::GoodList::Result goods;
    contract::Glance glance;
    contract::EquipmentList::Result equipment;
    std::vector<std::string> records_listed;
    FakeHost host;
};

TEST_F(Stage, PlansFromWhatIsOnHand) {
    const Plan plan = host.call<CanningPlan>(litre_at_1035());
    EXPECT_EQ(plan.jars, 9) << "900 g at 95 g a jar";
    EXPECT_EQ(plan.loads, (std::vector<std::int64_t>{7, 2}));
    EXPECT_TRUE(plan.feasible);
    EXPECT_EQ(plan.limit, "extract on hand");
    EXPECT_NEAR(plan.card.front().ounces, 3.35, 0.02);
}

TEST_F(Stage, TellsWhatIsShortInPackagesBeforeAnyoneWeighs) {
    const Plan plan = host.call<CanningPlan>(litre_at_1035(24));
    EXPECT_FALSE(plan.feasible);
    ASSERT_EQ(plan.buying.size(), 2U);
    EXPECT_EQ(plan.buying[0].good, "light extract");
    EXPECT_NEAR(plan.buying[0].short_by.in_wire_unit(), 24 * 94.9 - 900, 20);
    EXPECT_EQ(plan.buying[0].need.steps,
              plan.buying[0].available.steps + plan.buying[0].short_by.steps);
    EXPECT_EQ(plan.buying[0].buy, 3);
    EXPECT_EQ(plan.buying[1].short_by.steps, 4);
    EXPECT_FALSE(plan.buying[1].buy) << "no package size is known";
}

TEST_F(Stage, FillsTheCanner) {
    CanningPlan::Params wanted = litre_at_1035();
    wanted.fill_canner = true;
    EXPECT_EQ(host.call<CanningPlan>(wanted).jars, 7);
    wanted.loads = 2;
    EXPECT_EQ(host.call<CanningPlan>(wanted).jars, 14);
}

TEST_F(Stage, ReadsWhatPeopleWrite) {
    const auto outcome = host.call(
        "canning.plan", {{"jar", "pint"}, {"jars", 7}, {"weigh", "4 oz"}, {"makes", "1 qt"}});
    ASSERT_TRUE(std::holds_alternative<json::value>(outcome));
    const auto& plan = std::get<json::value>(outcome).as_object();
    EXPECT_NEAR(plan.at("each").at("weighed").to_number<double>(), 113, 1e-9) << "to the gram";
}

TEST_F(Stage, AMistypedNameIsToldWithTheNearest) {
    CanningPlan::Params wanted = litre_at_1035(7);
    wanted.jar = "pnt";
    const Error error = error_of([&] { (void)host.call<CanningPlan>(wanted); });
    EXPECT_EQ(error.reason(), "unknown_jar");
    EXPECT_THAT(error.hint(), HasSubstr("'pint'"));
}

TEST_F(Stage, SeveralExtractsMustBeNamed) {
    goods.all.push_back(good("dark extract", contract::Category::extract, Measure::mass));
    const Error error = error_of([&] { (void)host.call<CanningPlan>(litre_at_1035(7)); });
    EXPECT_EQ(error.faults().front().pointer, "/extract");
}

TEST_F(Stage, AnEmptyShelfIsStillPlannedFromWhatTheGoodYields) {
    glance.shelves.clear();
    const Plan plan = host.call<CanningPlan>(litre_at_1035(7));
    EXPECT_FALSE(plan.feasible);
    EXPECT_NEAR(plan.each.makes_gravity.likely.sg(), 1.035, 0.0002);
    EXPECT_NEAR(plan.buying[0].short_by.in_wire_unit(), 7 * 94.9, 3);
}

TEST_F(Stage, ALotPastItsBestByIsNamed) {
    glance.shelves[0].lots[0].best_by = parse_date("2026-03-01");
    const Plan plan = host.call<CanningPlan>(litre_at_1035(7));
    EXPECT_THAT(plan.warnings, testing::Contains(HasSubstr("past its best by, 2026-03-01")));
}

// Found in trials: a half-gallon jar with a quarter of an inch was feasible without a word.
TEST_F(Stage, AJarAboveAQuartIsRefusedAndALowHeadspaceIsWarnedOf) {
    equipment.jars[0].headspace = 0.25 * brewing::inch;
    EXPECT_THAT(host.call<CanningPlan>(litre_at_1035(7)).warnings,
                testing::Contains(HasSubstr("below the published 1 to 1.25 in")));
    equipment.jars[0].size = contract::JarClass::larger;
    EXPECT_EQ(error_of([&] { (void)host.call<CanningPlan>(litre_at_1035(7)); }).reason(),
              "jar_too_large");
    equipment.jars[0].size.reset();
    const Error error = error_of([&] { (void)host.call<CanningPlan>(litre_at_1035(7)); });
    EXPECT_EQ(error.reason(), "jar_size_missing");
    EXPECT_THAT(error.hint(), HasSubstr("barm jar set 'pint' --size"));
}

TEST_F(Stage, StockThatIsHeldIsNotPlannedWith) {
    glance.shelves[0].lots[0].holds.push_back(
        {1, contract::HoldKind::quarantine, "damp", {}, {}, "anna", {}, {}, {}});
    EXPECT_EQ(host.call<CanningPlan>(litre_at_1035(7)).needs[0].available.steps, 0);
}

TEST_F(Stage, AMissingAltitudeIsAskedForBeforeAProcessIsRecorded) {
    glance.cellar.altitude.reset();
    ProcessSet::Params process;
    static_cast<Process&>(process) = {"mine",
                                      "pint",
                                      contract::Gauge::dial,
                                      Appliance::pressure_canner,
                                      12 * brewing::psi_gauge,
                                      Seconds{1200},
                                      "my own notebook",
                                      {}};
    const Error error = error_of([&] { (void)host.call<ProcessSet>(process); });
    EXPECT_EQ(error.reason(), "altitude_missing");
    EXPECT_THAT(error.hint(), HasSubstr("cellar set --altitude"));
}

TEST_F(Stage, TheReferenceShowsTheSteamAtThisCellarsAltitude) {
    const auto reference = host.call<ProcessReference>({});
    EXPECT_THAT(reference.lines, testing::Contains(HasSubstr("at this cellar's altitude")));
    EXPECT_FALSE(reference.cautions.empty());
}

// Found in review: every reading loaded all months ever, while all who write runs waited.
TEST_F(Stage, ATemperatureIsAppendedToItsMonthWithoutReadingAny) {
    std::optional<contract::RecordPut::Params> put;
    host.stand_in<contract::RecordPut>([&](const auto&, const auto& params) {
        put = params;
        return contract::RecordChanged{1, 1, 1, host.clock().now()};
    });
    (void)host.call<StorageTemperature>({brewing::Temperature::celsius(16), {}});
    EXPECT_EQ(put->name, to_text(host.clock().now()).substr(0, 7));
    EXPECT_EQ(put->lines.size(), 1U);
    EXPECT_TRUE(put->document.empty());
    EXPECT_TRUE(records_listed.empty());
}

TEST(Sheets, EveryMethodOfThePluginHasOne) {
    for (const auto& method : plugin::declared<Canning>().methods)
        EXPECT_TRUE(method.sheet) << method.description.name;
}

TEST_F(Stage, ThePlanIsReadAsASheetAcrossTheBoundary) {
    const auto wanted = litre_at_1035(7);
    const auto sheet = host.sheet<CanningPlan>(wanted, host.call<CanningPlan>(wanted));
    ASSERT_TRUE(sheet);
    EXPECT_THAT(sheet::check(*sheet), testing::IsEmpty());
    EXPECT_EQ(sheet->actions.front().method, "run.start");
}

TEST(Settings, OutOfRangeAreRefusedAtTheStart) {
    FakeHost host;
    EXPECT_EQ(error_of([&] {
                  host.start<Canning>({{"best_by_days", 500}});
              }).kind(),
              ErrorKind::params);
    EXPECT_EQ(error_of([&] {
                  host.start<Canning>({{"refrigerator_days", 30}});
              }).kind(),
              ErrorKind::params);
    EXPECT_EQ(error_of([&] {
                  host.start<Canning>({{"thin", 1.1}, {"thick", 1.05}});
              }).reason(),
              "out_of_range");
}

} // namespace
} // namespace barmkeep::canning
