// Rows that were changed behind the ledger's back: the check finds each and names it.
#include "daemon/ledger/digest.hpp"
#include "tests/ledger/cellar.hpp"

#include <SQLiteCpp/Database.h>

namespace barmkeep::ledger {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

class TamperingTest : public CellarTest {
protected:
    /// Runs statements on the file and answers the sentences of a check afterwards.
    std::vector<std::string> faults_after(const std::string& statements) {
        cellar.ledger.stop();
        SQLite::Database{folder.file("cellar.db").string(), SQLite::OPEN_READWRITE}.exec(
            statements);
        Cellar again{folder.file("cellar.db")};
        std::vector<std::string> sentences;
        const auto found = again.does("ledger.check");
        for (const auto& fault : found.at("faults").as_array())
            sentences.push_back(text(fault, "what"));
        EXPECT_EQ(found.at("sound").as_bool(), sentences.empty());
        return sentences;
    }
    void convert_lids(int jars) {
        cellar.does("stock.convert",
                    {{"inputs", json::array{json::object{{"what", "lids"}, {"amount", jars}}}},
                     {"outputs", json::array{json::object{{"good", "wort"}, {"amount", jars}}}},
                     {"lost", 1}});
    }
};

TEST_F(TamperingTest, ALotIsFoundByItsCode) {
    const auto code = buy("lids", 5, "1");
    buy("lids", 6, "1");
    EXPECT_THAT(faults_after("UPDATE lot SET best_by = '2040-01-01' WHERE number = 1"),
                ElementsAre("Lot " + code +
                            " was changed outside the program: its checksum does not fit."));
}

TEST_F(TamperingTest, ALotOfAnotherEntryIsFound) { // the last column that its checksum covers
    buy("lids", 5, "1");
    buy("lids", 6, "1");
    EXPECT_THAT(faults_after("UPDATE lot SET origin = 2 WHERE number = 1"),
                ElementsAre(HasSubstr("checksum does not fit")));
}

TEST_F(TamperingTest, ABrewDayIsFoundByItsNumberAndName) {
    plan("2026-03-20", "stout");
    EXPECT_THAT(faults_after("UPDATE brew SET note = 'x'"),
                ElementsAre(HasSubstr("Brew day 1 (stout) was changed outside the program")));
}

TEST_F(TamperingTest, ARecordIsFoundByItsCollectionAndNumber) {
    cellar.does(caller("canning", Access::manage, "canning"), "record.add",
                {{"collection", "run"}, {"document", json::object{{"minutes", 25}}}});
    EXPECT_THAT(faults_after("UPDATE record SET document = '{\"minutes\":5}'"),
                ElementsAre(HasSubstr("Record canning.run 1 was changed outside the program")));
}

TEST_F(TamperingTest, ARowWithoutAChecksumIsFound) {
    plan();
    buy("lids", 5, "1");
    EXPECT_EQ(
        faults_after("UPDATE brew SET checksum = NULL; UPDATE lot SET checksum = NULL").size(), 2U);
}

TEST_F(TamperingTest, ALotOfNoGoodIsFoundAllTheSame) {
    buy("lids", 5, "1");
    EXPECT_THAT(faults_after("PRAGMA foreign_keys = OFF; UPDATE lot SET good = 99"),
                testing::Contains(HasSubstr("Lot number 1 was changed outside the program")));
}

TEST_F(TamperingTest, AValueThatAConversionMadeIsFound) {
    buy("lids", 5, "1");
    convert_lids(3);
    EXPECT_THAT(faults_after("INSERT INTO line VALUES (2, 9, 1, 0, 7); "
                             "UPDATE balance SET value = value + 7 WHERE lot = 1"),
                ElementsAre("Conversion 2 made or lost value.",
                            "Entry 2 was changed outside the program: its digest does not fit."));
}

TEST_F(TamperingTest, MoreReservedThanThereIsIsFound) {
    const auto code = buy("lids", 5, "1");
    const auto brew = plan();
    cellar.does("brew.reserve", {{"brew", brew}, {"what", "lids"}, {"amount", 4}});
    EXPECT_THAT(faults_after("UPDATE reservation SET quantity = 6"),
                ElementsAre("More of lot " + code + " is reserved than there is."));
}

TEST_F(TamperingTest, EachPartOfAnEntryCountsForItsDigest) {
    buy("lids", 5, "1");
    convert_lids(3);
    buy("lids", 7, "1");
    for (const char* statement :
         {"INSERT INTO link VALUES ('entry', 2, 'canning.run', 7)",
          "DELETE FROM link WHERE source = 'entry'; DROP TRIGGER loss_stays; "
          "UPDATE loss SET pieces = 2",
          "UPDATE loss SET pieces = 1; DROP TRIGGER entry_stays; "
          "UPDATE entry SET note = 'x' WHERE sequence = 2"})
        EXPECT_THAT(faults_after(statement),
                    testing::Contains(HasSubstr("Entry 2 was changed outside the program")))
            << statement;
}

TEST_F(TamperingTest, ADigestThatIsMissingIsFoundAndSoIsTheNextOne) {
    for (int i = 0; i < 3; ++i)
        buy("lids", 5, "1");
    EXPECT_THAT(
        faults_after("DROP TRIGGER digest_remains; DELETE FROM entry_digest WHERE entry = 2"),
        ElementsAre(HasSubstr("Entry 2 was changed"), HasSubstr("Entry 3 was changed")));
}

/// Everything that writes lots, brew days and records, one after the other.
TEST_F(TamperingTest, WhatTheMethodsWriteIsSound) {
    const auto code = buy("lids", 9, "1");
    cellar.does("lot.change", {{"lot", code}, {"best_by", "2027-01-01"}, {"reason", "the box"}});
    cellar.does("lot.hold", {{"lot", code}, {"amount", 2}, {"note", "bent"}});
    convert_lids(3);
    buy("wort", 2, "1"); // vouches for it
    const auto brew = plan();
    cellar.does("brew.change", {{"brew", brew}, {"volume", "20 L"}, {"gravity", "1.050"}});
    cellar.does("brew.need", {{"brew", brew}, {"good", "lids"}, {"amount", 1}});
    cellar.does("brew.finish", {{"brew", brew}});
    cellar.does("brew.cancel", {{"brew", plan()}});
    const auto canning = caller("canning", Access::manage, "canning");
    const auto made =
        cellar.does(canning, "record.add", {{"collection", "run"}, {"document", json::object{}}});
    cellar.does(canning, "record.append",
                {{"collection", "run"},
                 {"number", made.at("number")},
                 {"lines", json::array{json::object{{"a", 1}}}},
                 {"state", "open"}});
    cellar.does(canning, "record.put",
                {{"collection", "c"}, {"name", "n"}, {"document", json::object{{"x", 1.5}}}});
    cellar.does(canning, "record.put",
                {{"collection", "c"}, {"name", "n"}, {"document", json::object{{"x", 2.5}}}});
    EXPECT_TRUE(cellar.is_sound());
}

TEST_F(TamperingTest, TheDigestsAreReadInOnePassThatSortsNothing) {
    buy("lids", 5, "1");
    Store store{{folder.file("cellar.db"), true, {}, 0}};
    std::string plan;
    store.each("EXPLAIN QUERY PLAN " + statement_of_digests(), {},
               [&](const Row& row) { plan += std::get<std::string>(row.value(3)) + "\n"; });
    EXPECT_THAT(plan, HasSubstr("MERGE (UNION ALL)"));
    EXPECT_THAT(plan, testing::Not(HasSubstr("TEMP B-TREE")));
    EXPECT_THAT(plan, testing::Not(HasSubstr("CORRELATED")));
}

} // namespace
} // namespace barmkeep::ledger
