// Plugins that know nothing of this tree but the installed SDK, in the daemon's host.
#include "daemon/host/host.hpp"

#include <fstream>
#include <gmock/gmock.h>
#include <spdlog/sinks/null_sink.h>

namespace barmkeep::host {
namespace {

namespace fs = std::filesystem;

class Outside : public testing::Test {
protected:
    Outside() {
        std::string name = (fs::path{BARMKEEP_OUTSIDE_DIR} / "folder-XXXXXX").string();
        if (::mkdtemp(name.data()) == nullptr)
            throw std::runtime_error("no folder can be made in " BARMKEEP_OUTSIDE_DIR);
        folder_ = fs::canonical(name);
        options_.folders = {folder_};
        options_.trust.checked_from = folder_;
    }
    ~Outside() override {
        end();
        fs::remove_all(folder_);
    }

    void start(const fs::path& built) {
        const fs::path file = folder_ / built.filename();
        fs::copy_file(fs::path{BARMKEEP_OUTSIDE_DIR} / built, file);
        fs::permissions(file, static_cast<fs::perms>(0644));
        restart();
    }

    void restart() {
        end();
        const auto log = std::make_shared<spdlog::logger>(
            "test", std::make_shared<spdlog::sinks::null_sink_mt>());
        executor_.emplace(executor::Executor::Options{.threads = 2});
        host_.emplace(options_, methods_, *executor_, clock_, log);
        host_->start_all();
    }

    void end() {
        if (host_) {
            EXPECT_TRUE(host_->stop().empty());
            executor_->stop();
        }
        host_.reset();
    }

    Outcome call(std::string_view method, const json::value& params) {
        Call call;
        call.caller = {"anna", Access::look, ""};
        return methods_.call(method, call, &params);
    }

    fs::path folder_;
    MethodTable methods_;
    ManualClock clock_{parse_instant("2026-03-14T08:00:00Z")};
    Host::Options options_;
    std::optional<executor::Executor> executor_;
    std::optional<Host> host_;
};

TEST_F(Outside, APluginInCppThroughFindPackage) {
    options_.settings["greeting"] = {{"word", "Prost"}};
    start("cpp/greeting.so");
    EXPECT_EQ(std::get<json::value>(call("greeting.say", {{"to", "Anna"}})).at("text"),
              "Prost, Anna!");
    const Outcome wrong = call("greeting.say", {{"too", "Anna"}});
    EXPECT_EQ(std::get<Error>(wrong).reason(), "unknown_field");
}

TEST_F(Outside, APluginInPlainCWithNothingButTheHeader) {
    start("counter.so");
    EXPECT_EQ(std::get<json::value>(call("counter.ask", json::object{})).at("asked"), 1);
    EXPECT_EQ(std::get<json::value>(call("counter.ask", json::object{})).at("asked"), 2);
    EXPECT_EQ(std::get<json::value>(call("counter.ask", {{"times", 3}})).at("asked"), 5);
    host_->retire("counter");
    host_->add("counter");
    EXPECT_EQ(std::get<json::value>(call("counter.ask", json::object{})).at("asked"), 1);
}

TEST_F(Outside, ParamsOfAPluginInPlainCAreCheckedAgainstItsDescription) {
    start("counter.so");
    const Outcome wrong = call("counter.ask", {{"time", 1}, {"times", 10}});
    const Error& error = std::get<Error>(wrong);
    EXPECT_EQ(error.kind(), ErrorKind::params);
    ASSERT_EQ(error.faults().size(), 2u);
    EXPECT_EQ(error.faults()[0].pointer, "/time");
    EXPECT_EQ(error.faults()[0].hint, "Did you mean 'times'?");
    EXPECT_EQ(error.faults()[1].pointer, "/times");
    EXPECT_EQ(error.faults()[1].reason, "out_of_range");
    EXPECT_EQ(std::get<Error>(call("counter.ask", {{"times", "2"}})).reason(), "wrong_type");
    EXPECT_EQ(std::get<json::value>(call("counter.ask", json::object{})).at("asked"), 1)
        << "what was refused was not counted";
}

TEST_F(Outside, SettingsOfAPluginInPlainCAreCheckedAgainstItsDescription) {
    options_.settings["counter"] = {{"first", 40}};
    start("counter.so");
    EXPECT_EQ(std::get<json::value>(call("counter.ask", json::object{})).at("asked"), 41);
    for (const auto& [settings, told] : std::vector<std::pair<json::object, std::string>>{
             {{{"frist", 40}}, "There is no field 'frist' here."},
             {{{"first", "40"}}, "This must be a whole number."},
             {{{"first", -1}}, "-1 is out of range; it must be at least 0."}}) {
        options_.settings["counter"] = settings;
        restart();
        EXPECT_EQ(host_->list().at(0).state, contract::PluginState::failed);
        EXPECT_EQ(host_->list().at(0).fault, told);
    }
}

TEST_F(Outside, ThePackageKnowsWhereTheDaemonLooksForPlugins) {
    std::ifstream file{fs::path{BARMKEEP_OUTSIDE_DIR} / "cpp/plugin_dir.txt"};
    std::string told;
    std::getline(file, told);
    EXPECT_EQ(told, BARMKEEP_INSTALLED_PLUGINS);
}

} // namespace
} // namespace barmkeep::host
