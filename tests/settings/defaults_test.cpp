// The built-in settings are those of the rooms that they are for.  The settings know no room, so
// each says its defaults again; here they are held batch.
#include "daemon/settings/settings.hpp"

#include "daemon/host/host.hpp"
#include "daemon/ledger/ledger.hpp"
#include "daemon/protocol/limits.hpp"
#include "daemon/socket/server.hpp"

#include <gtest/gtest.h>

namespace barmkeep::daemon {
namespace {

template <class T>
std::int64_t number(T value) {
    return static_cast<std::int64_t>(value);
}

TEST(Defaults, OfTheLimitsAreThoseOfTheProtocol) {
    const LimitSettings settings;
    const protocol::Limits limits;
    EXPECT_EQ(settings.line_bytes_max, number(limits.line_bytes_max));
    EXPECT_EQ(settings.batch_length_max, number(limits.batch_length_max));
    EXPECT_EQ(settings.in_flight_max, number(limits.in_flight_max));
    EXPECT_EQ(settings.unanswered_max, number(limits.unanswered_max));
    EXPECT_EQ(settings.reply_bytes_max, number(limits.reply_bytes_max));
}

TEST(Defaults, OfTheConnectionsAreThoseOfTheSocket) {
    const LimitSettings settings;
    const socket::ServerOptions options;
    EXPECT_EQ(settings.connections_max, number(options.connections_max));
    EXPECT_EQ(settings.connections_per_user_max, number(options.connections_per_user));
    EXPECT_EQ(std::chrono::seconds{settings.partial_line_seconds_max}, options.partial_line);
}

TEST(Defaults, OfTheLedgerAreThoseOfTheLedger) {
    const LedgerSettings settings;
    const ledger::Ledger::Options options;
    EXPECT_EQ(settings.batch_count_max, options.batch_count_max);
    EXPECT_EQ(settings.events_kept, options.events_kept);
    EXPECT_EQ(settings.readers, options.readers);
}

TEST(Defaults, OfThePluginsAreThoseOfTheHost) {
    const PluginSettings settings;
    const host::Host::Options options;
    EXPECT_EQ(std::chrono::seconds{settings.call_seconds_max}, options.call_time_max);
}

TEST(Defaults, OfTheExecutorAreThoseOfTheExecutor) {
    EXPECT_EQ(ExecutorSettings{}.threads, number(executor::Executor::Options{}.threads));
}

} // namespace
} // namespace barmkeep::daemon
