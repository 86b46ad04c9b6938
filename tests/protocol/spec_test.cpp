#include "tests/protocol/conversation.hpp"
#include "tests/protocol/spec_cases.hpp"

#include <gtest/gtest.h>

namespace barmkeep::tests {
namespace {

TEST(Specification, EveryExchangeIsAnsweredAsItSays) {
    const auto cases = spec_cases(BARMKEEP_PROTOCOL_DATA);
    ASSERT_EQ(cases.size(), 34U);
    for (const auto& one : cases) {
        Conversation conversation;
        conversation.send(one.request);
        std::string said = conversation.said();
        if (!said.empty()) {
            ASSERT_EQ(said.back(), '\n');
            said.pop_back();
        }
        EXPECT_EQ(said.find('\n'), std::string::npos) << one.id;
        EXPECT_TRUE(fits(said, one)) << one.id << ' ' << one.title << "\nsaid " << said;
    }
}

TEST(Specification, TheComparisonSeesADifferentAnswer) {
    const auto cases = spec_cases(BARMKEEP_PROTOCOL_DATA);
    const auto& first = cases.front();
    EXPECT_TRUE(fits(R"({"jsonrpc":"2.0","result":19,"id":1})", first));
    EXPECT_FALSE(fits(R"({"jsonrpc":"2.0","result":18,"id":1})", first));
    EXPECT_FALSE(fits(R"({"jsonrpc":"2.0","result":19,"id":"1"})", first));
    EXPECT_FALSE(fits("", first));
}

} // namespace
} // namespace barmkeep::tests
