#include "daemon/client/preferences.hpp"

#include "sdk/method/nearest.hpp"

#include <fmt/format.h>
#include <toml++/toml.h>

namespace barmkeep::barm {
namespace {

constexpr std::string_view file_name = "barm.toml";

[[noreturn]] void refuse_unknown(const std::string& path, const toml::key& key) {
    std::vector<std::string> known;
    for (const auto& rule : preference_rules())
        known.emplace_back(rule.name);
    const auto near = nearest(key.str(), known);
    throw PreferenceError(fmt::format("{}, line {}: there is no setting '{}'.{}", path,
                                      key.source().begin.line, key.str(),
                                      near ? fmt::format("  Did you mean '{}'?", *near) : ""));
}

bool is_known(std::string_view name) {
    for (const auto& rule : preference_rules())
        if (rule.name == name)
            return true;
    return false;
}

} // namespace

const std::vector<PreferenceRule>& preference_rules() {
    static const std::vector<PreferenceRule> rules{
        {"socket", client::socket_variable, ""}, // found by choose_socket
        {"units", "BARM_UNITS", "the cellar's"},
        {"color", "BARM_COLOR", "auto"},
        {"pager", "BARM_PAGER", "less -FIRX"},
        {"time_out", "BARM_TIME_OUT", "30 s"}};
    return rules;
}

Preferences::Preferences(const client::Environment& environment, const ReadFile& read_file) {
    for (const auto& rule : preference_rules())
        if (auto value = client::non_empty(environment, rule.variable))
            environment_[std::string(rule.name)] = {std::move(*value),
                                                    fmt::format("environment {}", rule.variable)};
    // An empty PAGER is meant: no pager.
    if (auto pager = environment("PAGER"); pager && !environment_.contains("pager"))
        environment_["pager"] = {std::move(*pager), "environment PAGER"};
    if (const auto own = client::user_config_file(environment, file_name))
        read_settings_file(*own, read_file);
    read_settings_file(client::system_config_file(file_name), read_file);
}

void Preferences::read_settings_file(const std::string& path, const ReadFile& read_file) {
    const auto text = read_file(path);
    if (!text)
        return;
    try {
        const toml::table table = toml::parse(*text, path);
        for (const auto& [key, value] : table) {
            if (!is_known(key.str()))
                refuse_unknown(path, key);
            const auto word = value.value_exact<std::string>();
            const auto line = key.source().begin.line;
            if (!word)
                throw PreferenceError(fmt::format("{}, line {}: '{}' must be text in quotes.", path,
                                                  line, key.str()));
            files_.try_emplace(std::string(key.str()),
                               client::Located{*word, fmt::format("{}, line {}", path, line)});
        }
    } catch (const toml::parse_error& error) {
        throw PreferenceError(
            fmt::format("{}, line {}: {}.", path, error.source().begin.line, error.description()));
    }
}

std::optional<client::Located> Preferences::configured(std::string_view name) const {
    const auto found = files_.find(name);
    return found == files_.end() ? std::nullopt : std::optional(found->second);
}

std::optional<client::Located> Preferences::said(std::string_view name) const {
    const auto found = environment_.find(name);
    return found == environment_.end() ? configured(name) : std::optional(found->second);
}

client::Located Preferences::value(std::string_view name,
                                   const std::optional<std::string>& option) const {
    if (option)
        return {*option, "option"};
    if (auto found = said(name))
        return std::move(*found);
    for (const auto& rule : preference_rules())
        if (rule.name == name)
            return {std::string(rule.built_in), "built in"};
    return {};
}

} // namespace barmkeep::barm
