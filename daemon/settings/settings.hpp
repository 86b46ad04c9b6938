// What can be set, described like everything else: a struct with docs, bounds and defaults.
//
// The sample file in config/, `barmkeepd --help` and `service.settings` are made from here.
#pragma once

#include "sdk/method/structure.hpp"

namespace barmkeep::daemon {

struct LedgerSettings {
    std::string file;
    std::int64_t batch_count_max = 256;
    std::int64_t events_kept = 100'000;
    std::int64_t readers = 4;
    static FieldList fields(auto) {
        using T = LedgerSettings;
        return {field<&T::file>("The ledger's file.").defaulted().length(0, 4000),
                field<&T::batch_count_max>("Requests written in one transaction at most.")
                    .defaulted()
                    .between(1, 10'000),
                field<&T::events_kept>("Events kept for clients that come back.")
                    .defaulted()
                    .between(100, 10'000'000),
                field<&T::readers>("Connections to the ledger that read while the writer writes.")
                    .defaulted()
                    .between(1, 16)};
    }
};

struct SocketSettings {
    std::string path;
    std::string mode = "0600";
    std::string group;
    static FieldList fields(auto) {
        using T = SocketSettings;
        return {field<&T::path>("The socket's path.").defaulted().length(0, 4000),
                field<&T::mode>("Who may connect, as an octal file mode.").defaulted().length(3, 4),
                field<&T::group>("Group of the socket's file. The group of the daemon if left out.")
                    .defaulted()
                    .length(0, 60)};
    }
};

enum class Everybody { nothing, look, keep, manage };
constexpr auto enum_names(Everybody) {
    using W = EnumName<Everybody>;
    return std::array{W{Everybody::nothing, "nothing"}, W{Everybody::look, "look"},
                      W{Everybody::keep, "keep"}, W{Everybody::manage, "manage"}};
}

/// Names in these lists are users, or groups with an `@` before them.  Root and the daemon's own
/// user may always manage.
struct AccessSettings {
    std::vector<std::string> look;
    std::vector<std::string> keep;
    std::vector<std::string> manage;
    Everybody everybody = Everybody::nothing;
    static FieldList fields(auto) {
        using T = AccessSettings;
        return {field<&T::look>("Users and @groups that may look.").defaulted(),
                field<&T::keep>("Users and @groups that may record, too.").defaulted(),
                field<&T::manage>("Users and @groups that may do everything.").defaulted(),
                field<&T::everybody>("The right of everybody else.").defaulted()};
    }
};

struct PluginSettings {
    std::vector<std::string> folders;
    std::vector<std::string> disabled;
    std::int64_t call_seconds_max = 30;
    static FieldList fields(auto) {
        using T = PluginSettings;
        return {field<&T::folders>("Folders that plugins are loaded from, as absolute paths.")
                    .defaulted(),
                field<&T::disabled>("Plugins that are not loaded.").defaulted(),
                field<&T::call_seconds_max>(
                    "Time limit of a call of a plugin, in seconds. After it the "
                    "caller gets an error.")
                    .defaulted()
                    .between(1, 3600)};
    }
};

struct ExecutorSettings {
    std::int64_t threads = 8;
    static FieldList fields(auto) {
        return {
            field<&ExecutorSettings::threads>(
                "Threads that run requests, in plugins and in the ledger. If there are several, "
                "one is kept for requests that keep a log, such as gauge readings.")
                .defaulted()
                .between(1, 64)};
    }
};

struct LimitSettings {
    std::int64_t line_bytes_max = 1 << 20;
    std::int64_t batch_length_max = 100;
    std::int64_t in_flight_max = 32;
    std::int64_t unanswered_max = 1024;
    std::int64_t reply_bytes_max = 8 << 20;
    std::int64_t connections_max = 64;
    std::int64_t connections_per_user_max = 32;
    std::int64_t partial_line_seconds_max = 30;
    static FieldList fields(auto) {
        using T = LimitSettings;
        return {
            field<&T::line_bytes_max>("Bytes in one line of a client.")
                .defaulted()
                .between(1024, 1 << 28),
            field<&T::batch_length_max>("Requests in one batch.").defaulted().between(1, 10'000),
            field<&T::in_flight_max>("Requests of one connection that run at the same time.")
                .defaulted()
                .between(1, 10'000),
            field<&T::unanswered_max>("Requests of one connection taken and not yet answered.")
                .defaulted()
                .between(1, 100'000),
            field<&T::reply_bytes_max>("Bytes that may wait for a slow client.")
                .defaulted()
                .between(1 << 16, 1 << 30),
            field<&T::connections_max>("Connections open at once.").defaulted().between(1, 10'000),
            field<&T::connections_per_user_max>("Connections of one user.")
                .defaulted()
                .between(1, 10'000),
            field<&T::partial_line_seconds_max>(
                "Time limit of an unfinished line, in seconds. After it the "
                "connection is closed.")
                .defaulted()
                .between(1, 3600)};
    }
};

enum class LogTarget { automatic, standard_error, journal };
constexpr auto enum_names(LogTarget) {
    using W = EnumName<LogTarget>;
    return std::array{W{LogTarget::automatic, "auto"}, W{LogTarget::standard_error, "stderr"},
                      W{LogTarget::journal, "journal"}};
}
enum class LogLevel { debug, info, warning, error };
constexpr auto enum_names(LogLevel) {
    using W = EnumName<LogLevel>;
    return std::array{W{LogLevel::debug, "debug"}, W{LogLevel::info, "info"},
                      W{LogLevel::warning, "warning"}, W{LogLevel::error, "error"}};
}

struct LogSettings {
    LogLevel level = LogLevel::info;
    LogTarget to = LogTarget::automatic;
    static FieldList fields(auto) {
        using T = LogSettings;
        return {field<&T::level>("The lowest level that is logged.").defaulted(),
                field<&T::to>("Where the log goes: standard error, the journal, or automatic. "
                              "automatic takes the journal if the service manager connected it.")
                    .defaulted()};
    }
};

struct Settings {
    LedgerSettings ledger;
    SocketSettings socket;
    AccessSettings access;
    PluginSettings plugins;
    ExecutorSettings executor;
    LimitSettings limits;
    LogSettings log;
    std::map<std::string, json::object> plugin; ///< a section [plugin.NAME] for each plugin
    static FieldList fields(auto) {
        using T = Settings;
        return {field<&T::ledger>("Where and how the ledger is kept.").defaulted(),
                field<&T::socket>("The socket that the daemon listens on.").defaulted(),
                field<&T::access>("Who may do what.").defaulted(),
                field<&T::plugins>("Which plugins are loaded.").defaulted(),
                field<&T::executor>("What requests run on.").defaulted(),
                field<&T::limits>("What a client may ask for at once.").defaulted(),
                field<&T::log>("The log: its level and its place.").defaulted(),
                field<&T::plugin>("Settings of the plugins; each checks its own.").defaulted()};
    }
};

} // namespace barmkeep::daemon
