#include "daemon/ledger/lock.hpp"
#include "daemon/ledger/schema.hpp"
#include "tests/ledger/cellar.hpp"

#include <SQLiteCpp/Database.h>
#include <fstream>
#include <sstream>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace barmkeep::ledger {
namespace {

using ::testing::HasSubstr;

class OpeningTest : public ::testing::Test {
protected:
    Error refusal(const std::filesystem::path& file) {
        try {
            Cellar cellar{file};
        } catch (const Error& error) {
            return error;
        }
        ADD_FAILURE() << "it was opened";
        throw std::runtime_error("opened");
    }
    Folder folder;
    std::filesystem::path file = folder.file("cellar.db");
};

std::string stored(const std::string& name) {
    std::ifstream in{std::string(LEDGER_TEST_DATA) + "/" + name};
    std::stringstream all;
    all << in.rdbuf();
    return all.str();
}

TEST_F(OpeningTest, ANewFileIsItsOwnersAlone) {
    Cellar cellar{file};
    struct stat about {};
    ASSERT_EQ(::stat(file.c_str(), &about), 0);
    EXPECT_EQ(about.st_mode & 0777, 0600U);
    EXPECT_EQ(cellar.ledger.schema_version(), schema_version_newest());
    EXPECT_EQ(cellar.ledger.file(), file);
}

TEST_F(OpeningTest, ALedgerOfVersionOneIsBroughtUpToDateWithAllThatIsInIt) {
    SQLite::Database{file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE}.exec(
        stored("version-1.sql"));
    Cellar cellar{file};
    EXPECT_TRUE(cellar.is_sound());
    const auto stock = cellar.does("stock.list");
    EXPECT_EQ(text(stock, "value"), "14.333333");
    EXPECT_EQ(cellar.does("entry.list").at("entries").as_array().size(), 3U);
    EXPECT_EQ(text(cellar.does("cellar.show"), "currency"), "EUR");
    EXPECT_TRUE(cellar.does("ledger.recall", {{"of", "first"}}).at("done").as_bool());
    // What later versions added works on what version 1 left.
    const auto made = cellar.does(
        "stock.convert",
        {{"inputs", json::array{json::object{{"what", "dry extract"}, {"amount", "100 g"}}}},
         {"outputs", json::array{json::object{{"good", "lids"}, {"amount", 3}}}},
         {"lost", 1}});
    EXPECT_EQ(cellar.does("entry.show", {{"sequence", made.at("entry")}}).at("lost"), 1);
    EXPECT_FALSE(cellar.does("entry.show", {{"sequence", 3}}).contains("lost"));
    const auto code = text(stock.at("shelves").at(0).at("lots").at(0), "code");
    cellar.does("lot.hold", {{"code", code}, {"reason", "damp"}});
    const auto history = cellar.does("lot.history", {{"code", code}}).at("changes").as_array();
    ASSERT_EQ(history.size(), 1U);
    EXPECT_EQ(text(history.at(0).at("became"), "hold"), "damp");
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(OpeningTest, ALedgerOfVersionTwoKeepsItsLotChangesAndSaysNothingOfWhatItDidNotKeep) {
    SQLite::Database{file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE}.exec(
        stored("version-2.sql"));
    Cellar cellar{file};
    EXPECT_TRUE(cellar.is_sound());
    const auto made = cellar.does("entry.show", {{"sequence", 4}});
    EXPECT_EQ(text(made, "who"), "canning for anna");
    EXPECT_FALSE(made.contains("lost"));
    const auto code = text(made.at("lines").at(2), "lot");
    const auto history = cellar.does("lot.history", {{"code", code}}).at("changes").as_array();
    ASSERT_EQ(history.size(), 1U);
    EXPECT_EQ(text(history.at(0), "reason"), "measured again");
    EXPECT_FALSE(history.at(0).as_object().contains("was"));
}

TEST_F(OpeningTest, EveryOlderVersionMigratesToTheSameTablesAsANewFile) {
    const auto tables = [](const std::filesystem::path& of) {
        SQLite::Database database{of.string(), SQLite::OPEN_READONLY};
        return database
            .execAndGet("SELECT group_concat(sql, ';') FROM (SELECT sql FROM sqlite_schema "
                        "WHERE sql IS NOT NULL ORDER BY name)")
            .getString();
    };
    Cellar fresh{file};
    for (int version = 1; version < schema_version_newest(); ++version) {
        const auto old = folder.file("version-" + std::to_string(version));
        SQLite::Database{old.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE}.exec(
            stored("version-" + std::to_string(version) + ".sql"));
        Cellar migrated{old};
        EXPECT_EQ(tables(old), tables(file)) << version;
    }
}

TEST_F(OpeningTest, ALedgerOfANewerProgramIsRefusedUntouched) {
    { Cellar cellar{file}; }
    SQLite::Database{file.string(), SQLite::OPEN_READWRITE}.exec("PRAGMA user_version = 99");
    const auto before = dump(file);
    const auto error = refusal(file);
    EXPECT_EQ(error.reason(), "database_newer");
    EXPECT_THAT(error.what(), HasSubstr(file.string()));
    EXPECT_THAT(error.what(), HasSubstr("99"));
    EXPECT_EQ(dump(file), before);
}

TEST_F(OpeningTest, WhatIsNoLedgerIsRefusedUntouched) {
    std::ofstream{file} << std::string(10000, 'x');
    EXPECT_EQ(refusal(file).reason(), "not_a_database");
    const auto other = folder.file("other.db");
    SQLite::Database{other.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE}.exec(
        "CREATE TABLE theirs (a); PRAGMA user_version = 2");
    EXPECT_EQ(refusal(other).reason(), "not_a_ledger");
    EXPECT_FALSE(std::filesystem::exists(folder.file("other.db-wal")));
}

TEST_F(OpeningTest, ADamagedFileIsRefused) {
    {
        Cellar cellar{file};
        for (int i = 0; i < 50; ++i)
            cellar.does("brew.plan",
                        {{"day", "2026-04-01"}, {"name", "ale"}, {"note", std::string(300, 'n')}});
    }
    std::fstream damage{file, std::ios::in | std::ios::out | std::ios::binary};
    damage.seekp(4096 * 2);
    damage << std::string(static_cast<std::size_t>(std::filesystem::file_size(file)) - 4096 * 2,
                          '\xff');
    damage.close();
    EXPECT_EQ(refusal(file).reason(), "damaged");
}

TEST_F(OpeningTest, ASymbolicLinkIsRefusedButOneOfItsFolderIsFollowed) {
    { Cellar cellar{file}; }
    std::filesystem::create_symlink(file, folder.file("link.db"));
    EXPECT_EQ(refusal(folder.file("link.db")).reason(), "is_symbolic_link");
    std::filesystem::create_directory_symlink(folder.path(), folder.file("here"));
    Cellar cellar{folder.file("here") / "cellar.db"};
    EXPECT_EQ(cellar.ledger.file(), file);
}

TEST_F(OpeningTest, AFolderThatIsNotThereIsNamed) {
    EXPECT_EQ(refusal(folder.file("nowhere") / "cellar.db").reason(), "no_folder");
    EXPECT_EQ(refusal(folder.path()).reason(), "cannot_open");
    ASSERT_EQ(::mkfifo(folder.file("pipe").c_str(), 0600), 0);
    EXPECT_EQ(refusal(folder.file("pipe")).reason(), "not_a_file");
}

/// Runs `look` in a child process without root's rights; answers what it exits with.
template <class Look>
int as_somebody(Look look) {
    const pid_t child = ::fork();
    if (child == 0) {
        if (::getuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0))
            ::_exit(99);
        ::_exit(look());
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 98;
}

TEST_F(OpeningTest, AFileOrFolderThatMayNotBeWrittenIsRefused) {
    { Cellar cellar{file}; }
    const auto open_it = [&](const char* reason) {
        return as_somebody([&] {
            try {
                Cellar cellar{file};
            } catch (const Error& error) {
                return error.reason() == reason ? 0 : 1;
            }
            return 2;
        });
    };
    ::chmod(file.c_str(), 0444);
    ::chmod(folder.path().c_str(), 0777);
    EXPECT_EQ(open_it("read_only"), 0);
    ::chmod(file.c_str(), 0666);
    ::chmod(folder.path().c_str(), 0555);
    EXPECT_EQ(open_it("read_only"), 0); // the log beside it cannot be made
    ::chmod(file.c_str(), 0000);
    EXPECT_EQ(open_it("cannot_open"), 0);
    ::chmod(folder.path().c_str(), 0700);
}

TEST_F(OpeningTest, OneDaemonACellar) {
    const InstanceLock lock{file};
    try {
        const InstanceLock second{file};
        FAIL() << "it was locked twice";
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "in_use");
        EXPECT_THAT(error.what(), HasSubstr(file.string()));
    }
}

} // namespace
} // namespace barmkeep::ledger
