// Sealed low-acid food past its best by.  Found while playing the demo: a jar whose seal had
// failed, good for days in the refrigerator, was first to expire and so went into a starter a week
// later.
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

using ::testing::HasSubstr;

class PastBestByTest : public CellarTest {
protected:
    std::string past = buy("wort", 2, "2.00", {{"best_by", "2026-03-16"}});
    std::string good = buy("wort", 3, "3.00", {{"best_by", "2027-03-01"}});
    void pass_the_day() { cellar.clock.set(parse_instant("2026-03-17T10:00:00Z")); }
};

TEST_F(PastBestByTest, IsGoodToTheEndOfItsLastDay) {
    cellar.clock.set(parse_instant("2026-03-16T20:00:00Z"));
    cellar.does("stock.use", {{"what", "wort"}, {"amount", 1}});
    EXPECT_EQ(on_hand(past), 1);
}

TEST_F(PastBestByTest, IsNeverTakenUnlessItsLotIsNamed) {
    pass_the_day();
    cellar.does("stock.use", {{"what", "wort"}, {"amount", 1}});
    EXPECT_EQ(on_hand(past), 2);
    EXPECT_EQ(on_hand(good), 2);
    cellar.does("stock.use", {{"what", past}, {"amount", 1}});
    EXPECT_EQ(on_hand(past), 1);
    cellar.does("stock.discard", {{"lot", past}, {"reason", "too old"}});
    EXPECT_EQ(on_hand(past), 0);
}

TEST_F(PastBestByTest, IsNotFree) {
    pass_the_day();
    EXPECT_EQ(quantity(lot(past), "available"), 0);
    EXPECT_EQ(quantity(lot(past), "on_hand"), 2);
    const auto shelf = cellar.does("stock.list", {{"good", "wort"}});
    EXPECT_EQ(quantity(shelf.at("shelves").at(0), "available"), 3);
}

TEST_F(PastBestByTest, IsSaidWhenThereIsNotEnough) {
    pass_the_day();
    const auto before = cellar.dumped();
    EXPECT_THAT(cellar.refusal("stock.use", {{"what", "wort"}, {"amount", 4}}).what(),
                HasSubstr("past best by: 2; available: 3"));
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(PastBestByTest, IsNotTakenEvenWhenABrewDayHasSetItAside) {
    const auto brew = plan();
    cellar.does("brew.reserve", {{"brew", brew}, {"what", past}, {"amount", 1}});
    pass_the_day();
    cellar.does("stock.use", {{"what", "wort"}, {"amount", 1}, {"brew", brew}});
    EXPECT_EQ(on_hand(past), 2);
}

TEST_F(PastBestByTest, HoldsForSealedFoodOnly) {
    const auto extract = buy("dry extract", "1 kg", "9.00", {{"best_by", "2026-03-16"}});
    pass_the_day();
    cellar.does("stock.use", {{"what", "dry extract"}, {"amount", "100 g"}});
    EXPECT_EQ(on_hand(extract), 900);
}

} // namespace
} // namespace barmkeep::ledger
