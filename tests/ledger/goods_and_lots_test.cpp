#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

using ::testing::HasSubstr;

class GoodsTest : public CellarTest {};
class LotsTest : public CellarTest {};

TEST_F(GoodsTest, TheClassGivesTheUsualMeasure) {
    EXPECT_EQ(text(cellar.does("good.add", {{"name", "yeast food"}, {"category", "nutrient"}}),
                   "measure"),
              "mass");
    EXPECT_EQ(cellar.refusal("good.add", {{"name", "rope"}, {"category", "other"}}).reason(),
              "missing");
    EXPECT_EQ(text(cellar.does("good.add",
                               {{"name", "oil"}, {"category", "other"}, {"measure", "volume"}}),
                   "measure"),
              "volume");
}

TEST_F(GoodsTest, NamesAreOneOfAKindWhateverTheirCase) {
    EXPECT_EQ(cellar.refusal("good.add", {{"name", "LIDS"}, {"category", "lids"}}).reason(),
              "name_taken");
    EXPECT_EQ(cellar.refusal("good.add", {{"name", " lids"}, {"category", "lids"}}).reason(),
              "bad_name");
    EXPECT_EQ(
        cellar
            .refusal("good.add", {{"name", to_text(LotCode{'J', 14})}, {"category", "concentrate"}})
            .reason(),
        "bad_name");
}

TEST_F(GoodsTest, ChangingKeepsWhatIsNotNamed) {
    cellar.does(
        "good.change",
        {{"name", "dry extract"}, {"facts", {{"potential", 1.044}}}, {"package", "1.5 kg"}});
    const auto good = cellar.does(
        "good.change",
        {{"name", "dry extract"}, {"rename", "Dry extract"}, {"facts", {{"solids", 0.95}}}});
    EXPECT_EQ(text(good, "name"), "Dry extract");
    EXPECT_EQ(quantity(good, "package"), 1500);
    EXPECT_DOUBLE_EQ(good.at("facts").at("potential").as_double(), 1.044);
    EXPECT_DOUBLE_EQ(good.at("facts").at("solids").as_double(), 0.95);
    EXPECT_EQ(cellar.refusal("good.change", {{"name", "lids"}, {"rename", "wort"}}).reason(),
              "name_taken");
    EXPECT_EQ(cellar.refusal("good.change", {{"name", "lids"}, {"package", 0}}).reason(),
              "out_of_range");
}

TEST_F(GoodsTest, TheListGoesByNameAndClass) {
    const auto all = cellar.does("good.list").at("all").as_array();
    ASSERT_EQ(all.size(), 5U);
    EXPECT_EQ(text(all[0], "name"), "dry extract");
    EXPECT_EQ(cellar.does("good.list", {{"category", "extract"}}).at("all").as_array().size(), 2U);
}

TEST_F(LotsTest, ALotsOwnFactsOutrankTheGoods) {
    cellar.does("good.change",
                {{"name", "wort"}, {"facts", {{"gravity", 1.08}, {"fill", "420 mL"}}}});
    const auto code = buy("wort", 6, "12", {{"facts", {{"gravity", 1.09}}}});
    auto facts = lot(code).at("facts");
    EXPECT_DOUBLE_EQ(facts.at("gravity").as_double(), 1.09);
    EXPECT_DOUBLE_EQ(facts.at("fill").as_double(), 0.42);
    cellar.does("lot.change",
                {{"lot", code}, {"facts", {{"gravity", 1.095}}}, {"reason", "measured again"}});
    EXPECT_DOUBLE_EQ(lot(code).at("facts").at("gravity").as_double(), 1.095);
}

TEST_F(LotsTest, ACodeOfAnotherClassIsNoLotAndTheRightOneIsTold) {
    const auto code = buy("lids", 6, "12");
    const auto number = parse_lot_code(code).number();
    const auto error = cellar.refusal("lot.show", {{"lot", to_text(LotCode{'J', number})}});
    EXPECT_EQ(error.reason(), "lot_unknown");
    EXPECT_THAT(error.hint(), HasSubstr(code));
    EXPECT_EQ(cellar.refusal("lot.show", {{"lot", to_text(LotCode{'L', 99})}}).reason(),
              "lot_unknown");
    EXPECT_EQ(cellar.refusal("lot.show", {{"lot", "L1B2"}}).reason(), "not_a_lot");
}

TEST_F(LotsTest, ACodeIsReadInSmallLettersToo) {
    auto code = buy("lids", 6, "12");
    for (auto& letter : code)
        letter = static_cast<char>(std::tolower(letter));
    cellar.does("stock.use", {{"what", code}, {"amount", 1}});
    EXPECT_EQ(on_hand(code), 5);
}

TEST_F(LotsTest, ChangedDatesAreCheckedAgainstTheOthers) {
    const auto code = buy("lids", 6, "12", {{"packed", "2026-02-01"}});
    EXPECT_EQ(cellar
                  .refusal("lot.change",
                           {{"lot", code}, {"best_by", "2026-01-01"}, {"reason", "as printed"}})
                  .reason(),
              "best_by_before");
    EXPECT_EQ(cellar
                  .refusal("lot.change",
                           {{"lot", code}, {"packed", "2026-03-15"}, {"reason", "as printed"}})
                  .reason(),
              "day_ahead");
    const auto changed = cellar.does(
        "lot.change", {{"lot", code}, {"best_by", "2028-01-01"}, {"reason", "as printed"}});
    EXPECT_EQ(text(changed, "best_by"), "2028-01-01");
    EXPECT_EQ(text(changed, "packed"), "2026-02-01");
    EXPECT_THAT(cellar.dumped(), HasSubstr("|anna|changed|as printed"));
}

TEST_F(LotsTest, ALotIsHeldAndReleased) {
    const auto code = buy("wort", 6, "12");
    const auto held = cellar.does("lot.hold", {{"lot", code}, {"note", "log not complete"}});
    EXPECT_EQ(text(held.at("holds").at(0), "note"), "log not complete");
    EXPECT_EQ(quantity(held, "available"), 0);
    const auto released = cellar.does("lot.release", {{"lot", code}, {"reason", "log found"}});
    EXPECT_TRUE(released.at("holds").as_array().empty());
    EXPECT_EQ(quantity(released, "available"), 6);
    EXPECT_EQ(cellar.refusal("lot.release", {{"lot", code}, {"reason", "again"}}).reason(),
              "not_on_hold");
}

} // namespace
} // namespace barmkeep::ledger
