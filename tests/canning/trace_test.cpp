#include "plugins/canning/trace/tracer.hpp"

#include <algorithm>
#include <gmock/gmock.h>
#include <set>

namespace barmkeep::canning {
namespace {

using contract::Entry;
using contract::EntryKind;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

/// A small journal by hand: two bags into two lots of jars, one of them into a third, used in
/// beers.
class Chain : public testing::Test {
protected:
    const LotCode bag{'E', 1}, second_bag{'E', 2}, good{'J', 3}, unsealed{'J', 4}, again{'J', 5};

    Chain() {
        post(1, EntryKind::bought, {}, {}, {{bag, 1000}});
        post(2, EntryKind::bought, {}, {}, {{second_bag, 1000}});
        post(3, EntryKind::converted, 1, {},
             {{bag, -900}, {second_bag, -100}, {good, 5}, {unsealed, 2}});
        post(4, EntryKind::converted, 2, {}, {{unsealed, -2}, {again, 2}});
        post(5, EntryKind::used, {}, 8, {{good, -2}});
        post(6, EntryKind::used, {}, 9, {{again, -1}});
        post(7, EntryKind::used, {}, 10, {{good, -1}});
        entries[6].undone_by = 8;
        post(8, EntryKind::undone, {}, {}, {{good, 1}});
    }

    void post(std::int64_t number, EntryKind kind, std::optional<std::int64_t> run,
              std::optional<std::int64_t> brew,
              const std::vector<std::pair<LotCode, std::int64_t>>& lines) {
        Entry entry;
        entry.number = number;
        entry.kind = kind;
        if (run)
            entry.about = {{"canning.run", *run}};
        entry.brew = brew;
        for (const auto& [lot, steps] : lines)
            entry.lines.push_back({lot, "good", {steps, Measure::pieces}, {}});
        entries.push_back(std::move(entry));
    }

    LotTrace from(const LotCode& lot) const {
        const Journal journal{[](const LotCode& code) {
                                  contract::Lot found;
                                  found.code = code;
                                  return found;
                              },
                              [this](const LotCode& code) {
                                  std::vector<Entry> touching;
                                  for (const Entry& entry : entries)
                                      for (const auto& line : entry.lines)
                                          if (line.lot == code) {
                                              touching.push_back(entry);
                                              break;
                                          }
                                  return touching;
                              }};
        return trace_of(lot, journal);
    }

    static std::vector<LotCode> codes(const LotTrace& trace) {
        std::vector<LotCode> all;
        for (const auto& traced : trace.lots)
            all.push_back(traced.lot.code);
        return all;
    }

    std::vector<Entry> entries;
};

TEST_F(Chain, FromAJarLeadsToItsBagsItsRunAndItsBeer) {
    const LotTrace trace = from(good);
    EXPECT_THAT(codes(trace), ElementsAre(bag, second_bag, good));
    EXPECT_THAT(trace.runs, ElementsAre(1));
    EXPECT_THAT(trace.brews, ElementsAre(8)) << "the undone use does not count";
    EXPECT_THAT(trace.uses, SizeIs(1));
}

TEST_F(Chain, FromAJarThatWentThroughTwoRunsLeadsThroughBothRuns) {
    const LotTrace trace = from(again);
    EXPECT_THAT(codes(trace), ElementsAre(bag, second_bag, unsealed, again));
    EXPECT_THAT(trace.runs, testing::UnorderedElementsAre(1, 2));
    EXPECT_THAT(trace.brews, ElementsAre(9));
}

TEST_F(Chain, FromABagLeadsToAllItsJarsAndBeers) {
    const LotTrace trace = from(bag);
    EXPECT_THAT(codes(trace), ElementsAre(bag, good, unsealed, again));
    EXPECT_THAT(trace.brews, testing::UnorderedElementsAre(8, 9));
}

TEST_F(Chain, FromABagWithoutJarsIsTheBagAlone) {
    post(9, EntryKind::bought, {}, {}, {{LotCode{'E', 9}, 1}});
    const LotTrace trace = from(LotCode{'E', 9});
    EXPECT_THAT(codes(trace), ElementsAre(LotCode{'E', 9}));
    EXPECT_THAT(trace.runs, IsEmpty());
}

TEST_F(Chain, TwoTrailsMergeWithoutDoubles) {
    LotTrace all = from(good);
    merge(all, from(again));
    EXPECT_THAT(codes(all), ElementsAre(bag, second_bag, unsealed, good, again));
    EXPECT_THAT(all.uses, SizeIs(2));
}

// A jar of a bag, and of jars that were made of the same bag.
TEST_F(Chain, ALotThatIsReachedByTwoWaysIsThereOnceByTheLongerOne) {
    const LotCode mixed{'J', 6};
    post(9, EntryKind::converted, 3, {}, {{bag, -50}, {good, -1}, {mixed, 1}});
    const LotTrace trace = from(mixed);
    EXPECT_THAT(codes(trace), ElementsAre(bag, second_bag, good, mixed));
    EXPECT_EQ(trace.lots[0].steps, -2);
    EXPECT_EQ(trace.lots[2].steps, -1);
    EXPECT_THAT(trace.runs, testing::UnorderedElementsAre(1, 3));
    const LotTrace onward = from(bag);
    EXPECT_EQ(std::ranges::count(codes(onward), mixed), 1);
    EXPECT_EQ(onward.lots.back().lot.code, mixed);
    EXPECT_EQ(onward.lots.back().steps, 2);
    std::set<std::int64_t> uses;
    for (const auto& use : onward.uses)
        EXPECT_TRUE(uses.insert(use.entry).second) << "each use once";
}

TEST_F(Chain, APartSplitOffToBeHeldIsFollowed) {
    const LotCode part{'J', 7};
    post(9, EntryKind::split, {}, {}, {{good, -2}, {part, 2}});
    EXPECT_THAT(codes(from(part)), ElementsAre(bag, second_bag, good, part));
    EXPECT_THAT(codes(from(bag)), testing::Contains(part));
}

} // namespace
} // namespace barmkeep::canning
