// Weighing as a scale shows it, numbered records with a log, and batches that refer to earlier
// steps.
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

class WeighingTest : public CellarTest {};

TEST_F(WeighingTest, ARestBelowAStepOfTheScaleGoesWithTheLastWeighing) {
    const auto bag = buy("dry extract", "1000.08 g", "18");
    const auto used = cellar.does("stock.use", {{"what", "dry extract"}, {"amount", "1000 g"}});
    EXPECT_EQ(on_hand(bag), 0);
    ASSERT_EQ(used.at("swept").as_array().size(), 1U);
    EXPECT_DOUBLE_EQ(quantity(used.at("swept").at(0), "amount"), 0.08);
    EXPECT_EQ(value(bag), "0.00");
    const auto other = buy("dry extract", "1002 g", "18");
    cellar.does("stock.use", {{"what", "dry extract"}, {"amount", "1000 g"}});
    EXPECT_EQ(on_hand(other), 2); // what a scale can show stays
}

TEST_F(WeighingTest, ARestThatABrewDayHasReservedStays) {
    const auto bag = buy("dry extract", "1000.5 g", "18");
    const auto brew = plan();
    cellar.does("brew.reserve", {{"brew", brew}, {"what", bag}, {"amount", "0.5 g"}});
    cellar.does("stock.use", {{"what", "dry extract"}, {"amount", "1000 g"}});
    EXPECT_DOUBLE_EQ(on_hand(bag), 0.5);
}

TEST_F(WeighingTest, GramsAndOuncesAreWholeMilligrams) {
    // 1 oz is 28.349523125 g exactly (international avoirdupois ounce, NIST SP 811, table B.8).
    cellar.does("cellar.set", {{"scale_step", "0.001 g"}});
    EXPECT_DOUBLE_EQ(on_hand(buy("dry extract", "1.001 g", "1")), 1.001);
    EXPECT_DOUBLE_EQ(on_hand(buy("dry extract", "3 oz", "1")), 85.049);
}

TEST_F(WeighingTest, AValueAboveZeroThatWouldBeKeptAsZeroIsRefused) {
    const auto refused =
        cellar.refusal("brew.plan", {{"day", "2026-04-01"}, {"name", "stout"}, {"volume", 1e-7}});
    EXPECT_EQ(refused.reason(), "too_small");
    EXPECT_EQ(refused.faults().front().pointer, "/volume");
    EXPECT_EQ(cellar.refusal("jar.set", {{"name", "pint"}, {"fill", 1e-7}}).reason(), "too_small");
    EXPECT_EQ(cellar.refusal("flask.set", {{"name", "big"}, {"volume", 1e-7}}).reason(),
              "too_small");
    EXPECT_EQ(
        cellar.refusal("jar.set", {{"name", "pint"}, {"fill", 0.4}, {"headspace", 1e-5}}).reason(),
        "too_small");
}

class RecordLogTest : public CellarTest {
protected:
    Call plugin = caller("canning for anna", Access::keep, "canning");
};

TEST_F(RecordLogTest, NumbersCountUpAndAreNeverUsedTwice) {
    const auto add = [&] {
        return cellar
            .does(plugin, "record.add", {{"collection", "run"}, {"document", json::object{}}})
            .at("number");
    };
    EXPECT_EQ(add(), 1);
    EXPECT_EQ(add(), 2);
    cellar.does(plugin, "record.remove", {{"collection", "run"}, {"number", 2}});
    EXPECT_EQ(add(), 3);
}

TEST_F(RecordLogTest, ALineOfALogCostsTheSameAtTheEndAsAtTheStart) {
    cellar.does(plugin, "record.add", {{"collection", "run"}, {"document", json::object{}}});
    const auto append = [&](const std::string& key) {
        return write_json(cellar.does(plugin, "record.append",
                                      {{"collection", "run"},
                                       {"number", 1},
                                       {"key", key},
                                       {"lines", json::array{json::object{{"shows", 82.7}}}}}));
    };
    const auto first = append("a");
    for (int i = 0; i < 268; ++i)
        append("b" + std::to_string(i));
    const auto last = append("c");
    EXPECT_LE(last.size(), first.size() + 6); // the numbers in it have more digits
    const auto shown = cellar.does(plugin, "record.get", {{"collection", "run"}, {"number", 1}});
    EXPECT_EQ(shown.at("lines").as_array().size(), 270U);
}

TEST_F(RecordLogTest, RecordsAreListedByStateAndOrder) {
    for (const char* state : {"open", "shelved", "open"})
        cellar.does(plugin, "record.add",
                    {{"collection", "run"}, {"document", json::object{}}, {"state", state}});
    const auto open =
        cellar.does(plugin, "record.list",
                    {{"collection", "run"}, {"states", json::array{"open"}}, {"order", "newest"}});
    ASSERT_EQ(open.at("records").as_array().size(), 2U);
    EXPECT_EQ(open.at("records").at(0).at("number"), 3);
    json::object params{{"collection", "run"}, {"order", "oldest"}, {"limit", 2}};
    const auto page = cellar.does(plugin, "record.list", params);
    params["cursor"] = page.at("next");
    EXPECT_EQ(cellar.does(plugin, "record.list", params).at("records").at(0).at("number"), 3);
}

TEST_F(RecordLogTest, ABatchRefersToAnEarlierStepsResultWhereThatMayBe) {
    const json::object about{{"to", "canning.run"},
                             {"number", json::object{{"result", 0}, {"at", "/number"}}}};
    const json::object add{
        {"method", "record.add"},
        {"params", json::object{{"collection", "run"}, {"document", json::object{}}}}};
    const auto post = [&](const json::value& link) {
        return json::object{{"method", "reminder.post"},
                            {"params", json::object{{"name", "look"},
                                                    {"title", "Look"},
                                                    {"due", "2026-04-01"},
                                                    {"about", json::array{link}}}}};
    };
    const auto done =
        cellar.does(plugin, "ledger.batch", {{"steps", json::array{add, post(about)}}});
    EXPECT_EQ(done.at("results").at(1).at("about").at(0).at("number"), 1);

    json::object later = about;
    later["number"] = json::object{{"result", 1}, {"at", "/number"}};
    const auto refused =
        cellar.refusal(plugin, "ledger.batch", {{"steps", json::array{add, post(later)}}});
    EXPECT_EQ(refused.reason(), "later_step");
    EXPECT_EQ(refused.faults().front().pointer, "/steps/1/params/about/0/number");

    json::object wrong = post(about);
    wrong["params"].as_object()["title"] = json::object{{"result", 0}, {"at", "/number"}};
    EXPECT_EQ(cellar.refusal(plugin, "ledger.batch", {{"steps", json::array{add, wrong}}}).reason(),
              "wrong_type");
    json::object typed = about;
    typed["number"] = json::object{{"result", 0}, {"at", "/changed"}};
    EXPECT_EQ(
        cellar.refusal(plugin, "ledger.batch", {{"steps", json::array{add, post(typed)}}}).reason(),
        "wrong_type");
}

} // namespace
} // namespace barmkeep::ledger
