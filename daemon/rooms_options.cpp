#include "daemon/rooms_options.hpp"

#include "daemon/protocol/people.hpp"
#include "daemon/service_manager.hpp"

#include <fmt/format.h>
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
    return everybody == Everybody::nothing ? std::nullopt : from_word<Access>(word_of(everybody));
}

} // namespace

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

} // namespace barmkeep::daemon
