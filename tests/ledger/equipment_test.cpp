// Canners, jar sizes and flasks: what is set once stays until it is set again.
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

using ::testing::HasSubstr;

class EquipmentTest : public CellarTest {
protected:
    static json::array load(const char* jar, int count) {
        return {json::object{{"jar", jar}, {"count", count}}};
    }
    json::value kept(std::string_view list) {
        const auto all = cellar.does("equipment.list").at(list).as_array();
        EXPECT_EQ(all.size(), 1U);
        return all.at(0);
    }
    void set_pint() {
        cellar.does(
            "jar.set",
            {{"name", "pint"}, {"fill", "415 mL"}, {"headspace", "1 in"}, {"glass", "230 g"}});
    }
};

TEST_F(EquipmentTest, ACannerKeepsTheDayAndErrorOfItsGaugesTestWhenTheyAreNotNamed) {
    set_pint();
    const auto made = cellar.does("canner.set", {{"name", "big"},
                                                 {"gauge", "dial"},
                                                 {"capacity", load("pint", 7)},
                                                 {"gauge_tested", "2026-01-10"},
                                                 {"gauge_error", "0.5 psi"}});
    const auto changed = cellar.does(
        "canner.set", {{"name", "Big"}, {"gauge", "dial"}, {"capacity", load("pint", 8)}});
    EXPECT_EQ(changed.at("gauge_error"), made.at("gauge_error"));
    const auto canner = kept("canners");
    EXPECT_EQ(write_json(canner), write_json(changed));
    EXPECT_EQ(text(canner, "name"), "big");
    EXPECT_EQ(text(canner, "gauge_tested"), "2026-01-10");
    EXPECT_NEAR(canner.at("gauge_error").to_number<double>(), 3.447, 0.001); // kPa
    EXPECT_EQ(canner.at("capacity").at(0).at("count"), 8);
}

TEST_F(EquipmentTest, ANewTestOfTheGaugeTakesThePlaceOfTheOld) {
    set_pint();
    for (const char* day : {"2025-01-10", "2026-01-10"})
        cellar.does("canner.set", {{"name", "big"},
                                   {"gauge", "dial"},
                                   {"capacity", load("pint", 7)},
                                   {"gauge_tested", day}});
    EXPECT_EQ(text(kept("canners"), "gauge_tested"), "2026-01-10");
}

TEST_F(EquipmentTest, AJarSizeKeepsItsHeadspaceAndGlassWhenTheyAreNotNamed) {
    set_pint();
    cellar.does("jar.set", {{"name", "pint"}, {"fill", "420 mL"}});
    const auto jar = kept("jars");
    EXPECT_DOUBLE_EQ(jar.at("fill").to_number<double>(), 0.42);
    EXPECT_DOUBLE_EQ(jar.at("headspace").to_number<double>(), 0.0254);
    EXPECT_DOUBLE_EQ(jar.at("glass").to_number<double>(), 230);
}

TEST_F(EquipmentTest, OptionalFieldsAreEmptiedByName) {
    set_pint();
    const auto jar = cellar.does(
        "jar.set",
        {{"name", "pint"}, {"fill", "415 mL"}, {"clear", json::array{"headspace", "glass"}}});
    EXPECT_FALSE(jar.contains("headspace"));
    EXPECT_FALSE(jar.contains("glass"));
    EXPECT_EQ(write_json(kept("jars")), write_json(jar));
    cellar.does("canner.set", {{"name", "big"},
                               {"gauge", "dial"},
                               {"capacity", load("pint", 7)},
                               {"gauge_error", "0.5 psi"}});
    const auto refused = cellar.refusal("canner.set", {{"name", "big"},
                                                       {"gauge", "dial"},
                                                       {"capacity", load("pint", 8)},
                                                       {"clear", json::array{"capacity"}}});
    EXPECT_EQ(refused.reason(), "not_clearable");
    EXPECT_EQ(refused.hint(), "You can clear: gauge_tested, gauge_error.");
    EXPECT_EQ(kept("canners").at("capacity").at(0).at("count"), 7) << "nothing was changed";
    const auto canner = cellar.does("canner.set", {{"name", "big"},
                                                   {"gauge", "dial"},
                                                   {"capacity", load("pint", 7)},
                                                   {"clear", json::array{"gauge_error"}}});
    EXPECT_FALSE(canner.contains("gauge_error"));
}

// Found in review: with its error emptied, a dial that reads high passed for one that reads right.
TEST_F(EquipmentTest, AGaugeTestGoesWithItsResult) {
    set_pint();
    const auto set = [&](json::object more) {
        json::object params{{"name", "big"}, {"gauge", "dial"}, {"capacity", load("pint", 7)}};
        for (auto& one : more)
            params[one.key()] = one.value();
        return params;
    };
    cellar.does("canner.set", set({{"gauge_tested", "2026-01-10"}, {"gauge_error", "2 psi"}}));
    const auto cleared = cellar.does("canner.set", set({{"clear", json::array{"gauge_error"}}}));
    EXPECT_FALSE(cleared.contains("gauge_error"));
    EXPECT_FALSE(cleared.contains("gauge_tested")) << "so canning asks for a new test";
    const auto refused = cellar.refusal(
        "canner.set", set({{"gauge_tested", "2026-02-10"}, {"clear", json::array{"gauge_error"}}}));
    EXPECT_EQ(refused.reason(), "test_without_result");
    EXPECT_EQ(cellar
                  .refusal("canner.set",
                           set({{"gauge_error", "2 psi"}, {"clear", json::array{"gauge_error"}}}))
                  .reason(),
              "given_and_cleared");
}

TEST_F(EquipmentTest, AFlaskReadsBackWhatItHolds) {
    cellar.does("flask.set", {{"name", "large"}, {"volume", "2 L"}});
    cellar.does("flask.set", {{"name", "LARGE"}, {"volume", "2.1 L"}});
    const auto flask = kept("flasks");
    EXPECT_EQ(text(flask, "name"), "large");
    EXPECT_DOUBLE_EQ(flask.at("volume").to_number<double>(), 2.1);
}

TEST_F(EquipmentTest, ALoadOfAJarSizeThatIsNotKnownIsRefused) {
    set_pint();
    const auto before = cellar.dumped();
    auto all = load("pint", 7);
    all.push_back(json::object{{"jar", "pnt"}, {"count", 4}});
    all.push_back(json::object{{"jar", "demijohn"}, {"count", 1}});
    const auto error =
        cellar.refusal("canner.set", {{"name", "big"}, {"gauge", "dial"}, {"capacity", all}});
    ASSERT_EQ(error.faults().size(), 2U);
    EXPECT_EQ(error.reason(), "jar_unknown");
    EXPECT_EQ(error.faults()[0].pointer, "/capacity/1/jar");
    EXPECT_THAT(error.faults()[0].message, HasSubstr("'pnt'"));
    EXPECT_THAT(error.faults()[0].hint, HasSubstr("'pint'"));
    EXPECT_EQ(error.faults()[1].pointer, "/capacity/2/jar");
    EXPECT_THAT(error.faults()[1].hint, HasSubstr("barm jar set"));
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(EquipmentTest, AJarSizeGoesByItsOwnSpellingAndIsNamedOnce) {
    set_pint();
    cellar.does("canner.set",
                {{"name", "big"}, {"gauge", "weighted"}, {"capacity", load("Pint", 7)}});
    EXPECT_EQ(text(kept("canners").at("capacity").at(0), "jar"), "pint");
    auto twice = load("Pint", 7);
    twice.push_back(json::object{{"jar", "pint"}, {"count", 4}});
    const auto error =
        cellar.refusal("canner.set", {{"name", "big"}, {"gauge", "weighted"}, {"capacity", twice}});
    EXPECT_EQ(error.reason(), "named_twice");
    EXPECT_EQ(error.faults().front().pointer, "/capacity/1/jar");
}

} // namespace
} // namespace barmkeep::ledger
