// The starter plugin across the boundary, on a fake host.
#include "plugins/starter/starter.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::starter {
namespace {

using plugin::FakeHost;
using testing::HasSubstr;

class StarterOnFakeHost : public testing::Test {
protected:
    StarterOnFakeHost() {
        auto yeast = test::packs_of(1, 2, "2026-03-01");
        glance_.today = test::day("2026-03-14");
        glance_.shelves = {test::shelf_of({yeast}),
                           test::shelf_of({test::jars_of(1, 10, 1.090, 0.42)})};
        host_.stand_in<contract::CellarGlance>(
            [this](const Call&, const Nothing&) { return glance_; });
        host_.stand_in<contract::EquipmentList>(
            [](const Call&, const Nothing&) { return contract::EquipmentList::Result{}; });
        host_.stand_in<contract::LedgerBatch>(
            [this](const Call&, const contract::LedgerBatch::Params& params) {
                together_.push_back(params);
                return answered(params);
            });
        host_.stand_in<contract::RecordGet>(
            [this](const Call&, const contract::RecordGet::Params&) { return record_; });
    }

    /// Posted for each use; the record that was added is kept, with number 7.
    contract::LedgerBatch::Result answered(const contract::LedgerBatch::Params& params) {
        contract::LedgerBatch::Result result;
        for (const auto& step : params.steps) {
            if (step.method == "stock.use") {
                result.results.push_back(to_json(contract::Posted{1, {}, {}, {}}));
                continue;
            }
            const auto add = read_as<contract::RecordAdd::Params>(step.params);
            record_.number = 7;
            record_.document = add.document;
            record_.lines = add.lines;
            result.results.push_back(to_json(contract::RecordChanged{7, 1, 1, {}}));
        }
        return result;
    }
    static json::object asked() {
        return {{"volume", "20 L"}, {"gravity", "12 P"}, {"stirred", true}};
    }
    Error error_of(std::string_view method, const json::object& params) {
        auto outcome = host_.call(method, params);
        if (auto* error = std::get_if<Error>(&outcome))
            return *error;
        return {ErrorKind::internal, "none", "It was answered."};
    }

    FakeHost host_;
    contract::Glance glance_;
    contract::Record record_;
    std::vector<contract::LedgerBatch::Params> together_;
};

TEST_F(StarterOnFakeHost, TakesWhatPeopleWriteAndAnswersNumbers) {
    host_.start<Starter>();
    const auto outcome = host_.call("starter.plan", asked());
    ASSERT_TRUE(std::holds_alternative<json::value>(outcome)) << std::get<Error>(outcome).what();
    const auto& plan = std::get<json::value>(outcome).as_object();
    EXPECT_DOUBLE_EQ(plan.at("volume").to_number<double>(), 20.0);
    EXPECT_FALSE(plan.at("steps").as_array().empty());
    EXPECT_FALSE(plan.at("cautions").as_array().empty());
}

TEST_F(StarterOnFakeHost, MakingIsOneRequestToTheLedger) {
    host_.start<Starter>();
    const auto params = read_as<StarterRequest>(asked());
    const auto made = host_.call<StarterMake>(params, "k");
    ASSERT_EQ(together_.size(), 1U);
    const auto& steps = together_[0].steps;
    EXPECT_EQ(steps.front().method, "record.add");
    ASSERT_EQ(steps.size(), 3U);
    for (const auto& step : {steps[1], steps[2]}) {
        EXPECT_EQ(step.method, "stock.use");
        // About the very record that step 0 makes, whose number nobody knows before.
        EXPECT_EQ(write_json(step.params.at("about")),
                  R"([{"to":"starter.made","number":{"result":0,"at":"/number"}}])");
    }
    EXPECT_EQ(made.starter.number, 7);
    // Repeated after the shelf was emptied, it is answered from memory.
    glance_.shelves.clear();
    const auto again = host_.call<StarterMake>(params, "k");
    EXPECT_EQ(together_.size(), 1U);
    EXPECT_EQ(write_json(to_json(made)), write_json(to_json(again)));
}

TEST_F(StarterOnFakeHost, EveryWrongFieldIsToldAtOnce) {
    host_.start<Starter>();
    const auto error = error_of(
        "starter.plan",
        {{"volume", "20 kg"}, {"gravity", 7}, {"beer", "stout"}, {"flsk", "x"}, {"wort", -1}});
    EXPECT_EQ(error.kind(), ErrorKind::params);
    EXPECT_GE(error.faults().size(), 5U);
}

// Two classes of beer, and numbers in place of keys: the published rates bound one's own.
TEST_F(StarterOnFakeHost, RatesAndLimitsAreNumbersWithinWhatWasPublished) {
    host_.start<Starter>();
    for (const auto& [field, value] :
         std::initializer_list<std::pair<const char*, json::value>>{{"beer", "stout"},
                                                                    {"rate", 0.39},
                                                                    {"rate", 3.1},
                                                                    {"rate", "PR01"},
                                                                    {"max_fold", 1.9},
                                                                    {"max_fold", 21},
                                                                    {"stirred", "still"}}) {
        auto params = asked();
        params[field] = value;
        const auto error = error_of("starter.plan", params);
        EXPECT_EQ(error.kind(), ErrorKind::params) << field;
        ASSERT_EQ(error.faults().size(), 1U) << field;
        EXPECT_EQ(error.faults()[0].pointer, std::string("/") + field);
    }
}

TEST_F(StarterOnFakeHost, ADoseThatIsNotSetIsAConflict) {
    host_.start<Starter>();
    auto params = asked();
    params["nutrient"] = "yeast food";
    EXPECT_EQ(error_of("starter.make", params).reason(), "no_dose");
    EXPECT_TRUE(together_.empty());
}

TEST_F(StarterOnFakeHost, SettingsAreReadWithTheirUnits) {
    host_.start<Starter>({{"kept_at", "39 F"}, {"foam_space", 0.5}, {"stirred", true}});
    const auto plan = host_.call<StarterPlan>(read_as<StarterRequest>(asked()));
    EXPECT_NEAR(*plan.vessel / plan.steps.at(0).wort, 2.0, 1e-4);
}

TEST_F(StarterOnFakeHost, AnUnknownSettingStopsTheStart) {
    EXPECT_THAT(test::reason_of([&] {
                    host_.start<Starter>({{"foam_spce", 0.5}});
                    return 0;
                }),
                HasSubstr("unknown"));
}

// What a newer program noted is kept, and does not make the starter unreadable.
TEST_F(StarterOnFakeHost, ARecordThatSaysMoreThanThisOneKnowsIsRead) {
    host_.start<Starter>();
    (void)host_.call<StarterMake>(read_as<StarterRequest>(asked()), "k");
    record_.document["mood"] = "bright";
    record_.lines.at(0)["light"] = 5;
    EXPECT_EQ(host_.call<StarterShow>({7}).steps_made, 1);
}

TEST_F(StarterOnFakeHost, ARecordThatIsNoStarterIsToldAsSuch) {
    record_.number = 1;
    record_.document = {{"x", 1}};
    host_.start<Starter>();
    EXPECT_EQ(error_of("starter.show", {{"starter", 1}}).reason(), "record_not_understood");
}

} // namespace
} // namespace barmkeep::starter
