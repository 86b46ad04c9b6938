#include "daemon/ledger/lock.hpp"
#include "tests/ledger/cellar.hpp"
#include "tests/ledger/watcher.hpp"

#include <SQLiteCpp/Database.h>
#include <fstream>
#include <sys/stat.h>

namespace barmkeep::ledger {
namespace {

class CopiesTest : public CellarTest {
protected:
    std::filesystem::path copy = folder.file("copy.db");
    json::object backup() { return cellar.does("ledger.backup", {{"file", copy.string()}}); }
    void empty_log() {
        SQLite::Database{folder.file("cellar.db").string(), SQLite::OPEN_READWRITE}.exec(
            "PRAGMA wal_checkpoint(TRUNCATE)");
        ASSERT_EQ(std::filesystem::file_size(folder.file("cellar.db-wal")), 0U);
    }
    /// The ledger's files under another name, as a crash would leave them now.
    void crash_as(const std::string& name) {
        for (const char* ending : {"", "-wal"})
            std::filesystem::copy_file(folder.file(std::string("cellar.db") + ending),
                                       folder.file(name + ending));
    }
    std::string restore_refusal(const std::filesystem::path& from) {
        try {
            Ledger::restore(from, folder.file("cellar.db"));
        } catch (const Error& error) {
            return error.reason();
        }
        return "none";
    }
};

TEST_F(CopiesTest, ACopyIsWholeAndItsOwnersAlone) {
    buy("lids", 5, "1");
    const auto made = backup();
    EXPECT_EQ(made.at("entries"), 1);
    EXPECT_EQ(made.at("bytes").as_int64(),
              static_cast<std::int64_t>(std::filesystem::file_size(copy)));
    struct stat about {};
    ASSERT_EQ(::stat(copy.c_str(), &about), 0);
    EXPECT_EQ(about.st_mode & 0777, 0600U);
    EXPECT_FALSE(std::filesystem::exists(folder.file("copy.db-wal")));
    EXPECT_FALSE(std::filesystem::exists(folder.file("copy.db.unfinished")));
    EXPECT_EQ(dump(copy), cellar.dumped());
}

TEST_F(CopiesTest, AnExistingFileAndARelativePathAreRefused) {
    std::ofstream{copy} << "precious";
    EXPECT_EQ(cellar.refusal("ledger.backup", {{"file", copy.string()}}).reason(), "file_exists");
    EXPECT_EQ(cellar.refusal("ledger.backup", {{"file", "copy.db"}}).reason(), "not_absolute");
    EXPECT_EQ(cellar.refusal("ledger.backup", {{"file", "/nowhere at all/copy.db"}}).kind(),
              ErrorKind::unavailable);
    EXPECT_EQ(
        cellar.refusal(caller("bert", Access::keep), "ledger.backup", {{"file", copy.string()}})
            .kind(),
        ErrorKind::refused);
}

TEST_F(CopiesTest, ProgressIsToldAndACopyCanBeCancelled) {
    for (int i = 0; i < 8; ++i) // some steps' worth
        cellar.does("record.put", {{"collection", "c"},
                                   {"name", std::to_string(i)},
                                   {"document", json::object{{"t", std::string(250'000, 'x')}}}});
    auto watcher = std::make_shared<Watcher>();
    cellar.does(watched(cellar.anna, watcher), "ledger.backup", {{"file", copy.string()}});
    EXPECT_GE(watcher->heard, 2);
    watcher->stops = true;
    EXPECT_EQ(cellar
                  .refusal(watched(cellar.anna, watcher), "ledger.backup",
                           {{"file", folder.file("second").string()}})
                  .kind(),
              ErrorKind::cancelled);
    EXPECT_FALSE(std::filesystem::exists(folder.file("second")));
    EXPECT_FALSE(std::filesystem::exists(folder.file("second.unfinished")));
}

TEST_F(CopiesTest, RestoringPutsBackWhatWasCopiedAndKeepsWhatItReplaces) {
    buy("lids", 5, "1");
    backup();
    const auto copied = cellar.dumped();
    buy("lids", 7, "2");
    const auto replaced = cellar.dumped();
    cellar.ledger.stop();
    Ledger::restore(copy, folder.file("cellar.db"));
    EXPECT_EQ(dump(folder.file("cellar.db")), copied);
    EXPECT_EQ(dump(folder.file("cellar.db.replaced-1")), replaced);
    Cellar again{folder.file("cellar.db")};
    EXPECT_TRUE(again.is_sound());
    EXPECT_EQ(again.does("entry.list").at("entries").as_array().size(), 1U);
}

TEST_F(CopiesTest, ACopyWithALogOfItsOwnIsRestoredWithItsNewestCommits) {
    buy("lids", 5, "1");
    empty_log();
    backup();
    buy("lids", 7, "2");
    crash_as("kept.db"); // one purchase is in the file, the other in the log alone
    const auto held = cellar.dumped();
    cellar.ledger.stop();
    std::filesystem::rename(copy, folder.file("cellar.db"));
    Ledger::restore(folder.file("kept.db"), folder.file("cellar.db"));
    EXPECT_FALSE(std::filesystem::exists(folder.file("cellar.db-wal")));
    EXPECT_EQ(dump(folder.file("cellar.db")), held);
    Cellar again{folder.file("cellar.db")};
    EXPECT_EQ(again.does("ledger.check").at("entries"), 2);
}

TEST_F(CopiesTest, ARestoreMovesTheOldLogIntoTheLedgerItReplaces) {
    backup();
    buy("lids", 7, "2"); // in the log only
    const auto with_log = cellar.dumped();
    crash_as("old.db");
    const auto copied = dump(copy);
    Ledger::restore(copy, folder.file("old.db"));
    EXPECT_EQ(dump(folder.file("old.db")), copied);
    for (const char* log : {"old.db-wal", "old.db.replaced-1-wal"})
        EXPECT_FALSE(std::filesystem::exists(folder.file(log))) << log;
    EXPECT_EQ(dump(folder.file("old.db.replaced-1")), with_log);
}

TEST_F(CopiesTest, ADamagedLedgerIsReplacedAndKeptWithItsLogAsItWas) {
    empty_log();
    backup();
    buy("lids", 7, "2");
    crash_as("old.db");
    std::ofstream{folder.file("old.db")} << std::string(8192, 'x');
    const auto log = std::filesystem::file_size(folder.file("old.db-wal"));
    const auto copied = dump(copy);
    Ledger::restore(copy, folder.file("old.db"));
    EXPECT_FALSE(std::filesystem::exists(folder.file("old.db-wal")));
    EXPECT_EQ(dump(folder.file("old.db")), copied);
    EXPECT_EQ(std::filesystem::file_size(folder.file("old.db.replaced-1")), 8192U);
    EXPECT_EQ(std::filesystem::file_size(folder.file("old.db.replaced-1-wal")), log);
}

TEST_F(CopiesTest, ARestoreIsRefusedWhileADaemonRuns) {
    backup();
    const InstanceLock lock{folder.file("cellar.db")};
    EXPECT_EQ(restore_refusal(copy), "in_use");
}

TEST_F(CopiesTest, OnlyASoundCopyIsPutInPlace) {
    buy("lids", 5, "1");
    backup();
    cellar.ledger.stop();
    const auto before = cellar.dumped();
    EXPECT_EQ(restore_refusal(folder.file("none.db")), "cannot_open");
    std::ofstream{folder.file("text")} << std::string(5000, 't');
    EXPECT_EQ(restore_refusal(folder.file("text")), "not_a_database");
    SQLite::Database{copy.string(), SQLite::OPEN_READWRITE}.exec("UPDATE balance SET quantity = 4");
    EXPECT_EQ(restore_refusal(copy), "damaged");
    SQLite::Database{copy.string(), SQLite::OPEN_READWRITE}.exec("PRAGMA user_version = 99");
    EXPECT_EQ(restore_refusal(copy), "database_newer");
    EXPECT_EQ(cellar.dumped(), before);
}

} // namespace
} // namespace barmkeep::ledger
