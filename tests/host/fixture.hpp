// A host with plugins of its own in a folder of its own.
#pragma once

#include "daemon/host/host.hpp"
#include "tests/executor/by_hand.hpp"

#include <future>
#include <gmock/gmock.h>
#include <sstream>

namespace barmkeep::host::test {

using executor::test::EndsInTime;
using executor::test::HandDeadlines;

/// What a method of the core may stand still at, and what the plugin sent it before.
class Gate : public executor::test::Gate {
public:
    void hear(const json::object& what);
    void wait_for_heard(std::size_t count);
    [[nodiscard]] std::vector<json::object> heard() const;
    /// The most that were inside `hear` at a time.
    [[nodiscard]] int most_hearing() const;

private:
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    int hearing_ = 0;
    int most_ = 0;
    std::vector<json::object> heard_;
};

class HostTest : public testing::Test {
protected:
    HostTest();
    ~HostTest() override;

    /// Copies one of the built plugins into the folder, under its own or another name.
    std::filesystem::path put(const std::string& plugin, const std::string& as = {});
    /// Makes a host of the folder, with so many threads, and starts all.
    Host& start();
    /// Stops the host, waits for every thread, and destroys it.
    void end();

    /// What is listed of a plugin; fails the test if it is not listed.
    contract::PluginInfo info(const std::string& name);
    /// Why a plugin that was put there failed; fails the test if it runs.
    std::string fault(const std::string& name);

    Outcome call(std::string_view method, const json::object& params = {});
    Error error(std::string_view method, const json::object& params = {});
    /// The same on another thread.
    std::future<Error> error_to_come(std::string method);
    json::value result(std::string_view method, const json::object& params = {});
    static Call circumstances();
    static contract::Event event(std::int64_t sequence, std::string topic = "lot.changed");
    [[nodiscard]] std::string log() const;

    EndsInTime ends_in_time_;
    std::filesystem::path folder_;
    std::ostringstream log_;
    Gate gate_;
    ManualClock clock_{parse_instant("2026-03-14T08:00:00Z")};
    MethodTable methods_{clock_};
    std::size_t threads_ = 8; ///< of the executor that start() makes
    std::vector<Call> noted_; ///< the calls of test.note so far
    std::shared_ptr<HandDeadlines> deadlines_ = std::make_shared<HandDeadlines>();
    Host::Options options_;
    std::shared_ptr<spdlog::logger> logger_;
    std::optional<executor::Executor> executor_;
    std::optional<Host> host_; ///< last, for it uses the rest
};

} // namespace barmkeep::host::test
