// A season of the job, over the real socket, with the injected clock: extract, lids and yeast are
// bought, a load comes out short and says so, is canned after another purchase, one seal fails, a
// brew day is set, its starter planned and made, the reminder comes, the cost is shown.
//
// Every figure is worked by hand in the comment beside it, from the inputs of this file, the fits
// named in docs/science.md and pocket arithmetic; the tolerance is the last digit worked out.
#include "sdk/client/client.hpp"
#include "sdk/client/events.hpp"
#include "tests/system/daemon_under_test.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <set>

namespace barmkeep::test {
namespace {

using testing::HasSubstr;

double number(const json::value& value) {
    return value.to_number<double>();
}
double quantity(const json::value& amount) {
    return number(amount.at("quantity"));
}
std::string text(const json::value& value) {
    return std::string(value.as_string());
}

class SeasonTest : public testing::Test {
protected:
    SeasonTest() {
        daemon.start();
        const auto described = client.discover();
        for (const auto& method : described.at("methods").as_array())
            if (method.at("x-effect") == "writes")
                writes.insert(text(method.at("name")));
        set_up_the_cellar();
    }

    client::ClientOptions options() const {
        client::ClientOptions all;
        all.socket = daemon.socket().string();
        return all;
    }
    /// A `key` among the params is the request's own; without one the client makes one.
    json::object ask(std::string_view method, json::object params = {}) {
        client::CallOptions options;
        if (const auto* key = params.if_contains("key")) {
            options.key = text(*key);
            params.erase("key");
        }
        const auto repeat =
            writes.contains(method) ? client::Repeat::by_key : client::Repeat::freely;
        return client.call(method, std::move(params), repeat, options).result.as_object();
    }
    Error refusal(std::string_view method, const json::object& params) {
        try {
            (void)ask(method, params);
        } catch (const Error& error) {
            return error;
        }
        ADD_FAILURE() << method << " was not refused";
        return {ErrorKind::internal, "none", "none"};
    }
    void clock(const std::string& now) { ask("clock.set", {{"now", now}}); }

    void set_up_the_cellar();
    void buy(const char* good, const json::value& amount, const char* paid, json::object more = {});
    void can_nine_jars();
    json::object shelf(const std::string& good);
    /// Waits for the event of a reminder and answers whether it is there now.
    bool reminder_after(client::EventStream& events, const std::string& name);

    ScratchFolder folder;
    DaemonUnderTest daemon{folder.path()};
    client::Client client{options()};
    std::set<std::string, std::less<>> writes; ///< names of the methods that take a request key
    const json::object nine_jars{{"jar", "pint"},
                                 {"jars", 9},
                                 {"weigh", "113 g"},
                                 {"makes", "1 L"},
                                 {"nutrient", "yeast nutrient"},
                                 {"nutrient_in_jar", "1 g"}};
};

void SeasonTest::set_up_the_cellar() {
    ask("cellar.set", {{"name", "Stair cellar"},
                       {"altitude", "353 m"},
                       {"currency", "EUR"},
                       {"time_zone", "Europe/Vienna"}});
    ask("good.add", {{"name", "light dry extract"},
                     {"category", "extract"},
                     {"package", "1 kg"},
                     {"facts", {{"potential", "1.044"}}}});
    ask("good.add", {{"name", "lids"}, {"category", "lids"}, {"package", 12}});
    ask("good.add", {{"name", "yeast nutrient"}, {"category", "nutrient"}, {"package", "50 g"}});
    ask("good.add", {{"name", "pint of concentrate"}, {"category", "concentrate"}});
    ask("good.add", {{"name", "alder ale yeast"},
                     {"category", "yeast"},
                     {"facts", {{"cells", "100 B"}, {"form", "liquid"}}}});
    ask("jar.set", {{"name", "pint"}, {"fill", "420 mL"}, {"size", "pint"}, {"headspace", "1 in"}});
    ask("canner.set", {{"name", "tall canner"},
                       {"gauge", "dial"},
                       {"capacity", {{{"jar", "pint"}, {"count", 9}}}},
                       {"gauge_tested", "2026-02-20"}});
    ask("flask.set", {{"name", "big flask"}, {"volume", "3 L"}});
    buy("light dry extract", "1 kg", "11.90", {{"best_by", "2027-08-31"}});
    buy("lids", 24, "4.80");
    buy("yeast nutrient", "50 g", "3.20");
    buy("alder ale yeast", 2, "15.80", {{"packed", "2026-01-26"}, {"best_by", "2026-07-26"}});
    ask("price.set", {{"item", "bought can of wort"},
                      {"price", "3.60"},
                      {"volume", "500 mL"},
                      {"gravity", "1.080"},
                      {"where", "mill shop"}});
}

void SeasonTest::buy(const char* good, const json::value& amount, const char* paid,
                     json::object more) {
    more["good"] = good;
    more["amount"] = amount;
    more["paid"] = paid;
    ask("stock.buy", more);
}

void SeasonTest::can_nine_jars() {
    ask("process.set", {{"name", "test process"},
                        {"jar", "pint"},
                        {"gauge", "dial"},
                        {"appliance", "pressure_canner"},
                        {"pressure", "15 psi"},
                        {"time", "77 min"},
                        {"source", "invented for this test: not a tested process"}});
    json::object start = nine_jars;
    start["process"] = "test process";
    ask("run.start", start);
    const auto turn = [&](const char* at, const char* what) {
        clock(at);
        ask("run.log", {{"run", 1}, {"step", what}});
    };
    const auto reading = [&](const std::string& at, const char* shows) {
        clock(at);
        return ask("run.gauge", {{"run", 1}, {"shows", shows}});
    };
    turn("2026-03-02T09:00:00Z", "steam_flows");
    turn("2026-03-02T09:10:30Z", "weight_on");
    for (const char* minute : {"15", "22", "29", "36", "43", "50", "57"})
        reading(std::string("2026-03-02T09:") + minute + ":00Z", "15.5 psi");
    for (const char* minute : {"04", "11", "18", "25", "32"})
        reading(std::string("2026-03-02T10:") + minute + ":00Z", "15.5 psi");
    turn("2026-03-02T10:32:30Z", "heat_off"); // 77 min 30 s after 09:15
    reading("2026-03-02T11:20:00Z", "0 psi");
    turn("2026-03-02T11:35:00Z", "opened");
    clock("2026-03-03T08:00:00Z");
}

json::object SeasonTest::shelf(const std::string& good) {
    const auto list = ask("stock.list", {{"good", good}, {"all", true}});
    return list.at("shelves").as_array().at(0).as_object();
}

bool SeasonTest::reminder_after(client::EventStream& events, const std::string& name) {
    for (const auto& event : events) {
        const bool about_it = event.topic.starts_with("reminder.") &&
                              event.about.if_contains("reminder") != nullptr &&
                              text(event.about.at("reminder")) == name;
        if (!about_it)
            continue;
        return event.topic == "reminder.changed";
    }
    return false;
}

TEST_F(SeasonTest, TheLoadComesOutShortAndSaysSo) {
    const auto plan = ask("canning.plan", nine_jars);
    EXPECT_FALSE(plan.at("feasible").as_bool());
    // 9 jars of 113 g are 1017 g; there are 1000 g: 17 g short, one bag of 1 kg to buy.
    const auto& buying = plan.at("buying").as_array();
    ASSERT_EQ(buying.size(), 1U);
    EXPECT_EQ(text(buying.at(0).at("good")), "light dry extract");
    EXPECT_DOUBLE_EQ(quantity(buying.at(0).at("need")), 1017);
    EXPECT_DOUBLE_EQ(quantity(buying.at(0).at("short_by")), 17);
    EXPECT_EQ(buying.at(0).at("buy").as_int64(), 1);

    // 44 points against the 46.18 of sucrose: 113 g x 44/46.18 = 107.67 g of extract.
    const auto& jar = plan.at("each");
    EXPECT_NEAR(number(jar.at("extract").at("likely")), 107.67, 0.05);
    // 107.67 g in 420 mL: at SG 1.0982 the NBS cubic gives 23.39 P, and 420 mL weigh
    // 1.0982 x 0.9982 x 420 = 460.4 g; 460.4 x 0.2339 = 107.7 g.
    EXPECT_NEAR(number(jar.at("gravity").at("likely")), 1.0982, 0.0001);
    // In 1 L: at SG 1.0415 the cubic gives 10.36 P, and 1 L weighs 1039.6 g; x 0.1036 = 107.7 g.
    EXPECT_NEAR(number(jar.at("makes_gravity").at("likely")), 1.0415, 0.0001);
    // By points: 113 g in a litre are 0.9430 lb in a gallon; x 44 = 41.5, but from the 0.42 L of
    // 1.0982: 98.2 x 0.42 = 41.2.
    EXPECT_NEAR(number(jar.at("points_gravity")), 1.0412, 0.0001);
    // 460.4 g in the jar less the 113 g of the bag: 347.4 g of water.  To a litre of 1039.6 g:
    // 579.2 g more, 0.580 L.
    EXPECT_NEAR(number(jar.at("water")), 347.4, 0.1);
    EXPECT_NEAR(number(jar.at("top_up")), 0.580, 0.001);
    // The canner takes nine; 1000 g fill eight jars, so the card is for eight: 904 g, 31.89 oz of
    // 28.35 g; 8 x 347.4 = 2779 g of water; a gram of nutrient each.
    EXPECT_EQ(plan.at("jars").as_int64(), 9);
    EXPECT_EQ(plan.at("loads"), json::value(json::array{9}));
    ASSERT_EQ(plan.at("card").as_array().size(), 1U);
    EXPECT_EQ(plan.at("card").as_array().at(0).at("last").as_int64(), 8);
    const auto& total = plan.at("total");
    EXPECT_DOUBLE_EQ(number(total.at("extract")), 904);
    EXPECT_DOUBLE_EQ(number(total.at("ounces")), 31.89);
    EXPECT_NEAR(number(total.at("water")), 2779, 1);
    EXPECT_DOUBLE_EQ(number(total.at("nutrient")), 8);
    EXPECT_FALSE(plan.at("cautions").as_array().empty());
}

TEST_F(SeasonTest, ALoadWithAFailedSealIsWorthWhatWentIn) {
    buy("light dry extract", "1 kg", "12.40", {{"best_by", "2027-10-31"}});
    can_nine_jars();
    const auto sealed = ask("run.seal_test", {{"run", 1}, {"held", 8}, {"failed", 1}});
    EXPECT_TRUE(sealed.at("because").as_array().empty());
    // Extract, first to expire first: 1000 g at 11.90 and 17 g of 1000 g at 12.40 = 0.2108.
    // 9 of 24 lids at 4.80 = 1.80; 9 g of 50 g at 3.20 = 0.576.  Batch 14.4868.
    EXPECT_EQ(text(sealed.at("value")), "14.4868");
    // One jar of nine: 14.4868 / 9 = 1.609644...
    EXPECT_EQ(text(sealed.at("lost_value")), "1.609644");
    // The eight good ones carry all of it: 14.4868 / 8 = 1.81085 each.
    const auto& good = sealed.at("lots").as_array().at(0);
    EXPECT_DOUBLE_EQ(quantity(good.at("on_hand")), 8);
    EXPECT_EQ(text(good.at("value")), "14.4868");
    EXPECT_EQ(text(good.at("best_by")), "2027-03-02");                         // a year, no longer
    EXPECT_DOUBLE_EQ(quantity(shelf("light dry extract").at("on_hand")), 983); // 2000 - 1017
    EXPECT_DOUBLE_EQ(quantity(shelf("lids").at("on_hand")), 15);
    EXPECT_DOUBLE_EQ(quantity(shelf("yeast nutrient").at("on_hand")), 41);
}

TEST_F(SeasonTest, TheStarterIsPlannedFromLivingCellsToJarsAndWater) {
    buy("light dry extract", "1 kg", "12.40", {{"best_by", "2027-10-31"}});
    can_nine_jars();
    ask("run.seal_test", {{"run", 1}, {"held", 8}, {"failed", 1}});
    ask("brew.plan",
        {{"day", "2026-03-14"}, {"name", "Stair ale"}, {"volume", "20 L"}, {"gravity", "1.048"}});
    clock("2026-03-11T17:00:00Z");
    const auto plan = ask("starter.plan", {{"brew", 1}, {"flask", "big flask"}});
    // Packed 44 days ago.  The pack series has 99.21 % at 30 d and 98.05 % at 61 d:
    // 99.21 - 1.16 x 14/31 = 98.69 % of 100 billion.
    EXPECT_NEAR(number(plan.at("cells_now").at("likely")), 98.69, 0.01);
    // 0.75 million x 20,000 mL x 11.91 P (1.048) = 178.7 billion.
    EXPECT_NEAR(number(plan.at("target")), 178.7, 0.1);
    // The wort is as much as brings them to the target.
    EXPECT_NEAR(number(plan.at("cells_end").at("likely")), 178.7, 0.2);
    const auto& steps = plan.at("steps").as_array();
    ASSERT_EQ(steps.size(), 1U);
    const auto& step = steps.at(0);
    // A factor of 178.7/98.69 = 1.811 lies, in the published series, between 50 million a
    // millilitre (2.05) and 100 (1.52): (2.05 - 1.811)/0.53 = 0.452 of the way in the logarithm,
    // 50 x 2^0.452 = 68.4 million a millilitre; 98.69 billion at that are 1.443 L.
    EXPECT_FALSE(plan.at("stirred").as_bool());
    EXPECT_NEAR(number(step.at("wort")), 1.443, 0.002);
    // 1.443 L at 1.040: 9.99 P of 1498 g = 149.7 g, more than one jar's 107.67 g: two jars.
    EXPECT_NEAR(number(step.at("extract")), 149.7, 0.3);
    const auto& jars = step.at("jars").as_array();
    ASSERT_EQ(jars.size(), 1U) << "the unsealed jar is past its days and passed over";
    EXPECT_EQ(jars.at(0).at("jars").as_int64(), 2);
    // Poured: 149.7/107.67 x 420 mL = 584 mL; 840 - 584 = 256 mL stay in the second jar.
    EXPECT_NEAR(number(jars.at(0).at("poured")), 0.584, 0.002);
    EXPECT_NEAR(number(jars.at(0).at("left")), 0.256, 0.002);
    // Water by mass: 1498 g less 0.584 L of 1.0982 (640.1 g) = 857.9 g: 0.859 L.
    EXPECT_NEAR(number(step.at("water")), 0.859, 0.002);
    // Stirred, at 1.0 billion a gram of extract: 178.7 - 98.69 = 80.0 g, in 80.0/103.7 = 0.771 L;
    // one jar.
    const auto stirred =
        ask("starter.plan", {{"brew", 1}, {"flask", "big flask"}, {"stirred", true}});
    const auto& one = stirred.at("steps").as_array().at(0);
    EXPECT_NEAR(number(one.at("extract")), 80.0, 0.2);
    EXPECT_NEAR(number(one.at("wort")), 0.771, 0.002);
    EXPECT_EQ(one.at("jars").as_array().at(0).at("jars").as_int64(), 1);
    EXPECT_FALSE(plan.at("cautions").as_array().empty());
}

TEST_F(SeasonTest, TheReminderComesAndGoesAndTheCostIsTold) {
    buy("light dry extract", "1 kg", "12.40", {{"best_by", "2027-10-31"}});
    client::EventStream events{options()};
    ask("reorder.set",
        {{"good", "pint of concentrate"}, {"reorder_point", 6}, {"order_up_to", 14}});
    EXPECT_TRUE(reminder_after(events, "reorder:pint of concentrate")) << "there are none";
    can_nine_jars();
    ask("run.seal_test", {{"run", 1}, {"held", 8}, {"failed", 1}});
    EXPECT_FALSE(reminder_after(events, "reorder:pint of concentrate")) << "there are enough";
    clock("2026-03-11T17:00:00Z");
    ask("brew.plan",
        {{"day", "2026-03-14"}, {"name", "Stair ale"}, {"volume", "20 L"}, {"gravity", "1.048"}});
    ask("starter.make", {{"brew", 1}, {"flask", "big flask"}});
    // Two jars of eight are gone: six are at the limit.
    EXPECT_TRUE(reminder_after(events, "reorder:pint of concentrate"));
    EXPECT_DOUBLE_EQ(quantity(shelf("pint of concentrate").at("available")), 6);
    EXPECT_DOUBLE_EQ(quantity(shelf("alder ale yeast").at("available")), 1);

    const auto cost = ask("cost.compare", {{"what", "pint of concentrate"}});
    EXPECT_EQ(text(cost.at("jar")), "1.81085");
    const auto& can = cost.at("cans").as_array().at(0);
    // 500 mL of 1.080: 19.33 P of 539.0 g = 104.2 g of extract.
    EXPECT_NEAR(number(can.at("extract")), 104.2, 0.1);
    // As much extract as a jar's: 3.60 x 107.67/104.2 = 3.720; less 1.811: 1.91 saved a jar.
    EXPECT_NEAR(parse_money(text(can.at("saving_per_jar"))).units(), 1.91, 0.01);
    // 3.60 for 104.2 g: 3.46 for 100 g; 3.720 / 1.811 = 2.05; two jars used: 2 x 1.91 = 3.82.
    EXPECT_NEAR(parse_money(text(can.at("per_100g"))).units(), 3.46, 0.01);
    EXPECT_NEAR(number(can.at("times")), 2.05, 0.01);
    EXPECT_NEAR(parse_money(text(can.at("saving_last_year"))).units(), 3.82, 0.02);
    EXPECT_EQ(cost.at("used_last_year").as_int64(), 2);
    // Six of the eight jars are left: 6/8 of 12.1108 of extract, 1.80 of lids, 0.576 of nutrient;
    // and of the 1.609644 that the failed jar cost.
    std::map<std::string, std::string> parts;
    for (const auto& part : cost.at("parts").as_array())
        parts[text(part.at("good"))] = text(part.at("value"));
    EXPECT_EQ(parts,
              (std::map<std::string, std::string>{
                  {"light dry extract", "9.0831"}, {"lids", "1.35"}, {"yeast nutrient", "0.432"}}));
    EXPECT_EQ(text(cost.at("lost").at("value")), "1.207233");
    // Bought for 11.90 + 12.40 + 4.80 + 3.20 + 15.80 = 48.10; a pack of yeast (7.90) and two jars
    // (3.6217) are used.
    EXPECT_EQ(text(ask("cellar.glance").at("value")), "36.5783");
    EXPECT_TRUE(ask("ledger.check").at("sound").as_bool());
}

TEST_F(SeasonTest, NothingIsLostByARestart) {
    const auto before = ask("stock.list");
    EXPECT_EQ(daemon.stop(), 0);
    daemon.start();
    EXPECT_EQ(ask("stock.list"), before);
    EXPECT_TRUE(ask("ledger.check").at("sound").as_bool());
}

TEST_F(SeasonTest, ARepeatedKeyDoesItOnceThroughAPluginToo) {
    json::object limit{{"good", "lids"}, {"reorder_point", 30}, {"key", "the same key"}};
    const auto first = ask("reorder.set", limit);
    EXPECT_EQ(ask("reorder.set", limit), first);
    limit["reorder_point"] = 31;
    EXPECT_EQ(refusal("reorder.set", limit).reason(), "key_used");
    json::object use{{"what", "lids"}, {"amount", 2}, {"key", "another key"}};
    const auto used = ask("stock.use", use);
    EXPECT_EQ(ask("stock.use", use), used);
    EXPECT_DOUBLE_EQ(quantity(shelf("lids").at("on_hand")), 22);
}

} // namespace
} // namespace barmkeep::test
