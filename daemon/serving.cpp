#include "daemon/serving.hpp"

#include "daemon/ledger/lock.hpp"
#include "daemon/log.hpp"
#include "daemon/rooms_options.hpp"
#include "daemon/service_manager.hpp"
#include "daemon/service_methods.hpp"
#include "daemon/sheets/sheet_methods.hpp"
#include "daemon/sources/source_methods.hpp"

#include <atomic>
#include <csignal>
#include <cstdlib>
#include <fmt/ranges.h>
#include <sys/stat.h>
#include <thread>

namespace barmkeep::daemon {
namespace {

constexpr std::chrono::seconds fatal_drain_max{5}; ///< for the last replies after a fatal fault

/// The rooms, each member before those that use it; they end in the reverse order.
class Serving {
public:
    Serving(const Options& options, const SettingSources& sources, SettingsInForce in_force);
    ~Serving();
    Serving(const Serving&) = delete;
    Serving& operator=(const Serving&) = delete;
    int run();

private:
    void add_methods();
    void make_server();
    void watch_signals();
    void watch_time();
    void apply(const Settings& fresh);
    void take_signal(int signal);
    void stop(int signal);
    void give_up();
    void drain();
    [[noreturn]] void leave();
    void end();
    void reload();
    void say_alive();

    const Settings settings_;
    const std::shared_ptr<spdlog::logger> log_;
    const SystemClock system_clock_;
    std::optional<ManualClock> manual_clock_;
    const Clock& clock_;
    LiveSettings live_;
    std::atomic<int> exit_code_ = 0;
    bool stopping_ = false;  ///< the loop's thread only
    bool signalled_ = false; ///< the watching thread only
    // All that the settings can be wrong about first, then what is ours alone, and only then the
    // ledger: a daemon that cannot serve it does not touch it.
    const SocketSource socket_source_;
    const socket::ServerOptions server_options_;
    const ledger::InstanceLock lock_;
    socket::Bound bound_; ///< until the server takes it
    const std::string socket_path_;
    MethodTable table_{clock_};
    socket::Loop loop_;
    /// Signals and time limits: on a thread of its own from before the first plugin is loaded until
    /// after the last has ended, whatever the rest waits for.
    socket::Loop watch_;
    executor::Executor executor_;
    ledger::Ledger ledger_;
    host::Host host_;
    std::unique_ptr<socket::Server> server_;
    std::jthread watch_thread_;
};

Serving::Serving(const Options& options, const SettingSources& sources, SettingsInForce in_force)
    : settings_{in_force.settings}, log_{make_log(settings_.log)},
      manual_clock_{options.clock ? std::make_optional<ManualClock>(*options.clock) : std::nullopt},
      clock_{manual_clock_ ? static_cast<const Clock&>(*manual_clock_) : system_clock_},
      live_{sources, std::move(in_force)}, socket_source_{socket_source(settings_.socket)},
      server_options_{server_options(settings_, log_)},
      lock_{ready_folder_of(settings_.ledger.file)}, bound_{bound_socket(socket_source_, *log_)},
      socket_path_{bound_.path()}, executor_{executor_options(settings_, watch_, log_)},
      ledger_{ledger_options(settings_.ledger), executor_, clock_, log_},
      host_{host_options(settings_, options.safe), table_, executor_, clock_, log_} {
    ledger_.on_fatal([this](const std::string& why) {
        log_->critical("{}; stopping, to be started again", why);
        loop_.post([this] { give_up(); });
    });
    ledger_.on_event([this](const contract::Event& event) { host_.deliver(event); });
    add_methods();
    make_server();
}

/// After end() there is nothing left to do here.  After a throw there is: the ledger delivers
/// events to the host until it is stopped.
Serving::~Serving() {
    host_.stop();
    executor_.stop();
    ledger_.stop();
    watch_.stop();
}

void Serving::add_methods() {
    ledger_.add_methods(table_);
    host_.add_methods(table_);
    protocol::add_protocol_methods(table_);
    sheets::add_sheet_methods(table_, log_);
    const auto connections = [this] {
        return static_cast<std::int64_t>(server_->connections());
    };
    sources::add_source_methods(table_);
    const auto lanes = [this] {
        return lane_status(executor_);
    };
    add_service_methods(table_,
                        {clock_, manual_clock_ ? &*manual_clock_ : nullptr, live_,
                         ledger_.schema_version(), settings_.ledger.file, socket_path_, connections,
                         lanes, [this](const Settings& fresh) { apply(fresh); },
                         [this] {
                             ledger_.note_time();
                         }});
}

void Serving::apply(const Settings& fresh) {
    auto rules = rules_of(fresh.access); // may throw, so before anything changes
    set_level(*log_, fresh.log.level);
    server_->set_access(std::move(rules));
}

void Serving::make_server() {
    auto service = std::make_shared<const protocol::Service>(
        protocol::Service{table_,
                          limits_of(settings_.limits),
                          {BARMKEEP_VERSION, socket_path_},
                          {},
                          [log = log_](const std::string& fault) {
                              log->error("{}", fault);
                          }});
    server_ = std::make_unique<socket::Server>(loop_, std::move(service), std::move(bound_),
                                               server_options_);
}

void Serving::take_signal(int signal) {
    if (std::exchange(signalled_, true)) {
        log_->warn("second signal {}: leaving at once", signal);
        leave();
    }
    loop_.post([this, signal] { stop(signal); });
}

void Serving::stop(int signal) {
    log_->info("signal {}: no new requests; ending those under way", signal);
    tell_stopping("ending the requests under way");
    drain();
}

/// The ledger takes no more, but the last callers still get an answer.
void Serving::give_up() {
    exit_code_ = 1;
    tell_stopping("the ledger cannot go on");
    drain();
    loop_.after(fatal_drain_max, [this] {
        server_->close_all();
        loop_.stop();
    });
}

void Serving::drain() {
    if (!std::exchange(stopping_, true))
        server_->drain([this] { loop_.stop(); });
}

/// Nothing is waited for: the ledger survives this as it survives a crash.
void Serving::leave() {
    server_->remove_name(); // if no drain did
    log_->flush();
    std::_Exit(1);
}

void Serving::reload() {
    tell_reloading();
    try {
        const auto result = live_.reload([this](const Settings& fresh) { apply(fresh); });
        log_->info("settings read again: {} changed, {} wait for a restart", result.changed.size(),
                   result.needs_restart.size());
    } catch (const std::exception& error) {
        log_->error("settings stay as they were: {}", error.what());
    }
    tell_ready("serving " + socket_path_);
}

void Serving::watch_signals() {
    watch_.on_signals({SIGTERM, SIGINT}, [this](int signal) { take_signal(signal); });
    watch_.on_signals({SIGHUP}, [this](int) { loop_.post([this] { reload(); }); });
    watch_thread_ = std::jthread([this] { watch_.run(); });
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
    watch_signals();
    ledger_.note_time();
    host_.start_all();
    // Plugins first: clients have been waiting in the socket's queue, and find everything there.
    server_->start();
    watch_time();
    log_->info("barmkeepd {} serves {} on {}", BARMKEEP_VERSION, settings_.ledger.file,
               socket_path_);
    tell_ready("serving " + socket_path_);
    loop_.run();
    end();
    return exit_code_;
}

/// The ledger is closed in every case; a plugin that does not end is not waited for, because no
/// thread can be ended from outside.
void Serving::end() {
    tell_stopping("stopping the plugins");
    const auto stuck = host_.stop();
    if (stuck.empty())
        executor_.stop(); // else it would wait for them
    ledger_.stop();
    if (!stuck.empty()) {
        log_->critical("leaving without waiting for {}", fmt::join(stuck, ", "));
        leave();
    }
    log_->info("stopped");
}

} // namespace

int serve(const Options& options, const SettingSources& sources, SettingsInForce settings) {
    ::umask(0077);
    ::signal(SIGPIPE, SIG_IGN);
    ::signal(SIGXFSZ, SIG_IGN); // a file at its limit is an error of write(), not an end
    Serving serving{options, sources, std::move(settings)};
    return serving.run();
}

} // namespace barmkeep::daemon
