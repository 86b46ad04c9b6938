#include "sdk/client/paths.hpp"

#include <cstdlib>

namespace barmkeep::client {
namespace {

std::optional<std::string> absolute_path(const Environment& environment, std::string_view name) {
    auto path = non_empty(environment, name);
    if (path && path->front() != '/')
        return std::nullopt;
    return path;
}

} // namespace

Environment process_environment() {
    return [](std::string_view name) -> std::optional<std::string> {
        const char* value = std::getenv(std::string(name).c_str());
        if (value == nullptr)
            return std::nullopt;
        return std::string(value);
    };
}

std::optional<std::string> non_empty(const Environment& environment, std::string_view name) {
    auto value = environment(name);
    if (value && value->empty())
        return std::nullopt;
    return value;
}

std::string usual_socket_path(const Environment& environment) {
    if (const auto runtime = absolute_path(environment, "XDG_RUNTIME_DIR"))
        return *runtime + "/barmkeep/barmkeep.sock";
    if (const auto state = user_state_folder(environment))
        return *state + "/barmkeep.sock";
    return std::string(system_socket_path);
}

std::optional<std::string> user_state_folder(const Environment& environment) {
    if (const auto state = absolute_path(environment, "XDG_STATE_HOME"))
        return *state + "/barmkeep";
    if (const auto home = absolute_path(environment, "HOME"))
        return *home + "/.local/state/barmkeep";
    return std::nullopt;
}

std::optional<std::string> user_config_file(const Environment& environment, std::string_view name) {
    if (const auto config = absolute_path(environment, "XDG_CONFIG_HOME"))
        return *config + "/barmkeep/" + std::string(name);
    if (const auto home = absolute_path(environment, "HOME"))
        return *home + "/.config/barmkeep/" + std::string(name);
    return std::nullopt;
}

std::string system_config_file(std::string_view name) {
    return "/etc/barmkeep/" + std::string(name);
}

Located choose_socket(const std::optional<std::string>& option, const Environment& environment,
                      const std::optional<Located>& configured,
                      const std::function<bool(const std::string&)>& exists) {
    if (option)
        return {*option, "option --socket"};
    if (const auto named = non_empty(environment, socket_variable))
        return {*named, "environment " + std::string(socket_variable)};
    if (configured)
        return *configured;
    std::string usual = usual_socket_path(environment);
    if (usual == system_socket_path)
        return {std::move(usual), "built in"};
    const std::string system{system_socket_path};
    if (!exists(usual) && exists(system))
        return {system, "built in, because there is none at " + usual};
    return {std::move(usual), "built in, by the environment"};
}

} // namespace barmkeep::client
