// A host with plugins of its own in a folder of its own.
#pragma once

#include "daemon/host/host.hpp"

#include <future>
#include <gmock/gmock.h>
#include <sstream>

namespace barmkeep::host::test {

/// What a method of the core may stand still at, and what the plugin told it meanwhile.
class Gate {
public:
    /// For the test: waits until so many have come.
    void wait_for(int count);
    void open();
    /// For the method: counts, and waits until the gate is open.
    void pass();
    /// The most that were inside `pass` or `hear` at a time.
    [[nodiscard]] int most_at_once() const;

    void hear(const json::object& what);
    void wait_for_heard(std::size_t count);
    [[nodiscard]] std::vector<json::object> heard() const;

private:
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    bool open_ = false;
    int came_ = 0;
    int inside_ = 0;
    int most_ = 0;
    std::vector<json::object> heard_;
};

/// Time limits that end when the test says so.
class HandDeadlines final : public Deadlines {
public:
    Ticket add(std::chrono::milliseconds after, std::function<void()> action) override;
    void remove(Ticket ticket) override;
    /// Waits until so many are running.
    void wait_for(std::size_t count);
    /// Lets the time of all that are running be up.
    void expire();
    /// Lets the time of the one that was begun last be up.
    void expire_latest();

private:
    std::mutex mutex_;
    std::condition_variable changed_;
    std::map<Ticket, std::function<void()>> running_;
    Ticket last_ = 0;
};

class HostTest : public testing::Test {
protected:
    HostTest();
    ~HostTest() override;

    /// Copies one of the built plugins into the folder, under its own or another name.
    std::filesystem::path put(const std::string& plugin, const std::string& as = {});
    /// Makes a host of the folder and starts all.
    Host& start();

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

    std::filesystem::path folder_;
    std::ostringstream log_;
    Gate gate_;
    MethodTable methods_;
    ManualClock clock_{parse_instant("2026-03-14T08:00:00Z")};
    std::shared_ptr<HandDeadlines> deadlines_ = std::make_shared<HandDeadlines>();
    Host::Options options_;
    std::shared_ptr<spdlog::logger> logger_;
    std::optional<Host> host_; ///< last, for it uses the rest
};

} // namespace barmkeep::host::test
