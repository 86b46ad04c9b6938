// Brew days, reminders, records, prices, equipment, the cellar's facts.
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

using ::testing::HasSubstr;

class BrewsTest : public CellarTest {};

TEST_F(BrewsTest, AReservationTakesFreeStockInTheOrderOfExpiry) {
    const auto late = buy("lids", 5, "1", {{"best_by", "2027-06-01"}});
    const auto soon = buy("lids", 5, "1", {{"best_by", "2026-06-01"}});
    const auto brew = plan();
    cellar.does("brew.reserve", {{"brew", brew}, {"what", "lids"}, {"amount", 3}});
    const auto shown =
        cellar.does("brew.reserve", {{"brew", brew}, {"what", "lids"}, {"amount", 4}}).at("brew");
    EXPECT_EQ(shown.at("reserved").as_array().size(), 2U);
    EXPECT_EQ(quantity(lot(soon), "reserved"), 5);
    EXPECT_EQ(quantity(lot(late), "reserved"), 2);
    EXPECT_EQ(quantity(lot(late), "available"), 3);
    EXPECT_EQ(
        cellar.refusal("brew.reserve", {{"brew", brew}, {"what", "lids"}, {"amount", 4}}).reason(),
        "not_enough");
}

TEST_F(BrewsTest, WhatIsReservedIsGivenBackByLotOrWholeOrAtTheEnd) {
    const auto one = buy("lids", 5, "1");
    buy("pint jar", 5, "1");
    const auto brew = plan();
    const auto reserve = [&] {
        cellar.does("brew.reserve", {{"brew", brew}, {"what", "lids"}, {"amount", 5}});
    };
    reserve();
    cellar.does("brew.unreserve", {{"brew", brew}, {"lot", one}});
    EXPECT_EQ(cellar.refusal("brew.unreserve", {{"brew", brew}, {"lot", one}}).reason(),
              "not_reserved");
    reserve();
    cellar.does("brew.unreserve", {{"brew", brew}});
    reserve();
    EXPECT_EQ(text(cellar.does("brew.finish", {{"brew", brew}}), "state"), "done");
    EXPECT_EQ(quantity(lot(one), "available"), 5);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(BrewsTest, AClosedBrewDayIsNotChanged) {
    buy("lids", 5, "1");
    const auto brew = plan();
    cellar.does("brew.cancel", {{"brew", brew}});
    for (const char* method : {"brew.finish", "brew.cancel", "brew.unreserve", "brew.change"})
        EXPECT_EQ(cellar.refusal(method, {{"brew", brew}}).reason(), "brew_closed");
    EXPECT_EQ(
        cellar.refusal("stock.use", {{"what", "lids"}, {"amount", 1}, {"brew", brew}}).reason(),
        "brew_closed");
    EXPECT_EQ(cellar.refusal("brew.show", {{"brew", 99}}).reason(), "brew_unknown");
}

TEST_F(BrewsTest, WhatWasUsedForABrewDayLessensItsNeed) {
    buy("lids", 2, "1");
    const auto brew = plan();
    cellar.does("brew.need", {{"brew", brew}, {"good", "lids"}, {"amount", 5}});
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 2}, {"brew", brew}});
    const auto needs = cellar.does("brew.show", {{"brew", brew}}).at("needs").as_array();
    ASSERT_EQ(needs.size(), 1U);
    EXPECT_EQ(quantity(needs.at(0), "amount"), 3);
}

TEST_F(BrewsTest, ACancelledBrewDayNeedsNothing) {
    const auto brew = plan();
    cellar.does("brew.need", {{"brew", brew}, {"good", "lids"}, {"amount", 5}});
    cellar.does("brew.cancel", {{"brew", brew}});
    const auto code = buy("lids", 5, "1");
    EXPECT_EQ(quantity(lot(code), "available"), 5);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(BrewsTest, ChangingKeepsWhatIsNotNamed) {
    const auto brew = cellar.does(
        "brew.plan",
        {{"day", "2026-04-01"}, {"name", "ale"}, {"volume", "20 L"}, {"gravity", 1.048}});
    const auto changed =
        cellar.does("brew.change", {{"brew", brew.at("number")}, {"strain", "house"}});
    EXPECT_EQ(changed.at("volume").to_number<double>(), 20);
    EXPECT_DOUBLE_EQ(changed.at("gravity").as_double(), 1.048);
    EXPECT_EQ(text(changed, "strain"), "house");
}

TEST_F(BrewsTest, TheListComesInPages) {
    for (const char* day : {"2026-05-01", "2026-04-01", "2026-06-01", "2026-04-01"})
        plan(day, day);
    std::vector<std::int64_t> numbers;
    json::object params{{"limit", 1}};
    while (true) {
        const auto page = cellar.does("brew.list", params);
        for (const auto& brew : page.at("brews").as_array())
            numbers.push_back(brew.at("number").as_int64());
        if (!page.contains("next"))
            break;
        params["cursor"] = page.at("next");
    }
    EXPECT_EQ(numbers, (std::vector<std::int64_t>{2, 4, 1, 3}));
}

class RemindersTest : public CellarTest {
protected:
    json::object post(const json::object& more = {}) {
        json::object params{{"name", "gauge"}, {"title", "Test the dial"}, {"due", "2026-03-20"}};
        for (const auto& member : more)
            params[member.key()] = member.value();
        return cellar.does("reminder.post", params);
    }
    std::size_t shown(bool all = false) {
        return cellar.does("reminder.list", {{"all", all}}).at("reminders").as_array().size();
    }
    std::int64_t events() { return cellar.does("cellar.glance").at("sequence").as_int64(); }
};

TEST_F(RemindersTest, PostingWhatIsThereChangesNothing) {
    post();
    const auto before = cellar.dumped();
    post();
    EXPECT_EQ(cellar.dumped(), before);
    EXPECT_EQ(shown(), 1U);
}

TEST_F(RemindersTest, ADoneOneIsOpenedOnlyByNews) {
    post();
    cellar.does("reminder.done", {{"name", "gauge"}});
    EXPECT_EQ(text(post(), "state"), "done");
    EXPECT_EQ(shown(), 0U);
    EXPECT_EQ(text(post({{"due", "2027-03-20"}}), "state"), "open");
    EXPECT_EQ(shown(), 1U);
}

TEST_F(RemindersTest, ASnoozedOneShowsAgainOnItsDay) {
    post();
    cellar.does("reminder.snooze", {{"name", "gauge"}, {"until", "2026-03-16"}});
    EXPECT_EQ(shown(), 0U);
    EXPECT_EQ(shown(true), 1U);
    EXPECT_EQ(text(post({{"note", "news"}}), "state"), "snoozed");
    cellar.clock.set(parse_instant("2026-03-16T00:00:00Z"));
    EXPECT_EQ(shown(), 1U);
    EXPECT_EQ(text(cellar.does("reminder.list").at("reminders").at(0), "state"), "open");
    EXPECT_EQ(
        cellar.refusal("reminder.snooze", {{"name", "gauge"}, {"until", "2026-03-16"}}).reason(),
        "day_past");
}

TEST_F(RemindersTest, ClearingWhatIsNotThereIsNoError) {
    post();
    EXPECT_EQ(cellar.does("reminder.clear", {{"name", "gauge"}}).at("cleared"), 1);
    const auto before = events();
    EXPECT_EQ(cellar.does("reminder.clear", {{"name", "gauge"}}).at("cleared"), 0);
    EXPECT_EQ(events(), before);
    EXPECT_EQ(cellar.refusal("reminder.done", {{"name", "gauge"}}).reason(), "reminder_unknown");
}

class RecordsTest : public CellarTest {
protected:
    Call canning = caller("canning for anna", Access::keep, "canning");
    json::object params{{"collection", "runs"}, {"name", "1"}};
    json::object with(const char* member, const json::value& value) {
        json::object more = params;
        more[member] = value;
        return more;
    }
};

TEST_F(RecordsTest, ARecordBelongsToThePluginThatPutIt) {
    cellar.does(canning, "record.put", with("document", json::object{{"jars", 7}}));
    EXPECT_EQ(cellar.refusal("record.get", params).reason(), "record_unknown");
    EXPECT_EQ(cellar.does("record.get", with("owner", "canning")).at("document").at("jars"), 7);
    EXPECT_FALSE(cellar.does("record.remove", params).at("was_there").as_bool());
    EXPECT_TRUE(cellar.does(canning, "record.remove", params).at("was_there").as_bool());
}

TEST_F(RecordsTest, AnExpectedVersionGuardsAgainstLostChanges) {
    auto put = with("document", json::object{});
    put["expected"] = 0;
    EXPECT_EQ(cellar.does("record.put", put).at("version"), 1);
    EXPECT_EQ(cellar.refusal("record.put", put).reason(), "version_changed");
    put["expected"] = 1;
    EXPECT_EQ(cellar.does("record.put", put).at("version"), 2);
}

TEST_F(RecordsTest, ADocumentHasABound) {
    const json::object large{{"text", std::string(256 << 10, 'x')}};
    EXPECT_EQ(cellar.refusal("record.put", with("document", large)).reason(), "too_large");
}

TEST_F(RecordsTest, ALineOfALogHasABoundOfItsOwn) { // 16 KiB, a document 256 KiB
    const auto made =
        cellar.does(canning, "record.add", {{"collection", "runs"}, {"document", json::object{}}});
    const auto refused = cellar.refusal(
        canning, "record.append",
        {{"collection", "runs"},
         {"number", made.at("number")},
         {"lines", json::array{json::object{{"text", std::string(17 << 10, 'x')}}}}});
    EXPECT_EQ(refused.reason(), "too_large");
    EXPECT_EQ(refused.faults().front().pointer, "/lines/0");
}

TEST_F(RecordsTest, TheListComesInPagesAndRefusesForeignCursors) {
    for (const char* name : {"b", "a", "c"})
        cellar.does("record.put", {{"collection", "runs"}, {"name", name}, {"document", {}}});
    const auto page = cellar.does("record.list", {{"collection", "runs"}, {"limit", 2}});
    ASSERT_TRUE(page.contains("next"));
    const auto rest = cellar.does(
        "record.list", {{"collection", "runs"}, {"limit", 2}, {"cursor", page.at("next")}});
    EXPECT_EQ(text(rest.at("records").at(0), "name"), "c");
    EXPECT_FALSE(rest.contains("next"));
    EXPECT_EQ(cellar.refusal("entry.list", {{"cursor", page.at("next")}}).reason(), "bad_cursor");
    EXPECT_EQ(cellar.refusal("brew.list", {{"cursor", "hello"}}).reason(), "bad_cursor");
}

class CellarFactsTest : public CellarTest {};

TEST_F(CellarFactsTest, TheCurrencyIsFixedOnceMoneyWasRecorded) {
    EXPECT_EQ(text(cellar.does("cellar.show"), "currency"), "XXX");
    EXPECT_EQ(cellar.refusal("cellar.set", {{"currency", "EUX"}}).reason(), "currency_unknown");
    EXPECT_EQ(cellar.refusal("cellar.set", {{"currency", "ric"}}).reason(), "currency_unknown");
    cellar.does("cellar.set", {{"currency", "USD"}});
    cellar.does("cellar.set", {{"currency", "EUR"}});
    buy("lids", 1, "1");
    EXPECT_EQ(cellar.refusal("cellar.set", {{"currency", "USD"}}).reason(), "currency_fixed");
    cellar.does("cellar.set", {{"currency", "EUR"}, {"altitude", "520 m"}});
    EXPECT_EQ(cellar.does("cellar.show").at("altitude").to_number<double>(), 520);
}

TEST_F(CellarFactsTest, TheAltitudeIsEmptiedByName) {
    cellar.does("cellar.set", {{"altitude", "520 m"}});
    EXPECT_EQ(cellar.refusal("cellar.set", {{"clear", json::array{"units"}}}).reason(),
              "not_clearable");
    const auto cleared =
        cellar.does("cellar.set", {{"name", "stairs"}, {"clear", json::array{"altitude"}}});
    EXPECT_FALSE(cleared.contains("altitude"));
    EXPECT_EQ(text(cleared, "name"), "stairs");
}

TEST_F(CellarFactsTest, TheDayIsTheCellarsOwn) {
    cellar.clock.set(parse_instant("2026-03-14T23:30:00Z"));
    EXPECT_EQ(text(cellar.does("cellar.glance"), "today"), "2026-03-14");
    cellar.does("cellar.set", {{"time_zone", "Europe/Vienna"}});
    EXPECT_EQ(text(cellar.does("cellar.glance"), "today"), "2026-03-15");
    EXPECT_EQ(cellar.refusal("cellar.set", {{"time_zone", "Europe/Wien"}}).reason(),
              "zone_unknown");
}

TEST_F(CellarFactsTest, AGlanceHasTheShelfWhatIsDueAndTheNextBrewDays) {
    buy("lids", 3, "1.50");
    plan();
    cellar.does("reminder.post", {{"name", "a"}, {"title", "b"}, {"due", "2026-03-15"}});
    const auto glance = cellar.does("cellar.glance");
    EXPECT_EQ(glance.at("shelves").as_array().size(), 1U);
    EXPECT_EQ(text(glance, "value"), "1.50");
    EXPECT_EQ(glance.at("due").as_array().size(), 1U);
    EXPECT_EQ(glance.at("brews").as_array().size(), 1U);
}

TEST_F(CellarFactsTest, APriceIsNotedByItemAndPlace) {
    cellar.does("price.set", {{"item", "DRY extract"}, {"price", "9"}, {"day", "2026-01-01"}});
    cellar.does("price.set", {{"item", "dry extract"}, {"price", "8"}, {"where", "market"}});
    cellar.does("price.set", {{"item", "dry extract"}, {"price", "10"}});
    const auto prices =
        cellar.does("price.list", {{"item", "dry extract"}}).at("prices").as_array();
    ASSERT_EQ(prices.size(), 2U);
    EXPECT_EQ(text(prices[0], "price"), "10.00");
    EXPECT_EQ(text(prices[0], "item"), "dry extract");
    EXPECT_EQ(cellar.refusal("price.set", {{"item", "x"}, {"price", "1"}, {"day", "2026-04-01"}})
                  .reason(),
              "day_ahead");
}

TEST_F(CellarFactsTest, EquipmentIsKeptByNameAndForgotten) {
    cellar.does("jar.set", {{"name", "pint"}, {"fill", "420 mL"}, {"headspace", "1 in"}});
    cellar.does("flask.set", {{"name", "large"}, {"volume", "2 L"}});
    cellar.does("canner.set",
                {{"name", "big"},
                 {"gauge", "dial"},
                 {"capacity", json::array{json::object{{"jar", "pint"}, {"count", 7}}}},
                 {"gauge_tested", "2026-01-01"}});
    cellar.does("canner.set",
                {{"name", "Big"},
                 {"gauge", "weighted"},
                 {"capacity", json::array{json::object{{"jar", "pint"}, {"count", 8}}}}});
    const auto list = cellar.does("equipment.list");
    ASSERT_EQ(list.at("canners").as_array().size(), 1U);
    EXPECT_EQ(text(list.at("canners").at(0), "gauge"), "weighted");
    EXPECT_EQ(list.at("jars").as_array().size(), 1U);
    EXPECT_THAT(cellar.refusal("equipment.remove", {{"kind", "jar"}, {"name", "pnt"}}).hint(),
                HasSubstr("pint"));
    cellar.does("equipment.remove", {{"kind", "jar"}, {"name", "pint"}});
    EXPECT_TRUE(cellar.does("equipment.list").at("jars").as_array().empty());
}

} // namespace
} // namespace barmkeep::ledger
