// Answers as sheets: text in a pipe and on a terminal, pages, request keys.
#include "tests/client/barm_test.hpp"

namespace barmkeep::test {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

class BarmSheets : public BarmTest {};

TEST_F(BarmSheets, APipeGetsTheSameTextAsATerminalEightyColumnsWideWithoutColour) {
    world.width = 200;
    const std::string piped = run({"stock", "list"}).out;
    EXPECT_THAT(piped, Not(HasSubstr("\x1b")));
    EXPECT_THAT(piped, HasSubstr("light dry extract"));
    world.out_is_terminal = true;
    world.width = 80;
    EXPECT_EQ(run({"stock", "list", "--no-color"}).out, piped);
}

TEST_F(BarmSheets, ASheetIsWrittenAsAPage) {
    const Ran ran = run({"stock", "list", "--html", "/stock.html"});
    EXPECT_EQ(ran.code, 0);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err, "Wrote /stock.html.\n");
    EXPECT_THAT(world.files["/stock.html"], HasSubstr("light dry extract"));
    EXPECT_THAT(world.files["/stock.html"], StartsWith("<!DOCTYPE html>"));
}

TEST_F(BarmSheets, AWritingCommandSendsItsKeyWithTheParamsOfTheMethod) {
    (void)run({"stock", "buy", "dme", "1 kg", "5", "--key", "mine"});
    EXPECT_EQ(daemon.requests("stock.buy").front().at("params").at("key"), "mine");
    daemon.plan("stock.buy", {Fate::drop_after});
    const Ran again = run({"stock", "buy", "dme", "1 kg", "5"});
    EXPECT_EQ(again.code, 0) << again.err;
    const auto asked = daemon.requests("stock.buy");
    ASSERT_EQ(asked.size(), 3U);
    EXPECT_EQ(asked[1].at("params").at("key"), asked[2].at("params").at("key"));
}

} // namespace
} // namespace barmkeep::test
