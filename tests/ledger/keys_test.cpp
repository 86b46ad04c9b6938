#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

class KeysTest : public CellarTest {
protected:
    json::object bought(const std::string& key, int amount = 12) {
        return {{"good", "lids"}, {"amount", amount}, {"paid", "4"}, {"key", key}};
    }
    std::int64_t entries() { return cellar.does("ledger.check").at("entries").as_int64(); }
};

TEST_F(KeysTest, TheSameRequestIsDoneOnceAndAnsweredAlike) {
    const auto first = cellar.does("stock.buy", bought("a"));
    const auto second = cellar.does("stock.buy", bought("a"));
    EXPECT_EQ(write_json(first), write_json(second));
    EXPECT_EQ(entries(), 1);
}

TEST_F(KeysTest, AnotherRequestWithTheKeyIsRefused) {
    cellar.does("stock.buy", bought("a"));
    const auto before = cellar.dumped();
    const auto error = cellar.refusal("stock.buy", bought("a", 13));
    EXPECT_EQ(error.kind(), ErrorKind::conflict);
    EXPECT_EQ(error.reason(), "key_used");
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(KeysTest, ARefusedRequestLeavesItsKeyFree) {
    cellar.refusal("stock.use", {{"what", "lids"}, {"amount", 1}, {"key", "a"}});
    cellar.does("stock.buy", bought("b"));
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 1}, {"key", "a"}});
}

TEST_F(KeysTest, ADigestOfTheOutermostRequestIsWhatCounts) {
    Call call = cellar.anna;
    call.digest = "outer";
    cellar.does(call, "stock.buy", bought("a"));
    call.digest = "other";
    EXPECT_EQ(cellar.refusal(call, "stock.buy", bought("a")).reason(), "key_used");
}

TEST_F(KeysTest, AnAnswerCanBeRecalled) {
    const auto first = cellar.does("stock.buy", bought("a"));
    const auto recalled = cellar.does("ledger.recall", {{"of", "a"}});
    EXPECT_TRUE(recalled.at("done").as_bool());
    EXPECT_EQ(write_json(recalled.at("answer")), write_json(first));
    EXPECT_FALSE(cellar.does("ledger.recall", {{"of", "b"}}).at("done").as_bool());
    Call call = cellar.anna;
    call.digest = "another request's";
    EXPECT_EQ(cellar.refusal(call, "ledger.recall", {{"of", "a"}}).reason(), "key_used");
}

TEST_F(KeysTest, KeysAreKeptNinetyDays) {
    cellar.does("stock.buy", bought("old"));
    cellar.clock.advance(Days{90});
    cellar.does("stock.buy", bought("new"));
    EXPECT_TRUE(cellar.does("ledger.recall", {{"of", "old"}}).at("done").as_bool());
    cellar.clock.advance(std::chrono::milliseconds{1});
    cellar.does("stock.buy", bought("newer"));
    EXPECT_FALSE(cellar.does("ledger.recall", {{"of", "old"}}).at("done").as_bool());
}

TEST_F(KeysTest, TheAnswerOutlivesTheProgram) {
    Folder other;
    std::string first;
    {
        Cellar before{other.file("cellar.db")};
        first = write_json(
            before.does("brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}, {"key", "k"}}));
    }
    Cellar after{other.file("cellar.db")};
    EXPECT_EQ(
        write_json(after.does("brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}, {"key", "k"}})),
        first);
    EXPECT_EQ(after.does("brew.list").at("brews").as_array().size(), 1U);
}

class BatchTest : public CellarTest {
protected:
    static json::object step(const std::string& method, const json::object& params) {
        return {{"method", method}, {"params", params}};
    }
};

TEST_F(BatchTest, AllStepsAreDoneInOneTransaction) {
    const auto result = cellar.does(
        "ledger.batch",
        {{"steps", json::array{step("stock.buy", {{"good", "lids"}, {"amount", 12}, {"paid", "4"}}),
                               step("stock.use", {{"what", "lids"}, {"amount", 2}}),
                               step("record.put", {{"collection", "runs"},
                                                   {"name", "1"},
                                                   {"document", json::object{{"jars", 7}}}})}}});
    EXPECT_EQ(result.at("results").as_array().size(), 3U);
    EXPECT_EQ(quantity(cellar.does("stock.list").at("shelves").at(0), "on_hand"), 10);
}

TEST_F(BatchTest, OneThatFailsUndoesAllAndItsPlaceIsTold) {
    const auto before = cellar.dumped();
    const auto error = cellar.refusal(
        "ledger.batch",
        {{"steps", json::array{step("stock.buy", {{"good", "lids"}, {"amount", 12}, {"paid", "4"}}),
                               step("stock.use", {{"what", "lids"}, {"amount", 13}})}}});
    EXPECT_EQ(error.reason(), "not_enough");
    EXPECT_EQ(error.faults().front().pointer, "/steps/1/params/amount");
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(BatchTest, OnlyWritingMethodsOfTheCoreAreSteps) {
    const auto refused = [&](const std::string& method) {
        return cellar.refusal("ledger.batch",
                              {{"steps", json::array{step(method, json::object{})}}});
    };
    EXPECT_EQ(refused("ledger.batch").reason(), "not_a_step");
    EXPECT_EQ(refused("stock.list").reason(), "not_a_step");
    EXPECT_EQ(refused("stock.bye").faults().front().pointer, "/steps/0/method");
    EXPECT_EQ(refused("stock.buy").faults().front().pointer, "/steps/0/params/good");
}

TEST_F(BatchTest, AStepNeedsItsOwnRights) {
    const auto error =
        cellar.refusal(caller("bert", Access::keep), "ledger.batch",
                       {{"steps", json::array{step("cellar.set", {{"name", "mine"}})}}});
    EXPECT_EQ(error.kind(), ErrorKind::refused);
}

TEST_F(BatchTest, WhatLooksLikeAReferenceInADocumentStaysAsItIs) {
    const json::object document{{"result", 0}, {"at", "/entry"}};
    cellar.does(
        "ledger.batch",
        {{"steps",
          json::array{
              step("stock.buy", {{"good", "lids"}, {"amount", 12}, {"paid", "4"}}),
              step("record.put", {{"collection", "c"}, {"name", "n"}, {"document", document}})}}});
    EXPECT_EQ(cellar.does("record.get", {{"collection", "c"}, {"name", "n"}}).at("document"),
              json::value(document));
}

TEST_F(BatchTest, AKeyInsideAStepIsRefused) {
    EXPECT_EQ(cellar
                  .refusal("ledger.batch",
                           {{"steps", json::array{step("brew.plan", {{"day", "2026-04-01"},
                                                                     {"name", "ale"},
                                                                     {"key", "k"}})}}})
                  .faults()
                  .front()
                  .pointer,
              "/steps/0/params/key");
}

} // namespace
} // namespace barmkeep::ledger
