#include "daemon/ledger/binding.hpp"
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

TEST_F(OpeningTest, ANewFileIsItsOwnersAlone) {
    Cellar cellar{file};
    struct stat about {};
    ASSERT_EQ(::stat(file.c_str(), &about), 0);
    EXPECT_EQ(about.st_mode & 0777, 0600U);
    EXPECT_EQ(cellar.ledger.schema_version(), schema_version_newest());
    EXPECT_EQ(cellar.ledger.file(), file);
}

TEST_F(OpeningTest, ALaterVersionIsReachedStepByStepWithAllThatIsInIt) {
    {
        Cellar cellar{file};
        cellar.does("cellar.set", {{"name", "kept"}});
    }
    SchemaSteps steps = schema_steps();
    steps.push_back({"an invented step", "CREATE TABLE later (what TEXT); "
                                         "INSERT INTO later SELECT name FROM cellar"});
    Store store{{file, false, {}, 0}};
    EXPECT_EQ(migrate(store, steps), 1);
    std::string kept;
    store.each("SELECT what FROM later", {}, [&](const Row& row) { take_row(row, kept); });
    EXPECT_EQ(kept, "kept");
    EXPECT_EQ(migrate(store, steps), 2);                 // nothing left to do
    EXPECT_THROW((void)schema_version_of(store), Error); // newer than this program
}

TEST_F(OpeningTest, AStepThatFailsLeavesTheVersionBefore) {
    { Cellar cellar{file}; }
    SchemaSteps steps = schema_steps();
    steps.push_back({"a broken step", "CREATE TABLE later (what TEXT); CREATE TABLE later (what)"});
    {
        Store store{{file, false, {}, 0}};
        EXPECT_THROW((void)migrate(store, steps), StoreError);
    }
    Cellar again{file};
    EXPECT_TRUE(again.is_sound());
}

TEST_F(OpeningTest, ADraftOfTheTablesThatWasNeverReleasedIsToldAsSuch) {
    { Cellar cellar{file}; }
    SQLite::Database{file.string(), SQLite::OPEN_READWRITE}.exec(
        "UPDATE schema_digest SET digest = 'of another draft'");
    EXPECT_EQ(refusal(file).reason(), "older_draft");
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
