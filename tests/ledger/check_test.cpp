// The audit as a long work: its progress is reported, and it stops when asked.
#include "sdk/contract/ledger.hpp"
#include "tests/ledger/cellar.hpp"
#include "tests/ledger/watcher.hpp"

namespace barmkeep::ledger {
namespace {

class CheckTest : public CellarTest {
protected:
    std::shared_ptr<Watcher> watcher = std::make_shared<Watcher>();
};

TEST_F(CheckTest, IsDescribedAsLong) {
    EXPECT_TRUE(cellar.table.find("ledger.check")->description.is_long);
}

TEST_F(CheckTest, TellsItsProgressToTheEnd) {
    for (int i = 0; i < 3; ++i)
        buy("lids", 5, "1");
    EXPECT_TRUE(cellar.does(watched(cellar.anna, watcher), "ledger.check").at("sound").as_bool());
    EXPECT_GE(watcher->heard, 3);
    EXPECT_GT(watcher->done, 0);
}

TEST_F(CheckTest, StopsWhenAsked) {
    buy("lids", 5, "1");
    watcher->stops = true;
    const auto error = cellar.refusal(watched(cellar.anna, watcher), "ledger.check");
    EXPECT_EQ(error.kind(), ErrorKind::cancelled);
    EXPECT_EQ(watcher->heard, 1);
}

} // namespace
} // namespace barmkeep::ledger
