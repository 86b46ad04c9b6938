#include "plugins/canning/run_names.hpp"

#include <gtest/gtest.h>

namespace barmkeep::canning {
namespace {

TEST(RunNames, AMemoIsReadAsItIsWritten) {
    EXPECT_EQ(run_of_memo(memo_of(17)), 17);
    EXPECT_FALSE(run_of_memo("canning run 17 and more"));
    EXPECT_FALSE(run_of_memo("brewing"));
    EXPECT_FALSE(run_of_memo(std::nullopt));
}

TEST(RunNames, AReminderIsReadAsItIsWritten) {
    for (const Reminds about : {Reminds::seals, Reminds::inspection, Reminds::refrigerator}) {
        const auto read = run_reminder(reminder_name(17, about));
        ASSERT_TRUE(read);
        EXPECT_EQ(read->run, 17);
        EXPECT_EQ(read->about, about);
    }
}

// Found in review: a name whose number is too large, or no number, threw.
TEST(RunNames, AnyOtherNameIsNone) {
    for (const char* name :
         {"", "canning-run-", "canning-run--seals", "canning-run-x-seals", "canning-run-7-",
          "canning-run-7-else", "canning-run-0-seals", "canning-run--7-seals",
          "canning-run-7-7-seals", "canning-run- 7-seals",
          "canning-run-99999999999999999999-inspection", "starter-7-seals"})
        EXPECT_FALSE(run_reminder(name)) << name;
}

} // namespace
} // namespace barmkeep::canning
