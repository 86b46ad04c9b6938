#include "tests/executor/by_hand.hpp"
#include "tests/ledger/cellar.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <future>

namespace barmkeep::ledger {
namespace {

/// Holds the writer's thread after its first commit until it is opened.
class Gate {
public:
    explicit Gate(Cellar& cellar) {
        cellar.ledger.on_event([this](const contract::Event&) {
            if (!std::exchange(is_first_, false))
                return;
            reached_.set_value();
            opened_.get_future().wait();
        });
        first_ = std::async(std::launch::async, [&cellar] {
            return cellar.does("brew.plan", {{"day", "2026-04-01"}, {"name", "first"}});
        });
        reached_.get_future().wait();
    }
    void open() {
        opened_.set_value();
        first_.get();
    }

private:
    bool is_first_ = true;
    std::promise<void> reached_;
    std::promise<void> opened_;
    std::future<json::object> first_;
};

class WriterTest : public CellarTest {
protected:
    using Outcomes = std::vector<std::promise<Outcome>>;
    void start(Cellar& at, std::string_view method, const json::object& params,
               std::promise<Outcome>& outcome) {
        const json::value sent = params;
        at.table.start(method, at.anna, &sent,
                       [&outcome](Outcome told) { outcome.set_value(std::move(told)); });
    }
};

TEST_F(WriterTest, WhatWaitsIsCommittedAtOnce) {
    const auto before = cellar.ledger.commits();
    Gate gate{cellar};
    Outcomes outcomes(100);
    for (auto& outcome : outcomes)
        start(cellar, "brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}}, outcome);
    gate.open();
    for (auto& outcome : outcomes)
        EXPECT_TRUE(std::holds_alternative<json::value>(outcome.get_future().get()));
    EXPECT_LT(cellar.ledger.commits() - before, 50); // 2, unless the machine is very slow
    EXPECT_EQ(cellar.does("brew.list", {{"limit", 500}}).at("brews").as_array().size(), 101U);
}

TEST_F(WriterTest, ABatchIsBoundedByCount) {
    Folder other;
    Cellar small{Ledger::Options{.file = other.file("cellar.db"), .batch_count_max = 10}};
    Gate gate{small};
    const auto before = small.ledger.commits();
    Outcomes outcomes(30);
    for (auto& outcome : outcomes)
        start(small, "brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}}, outcome);
    gate.open();
    for (auto& outcome : outcomes)
        outcome.get_future().wait();
    EXPECT_GE(small.ledger.commits() - before, 3);
}

TEST_F(WriterTest, ABatchIsBoundedByBytes) {
    Folder other;
    Cellar small{Ledger::Options{.file = other.file("cellar.db"), .batch_bytes_max = 1}};
    Gate gate{small};
    const auto before = small.ledger.commits();
    Outcomes outcomes(5);
    for (auto& outcome : outcomes)
        start(small, "brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}}, outcome);
    gate.open();
    for (auto& outcome : outcomes)
        outcome.get_future().wait();
    EXPECT_EQ(small.ledger.commits() - before, 5);
}

TEST_F(WriterTest, OneThatFailsLeavesTheOthersOfItsBatchAlone) {
    Gate gate{cellar};
    Outcomes outcomes(3);
    start(cellar, "stock.buy", {{"good", "lids"}, {"amount", 5}, {"paid", "1"}}, outcomes[0]);
    start(cellar, "stock.use", {{"what", "lids"}, {"amount", 6}}, outcomes[1]);
    start(cellar, "stock.use", {{"what", "lids"}, {"amount", 5}}, outcomes[2]);
    gate.open();
    EXPECT_TRUE(std::holds_alternative<json::value>(outcomes[0].get_future().get()));
    EXPECT_EQ(std::get<Error>(outcomes[1].get_future().get()).reason(), "not_enough");
    EXPECT_TRUE(std::holds_alternative<json::value>(outcomes[2].get_future().get()));
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(WriterTest, OneKeyTwiceInABatchIsDoneOnce) {
    Gate gate{cellar};
    Outcomes outcomes(2);
    for (auto& outcome : outcomes)
        start(cellar, "brew.plan", {{"day", "2026-05-01"}, {"name", "ale"}, {"key", "k"}}, outcome);
    gate.open();
    EXPECT_EQ(write_json(std::get<json::value>(outcomes[0].get_future().get())),
              write_json(std::get<json::value>(outcomes[1].get_future().get())));
    EXPECT_EQ(cellar.does("brew.list").at("brews").as_array().size(), 2U);
}

TEST_F(WriterTest, MoreThanTheQueueHoldsIsToldToComeAgain) {
    Folder other;
    Cellar small{Ledger::Options{.file = other.file("cellar.db"), .queue_max = 2}};
    Gate gate{small};
    Outcomes outcomes(3);
    for (auto& outcome : outcomes)
        start(small, "brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}}, outcome);
    EXPECT_EQ(std::get<Error>(outcomes[2].get_future().get()).kind(), ErrorKind::busy);
    gate.open();
    EXPECT_TRUE(std::holds_alternative<json::value>(outcomes[1].get_future().get()));
}

TEST_F(WriterTest, StoppingFinishesWhatWaitsAndRefusesTheRest) {
    Gate gate{cellar};
    Outcomes outcomes(5);
    for (auto& outcome : outcomes)
        start(cellar, "brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}}, outcome);
    auto stopped = std::async(std::launch::async, [&] { cellar.ledger.stop(); });
    gate.open();
    stopped.wait();
    for (auto& outcome : outcomes)
        EXPECT_TRUE(std::holds_alternative<json::value>(outcome.get_future().get()));
    EXPECT_EQ(cellar.refusal("brew.list").reason(), "stopping");
    EXPECT_EQ(cellar.refusal("brew.cancel", {{"brew", 1}}).reason(), "stopping");
    EXPECT_FALSE(std::filesystem::exists(folder.file("cellar.db-wal"))); // all is in the file
}

TEST_F(WriterTest, TheJournalCannotBeChangedOrCutEvenByHand) {
    const auto code = buy("lids", 5, "1");
    buy("pint jar", 3, "1");
    cellar.does("lot.hold", {{"lot", code}, {"note", "bent"}});
    cellar.does("stock.convert",
                {{"inputs", json::array{json::object{{"what", "pint jar"}, {"amount", 3}}}},
                 {"outputs", json::array{json::object{{"good", "wort"}, {"amount", 2}}}},
                 {"lost", 1}});
    cellar.ledger.stop();
    SQLite::Database database{folder.file("cellar.db").string(), SQLite::OPEN_READWRITE};
    for (const char* statement :
         {"UPDATE entry SET note = 'x'", "DELETE FROM entry", "UPDATE line SET quantity = 6",
          "DELETE FROM line", "UPDATE loss SET pieces = 2", "DELETE FROM loss",
          "UPDATE lot_change SET was = '{}'", "DELETE FROM lot_change", "DELETE FROM hold",
          "UPDATE hold SET kind = 'quarantine'", "UPDATE entry_digest SET digest = ''",
          "DELETE FROM entry_digest"})
        EXPECT_THROW(database.exec(statement), SQLite::Exception) << statement;
}

TEST_F(WriterTest, ABalanceTamperedWithIsFound) {
    buy("lids", 5, "1");
    cellar.ledger.stop();
    {
        SQLite::Database database{folder.file("cellar.db").string(), SQLite::OPEN_READWRITE};
        database.exec("UPDATE balance SET quantity = 4");
        database.exec("INSERT INTO entry SELECT 9, at, day, who, kind, note, NULL, NULL, NULL "
                      "FROM entry");
    }
    Cellar again{folder.file("cellar.db")};
    const auto found = again.does("ledger.check");
    EXPECT_FALSE(found.at("sound").as_bool());
    EXPECT_EQ(found.at("faults").as_array().size(), 3U); // balance, gap, entry without digest
}

TEST_F(CellarTest, AnEntryIsOfTheInstantAndTheDayAtWhichItsRequestArrived) {
    Call late = cellar.anna;
    late.arrived = cellar.clock.now();
    cellar.clock.advance(std::chrono::hours{24});
    const json::object params{{"good", "lids"}, {"amount", 5}, {"paid", "1"}};
    const auto at_once = cellar.does("stock.buy", params);
    const auto waited = cellar.does(late, "stock.buy", params);
    const auto entry = [&](const json::object& answer) {
        return cellar.does("entry.show", {{"entry", answer.at("entry")}});
    };
    EXPECT_EQ(entry(at_once).at("at"), "2026-03-15T10:00:00Z");
    EXPECT_EQ(entry(waited).at("at"), "2026-03-14T10:00:00Z") << "though its number is the later";
    EXPECT_EQ(entry(waited).at("day"), "2026-03-14");
    EXPECT_GT(entry(waited).at("number").as_int64(), entry(at_once).at("number").as_int64());
}

class ReadersTest : public CellarTest {
protected:
    void take_all_threads(executor::test::Gate& gate) {
        for (int i = 0; i < 4; ++i) {
            executor::Task task;
            task.lane = Lane::log;
            task.work = [&] {
                gate.pass();
            };
            cellar.executor.submit(std::move(task));
        }
        gate.wait_for(4);
    }
    executor::test::EndsInTime ends_in_time;
};

TEST_F(ReadersTest, AReadingConnectionCanNeitherWriteNorCheckpoint) {
    buy("lids", 5, "1");
    Store reader{{folder.file("cellar.db"), true, {}, 0}};
    for (const char* statement :
         {"UPDATE cellar SET name = 'x'", "CREATE TABLE x (y)", "PRAGMA user_version = 9"})
        EXPECT_THROW(reader.script(statement), StoreError) << statement;
    const auto log = std::filesystem::file_size(folder.file("cellar.db-wal"));
    try {
        reader.checkpoint();
    } catch (const StoreError&) { // refused, or done nothing: both will do
    }
    EXPECT_EQ(std::filesystem::file_size(folder.file("cellar.db-wal")), log);
    reader.each("PRAGMA wal_autocheckpoint", {},
                [](const Row& row) { EXPECT_EQ(std::get<std::int64_t>(row.value(0)), 0); });
}

TEST_F(ReadersTest, WhatAPluginAsksIsReadOnItsOwnThread) {
    executor::test::Gate gate;
    take_all_threads(gate);
    Call nested = cellar.anna;
    nested.depth = 1;
    EXPECT_EQ(cellar.does(nested, "cellar.show").at("time_zone"), "UTC");
    gate.open();
    cellar.executor.stop();
}

TEST_F(ReadersTest, ARequestCancelledBeforeItsTurnIsNotRead) {
    executor::test::Gate gate;
    take_all_threads(gate);
    std::stop_source source;
    Call mine = cellar.anna;
    mine.cancelled = source.get_token();
    const auto outcome = std::make_shared<std::promise<Outcome>>();
    cellar.table.start("cellar.show", mine, nullptr,
                       [outcome](Outcome told) { outcome->set_value(std::move(told)); });
    source.request_stop();
    gate.open();
    EXPECT_EQ(std::get<Error>(outcome->get_future().get()).reason(), "cancelled");
    cellar.executor.stop();
}

TEST_F(ReadersTest, EveryReadingMethodLeavesTheFilesAlone) {
    const auto code = buy("lids", 5, "1");
    plan();
    const auto before = cellar.dumped();
    const auto log = std::filesystem::file_size(folder.file("cellar.db-wal"));
    const auto commits = cellar.ledger.commits();
    for (const auto& row : cellar.table.rows()) {
        if (row->description.effect != Effect::reads || row->description.name == "ledger.backup")
            continue;
        json::object params;
        for (const auto& [name, value] : json::object{{"name", "lids"},
                                                      {"number", 1},
                                                      {"lot", code},
                                                      {"entry", 1},
                                                      {"brew", 1},
                                                      {"of", "k"},
                                                      {"collection", "c"}})
            if (row->description.params.at("properties").as_object().contains(name))
                params[name] = value;
        (void)cellar.outcome(cellar.anna, row->description.name, params);
    }
    EXPECT_EQ(cellar.dumped(), before);
    EXPECT_EQ(std::filesystem::file_size(folder.file("cellar.db-wal")), log);
    EXPECT_EQ(cellar.ledger.commits(), commits);
}

} // namespace
} // namespace barmkeep::ledger
