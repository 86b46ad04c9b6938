#include "daemon/ledger/conversion.hpp"
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

class ConversionTest : public CellarTest {
protected:
    json::object can(int good, int lost) {
        json::object params{
            {"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "1 kg"}},
                                   json::object{{"what", "lids"}, {"amount", good + lost}}}},
            {"outputs", json::array{json::object{{"good", "wort"},
                                                 {"amount", good},
                                                 {"canned", "2026-03-14"},
                                                 {"best_by", "2027-03-14"}}}},
            {"lost", lost}};
        return cellar.does("stock.convert", params);
    }
};

TEST_F(ConversionTest, WhatWentInIsWorthWhatCameOut) {
    buy("dry extract", "3 kg", "25");
    buy("lids", 12, "5");
    const auto made = can(7, 1);
    EXPECT_EQ(text(made, "value"), "11.666666"); // 8.333333 and 3.333333
    EXPECT_EQ(text(made.at("lots").at(0), "value"), "11.666666");
    EXPECT_EQ(text(made, "lost_value"), "1.458333");
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(ConversionTest, WhatWasLostStaysInTheJournal) {
    buy("dry extract", "3 kg", "25");
    buy("lids", 12, "5");
    const auto made = can(7, 1);
    const auto shown = cellar.does("entry.show", {{"entry", made.at("entry")}});
    EXPECT_EQ(shown.at("lost"), 1);
    EXPECT_EQ(text(shown, "lost_value"), "1.458333");
    const auto newest = cellar.does("entry.list").at("entries").at(0);
    EXPECT_EQ(write_json(newest), write_json(shown));
    cellar.does("entry.undo", cellar.undoing(made.at("entry")));
    EXPECT_EQ(cellar.does("entry.show", {{"entry", made.at("entry")}}).at("lost"), 1);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(ConversionTest, WhereNothingWasLostTheJournalSaysNothingOfIt) {
    buy("dry extract", "3 kg", "25");
    buy("lids", 12, "5");
    const auto shown = cellar.does("entry.show", {{"entry", can(7, 0).at("entry")}});
    EXPECT_FALSE(shown.contains("lost"));
    EXPECT_FALSE(shown.contains("lost_value"));
}

TEST_F(ConversionTest, SharesLeaveNoRemainder) {
    EXPECT_EQ(shares(Money{100}, {1, 1, 1}), (std::vector<Money>{{33}, {34}, {33}}));
    EXPECT_EQ(shares(Money{1}, {1, 1, 1}), (std::vector<Money>{{0}, {1}, {0}}));
    EXPECT_EQ(shares(Money{100}, {0, 2, 0}), (std::vector<Money>{{0}, {100}, {0}}));
    EXPECT_EQ(shares(Money{0}, {3, 4}), (std::vector<Money>{{0}, {0}}));
    EXPECT_THROW((void)shares(Money{100}, {0, 0}), Error);
}

TEST_F(ConversionTest, SeveralOutputsShareByWeight) {
    buy("dry extract", "1 kg", "10");
    const auto made = cellar.does(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "1 kg"}}}},
         {"outputs",
          json::array{
              json::object{{"good", "wort"}, {"amount", 5}, {"weight", 3}},
              json::object{{"good", "liquid extract"}, {"amount", "1 g"}, {"weight", 1}}}}});
    EXPECT_EQ(text(made.at("lots").at(0), "value"), "7.50");
    EXPECT_EQ(text(made.at("lots").at(1), "value"), "2.50");
}

TEST_F(ConversionTest, WeightsAreGivenForAllOrNone) {
    buy("dry extract", "1 kg", "10");
    const auto with = [&](const json::array& outputs) {
        return cellar
            .refusal(
                "stock.convert",
                {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "1 kg"}}}},
                 {"outputs", outputs}})
            .reason();
    };
    EXPECT_EQ(with({json::object{{"good", "wort"}, {"amount", 5}, {"weight", 3}},
                    json::object{{"good", "wort"}, {"amount", 5}}}),
              "weight_missing");
    EXPECT_EQ(with({json::object{{"good", "wort"}, {"amount", 5}},
                    json::object{{"good", "liquid extract"}, {"amount", "1 g"}}}),
              "weight_missing");
    EXPECT_EQ(with({json::object{{"good", "wort"}, {"amount", 5}, {"weight", 0}}}), "out_of_range");
}

TEST_F(ConversionTest, AnInputThatIsShortUndoesTheWhole) {
    buy("dry extract", "3 kg", "25");
    buy("lids", 2, "1");
    const auto before = cellar.dumped();
    const auto error = cellar.refusal(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "1 kg"}},
                                json::object{{"what", "lids"}, {"amount", 3}}}},
         {"outputs", json::array{json::object{{"good", "wort"}, {"amount", 3}}}}});
    EXPECT_EQ(error.reason(), "not_enough");
    EXPECT_EQ(error.faults().front().pointer, "/inputs/1/amount");
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(ConversionTest, EveryFaultIsToldAtOnceAndNothingIsTaken) {
    buy("dry extract", "3 kg", "25");
    buy("lids", 2, "1");
    const auto before = cellar.dumped();
    const auto error = cellar.refusal(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "1 kg"}},
                                json::object{{"what", "lids"}, {"amount", 3}},
                                json::object{{"what", "lidz"}, {"amount", 3}}}},
         {"outputs", json::array{json::object{{"good", "wort"},
                                              {"amount", 0},
                                              {"canned", "2026-03-15"},
                                              {"best_by", "2026-03-01"}},
                                 json::object{{"good", "wrt"}, {"amount", 3}}}},
         {"lost", 1},
         {"day", "2026-03-21"}});
    std::vector<std::string> faults;
    for (const auto& fault : error.faults())
        faults.push_back(fault.pointer + " " + fault.reason);
    EXPECT_THAT(faults, ::testing::UnorderedElementsAre(
                            "/day day_ahead", "/outputs/0/amount out_of_range",
                            "/outputs/0/best_by best_by_before", "/outputs/1/good good_unknown",
                            "/inputs/1/amount not_enough", "/inputs/2/what good_unknown"));
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(ConversionTest, FaultsOfWeightsAndOfInputsAreToldTogether) {
    const auto before = cellar.dumped();
    const auto error = cellar.refusal(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", "lids"}, {"amount", 3}}}},
         {"outputs",
          json::array{json::object{{"good", "liquid extract"}, {"amount", "1 kg"}, {"weight", 0}}}},
         {"lost", 1}});
    std::vector<std::string> faults;
    for (const auto& fault : error.faults())
        faults.push_back(fault.pointer + " " + fault.reason);
    EXPECT_THAT(faults,
                ::testing::UnorderedElementsAre("/inputs/0/amount not_enough",
                                                "/outputs out_of_range", "/lost out_of_range"));
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(ConversionTest, BestBeforeCanningIsRefused) {
    buy("dry extract", "3 kg", "25");
    const auto error = cellar.refusal(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "1 kg"}}}},
         {"outputs", json::array{json::object{{"good", "wort"},
                                              {"amount", 3},
                                              {"canned", "2026-03-10"},
                                              {"best_by", "2026-03-09"}}}}});
    EXPECT_EQ(error.reason(), "best_by_before");
    EXPECT_EQ(error.faults().front().pointer, "/outputs/0/best_by");
}

TEST_F(ConversionTest, LostPiecesNeedAnOutputInPieces) {
    buy("dry extract", "3 kg", "25");
    EXPECT_EQ(
        cellar
            .refusal(
                "stock.convert",
                {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "1 kg"}}}},
                 {"outputs",
                  json::array{json::object{{"good", "liquid extract"}, {"amount", "1 kg"}}}},
                 {"lost", 1}})
            .faults()
            .front()
            .pointer,
        "/lost");
}

TEST_F(ConversionTest, ALossIsSharedByAllThatComesOutInPieces) {
    // 12.00 for 4 jars and 2 cans of which 1 piece more was lost: 12/7 = 1.714286 of it would have
    // been the lost piece's, worked by hand; the 6 good pieces carry 2.00 each.
    buy("lids", 7, "12.00");
    const auto made = cellar.does(
        "stock.convert", {{"inputs", json::array{json::object{{"what", "lids"}, {"amount", 7}}}},
                          {"outputs", json::array{json::object{{"good", "pint jar"}, {"amount", 4}},
                                                  json::object{{"good", "wort"}, {"amount", 2}}}},
                          {"lost", 1}});
    EXPECT_EQ(text(made, "lost_value"), "1.714286");
    EXPECT_EQ(text(made.at("lots").at(0), "value"), "8.00");
    EXPECT_EQ(text(made.at("lots").at(1), "value"), "4.00");
}

/// A conversion whose jars go into a lot that is there.
class RefillTest : public ConversionTest {
protected:
    RefillTest() { buy("lids", 12, "6"); }
    static json::object into(const std::string& code, int jars) {
        json::object output{{"good", "wort"}, {"amount", jars}, {"canned", "2026-03-14"}};
        if (!code.empty())
            output["lot"] = code;
        return {{"inputs", json::array{json::object{{"what", "lids"}, {"amount", jars}}}},
                {"outputs", json::array{output}}};
    }
};

TEST_F(RefillTest, ALotThatIsFilledAgainIsOfTheNewEntry) {
    const auto made = cellar.does("stock.convert", into("", 4));
    const auto code = text(made.at("lots").at(0), "code");
    cellar.does("entry.undo", cellar.undoing(made.at("entry")));
    const auto again = cellar.does("stock.convert", into(code, 3));
    EXPECT_EQ(lot(code).at("origin"), again.at("entry"));
    EXPECT_EQ(on_hand(code), 3);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(RefillTest, ALotWhoseEntryStandsIsNotFilledAgainWhenItIsEmpty) {
    const auto made = cellar.does("stock.convert", into("", 2));
    const auto code = text(made.at("lots").at(0), "code");
    cellar.does("lot.vouch", {{"lot", code},
                              {"process", "25 min at 12 psi, own notebook"},
                              {"canned", "2026-03-14"},
                              {"confirm", code}});
    cellar.does("stock.use", {{"what", code}, {"amount", 2}});
    EXPECT_EQ(cellar.refusal("stock.convert", into(code, 2)).reason(), "not_refilled");
}

TEST_F(RefillTest, ALotThatWasFilledAgainAndUsedUpIsNotFilledOnceMore) {
    const auto made = cellar.does("stock.convert", into("", 2));
    const auto code = text(made.at("lots").at(0), "code");
    cellar.does("entry.undo", cellar.undoing(made.at("entry")));
    const auto again = cellar.does("stock.convert", into(code, 2));
    cellar.does("stock.discard", {{"lot", code}, {"amount", 2}, {"reason", "cloudy"}});
    EXPECT_EQ(cellar.refusal("stock.convert", into(code, 2)).reason(), "not_refilled");
    EXPECT_EQ(lot(code).at("origin"), again.at("entry"));
}

class CorrectionTest : public ConversionTest {
protected:
    json::object correct(const json::value& entry) {
        return cellar.does("entry.undo", cellar.undoing(entry));
    }
    Error not_correct(const json::value& entry) {
        return cellar.refusal("entry.undo", cellar.undoing(entry));
    }
};

TEST_F(CorrectionTest, ACorrectedPurchaseLeavesAnEmptyLot) {
    const auto bought = cellar.does("stock.buy", {{"good", "lids"}, {"amount", 12}, {"paid", "4"}});
    const auto undone = correct(bought.at("entry"));
    const auto code = text(bought.at("lot"), "code");
    EXPECT_EQ(on_hand(code), 0);
    EXPECT_EQ(value(code), "0.00");
    const auto entry = cellar.does("entry.show", {{"entry", bought.at("entry")}});
    EXPECT_EQ(entry.at("undone_by"), undone.at("entry"));
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(CorrectionTest, ACorrectedUseComesBackWithItsValue) {
    const auto code = buy("lids", 3, "1.00");
    const auto used = cellar.does("stock.use", {{"what", "lids"}, {"amount", 2}});
    correct(used.at("entry"));
    EXPECT_EQ(on_hand(code), 3);
    EXPECT_EQ(value(code), "1.00");
}

TEST_F(CorrectionTest, ACorrectedConversionIsTurnedBackWhole) {
    const auto extract = buy("dry extract", "3 kg", "25");
    const auto lids = buy("lids", 12, "5");
    const auto made = can(7, 1);
    correct(made.at("entry"));
    EXPECT_EQ(on_hand(extract), 3000);
    EXPECT_EQ(value(extract), "25.00");
    EXPECT_EQ(on_hand(lids), 12);
    EXPECT_EQ(on_hand(text(made.at("lots").at(0), "code")), 0);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(CorrectionTest, NothingIsUndoneTwiceNorACorrectionUndone) {
    buy("lids", 12, "5");
    const auto undone = correct(1);
    EXPECT_EQ(not_correct(1).reason(), "already_undone");
    EXPECT_EQ(not_correct(undone.at("entry")).reason(), "is_undoing");
    EXPECT_EQ(cellar.refusal("entry.undo", {{"entry", 77}, {"kind", "used"}, {"reason", "mistake"}})
                  .reason(),
              "entry_unknown");
}

TEST_F(CorrectionTest, AnEntryThatLaterOnesBuiltOnStays) {
    buy("lids", 12, "5");
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 2}});
    const auto before = cellar.dumped();
    EXPECT_EQ(not_correct(1).reason(), "below_zero");
    EXPECT_EQ(cellar.dumped(), before);
    correct(2);
    correct(1);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(CorrectionTest, WhatCostNothingDoesNotFallBelowZeroEither) {
    buy("lids", 12, "0");
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 2}});
    EXPECT_EQ(not_correct(1).reason(), "below_zero");
}

TEST_F(CorrectionTest, AValueIsNeverLeftOnAnEmptyLot) {
    const auto code = buy("lids", 10, "100");
    const auto found =
        cellar.does("stock.recount", {{"lot", code}, {"amount", 20}, {"reason", "a second bag"}});
    cellar.does("stock.use", {{"what", code}, {"amount", 10}});
    EXPECT_EQ(not_correct(found.at("entry")).reason(), "below_zero");
    EXPECT_EQ(value(code), "50.00");
}

} // namespace
} // namespace barmkeep::ledger
