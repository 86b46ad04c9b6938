#include "daemon/rooms_options.hpp"

#include "daemon/protocol/people.hpp"
#include "daemon/service_manager.hpp"

#include <cerrno>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace barmkeep::daemon {
namespace {

namespace fs = std::filesystem;

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
    return everybody == Everybody::nothing ? std::nullopt
                                           : from_string<Access>(to_string(everybody));
}

Error folder_fault(std::string_view what, const fs::path& folder, int error) {
    const bool is_forbidden = error == EACCES || error == EPERM;
    return {is_forbidden ? ErrorKind::refused : ErrorKind::unavailable, "no_folder",
            fmt::format("The folder {} {}: {}.", folder.string(), what,
                        std::generic_category().message(error)),
            "Make it, or name another place in the settings."};
}

/// Whom a folder that we make lets through.
struct FolderAccess {
    mode_t mode = 0700;
    std::optional<gid_t> group; ///< nothing: the group of the process
};

/// Makes what is missing of a folder's path.
void make_folder(const fs::path& folder, const FolderAccess& access) {
    std::error_code ignored;
    if (fs::exists(folder, ignored))
        return;
    if (folder.has_relative_path())
        make_folder(folder.parent_path(), access);
    if (::mkdir(folder.c_str(), 0700) != 0) {
        if (errno == EEXIST)
            return; // another made it in this moment
        throw folder_fault("cannot be made", folder, errno);
    }
    if (access.group && ::chown(folder.c_str(), static_cast<uid_t>(-1), *access.group) != 0)
        throw folder_fault("cannot be given to the socket's group", folder, errno);
    if (::chmod(folder.c_str(), access.mode) != 0)
        throw folder_fault("cannot be opened to the socket's clients", folder, errno);
}

/// A socket that may be written by others is of use to them only if they come to it.
FolderAccess folder_access_for(const socket::Place& place) {
    if ((place.mode & S_IWOTH) != 0)
        return {0755, place.group};
    if ((place.mode & S_IWGRP) != 0)
        return {0750, place.group};
    return {};
}

bool lets_in(const fs::path& folder, const FolderAccess& wanted) {
    struct stat found {};
    const mode_t needed = wanted.mode & (S_IXGRP | S_IXOTH);
    return ::stat(folder.c_str(), &found) != 0 || (found.st_mode & needed) == needed;
}

mode_t mode_of(const std::string& text) {
    if (text.empty() || text.find_first_not_of("01234567") != std::string::npos)
        throw Error(ErrorKind::params, "bad_mode",
                    fmt::format("socket.mode: '{}' is no octal file mode.", text),
                    "Write it as in 0660.");
    return static_cast<mode_t>(std::stoul(text, nullptr, 8));
}

std::optional<gid_t> group_of(const std::string& name) {
    if (name.empty())
        return std::nullopt;
    const auto group = protocol::group_number(name);
    if (!group)
        throw Error(ErrorKind::params, "unknown_group",
                    fmt::format("socket.group: there is no group '{}'.", name),
                    "Name a group of this machine, or leave it out.");
    return group;
}

} // namespace

fs::path ready_folder_of(const fs::path& file) {
    fs::path whole = fs::absolute(file);
    make_folder(whole.parent_path(), {});
    if (::faccessat(AT_FDCWD, whole.parent_path().c_str(), W_OK | X_OK, AT_EACCESS) != 0)
        throw folder_fault("cannot be written", whole.parent_path(), errno);
    return whole;
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

SocketSource socket_source(const SocketSettings& settings) {
    SocketSource source;
    source.inherited = inherited_socket();
    source.place.path = fs::absolute(settings.path);
    source.place.mode = mode_of(settings.mode);
    source.place.group = group_of(settings.group);
    if (!source.inherited)
        socket::check_path(source.place.path);
    return source;
}

socket::Bound bound_socket(const SocketSource& source, spdlog::logger& log) {
    if (source.inherited)
        return socket::Bound::inherited(*source.inherited);
    const fs::path folder = source.place.path.parent_path();
    const FolderAccess access = folder_access_for(source.place);
    make_folder(folder, access);
    if (!lets_in(folder, access))
        log.warn("the socket has mode {:04o}, but its folder {} keeps some of these users out",
                 source.place.mode, folder.string());
    return socket::Bound::at(source.place);
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

executor::Executor::Options executor_options(const Settings& settings, socket::Loop& loop,
                                             std::shared_ptr<spdlog::logger> log) {
    executor::Executor::Options options;
    options.threads = static_cast<std::size_t>(settings.executor.threads);
    options.deadlines = std::make_shared<executor::TimedDeadlines>(loop.context());
    options.log = std::move(log);
    return options;
}

std::vector<contract::LaneStatus> lane_status(const executor::Executor& executor) {
    std::vector<contract::LaneStatus> all;
    for (const auto& lane : enum_names(Lane{})) {
        const auto counters = executor.counters(lane.value);
        all.push_back({lane.value, static_cast<std::int64_t>(counters.waiting),
                       static_cast<std::int64_t>(counters.running),
                       static_cast<std::int64_t>(counters.done),
                       static_cast<std::int64_t>(counters.refused)});
    }
    return all;
}

ledger::Ledger::Options ledger_options(const LedgerSettings& settings) {
    ledger::Ledger::Options options;
    options.file = fs::absolute(settings.file);
    options.readers = static_cast<int>(settings.readers);
    options.batch_count_max = static_cast<int>(settings.batch_count_max);
    options.events_kept = settings.events_kept;
    return options;
}

host::Host::Options host_options(const Settings& settings, bool safe) {
    host::Host::Options options;
    options.safe_start = safe;
    for (const auto& folder : settings.plugins.folders)
        options.folders.emplace_back(folder);
    options.disabled = {settings.plugins.disabled.begin(), settings.plugins.disabled.end()};
    options.settings = settings.plugin;
    options.call_time_max = std::chrono::seconds{settings.plugins.call_seconds_max};
    return options;
}

} // namespace barmkeep::daemon
