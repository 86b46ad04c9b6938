#include "tests/host/fixture.hpp"

#include <atomic>
#include <cstdlib>
#include <spdlog/sinks/ostream_sink.h>
#include <sys/stat.h>

namespace barmkeep::host::test {

namespace fs = std::filesystem;

namespace {

/// The gate of the test that is running, for plugins that have no host yet.
std::atomic<Gate*> present_gate = nullptr;

} // namespace

extern "C" __attribute__((visibility("default"))) void host_test_stand_still() {
    present_gate.load()->pass();
}

void Gate::wait_for(int count) {
    std::unique_lock lock{mutex_};
    changed_.wait(lock, [&] { return came_ >= count; });
}

void Gate::open() {
    const std::scoped_lock lock{mutex_};
    open_ = true;
    changed_.notify_all();
}

void Gate::pass() {
    std::unique_lock lock{mutex_};
    ++came_;
    most_ = std::max(most_, ++inside_);
    changed_.notify_all();
    changed_.wait(lock, [this] { return open_; });
    --inside_;
}

int Gate::most_at_once() const {
    const std::scoped_lock lock{mutex_};
    return most_;
}

void Gate::hear(const json::object& what) {
    {
        const std::scoped_lock lock{mutex_};
        most_ = std::max(most_, ++inside_);
    }
    std::this_thread::yield(); // room for another to come in beside, were it let
    const std::scoped_lock lock{mutex_};
    --inside_;
    heard_.push_back(what);
    changed_.notify_all();
}

void Gate::wait_for_heard(std::size_t count) {
    std::unique_lock lock{mutex_};
    changed_.wait(lock, [&] { return heard_.size() >= count; });
}

std::vector<json::object> Gate::heard() const {
    const std::scoped_lock lock{mutex_};
    return heard_;
}

Deadlines::Ticket HandDeadlines::add(std::chrono::milliseconds, std::function<void()> action) {
    const std::scoped_lock lock{mutex_};
    running_.emplace(++last_, std::move(action));
    changed_.notify_all();
    return last_;
}

void HandDeadlines::remove(Ticket ticket) {
    std::function<void()> dropped; // let go outside the lock
    const std::scoped_lock lock{mutex_};
    if (const auto found = running_.find(ticket); found != running_.end()) {
        dropped = std::move(found->second);
        running_.erase(found);
    }
}

void HandDeadlines::wait_for(std::size_t count) {
    std::unique_lock lock{mutex_};
    changed_.wait(lock, [&] { return running_.size() >= count; });
}

void HandDeadlines::expire() {
    std::map<Ticket, std::function<void()>> due;
    {
        const std::scoped_lock lock{mutex_};
        due.swap(running_);
    }
    for (const auto& [ticket, action] : due)
        action();
}

void HandDeadlines::expire_latest() {
    std::function<void()> action;
    {
        const std::scoped_lock lock{mutex_};
        action = std::move(std::prev(running_.end())->second);
        running_.erase(std::prev(running_.end()));
    }
    action();
}

HostTest::HostTest()
    : logger_{std::make_shared<spdlog::logger>(
          "test", std::make_shared<spdlog::sinks::ostream_sink_mt>(log_))} {
    present_gate = &gate_;
    std::string name = (fs::path{BARMKEEP_TEST_PLUGINS} / "folder-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr)
        throw std::runtime_error("no folder can be made beside the test plugins");
    folder_ = fs::canonical(name);
    options_.folders = {folder_};
    options_.trust.checked_from = folder_;
    options_.deadlines = deadlines_;
    Description gate{
        "test.gate", Access::look, Effect::reads, "Stands still.", false, {{"type", "object"}}, {}};
    Description heard = gate;
    heard.name = "test.heard";
    methods_.add(gate, "core", [this](const Call&, const json::object& params, const Done& done) {
        gate_.pass();
        done(json::value(params));
    });
    methods_.add(heard, "core", [this](const Call&, const json::object& params, const Done& done) {
        gate_.hear(params);
        done(json::value(nullptr));
    });
}

HostTest::~HostTest() {
    gate_.open();
    host_.reset();
    present_gate = nullptr;
    fs::remove_all(folder_);
}

fs::path HostTest::put(const std::string& plugin, const std::string& as) {
    const fs::path file = folder_ / ((as.empty() ? plugin : as) + ".so");
    fs::copy_file(fs::path{BARMKEEP_TEST_PLUGINS} / (plugin + ".so"), file);
    fs::permissions(file, static_cast<fs::perms>(0644));
    return file;
}

Host& HostTest::start() {
    host_.emplace(options_, methods_, clock_, logger_);
    host_->start_all();
    return *host_;
}

contract::PluginInfo HostTest::info(const std::string& name) {
    for (const auto& one : host_->list())
        if (one.name == name)
            return one;
    ADD_FAILURE() << name << " is not listed";
    return {};
}

std::string HostTest::fault(const std::string& name) {
    const auto found = info(name);
    EXPECT_EQ(found.state, contract::PluginState::failed);
    return found.fault.value_or("no fault");
}

Outcome HostTest::call(std::string_view method, const json::object& params) {
    const json::value sent = params;
    return methods_.call(method, circumstances(), &sent);
}

Error HostTest::error(std::string_view method, const json::object& params) {
    const Outcome outcome = call(method, params);
    if (const auto* error = std::get_if<Error>(&outcome))
        return *error;
    return {ErrorKind::internal, "no_error", write_json(std::get<json::value>(outcome))};
}

std::future<Error> HostTest::error_to_come(std::string method) {
    return std::async(std::launch::async,
                      [this, method = std::move(method)] { return error(method); });
}

json::value HostTest::result(std::string_view method, const json::object& params) {
    const Outcome outcome = call(method, params);
    if (const auto* error = std::get_if<Error>(&outcome))
        ADD_FAILURE() << method << ": " << error->reason() << ": " << error->what();
    return std::holds_alternative<Error>(outcome) ? nullptr : std::get<json::value>(outcome);
}

Call HostTest::circumstances() {
    Call call;
    call.caller = {"anna", Access::manage, ""};
    return call;
}

contract::Event HostTest::event(std::int64_t sequence, std::string topic) {
    return {sequence, parse_instant("2026-03-14T08:00:00Z"), std::move(topic), {}};
}

/// Only while no thread of the host's can log.
std::string HostTest::log() const {
    return log_.str();
}

} // namespace barmkeep::host::test
