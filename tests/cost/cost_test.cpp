#include "plugins/cost/comparison.hpp"
#include "plugins/cost/exact.hpp"
#include "sdk/brewing/extract.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>
#include <numeric>

namespace barmkeep::cost {
namespace {

using brewing::gram;
using brewing::Gravity;
using brewing::litre;
using contract::Category;
using contract::Entry;
using contract::EntryKind;
using test::day;
using testing::HasSubstr;

Money money(std::string_view text) {
    return parse_money(text);
}

TEST(Exact, ScalesAndRoundsHalvesAwayFromZero) {
    EXPECT_EQ(scaled(money("10.00"), 1, 3), money("3.333333"));
    EXPECT_EQ(scaled(money("0.000001"), 1, 2), money("0.000001"));
    EXPECT_EQ(scaled(money("-0.000001"), 1, 2), money("-0.000001"));
    EXPECT_EQ(scaled(money("2.50"), 7, 2), money("8.75"));
    EXPECT_EQ(scaled(Money{}, 5, 1), Money{});
}

TEST(Exact, RefusesWhatMoneyCannotHold) {
    EXPECT_EQ(test::reason_of([] { return scaled(money("900000000000"), 1'000'000'000, 1); }),
              "sum_too_large");
    EXPECT_EQ(test::reason_of([] { return sum({INT64_MAX}, {1}); }), "sum_too_large");
    EXPECT_EQ(test::reason_of([] { return product(1'000'000'000'000, 20'000'000); }),
              "sum_too_large");
}

TEST(Exact, PartsAddUpToTheWhole) {
    const auto parts = split(money("1.00"), {1, 1, 1});
    EXPECT_EQ(parts, (std::vector{money("0.333333"), money("0.333334"), money("0.333333")}));
    EXPECT_EQ(std::accumulate(parts.begin(), parts.end(), Money{}), money("1.00"));
    EXPECT_EQ(split(money("1.00"), {0, 0}), (std::vector{Money{}, Money{}}));
}

/// Jars that hold exactly 100 g each, and cost so much in all.
contract::Lot hundreds(std::int64_t number, std::int64_t count, std::string_view value) {
    auto lot = test::jars_of(number, count, 1.09, 0.42);
    lot.facts.gravity.reset();
    lot.facts.extract = 100.0 * gram;
    lot.value = money(value);
    lot.origin = 10 + number;
    return lot;
}

Batch batch(const contract::Lot& lot) {
    return batch_of(lot, nullptr, {}).value();
}

TEST(JarCost, IsValueOverCountByLotAndWeightedOverAll) {
    // 10 jars for 12.00 and 2 for 3.60: 15.60 / 12 = 1.30 a jar, and per 100 g.
    const std::vector batches{batch(hundreds(1, 10, "12.00")), batch(hundreds(2, 2, "3.60"))};
    const auto cost = cost_of(batches, Gravity::sg(1.040));
    EXPECT_EQ(cost.lots[0].jar, money("1.20"));
    EXPECT_EQ(cost.lots[1].jar, money("1.80"));
    EXPECT_EQ(cost.jar, money("1.30"));
    EXPECT_EQ(cost.per_100g, money("1.30"));
    EXPECT_EQ(cost.per_gram, money("0.013"));
    // A litre of 1.040 holds 103.7 g of extract (9.99 P, 1038 g): 1.348.
    EXPECT_NEAR(cost.per_litre->units(), 1.348, 0.001);
}

TEST(JarCost, ALotWithoutExtractCountsForTheJarAndNotForTheExtract) {
    auto unknown = hundreds(2, 2, "3.60");
    unknown.facts = {};
    const std::vector batches{batch(hundreds(1, 10, "12.00")), batch(unknown)};
    const auto cost = cost_of(batches, Gravity::sg(1.040));
    EXPECT_EQ(cost.jar, money("1.30"));
    // 12.00 for 1000 g; the 3.60 of jars that nobody knows the extract of are not in it.
    EXPECT_EQ(cost.per_gram, money("0.012"));
    EXPECT_EQ(cost.per_100g, money("1.20"));
    EXPECT_NEAR(cost.per_litre->units(), 0.012 * 103.7, 0.001);
    EXPECT_EQ(cost.extract, 1000.0 * gram);
    EXPECT_FALSE(cost.lots[1].per_100g);
    EXPECT_THAT(*cost.lots[1].note, HasSubstr("barm lot change " + test::code('J', 2)));
}

TEST(JarCost, ExtractFollowsFromGravityAndFill) {
    const auto lot = test::jars_of(1, 1, 1.090, 0.42);
    const double grams = brewing::extract_in({0.42 * litre, Gravity::sg(1.090)}).in(gram);
    EXPECT_NEAR(static_cast<double>(*extract_in_one(lot.facts, {}, "J")) / 1000.0, grams, 0.0006);
    auto sized = lot.facts;
    sized.fill.reset();
    sized.jar = "pint";
    const std::vector<contract::JarSize> sizes{{"pint", 0.42 * litre, {}, {}, {}}};
    EXPECT_EQ(extract_in_one(sized, sizes, "J"), extract_in_one(lot.facts, {}, "J"));
    EXPECT_FALSE(extract_in_one(sized, {}, "J"));
    sized.gravity = Gravity::sg(1.4);
    EXPECT_EQ(test::reason_of([&] { return extract_in_one(sized, sizes, "J"); }),
              "facts_out_of_range");
}

TEST(JarCost, AnEmptyLotIsValuedAsItWasMade) {
    auto lot = hundreds(1, 0, "0.00");
    EXPECT_FALSE(batch_of(lot, nullptr, {}));
    Entry origin;
    origin.lines = {{lot.code, lot.good, pieces(8), money("10.00")}};
    const auto made = batch_of(lot, &origin, {});
    ASSERT_TRUE(made);
    EXPECT_EQ(made->jars, 8);
    EXPECT_TRUE(cost_of({{*made}}, Gravity::sg(1.040)).lots[0].is_empty);
    EXPECT_EQ(cost_of({{*made}}, Gravity::sg(1.040)).jar, money("1.25"));
}

// Found in the season played over the real daemon: an unsealed jar in the refrigerator, whose cost
// the good ones carry, made every jar look cheaper.
TEST(JarCost, AJarThatNeverBecomesStockTellsNothingOfTheCost) {
    EXPECT_TRUE(batch_of(hundreds(1, 6, "10.00"), nullptr, {}));
    using contract::HoldKind;
    for (const auto kind : {HoldKind::seal_failed, HoldKind::deviation_known, HoldKind::unknown}) {
        auto lot = hundreds(2, 1, "0.00");
        test::put_on_hold(lot, kind, "why");
        EXPECT_FALSE(batch_of(lot, nullptr, {})) << to_string(kind);
    }
    for (const auto kind : {HoldKind::quarantine, HoldKind::evidence_missing, HoldKind::run_suspect,
                            HoldKind::process_unknown}) {
        auto lot = hundreds(2, 1, "2.00"); // may be released, and cost what it cost
        test::put_on_hold(lot, kind, "why");
        EXPECT_TRUE(batch_of(lot, nullptr, {})) << to_string(kind);
    }
    auto free = hundreds(2, 1, "0.00"); // made of what cost nothing
    EXPECT_TRUE(batch_of(free, nullptr, {}));
}

TEST(JarCost, JarsFoundByARecountTellNothingOfTheCost) {
    const auto found = hundreds(2, 1, "0.00");
    Entry origin;
    origin.kind = EntryKind::recounted;
    origin.lines = {{found.code, found.good, pieces(1), Money{}}};
    EXPECT_FALSE(batch_of(found, &origin, {}));
    origin.kind = EntryKind::bought;
    EXPECT_TRUE(batch_of(found, &origin, {}));
}

contract::PriceNote note_of(std::string item, std::string_view price, double litres, double sg) {
    contract::PriceNote note;
    note.item = std::move(item);
    note.price = money(price);
    note.day = day("2026-03-01");
    note.volume = litres * litre;
    note.gravity = Gravity::sg(sg);
    return note;
}

TEST(Beside, TheCanIsHeldAgainstTheJarByItsExtract) {
    // A jar of 100 g for 1.20; a can of 50 g for 3.00, so 6.00 for the same extract.
    const Totals jars{10, 1'000'000, money("12.00")};
    const Can can{"can", "shop", day("2026-03-01"), money("3.00"), 50'000, 1};
    const auto row = compare_can(can, jars, 25);
    EXPECT_EQ(row.per_100g, money("6.00"));
    EXPECT_EQ(row.same_extract, money("6.00"));
    EXPECT_EQ(row.saving_per_jar, money("4.80"));
    EXPECT_EQ(row.saving_last_year, money("120.00"));
    EXPECT_DOUBLE_EQ(row.times, 5.0);
}

TEST(Beside, ADearerJarSavesLessThanNothing) {
    const Totals jars{1, 100'000, money("5.00")};
    const auto row = compare_can({"can", {}, {}, money("2.00"), 100'000, 1}, jars, 0);
    EXPECT_EQ(row.saving_per_jar, money("-3.00"));
    EXPECT_EQ(row.saving_last_year, Money{});
}

TEST(Beside, AJarThatCostNothingHasNoRatio) {
    const auto row = compare_can({"can", {}, {}, money("2.00"), 100'000, 1}, {1, 100'000, {}}, 0);
    EXPECT_EQ(row.times, 0.0);
}

TEST(Cans, ComeFromNotesFromGoodsAndFromTheShelf) {
    contract::Good can;
    can.name = "canned wort";
    can.category = Category::bought_can;
    can.facts.extract = 90.0 * gram;
    auto note = note_of("canned wort", "12.00", 1, 1.0);
    note.volume.reset();
    note.gravity.reset();
    note.pieces = 4;
    auto lot = test::lot_of(test::code('C', 1), "canned wort", Category::bought_can, pieces(3));
    lot.value = money("10.50");
    lot.facts = can.facts;
    const std::vector notes{note_of("small can", "4.50", 0.5, 1.080), note};
    const std::vector goods{can};
    const std::vector shelves{test::shelf_of({lot})};
    const auto cans = cans_known(notes, goods, shelves, {}, std::nullopt);
    ASSERT_EQ(cans.size(), 3U);
    EXPECT_EQ(cans[0].item, "canned wort");
    EXPECT_EQ(cans[0].extract_mg, 360'000); // four of 90 g
    EXPECT_EQ(cans[1].price, money("10.50"));
    EXPECT_EQ(cans[1].extract_mg, 270'000);
    EXPECT_EQ(compare_can(cans[1], {1, 90'000, money("1.00")}, 0).price, money("3.50"));
    EXPECT_EQ(cans_known(notes, goods, shelves, {}, "small can").size(), 1U);
}

TEST(Cans, WithoutAPriceTheErrorNamesTheCommand) {
    const auto none = [] {
        return cans_known({}, {}, {}, {}, std::nullopt);
    };
    EXPECT_EQ(test::reason_of(none), "no_can_price");
    EXPECT_THAT(test::hint_of(none), HasSubstr("barm price set"));
    // A note without volume or gravity is no can.
    auto bare = note_of("dry extract", "9.00", 1, 1.05);
    bare.gravity.reset();
    const std::vector notes{bare};
    EXPECT_EQ(
        test::reason_of([&] { return cans_known(notes, {}, {}, {}, std::string("dry extract")); }),
        "no_can_price");
}

contract::Good good_of(std::string name, Category category) {
    contract::Good good;
    good.name = std::move(name);
    good.category = category;
    return good;
}

std::vector<contract::Good> pantry() {
    return {good_of("extract", Category::extract), good_of("lids", Category::lids),
            good_of("light concentrate", Category::concentrate)};
}

contract::Line line(char letter, std::int64_t number, std::string good, Amount amount,
                    std::string_view value) {
    return {LotCode(letter, number), std::move(good), amount, money(value)};
}

/// Extract for 10.00 and 12 lids for 2.00 made 10 jars of lot 1: two failed.
std::map<std::int64_t, Entry> canned() {
    Entry entry;
    entry.number = 11;
    entry.kind = EntryKind::converted;
    entry.lost = 2;
    entry.lines = {line('E', 5, "extract", {-1'000'000, Measure::mass}, "-10.00"),
                   line('L', 6, "lids", pieces(-12), "-2.00"),
                   line('J', 1, "light concentrate", pieces(10), "12.00")};
    return {{11, entry}};
}

TEST(Parts, FollowTheConversionAndAddUp) {
    // Half of the jars are left, worth 6.00: 5.00 of it extract and 1.00 lids.
    const std::vector batches{batch(hundreds(1, 5, "6.00"))};
    const auto parts = parts_of(batches, canned(), pantry());
    ASSERT_EQ(parts.size(), 2U);
    EXPECT_EQ(parts[0].good, "extract");
    EXPECT_EQ(parts[0].value, money("5.00"));
    EXPECT_EQ(parts[0].jar, money("1.00"));
    EXPECT_EQ(parts[0].per_mille, 833);
    EXPECT_EQ(parts[1].category, Category::lids);
    EXPECT_EQ(parts[1].value, money("1.00"));
    EXPECT_EQ(parts[1].per_mille, 167);
}

TEST(Parts, ALotThatWasNotMadeHereIsItsOwnPart) {
    const std::vector batches{batch(hundreds(2, 4, "6.00"))};
    const auto parts = parts_of(batches, canned(), pantry());
    ASSERT_EQ(parts.size(), 1U);
    EXPECT_EQ(parts[0].good, "light concentrate");
    EXPECT_EQ(parts[0].value, money("6.00"));
    EXPECT_FALSE(lost_of(batches, canned(), {}));
}

TEST(Lost, AreTheJarsThatTheEntryNotes) {
    // 2 of 12 failed: a sixth of 6.00, so 0.20 in each of the five jars left.
    const std::vector batches{batch(hundreds(1, 5, "6.00"))};
    const auto lost = lost_of(batches, canned(), {});
    ASSERT_TRUE(lost);
    EXPECT_EQ(lost->jars, 2);
    EXPECT_EQ(lost->value, money("1.00"));
    EXPECT_EQ(lost->jar, money("0.20"));
    auto none = canned();
    none[11].lost.reset();
    EXPECT_EQ(lost_of(batches, none, {})->jars, 0);
}

TEST(Lost, AreAlsoJarsThatWentIntoTheRefrigerator) {
    auto origins = canned();
    origins[11].lost = 1;
    origins[11].lines.push_back(line('J', 2, "light concentrate", pieces(1), "0.00"));
    const std::vector batches{batch(hundreds(1, 5, "6.00"))};
    const auto lost = lost_of(batches, origins, {LotCode('J', 2)});
    EXPECT_EQ(lost->jars, 2);
    EXPECT_EQ(lost->value, money("1.00")); // still 2 of 12
    // A good lot beside it, even one without value, is no failed jar: 1 of 12.
    EXPECT_EQ(lost_of(batches, origins, {})->value, money("0.50"));
}

TEST(Lost, OfTwoBatchesOfOneEntryAreCountedOnce) {
    // The same load filled two lots: 5 jars worth 5.00, and 5 worth 7.00; 2 of 12 failed.
    auto origins = canned();
    origins[11].lines[2] = line('J', 1, "light concentrate", pieces(5), "5.00");
    origins[11].lines.push_back(line('J', 2, "light concentrate", pieces(5), "7.00"));
    auto second = hundreds(2, 5, "7.00");
    second.origin = 11;
    const std::vector batches{batch(hundreds(1, 5, "5.00")), batch(second)};
    const auto lost = lost_of(batches, origins, {});
    EXPECT_EQ(lost->jars, 2);
    // A sixth of each: 0.833333 and 1.166667.
    EXPECT_EQ(lost->value, money("2.00"));
    EXPECT_EQ(lost->jar, money("0.20"));
}

TEST(Lost, OfTwoEntriesAreAdded) {
    auto origins = canned();
    origins[12] = origins[11];
    origins[12].number = 12;
    origins[12].lost = 3;
    origins[12].lines[2] = line('J', 2, "light concentrate", pieces(9), "12.00");
    const std::vector batches{batch(hundreds(1, 5, "6.00")), batch(hundreds(2, 3, "4.00"))};
    EXPECT_EQ(lost_of(batches, origins, {})->jars, 5);
    EXPECT_EQ(lost_of(batches, origins, {})->value, money("2.00")); // 1/6 of 6.00, 1/4 of 4.00
}

// Found in review: jars of goods that cost nothing have no value, so none was counted as having
// come out, and the share that failed was reckoned of nothing, which killed the daemon.
TEST(Lost, OfAConversionThatCostNothingIsNothing) {
    auto origins = canned();
    for (auto& line : origins[11].lines)
        line.value = Money{};
    const auto lost = lost_of(std::vector{batch(hundreds(1, 5, "0.00"))}, origins, {});
    ASSERT_TRUE(lost);
    EXPECT_EQ(lost->jars, 2);
    EXPECT_EQ(lost->value, Money{});
    EXPECT_EQ(lost->jar, Money{});
}

TEST(Lost, OfAConversionWithoutJarsIsNotKnown) {
    auto origins = canned();
    origins[11].lines = {line('E', 5, "extract", {-1'000'000, Measure::mass}, "-10.00"),
                         line('X', 1, "other extract", {900'000, Measure::mass}, "10.00")};
    EXPECT_FALSE(lost_of(std::vector{batch(hundreds(1, 5, "6.00"))}, origins, {}));
}

TEST(UsedLastYear, CountsTwelveMonthsAndNoUndoneEntries) {
    const LotCode lot('J', 1);
    const auto entry = [&](std::string_view on, std::int64_t count, EntryKind kind) {
        Entry one;
        one.day = day(on);
        one.kind = kind;
        one.lines = {{lot, "light concentrate", pieces(-count), {}},
                     {LotCode('J', 2), "light concentrate", pieces(-50), {}}};
        return one;
    };
    std::vector entries{
        entry("2026-03-14", 1, EntryKind::used),  entry("2025-03-15", 2, EntryKind::used),
        entry("2025-03-14", 4, EntryKind::used),  entry("2026-01-01", 8, EntryKind::discarded),
        entry("2026-01-01", 16, EntryKind::used), entry("2026-03-15", 32, EntryKind::used)};
    entries[4].undone_by = 99;
    EXPECT_EQ(used_last_year(entries, lot, day("2026-03-14")), 3);
}

TEST(UsedLastYear, TheYearBefore29FebruaryBeginsOn1March) {
    Entry first;
    first.day = day("2023-03-01");
    first.kind = EntryKind::used;
    first.lines = {{LotCode('J', 1), "light concentrate", pieces(-1), {}}};
    Entry before = first;
    before.day = day("2023-02-28");
    EXPECT_EQ(used_last_year(std::vector{first, before}, LotCode('J', 1), day("2024-02-29")), 0);
    EXPECT_EQ(used_last_year(std::vector{first, before}, LotCode('J', 1), day("2024-02-28")), 1);
}

} // namespace
} // namespace barmkeep::cost
