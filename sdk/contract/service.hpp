// The running service: its state, its settings, its plugins, calls under way.
#pragma once

#include "sdk/contract/listing.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

/// What waits and runs in one of the daemon's queues.
struct LaneStatus {
    Lane lane = Lane::look;
    std::int64_t waiting = 0;
    std::int64_t running = 0;
    std::int64_t done = 0;
    std::int64_t refused = 0;
    static FieldList fields(auto) {
        return {field<&LaneStatus::lane>("The kind of requests: those that keep a log, those that "
                                         "write something else, and those that only look."),
                field<&LaneStatus::waiting>("Requests that wait now."),
                field<&LaneStatus::running>("Requests that are being worked on now."),
                field<&LaneStatus::done>("Requests done since the start."),
                field<&LaneStatus::refused>("Requests refused since the start because too many "
                                            "waited, or because the daemon was stopping.")};
    }
};

struct ServiceStatus {
    static constexpr About about{
        "service.status", Access::look, Effect::reads,
        "Shows the daemon's version, since when it runs, and what it serves."};
    using Params = Nothing;
    struct Result {
        std::string version;
        std::string protocol;
        std::int64_t schema = 0;
        Instant started;
        Instant now;
        std::string store;
        std::string socket;
        std::int64_t connections = 0;
        std::int64_t methods = 0;
        std::vector<LaneStatus> lanes;
        static FieldList fields(auto) {
            return {field<&Result::version>("Version of the program."),
                    field<&Result::protocol>("Version of the protocol."),
                    field<&Result::schema>("Version of the ledger's tables."),
                    field<&Result::started>("When it started."),
                    field<&Result::now>("The time by its clock."),
                    field<&Result::store>("The ledger's file."),
                    field<&Result::socket>("The socket on which it listens."),
                    field<&Result::connections>("Open connections."),
                    field<&Result::methods>("Number of methods."),
                    field<&Result::lanes>("The load of each queue for reading and for plugins.")};
        }
    };
};

struct Setting {
    std::string name;
    std::string value;
    std::string from;
    static FieldList fields(auto) {
        return {field<&Setting::name>("Section and name."), field<&Setting::value>("Its value."),
                field<&Setting::from>("Where the value comes from: an option, the environment, a "
                                      "file and its line, or built in.")};
    }
};

struct ServiceSettings {
    static constexpr About about{"service.settings", Access::manage, Effect::reads,
                                 "Lists each setting in force and where it comes from."};
    using Params = Nothing;
    struct Result {
        std::vector<Setting> settings;
        static FieldList fields(auto) { return {field<&Result::settings>("The settings.")}; }
    };
};

struct ServiceReload {
    static constexpr About about{
        "service.reload", Access::manage, Effect::reads,
        "Reads the settings again, and shows what changed and what needs a restart."};
    using Params = Nothing;
    struct Result {
        std::vector<std::string> changed;
        std::vector<std::string> needs_restart;
        static FieldList fields(auto) {
            return {
                field<&Result::changed>("Settings that are now in force."),
                field<&Result::needs_restart>("Settings that take effect at the next restart.")};
        }
    };
};

enum class PluginState { running, failed, disabled, retired };
constexpr auto enum_names(PluginState) {
    using W = EnumName<PluginState>;
    return std::array{W{PluginState::running, "running"}, W{PluginState::failed, "failed"},
                      W{PluginState::disabled, "disabled"}, W{PluginState::retired, "retired"}};
}

struct PluginInfo {
    std::string name;
    std::string version;
    PluginState state = PluginState::running;
    std::string file;
    std::vector<std::string> methods;
    std::optional<std::string> fault;
    static FieldList fields(auto) {
        return {field<&PluginInfo::name>("Its name."),
                field<&PluginInfo::version>("Its version."),
                field<&PluginInfo::state>("Running, failed, disabled or retired."),
                field<&PluginInfo::file>("Its file."),
                field<&PluginInfo::methods>("The methods it adds."),
                field<&PluginInfo::fault>("Why it failed, or why it is not loaded.")};
    }
};

struct PluginList {
    static constexpr About about{"plugin.list", Access::look, Effect::reads, "Lists the plugins."};
    using Params = Nothing;
    struct Result {
        std::vector<PluginInfo> plugins;
        static FieldList fields(auto) { return {field<&Result::plugins>("The plugins.")}; }
    };
};

struct PluginAdd {
    static constexpr About about{
        "plugin.add", Access::manage, Effect::reads,
        "Loads a plugin from one of the plugin folders while the daemon runs."};
    struct Params {
        std::string name;
        static FieldList fields(auto) {
            return {field<&Params::name>("The plugin's name.").positional().length(1, 60)};
        }
    };
    using Result = PluginInfo;
};

struct PluginRetire {
    static constexpr About about{
        "plugin.retire", Access::manage, Effect::reads,
        "Removes a plugin's methods, and stops it when its calls have ended."};
    using Params = PluginAdd::Params;
    using Result = PluginInfo;
};

struct CallCancel {
    static constexpr About about{"call.cancel", Access::look, Effect::reads,
                                 "Asks a request of this connection to stop. It is still answered. "
                                 "An unknown id is no error."};
    struct Params {
        json::value id;
        static FieldList fields(auto) { return {field<&Params::id>("The request's id.")}; }
    };
    using Result = Nothing;
};

struct ClockSet {
    static constexpr About about{"clock.set", Access::manage, Effect::reads,
                                 "Sets the clock of a daemon that was started with a manual clock, "
                                 "for demonstrations and tests."};
    struct Params {
        Instant now;
        static FieldList fields(auto) {
            return {field<&Params::now>("The new time.").positional()};
        }
    };
    struct Result {
        Instant now;
        static FieldList fields(auto) { return {field<&Result::now>("The time now.")}; }
    };
};

} // namespace barmkeep::contract
