// A real ledger and a real plugin on one table of methods, without a daemon between them.
#pragma once

#include "daemon/ledger/ledger.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/contract/reminder.hpp"
#include "sdk/plugin/hosted.hpp"
#include "sdk/plugin/plugin.hpp"

#include <filesystem>
#include <mutex>
#include <spdlog/sinks/null_sink.h>
#include <vector>

namespace barmkeep::test {

/// The ledger lives in a folder of its own, which goes with it.  Events wait until the test hands
/// them to the plugin, so nothing depends on threads.
class CellarUnderTest {
public:
    CellarUnderTest() {
        std::string pattern = (std::filesystem::temp_directory_path() / "barmkeep-XXXXXX").string();
        if (::mkdtemp(pattern.data()) == nullptr)
            throw std::runtime_error("no temporary folder");
        folder_ = pattern;
        ledger::Ledger::Options options;
        options.file = folder_ / "cellar.db";
        auto log = std::make_shared<spdlog::logger>(
            "test", std::make_shared<spdlog::sinks::null_sink_mt>());
        ledger_ = std::make_unique<ledger::Ledger>(options, executor_, clock_, log);
        ledger_->on_event([this](const contract::Event& event) {
            const std::scoped_lock lock{mutex_};
            events_.push_back(event);
        });
        ledger_->add_methods(table_);
    }
    ~CellarUnderTest() {
        stop();
        ledger_->stop();
        std::filesystem::remove_all(folder_);
    }
    CellarUnderTest(const CellarUnderTest&) = delete;
    CellarUnderTest& operator=(const CellarUnderTest&) = delete;

    template <class P>
    void start(const json::object& settings = {}) {
        plugin_ = std::make_unique<plugin::Hosted>(
            &plugin::descriptor<P>(),
            plugin::Hosted::Services{table_, clock_,
                                     [this](plugin::LogLevel, std::string_view line) {
                                         log_lines_.emplace_back(line);
                                     }});
        plugin_->start(settings);
        for (const auto& method : plugin_->manifest().methods)
            table_.add(method, plugin_->manifest().name,
                       [this, name = method.name](const Call& call, const json::object& params,
                                                  const Done& done) {
                           done(plugin_->call(name, call, params));
                       });
    }

    /// Stops the plugin and takes its methods out.
    void stop() {
        if (!plugin_)
            return;
        table_.remove_provider(plugin_->manifest().name);
        plugin_->stop();
        plugin_.reset();
    }

    /// Calls a method as anna, who may do anything, or as a plugin on her behalf; throws the Error
    /// that it answers.
    template <Method M>
    typename M::Result call(const typename M::Params& params, std::string_view key = {},
                            std::string_view plugin = {}) {
        json::object sent = to_json(params).as_object();
        if (!key.empty())
            sent[request_key_field] = json::value(key);
        const json::value value = sent;
        Call circumstances;
        circumstances.caller = {"anna", Access::manage, std::string(plugin)};
        Outcome outcome = table_.call(M::about.name, circumstances, &value);
        if (const auto* error = std::get_if<Error>(&outcome))
            throw *error;
        return decode<typename M::Result>(std::get<json::value>(outcome));
    }

    /// Ends the hold of jars that were bought, by a record of how they were canned.
    void vouch(const LotCode& lot) {
        (void)call<contract::LotVouch>(
            {lot, "25 min at 12 psi", parse_date("2026-03-01"), to_text(lot)});
    }

    /// Sets the clock and lets the ledger note the day.
    void set_time(std::string_view instant) {
        clock_.set(parse_instant(instant));
        ledger_->note_time();
        // The ledger notes it on its own thread; a write that changes nothing is queued behind.
        (void)call<contract::ReminderClear>({"nothing of this name", {}, {}});
    }

    /// Hands the plugin every event it wants, those included that it causes by that.  Answers how
    /// many there were in all.
    std::size_t deliver_events() {
        std::size_t count = 0;
        for (auto batch = taken(); !batch.empty(); batch = taken())
            for (const auto& event : batch) {
                ++count;
                if (plugin_->wants(event.topic))
                    plugin_->event(event);
            }
        return count;
    }

    [[nodiscard]] const std::vector<std::string>& log_lines() const { return log_lines_; }

private:
    std::vector<contract::Event> taken() {
        const std::scoped_lock lock{mutex_};
        return std::exchange(events_, {});
    }

    ManualClock clock_{parse_instant("2026-03-14T08:00:00Z")};
    std::filesystem::path folder_;
    MethodTable table_{clock_};
    executor::Executor executor_{{.threads = 2}};
    std::unique_ptr<ledger::Ledger> ledger_;
    std::unique_ptr<plugin::Hosted> plugin_;
    std::vector<std::string> log_lines_;
    std::mutex mutex_;
    std::vector<contract::Event> events_;
};

} // namespace barmkeep::test
