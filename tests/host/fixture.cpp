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

void Gate::hear(const json::object& what) {
    {
        const std::scoped_lock lock{mutex_};
        most_ = std::max(most_, ++hearing_);
    }
    std::this_thread::yield(); // room for another to come in beside, were it let
    const std::scoped_lock lock{mutex_};
    --hearing_;
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

int Gate::most_hearing() const {
    const std::scoped_lock lock{mutex_};
    return most_;
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
    Description note = gate;
    note.name = "test.note";
    methods_.add(note, "core", [this](const Call& call, const json::object&, const Done& done) {
        noted_.push_back(call);
        done(json::value(nullptr));
    });
}

HostTest::~HostTest() {
    gate_.open();
    end();
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
    executor_.emplace(
        executor::Executor::Options{.threads = threads_, .deadlines = deadlines_, .log = logger_});
    host_.emplace(options_, methods_, *executor_, clock_, logger_);
    host_->start_all();
    return *host_;
}

void HostTest::end() {
    if (!host_)
        return;
    (void)host_->stop();
    executor_->stop();
    host_.reset();
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
