// The journal's lists are driven by indices: shown by what SQLite plans to do.
#include "daemon/ledger/binding.hpp"
#include "daemon/ledger/entries.hpp"
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

class StatementsTest : public CellarTest {
protected:
    std::string plan_of(EntriesBy by) {
        Store store{{folder.file("cellar.db"), true, {}, 0}};
        std::string plan;
        std::vector<Value> nothing(by == EntriesBy::number ? 2
                                   : by == EntriesBy::brew ? 3
                                   : by == EntriesBy::lot  ? 4
                                                           : 5,
                                   nullptr);
        store.each("EXPLAIN QUERY PLAN " + statement_of_entries(by), nothing,
                   [&](const Row& row) { plan += std::get<std::string>(row.value(3)) + "\n"; });
        return plan;
    }
};

TEST_F(StatementsTest, NoListOfTheJournalReadsAllOfIt) {
    for (const auto by : {EntriesBy::number, EntriesBy::lot, EntriesBy::link, EntriesBy::brew})
        EXPECT_THAT(plan_of(by), AllOf(Not(HasSubstr("SCAN entry")), Not(HasSubstr("SCAN line")),
                                       Not(HasSubstr("TEMP B-TREE"))))
            << static_cast<int>(by);
    EXPECT_THAT(plan_of(EntriesBy::lot), HasSubstr("line_lot"));
    EXPECT_THAT(plan_of(EntriesBy::link), HasSubstr("link_target"));
    EXPECT_THAT(plan_of(EntriesBy::brew), HasSubstr("entry_brew"));
}

} // namespace
} // namespace barmkeep::ledger
