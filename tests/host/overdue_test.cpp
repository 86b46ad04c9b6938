#include "daemon/host/overdue.hpp"

#include "tests/host/fixture.hpp"

#include <spdlog/sinks/ostream_sink.h>
#include <system_error>

namespace barmkeep::host::test {
namespace {

using testing::HasSubstr;

TEST(Overdue, WhereNoThreadCanBeBegunTheStuckOneIsToldAndGoesOnWhenItEnds) {
    MethodTable methods;
    ManualClock clock{parse_instant("2026-03-14T08:00:00Z")};
    std::ostringstream lines;
    const auto deadlines = std::make_shared<HandDeadlines>();
    int threads = 0;
    Gate gate;
    std::promise<bool> overdue;
    std::promise<void> next;
    {
        Surroundings surroundings{
            methods,
            clock,
            std::make_shared<spdlog::logger>(
                "test", std::make_shared<spdlog::sinks::ostream_sink_mt>(lines)),
            std::chrono::seconds{1},
            deadlines,
            Workers{1, [&](std::function<void()> work) {
                        if (++threads > 1) // as the system does when it has no more
                            throw std::system_error(EAGAIN, std::generic_category());
                        return std::thread{std::move(work)};
                    }}};
        ASSERT_TRUE(Overdue::post(
            surroundings, [&](bool) { gate.pass(); },
            [&](bool begun) { overdue.set_value(begun); }));
        gate.wait_for(1);
        EXPECT_NO_THROW(deadlines->expire());
        EXPECT_TRUE(overdue.get_future().get());
        EXPECT_EQ(threads, 2);
        ASSERT_TRUE(Overdue::post(
            surroundings, [&](bool) { next.set_value(); }, [](bool) {}));
        gate.open();
        next.get_future().get();
    }
    EXPECT_THAT(lines.str(), HasSubstr("no thread can be begun"));
}

} // namespace
} // namespace barmkeep::host::test
