// What happens when the disk does not play along.
#include "tests/ledger/cellar.hpp"
#include "tests/ledger/faulty_disk.hpp"

#include <future>
#include <spdlog/sinks/ostream_sink.h>
#include <sstream>

namespace barmkeep::ledger {
namespace {

json::object planned(const std::string& key) {
    return {{"day", "2026-04-01"}, {"name", "ale"}, {"key", key}};
}

/// Requests that the ledger writes in one transaction: its writer stands still after the commit of
/// an earlier one, until all of them wait.
class Batch {
public:
    explicit Batch(Cellar& cellar) : cellar_{cellar} {
        cellar_.ledger.on_event([this](const contract::Event&) {
            if (!std::exchange(is_first_, false))
                return;
            reached_.set_value();
            gate_.get_future().wait();
        });
        first_ = std::async(std::launch::async, [this] {
            return cellar_.outcome(cellar_.anna, "brew.plan", planned("0"));
        });
        reached_.get_future().wait();
    }
    ~Batch() {
        cellar_.ledger.on_event([](const contract::Event&) {});
    }
    Batch(const Batch&) = delete;
    Batch& operator=(const Batch&) = delete;

    void add(std::string_view method, const json::value& params) {
        auto outcome = std::make_shared<std::promise<Outcome>>();
        outcomes_.push_back(outcome->get_future());
        cellar_.table.start(method, cellar_.anna, &params,
                            [outcome](Outcome told) { outcome->set_value(std::move(told)); });
    }
    /// Lets the writer go on; the outcomes in the order of the requests.
    std::vector<Outcome> write() {
        gate_.set_value();
        EXPECT_TRUE(std::holds_alternative<json::value>(first_.get()));
        std::vector<Outcome> all;
        for (auto& outcome : outcomes_)
            all.push_back(outcome.get());
        return all;
    }

private:
    Cellar& cellar_;
    std::promise<void> reached_;
    std::promise<void> gate_;
    bool is_first_ = true; ///< the writer's thread only
    std::future<Outcome> first_;
    std::vector<std::future<Outcome>> outcomes_;
};

class FaultsTest : public ::testing::Test {
protected:
    Ledger::Options options() {
        Ledger::Options all;
        all.file = folder.file("cellar.db");
        all.vfs = FaultyDisk::name();
        return all;
    }
    /// The files as a crash would leave them: with the log as it was written, or only as far as it
    /// was synced.
    std::filesystem::path crashed(const std::string& name, std::int64_t log_bytes) {
        const auto copy = folder.file(name);
        std::filesystem::copy_file(folder.file("cellar.db"), copy);
        const auto log = std::filesystem::path{copy}.concat("-wal");
        std::filesystem::copy_file(folder.file("cellar.db-wal"), log);
        std::filesystem::resize_file(log, static_cast<std::uintmax_t>(log_bytes));
        return copy;
    }

    Folder folder;
    FaultyDisk disk;
};

TEST_F(FaultsTest, AFailedCommitIsToldAsUnknownAndTheLedgerStops) {
    Cellar cellar{options()};
    std::promise<std::string> fatal;
    cellar.ledger.on_fatal([&](const std::string& why) { fatal.set_value(why); });
    cellar.does("brew.plan", planned("before"));
    const auto synced = disk.log_bytes.load();
    disk.syncs_fail = true;
    const auto error = cellar.refusal("brew.plan", planned("doubtful"));
    EXPECT_EQ(error.kind(), ErrorKind::unknown_outcome);
    EXPECT_FALSE(fatal.get_future().get().empty());
    EXPECT_EQ(cellar.refusal("brew.plan", planned("after")).kind(), ErrorKind::unavailable);

    // Whatever of it reached the disk, it is there whole or not at all, and its key shows which.
    for (const auto& file :
         {crashed("all written", disk.log_bytes_now), crashed("only synced", synced)}) {
        Cellar again{file};
        EXPECT_TRUE(again.does("ledger.recall", {{"of", "before"}}).at("done").as_bool());
        again.does("brew.plan", planned("doubtful"));
        EXPECT_EQ(again.does("brew.list").at("brews").as_array().size(), 2U);
        EXPECT_TRUE(again.is_sound());
    }
}

TEST_F(FaultsTest, OfAFailedCommitNoEventIsSent) {
    Cellar cellar{options()};
    std::vector<std::int64_t> heard;
    cellar.ledger.on_event([&](const contract::Event& event) { heard.push_back(event.sequence); });
    cellar.does("brew.plan", planned("before"));
    const auto before = heard;
    EXPECT_FALSE(before.empty());
    disk.syncs_fail = true;
    (void)cellar.refusal("brew.plan", planned("doubtful")); // answered after its events, if any
    EXPECT_EQ(heard, before);
}

TEST_F(FaultsTest, AFailedCommitLeavesEveryRequestOfTheBatchOpen) {
    Cellar cellar{options()};
    Batch batch{cellar};
    batch.add("brew.plan", planned("1"));
    batch.add("brew.cancel", {{"brew", 99}});
    batch.add("brew.plan", planned("3"));
    disk.syncs_fail = true;
    std::vector<ErrorKind> kinds;
    for (const auto& outcome : batch.write())
        kinds.push_back(std::get<Error>(outcome).kind());
    EXPECT_EQ(kinds, (std::vector<ErrorKind>{ErrorKind::unknown_outcome, ErrorKind::not_found,
                                             ErrorKind::unknown_outcome}));
}

TEST_F(FaultsTest, ALostDiskIsToldAndTheLedgerStops) {
    Cellar cellar{options()};
    std::promise<void> fatal;
    cellar.ledger.on_fatal([&](const std::string&) { fatal.set_value(); });
    cellar.does("brew.plan", planned("before"));
    disk.locks_fail = true;
    EXPECT_EQ(cellar.refusal("brew.plan", planned("lost")).reason(), "disk_failed");
    EXPECT_EQ(cellar.refusal("brew.list").reason(), "disk_failed");
    fatal.get_future().wait();
    disk.locks_fail = false;
    EXPECT_EQ(cellar.refusal("brew.plan", planned("after")).reason(), "stopping");
    cellar.ledger.stop();
    Cellar again{folder.file("cellar.db")};
    EXPECT_EQ(again.does("brew.list").at("brews").as_array().size(), 1U);
}

TEST_F(FaultsTest, TheLogNamesTheMethodThatFailedWhetherItReadOrWrote) {
    std::ostringstream told;
    Cellar cellar{options(), std::make_shared<spdlog::logger>(
                                 "ledger", std::make_shared<spdlog::sinks::ostream_sink_mt>(told))};
    disk.locks_fail = true;
    const auto error = cellar.refusal("brew.list");
    EXPECT_THAT(told.str(), ::testing::HasSubstr("brew.list failed: " + std::string(error.what())));
    disk.locks_fail = false;
    disk.is_read_only = true;
    (void)cellar.refusal("brew.plan", planned("k"));
    cellar.ledger.stop();
    EXPECT_THAT(told.str(), ::testing::HasSubstr("a commit of 1 requests (brew.plan) failed: "));
}

TEST_F(FaultsTest, AFullDiskIsToldAndNothingIsLost) {
    Cellar cellar{options()};
    cellar.does("brew.plan", planned("before"));
    disk.writes_fail = true;
    const auto error = cellar.refusal("brew.plan", planned("full"));
    EXPECT_EQ(error.kind(), ErrorKind::unavailable);
    EXPECT_EQ(error.reason(), "disk_full");
    disk.writes_fail = false;
    EXPECT_EQ(cellar.does("brew.list").at("brews").as_array().size(), 1U);
    cellar.does("brew.plan", planned("full"));
    EXPECT_EQ(cellar.does("brew.list").at("brews").as_array().size(), 2U);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(FaultsTest, ADiskThatTurnsReadOnlyIsToldAndChangesNothing) {
    Cellar cellar{options()};
    cellar.does("brew.plan", planned("before"));
    const auto before = cellar.dumped();
    disk.is_read_only = true;
    for (const char* key : {"one", "two"}) { // it goes on saying so
        const auto error = cellar.refusal("brew.plan", planned(key));
        EXPECT_EQ(error.kind(), ErrorKind::unavailable);
        EXPECT_EQ(error.reason(), "read_only");
        EXPECT_THAT(error.what(), ::testing::HasSubstr("may not be written"));
        EXPECT_THAT(error.hint(), ::testing::HasSubstr("mounted"));
    }
    EXPECT_EQ(cellar.does("brew.list").at("brews").as_array().size(), 1U); // reading goes on
    EXPECT_EQ(cellar.dumped(), before);
    disk.is_read_only = false;
    cellar.does("brew.plan", planned("one"));
    EXPECT_EQ(cellar.does("brew.list").at("brews").as_array().size(), 2U);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(FaultsTest, OnADiskThatTurnsReadOnlyEveryRequestOfTheBatchIsToldThatNothingWasRecorded) {
    Cellar cellar{options()};
    Batch batch{cellar};
    for (const char* key : {"1", "2", "3"})
        batch.add("brew.plan", planned(key));
    disk.is_read_only = true;
    for (const auto& outcome : batch.write())
        EXPECT_EQ(std::get<Error>(outcome).reason(), "read_only");
    EXPECT_EQ(cellar.does("brew.list").at("brews").as_array().size(), 1U);
}

TEST_F(FaultsTest, AReadOnlyDiskIsToldAtOpeningAndChangesNothing) {
    {
        Cellar cellar{options()};
        cellar.does("brew.plan", planned("before"));
    }
    const auto before = dump(folder.file("cellar.db"));
    disk.is_read_only = true;
    try {
        Cellar cellar{options()};
        FAIL() << "it was opened";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::unavailable);
        EXPECT_EQ(error.reason(), "read_only");
        EXPECT_THAT(error.what(), ::testing::HasSubstr(folder.file("cellar.db").string()));
        EXPECT_THAT(error.hint(), ::testing::HasSubstr("mounted"));
    }
    EXPECT_EQ(dump(folder.file("cellar.db")), before);
}

TEST_F(FaultsTest, AtThePageLimitLargeRequestsAreToldAndSmallOnesGoOn) {
    Ledger::Options small;
    small.file = folder.file("small.db");
    small.pages_max = 175; // a record is written, and again with its checksum
    Cellar cellar{small};
    const json::object large{{"text", std::string(200'000, 'x')}};
    cellar.does("record.put", {{"collection", "c"}, {"name", "a"}, {"document", large}});
    EXPECT_EQ(
        cellar.refusal("record.put", {{"collection", "c"}, {"name", "b"}, {"document", large}})
            .reason(),
        "disk_full");
    cellar.does("brew.plan", planned("k"));
    EXPECT_EQ(cellar.does("record.list", {{"collection", "c"}}).at("records").as_array().size(),
              1U);
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(FaultsTest, InABatchTheRequestThatFillsTheDiskTakesNoneWithIt) {
    Ledger::Options small;
    small.file = folder.file("small.db");
    small.pages_max = 95;
    Cellar cellar{small};
    Batch batch{cellar};
    for (const char* key : {"1", "2"})
        batch.add("brew.plan", planned(key));
    batch.add("record.put", {{"collection", "c"},
                             {"name", "a"},
                             {"document", json::object{{"text", std::string(250'000, 'x')}}},
                             {"key", std::string(100, 'k')}});
    for (const char* key : {"4", "5"})
        batch.add("brew.plan", planned(key));
    const auto outcomes = batch.write();
    for (std::size_t i = 0; i < outcomes.size(); ++i)
        if (i == 2)
            EXPECT_EQ(std::get<Error>(outcomes[i]).reason(), "disk_full");
        else
            EXPECT_TRUE(std::holds_alternative<json::value>(outcomes[i])) << i;
    EXPECT_EQ(cellar.does("brew.list").at("brews").as_array().size(), 5U);
    EXPECT_TRUE(cellar.is_sound());
}

} // namespace
} // namespace barmkeep::ledger
