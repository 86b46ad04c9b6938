#include "daemon/serving.hpp"

#include "daemon/host/host.hpp"
#include "daemon/ledger/ledger.hpp"
#include "daemon/ledger/lock.hpp"
#include "daemon/log.hpp"
#include "daemon/protocol/people.hpp"
#include "daemon/service_manager.hpp"
#include "daemon/service_methods.hpp"
#include "daemon/socket/server.hpp"

#include <csignal>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

namespace barmkeep::daemon {
namespace {

namespace fs = std::filesystem;

/// Makes the folder of a file, for its owner only, where there is none yet.
void make_folder_of(const fs::path& file) {
    const fs::path folder = fs::absolute(file).parent_path();
    std::error_code error;
    if (fs::exists(folder, error))
        return;
    if (!fs::create_directories(folder, error) && error)
        throw Error(
            ErrorKind::unavailable, "no_folder",
            fmt::format("The folder {} cannot be made: {}.", folder.string(), error.message()),
            "Make it, or name another place in the settings.");
    fs::permissions(folder, fs::perms::owner_all, error);
}

protocol::Grant grant_of(const std::vector<std::string>& names, const char* setting) {
    protocol::Grant grant;
    for (const auto& name : names) {
        const bool is_group = name.starts_with('@');
        const auto user = is_group ? std::nullopt : protocol::user_number(name);
        const auto group = is_group ? protocol::group_number(name.substr(1)) : std::nullopt;
        if (user)
            grant.users.push_back(*user);
        if (group)
            grant.groups.push_back(*group);
        if (!user && !group)
            throw Error(ErrorKind::params, "unknown_person",
                        fmt::format("access.{}: there is no {} '{}'.", setting,
                                    is_group ? "group" : "user", is_group ? name.substr(1) : name),
                        "Write users by name and groups with an @ before the name.");
    }
    return grant;
}

std::optional<Access> access_of_everybody(Everybody everybody) {
    return everybody == Everybody::nothing ? std::nullopt : from_word<Access>(word_of(everybody));
}

protocol::AccessRules rules_of(const AccessSettings& settings) {
    protocol::AccessRules rules;
    rules.owner = ::geteuid();
    rules.look = grant_of(settings.look, "look");
    rules.keep = grant_of(settings.keep, "keep");
    rules.manage = grant_of(settings.manage, "manage");
    rules.everybody = access_of_everybody(settings.everybody);
    return rules;
}

protocol::Limits limits_of(const LimitSettings& settings) {
    protocol::Limits limits;
    limits.line_bytes_max = static_cast<std::size_t>(settings.line_bytes_max);
    limits.batch_length_max = static_cast<std::size_t>(settings.batch_length_max);
    limits.in_flight_max = static_cast<std::size_t>(settings.in_flight_max);
    limits.unanswered_max = static_cast<std::size_t>(settings.unanswered_max);
    limits.reply_bytes_max = static_cast<std::size_t>(settings.reply_bytes_max);
    return limits;
}

socket::Bound bound_socket(const SocketSettings& settings) {
    if (const auto inherited = inherited_socket())
        return socket::Bound::inherited(*inherited);
    make_folder_of(settings.path);
    socket::Place place;
    place.path = fs::absolute(settings.path);
    if (settings.mode.find_first_not_of("01234567") != std::string::npos)
        throw Error(ErrorKind::params, "bad_mode",
                    fmt::format("socket.mode: '{}' is no octal file mode.", settings.mode),
                    "Write it as in 0660.");
    place.mode = static_cast<mode_t>(std::stoul(settings.mode, nullptr, 8));
    if (!settings.group.empty()) {
        place.group = protocol::group_number(settings.group);
        if (!place.group)
            throw Error(ErrorKind::params, "unknown_group",
                        fmt::format("socket.group: there is no group '{}'.", settings.group));
    }
    return socket::Bound::at(place);
}

socket::ServerOptions server_options(const Settings& settings,
                                     const std::shared_ptr<spdlog::logger>& log) {
    socket::ServerOptions options;
    options.access = rules_of(settings.access);
    options.name_of = protocol::user_name;
    options.connections_max = static_cast<std::size_t>(settings.limits.connections_max);
    options.connections_per_user =
        static_cast<std::size_t>(settings.limits.connections_per_user_max);
    options.partial_line = std::chrono::seconds{settings.limits.partial_line_seconds_max};
    options.warn = [log](std::string_view text) {
        log->warn("{}", text);
    };
    return options;
}

ledger::Ledger::Options ledger_options(const LedgerSettings& settings) {
    ledger::Ledger::Options options;
    options.file = fs::absolute(settings.file);
    options.readers = static_cast<int>(settings.readers);
    options.batch_count_max = static_cast<int>(settings.batch_count_max);
    options.events_kept = settings.events_kept;
    return options;
}

host::Host::Options host_options(const Settings& settings) {
    host::Host::Options options;
    for (const auto& folder : settings.plugins.folders)
        options.folders.emplace_back(folder);
    options.disabled = {settings.plugins.disabled.begin(), settings.plugins.disabled.end()};
    options.settings = settings.plugin;
    options.call_time_max = std::chrono::seconds{settings.plugins.call_seconds_max};
    options.workers = static_cast<int>(settings.plugins.workers);
    return options;
}

} // namespace

int serve(const Options& options, const SettingSources& sources, SettingsInForce in_force) {
    const Settings settings = in_force.settings;
    ::umask(0077);
    ::signal(SIGPIPE, SIG_IGN);
    const auto log = make_log(settings.log);
    const SystemClock system_clock;
    std::optional<ManualClock> manual_clock;
    if (options.clock)
        manual_clock.emplace(*options.clock);
    const Clock& clock = manual_clock ? static_cast<const Clock&>(*manual_clock) : system_clock;
    LiveSettings live{sources, std::move(in_force)};

    // The rooms, each before the ones that use it; they end in the reverse order.
    make_folder_of(settings.ledger.file);
    const ledger::InstanceLock lock{fs::absolute(settings.ledger.file)};
    MethodTable table;
    ledger::Ledger ledger{ledger_options(settings.ledger), clock, log};
    ledger.add_methods(table);
    host::Host host{host_options(settings), table, clock, log};
    host.add_methods(table);
    ledger.on_event([&host](const contract::Event& event) { host.deliver(event); });
    protocol::add_protocol_methods(table);

    socket::Loop loop;
    std::atomic<int> exit_code = 0;
    ledger.on_fatal([&](const std::string& why) {
        log->critical("{}; stopping, to be started again", why);
        exit_code = 1;
        loop.stop();
    });

    // Plugins first, then the socket: a client that can connect finds everything there.
    std::unique_ptr<socket::Server> server;
    const auto apply = [&](const Settings& fresh) {
        const auto rules = rules_of(fresh.access); // may throw: before anything changes
        set_level(*log, fresh.log.level);
        if (server)
            server->set_access(rules);
    };
    add_service_methods(
        table,
        {clock, manual_clock ? &*manual_clock : nullptr, live, ledger.schema_version(),
         settings.ledger.file, settings.socket.path,
         [&] { return server ? static_cast<std::int64_t>(server->connections()) : 0; }, apply,
         [&] {
             ledger.note_time();
         }});
    ledger.note_time();
    if (options.safe)
        log->warn("safe start: no plugin is loaded");
    else
        host.start_all();

    auto service = std::make_shared<const protocol::Service>(protocol::Service{
        table, limits_of(settings.limits), {BARMKEEP_VERSION, settings.socket.path}, {}});
    server = std::make_unique<socket::Server>(loop, service, bound_socket(settings.socket),
                                              server_options(settings, log));
    bool stopping = false;
    loop.on_signals({SIGTERM, SIGINT}, [&](int signal) {
        if (std::exchange(stopping, true)) {
            log->warn("second signal {}: leaving at once", signal);
            exit_code = 1;
            server->close_all();
            return loop.stop();
        }
        log->info("signal {}: no new requests; ending those under way", signal);
        tell_stopping("ending the requests under way");
        server->drain([&] { loop.stop(); });
    });
    loop.on_signals({SIGHUP}, [&](int) {
        tell_reloading();
        try {
            const auto result = live.reload(apply);
            log->info("settings read again: {} changed, {} wait for a restart",
                      result.changed.size(), result.needs_restart.size());
        } catch (const Error& error) {
            log->error("settings stay as they were: {}", error.what());
        }
        tell_ready("serving " + settings.socket.path);
    });
    loop.every(std::chrono::seconds{30}, [&] { ledger.note_time(); });
    if (const auto interval = alive_interval())
        // Said only when the ledger answers: a daemon that cannot read is not alive.
        loop.every(std::chrono::duration_cast<std::chrono::milliseconds>(*interval), [&] {
            Call call;
            call.caller.name = "watchdog";
            table.start("cellar.show", call, nullptr, [](const Outcome& outcome) {
                if (std::holds_alternative<json::value>(outcome))
                    tell_alive();
            });
        });

    server->start();
    log->info("barmkeepd {} serves {} on {}", BARMKEEP_VERSION, settings.ledger.file,
              settings.socket.path);
    tell_ready("serving " + settings.socket.path);
    loop.run();
    host.stop();
    ledger.stop();
    log->info("stopped");
    return exit_code;
}

} // namespace barmkeep::daemon
