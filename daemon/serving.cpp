#include "daemon/serving.hpp"

#include "daemon/ledger/lock.hpp"
#include "daemon/log.hpp"
#include "daemon/rooms_options.hpp"
#include "daemon/service_manager.hpp"
#include "daemon/service_methods.hpp"

#include <atomic>
#include <csignal>
#include <cstdlib>
#include <fmt/ranges.h>
#include <sys/stat.h>

namespace barmkeep::daemon {
namespace {

/// The rooms, each member before those that use it; they end in the reverse order.
class Serving {
public:
    Serving(const Options& options, const SettingSources& sources, SettingsInForce in_force);
    int run();

private:
    void add_methods();
    void listen();
    void watch_signals();
    void watch_time();
    void apply(const Settings& fresh);
    void stop(int signal);
    void end();
    void reload();
    void say_alive();

    const Settings settings_;
    const bool safe_;
    const std::shared_ptr<spdlog::logger> log_;
    const SystemClock system_clock_;
    std::optional<ManualClock> manual_clock_;
    const Clock& clock_;
    LiveSettings live_;
    std::atomic<int> exit_code_ = 0;
    bool stopping_ = false; ///< the loop's thread only
    ledger::InstanceLock lock_;
    MethodTable table_;
    socket::Loop loop_;
    ledger::Ledger ledger_;
    host::Host host_;
    std::unique_ptr<socket::Server> server_;
    std::atomic<const socket::Server*> listening_ = nullptr; ///< a plugin's thread may ask early
};

std::filesystem::path with_folder(const std::string& file) {
    make_folder_of(file);
    return std::filesystem::absolute(file);
}

Serving::Serving(const Options& options, const SettingSources& sources, SettingsInForce in_force)
    : settings_{in_force.settings}, safe_{options.safe}, log_{make_log(settings_.log)},
      manual_clock_{options.clock ? std::make_optional<ManualClock>(*options.clock) : std::nullopt},
      clock_{manual_clock_ ? static_cast<const Clock&>(*manual_clock_) : system_clock_},
      live_{sources, std::move(in_force)}, lock_{with_folder(settings_.ledger.file)},
      ledger_{ledger_options(settings_.ledger), clock_, log_}, host_{host_options(settings_),
                                                                     table_, clock_, log_} {
    ledger_.on_fatal([this](const std::string& why) {
        log_->critical("{}; stopping, to be started again", why);
        exit_code_ = 1;
        loop_.stop();
    });
    ledger_.on_event([this](const contract::Event& event) { host_.deliver(event); });
    add_methods();
}

void Serving::add_methods() {
    ledger_.add_methods(table_);
    host_.add_methods(table_);
    protocol::add_protocol_methods(table_);
    const auto connections = [this] {
        const auto* server = listening_.load();
        return server != nullptr ? static_cast<std::int64_t>(server->connections()) : 0;
    };
    add_service_methods(table_,
                        {clock_, manual_clock_ ? &*manual_clock_ : nullptr, live_,
                         ledger_.schema_version(), settings_.ledger.file, settings_.socket.path,
                         connections, [this](const Settings& fresh) { apply(fresh); },
                         [this] {
                             ledger_.note_time();
                         }});
}

void Serving::apply(const Settings& fresh) {
    auto rules = rules_of(fresh.access); // may throw, so before anything changes
    set_level(*log_, fresh.log.level);
    if (server_)
        server_->set_access(std::move(rules));
}

void Serving::listen() {
    auto service = std::make_shared<const protocol::Service>(protocol::Service{
        table_, limits_of(settings_.limits), {BARMKEEP_VERSION, settings_.socket.path}, {}});
    server_ = std::make_unique<socket::Server>(
        loop_, std::move(service), bound_socket(settings_.socket), server_options(settings_, log_));
    listening_ = server_.get();
    server_->start();
}

void Serving::stop(int signal) {
    if (std::exchange(stopping_, true)) {
        log_->warn("second signal {}: leaving at once", signal);
        exit_code_ = 1;
        server_->close_all();
        return loop_.stop();
    }
    log_->info("signal {}: no new requests; ending those under way", signal);
    tell_stopping("ending the requests under way");
    server_->drain([this] { loop_.stop(); });
}

void Serving::reload() {
    tell_reloading();
    try {
        const auto result = live_.reload([this](const Settings& fresh) { apply(fresh); });
        log_->info("settings read again: {} changed, {} wait for a restart", result.changed.size(),
                   result.needs_restart.size());
    } catch (const Error& error) {
        log_->error("settings stay as they were: {}", error.what());
    }
    tell_ready("serving " + settings_.socket.path);
}

void Serving::watch_signals() {
    loop_.on_signals({SIGTERM, SIGINT}, [this](int signal) { stop(signal); });
    loop_.on_signals({SIGHUP}, [this](int) { reload(); });
}

/// Said only when the ledger answers: a daemon that cannot read is not alive.
void Serving::say_alive() {
    Call call;
    call.caller.name = "watchdog";
    table_.start("cellar.show", call, nullptr, [](const Outcome& outcome) {
        if (std::holds_alternative<json::value>(outcome))
            tell_alive();
    });
}

void Serving::watch_time() {
    loop_.every(std::chrono::seconds{30}, [this] { ledger_.note_time(); });
    if (const auto interval = alive_interval())
        loop_.every(std::chrono::duration_cast<std::chrono::milliseconds>(*interval),
                    [this] { say_alive(); });
}

int Serving::run() {
    ledger_.note_time();
    if (safe_)
        log_->warn("safe start: no plugin is loaded");
    else
        host_.start_all();
    // Plugins first, then the socket: a client that can connect finds everything there.
    listen();
    watch_signals();
    watch_time();
    log_->info("barmkeepd {} serves {} on {}", BARMKEEP_VERSION, settings_.ledger.file,
               settings_.socket.path);
    tell_ready("serving " + settings_.socket.path);
    loop_.run();
    end();
    return exit_code_;
}

/// The ledger is closed in every case; a plugin that does not end is not waited for, for no thread
/// can be ended from outside.
void Serving::end() {
    const auto stuck = host_.stop();
    ledger_.stop();
    if (!stuck.empty()) {
        log_->critical("leaving without waiting for {}", fmt::join(stuck, ", "));
        log_->flush();
        server_.reset(); // takes the socket's name away, if no drain did
        std::_Exit(1);
    }
    log_->info("stopped");
}

} // namespace

int serve(const Options& options, const SettingSources& sources, SettingsInForce settings) {
    ::umask(0077);
    ::signal(SIGPIPE, SIG_IGN);
    Serving serving{options, sources, std::move(settings)};
    return serving.run();
}

} // namespace barmkeep::daemon
