#include "daemon/settings/sources.hpp"

#include "daemon/settings/leaves.hpp"

#include <fmt/format.h>
#include <toml++/toml.h>

namespace barmkeep::daemon {
namespace {

struct Origin {
    json::value value;
    std::string from;
};
/// By "section.name", or "plugin.NAME.name"; the first source to set a name keeps it.
using Found = std::map<std::string, Origin>;

json::value to_json_value(const toml::node& node) {
    if (const auto* text = node.as_string())
        return json::value(text->get());
    if (const auto* whole = node.as_integer())
        return whole->get();
    if (const auto* number = node.as_floating_point())
        return number->get();
    if (const auto* yes = node.as_boolean())
        return yes->get();
    if (const auto* list = node.as_array()) {
        json::array all;
        for (const auto& element : *list)
            all.push_back(to_json_value(element));
        return all;
    }
    if (const auto* table = node.as_table()) {
        json::object all;
        for (const auto& [name, member] : *table)
            all.emplace(name.str(), to_json_value(member));
        return all;
    }
    return nullptr; // a TOML date: no setting takes one, and the check says so
}

std::string place(const std::filesystem::path& file, const toml::node& node) {
    return fmt::format("{} line {}", file.string(), node.source().begin.line);
}

constexpr std::string_view plugin_prefix = "plugin.";

/// The parts of "plugin.NAME.name", if it is of that form.
std::optional<std::pair<std::string, std::string>> plugin_setting(const std::string& name) {
    if (!name.starts_with(plugin_prefix))
        return std::nullopt;
    const auto dot = name.find('.', plugin_prefix.size());
    if (dot == std::string::npos || dot == plugin_prefix.size() || dot + 1 == name.size())
        return std::nullopt;
    return std::pair{name.substr(plugin_prefix.size(), dot - plugin_prefix.size()),
                     name.substr(dot + 1)};
}

void take_table(const std::filesystem::path& file, const std::string& section,
                const toml::table& table, Found& found) {
    for (const auto& [name, node] : table)
        found.try_emplace(fmt::format("{}.{}", section, name.str()),
                          Origin{to_json_value(node), place(file, node)});
}

void take_file(const std::filesystem::path& file, Found& found, std::vector<FieldError>& faults) {
    const auto note = [&](const std::string& message, const std::string& hint) {
        faults.push_back({"", "settings_file", message, hint});
    };
    try {
        const toml::table root = toml::parse_file(file.string());
        for (const auto& [section, body] : root) {
            const auto* table = body.as_table();
            if (table == nullptr) {
                note(fmt::format("{}: '{}' stands outside a section.", place(file, body),
                                 section.str()),
                     "Put it under its [section].");
                continue;
            }
            if (section.str() != "plugin") {
                take_table(file, std::string(section.str()), *table, found);
                continue;
            }
            for (const auto& [name, node] : *table) {
                if (const auto* settings = node.as_table())
                    take_table(file, fmt::format("{}{}", plugin_prefix, name.str()), *settings,
                               found);
                else
                    note(fmt::format("{}: '{}' is not a section of a plugin.", place(file, node),
                                     name.str()),
                         "Write [plugin.NAME], and the plugin's settings under it.");
            }
        }
    } catch (const toml::parse_error& error) {
        note(fmt::format("{} line {}: {}.", file.string(), error.source().begin.line,
                         error.description()),
             "Write TOML: [section], then name = value, with text in quotes.");
    }
}

/// Whether there is a file to read; notes if nobody can know.
bool is_there(const std::filesystem::path& file, bool is_required,
              std::vector<FieldError>& faults) {
    std::error_code error;
    const auto status = std::filesystem::status(file, error);
    if (std::filesystem::is_directory(status))
        faults.push_back(
            {"", "settings_file", file.string() + " is a folder.", "Name a file in it."});
    else if (std::filesystem::exists(status))
        return true;
    else if (status.type() != std::filesystem::file_type::not_found)
        faults.push_back({"", "settings_file",
                          fmt::format("{} cannot be checked: {}.", file.string(), error.message()),
                          "Give the daemon's user the right to enter its folders."});
    else if (is_required)
        faults.push_back({"", "settings_file", "There is no file " + file.string() + ".",
                          "Check the path given with --config."});
    return false;
}

/// What a plugin's setting is, only the plugin knows: JSON where it reads as such, else a text.
json::value plugin_value(const std::string& text) {
    try {
        return parse_json(text);
    } catch (const std::invalid_argument&) {
        return json::value(text);
    }
}

void take_options(const std::vector<std::string>& options, Found& found,
                  std::vector<FieldError>& faults) {
    for (const auto& option : options) {
        const auto equals = option.find('=');
        const std::string name = option.substr(0, equals);
        const Leaf* leaf = find_leaf(name);
        const bool is_known = leaf != nullptr || plugin_setting(name);
        if (equals == std::string::npos || !is_known) {
            faults.push_back(
                {"", "settings_option",
                 fmt::format("--set {}: {}", option,
                             is_known ? "the value is missing." : "there is no such setting."),
                 "Write --set section.name=value; --help lists the names.  A plugin's "
                 "are plugin.NAME.name."});
            continue;
        }
        const std::string text = option.substr(equals + 1);
        // Of a repeated one the last counts, as with any option.
        found.insert_or_assign(
            name,
            Origin{leaf != nullptr ? leaf->from_text(text) : plugin_value(text), "option --set"});
    }
}

void take_environment(const Environment& environment, Found& found) {
    for (const auto& leaf : all_leaves())
        if (const auto text = environment(leaf.variable()))
            found.try_emplace(leaf.name(),
                              Origin{leaf.from_text(*text), "environment " + leaf.variable()});
}

/// The first of a list of folders, as the service manager hands them over.
std::optional<std::string> handed_folder(const Environment& environment, const char* variable) {
    const auto list = environment(variable);
    if (!list || list->empty())
        return std::nullopt;
    return list->substr(0, list->find(':'));
}

void take_built_in_paths(const SettingSources& sources, Found& found,
                         std::vector<FieldError>& faults) {
    const auto& environment = sources.environment;
    auto state = handed_folder(environment, "STATE_DIRECTORY");
    if (!state)
        state = sources.is_root ? "/var/lib/barmkeep" : client::user_state_folder(environment);
    std::string socket = sources.is_root ? std::string(client::system_socket_path)
                                         : client::usual_socket_path(environment);
    if (const auto runtime = handed_folder(environment, "RUNTIME_DIRECTORY"))
        socket = *runtime + "/barmkeep.sock";
    if (state)
        found.try_emplace("ledger.file",
                          Origin{json::value(*state + "/cellar.ledger"), "built in"});
    else if (!found.contains("ledger.file"))
        faults.push_back({"", "no_home",
                          "HOME is not set, so the daemon does not know where to keep the ledger.",
                          "Set ledger.file."});
    found.try_emplace("socket.path", Origin{json::value(socket), "built in"});
    found.try_emplace("plugins.folders",
                      Origin{json::array{json::value(BARMKEEP_PLUGIN_FOLDER)}, "built in"});
}

json::object& member_of(json::object& object, std::string_view name) {
    auto& member = object[name];
    if (!member.is_object())
        member = json::object{};
    return member.get_object();
}

json::object assembled(const Found& found) {
    json::object all;
    for (const auto& [name, origin] : found) {
        if (const auto parts = plugin_setting(name)) {
            member_of(member_of(all, "plugin"), parts->first)[parts->second] = origin.value;
            continue;
        }
        const auto dot = name.find('.');
        member_of(all, name.substr(0, dot))[name.substr(dot + 1)] = origin.value;
    }
    return all;
}

/// "/ledger/readers" came from the origin of "ledger.readers".
std::string origin_of(const std::string& pointer, const Found& found) {
    std::string name = pointer.empty() ? "" : pointer.substr(1);
    if (const auto slash = name.find('/'); slash != std::string::npos) {
        name[slash] = '.';
        name = name.substr(0, name.find('/'));
    }
    const auto origin = found.find(name);
    if (origin != found.end())
        return origin->second.from + ": " + name + ": ";
    for (const auto& [full, other] : found) // a whole section that does not exist
        if (full.starts_with(name + "."))
            return other.from + ": section [" + name + "]: ";
    return name.empty() ? "" : name + ": ";
}

std::vector<contract::Setting> listed(const Settings& settings, const Found& found) {
    std::vector<contract::Setting> all;
    const json::value values = to_json(settings);
    for (const auto& leaf : all_leaves()) {
        const auto origin = found.find(leaf.name());
        all.push_back({leaf.name(), write_json(values.at(leaf.section).at(leaf.field)),
                       origin == found.end() ? "built in" : origin->second.from});
    }
    for (const auto& [name, origin] : found)
        if (name.starts_with(plugin_prefix))
            all.push_back({name, write_json(origin.value), origin.from});
    return all;
}

} // namespace

std::vector<std::filesystem::path> usual_files(const Environment& environment) {
    std::vector<std::filesystem::path> files;
    if (const auto user = client::user_config_file(environment, "barmkeepd.toml"))
        files.emplace_back(*user);
    files.emplace_back(client::system_config_file("barmkeepd.toml"));
    return files;
}

SettingsInForce read_settings(const SettingSources& sources) {
    Found found;
    std::vector<FieldError> faults;
    take_options(sources.options, found, faults);
    take_environment(sources.environment, found);
    for (const auto& file : sources.files)
        if (is_there(file, sources.files_required, faults))
            take_file(file, found, faults);
    take_built_in_paths(sources, found, faults);

    ParseContext reading;
    auto settings = Codec<Settings>::read(assembled(found), reading);
    for (FieldError fault : reading.faults()) {
        fault.message = origin_of(fault.pointer, found) + fault.message;
        faults.push_back(std::move(fault));
    }
    if (!faults.empty())
        throw Error(ErrorKind::params, std::move(faults));
    auto origins = listed(*settings, found);
    return {std::move(*settings), std::move(origins)};
}

std::string sample_file() {
    std::string text =
        "# Settings of barmkeepd.  Every line shows the built-in value; remove the\n"
        "# mark to change it.  `barmkeepd --print-settings` shows what is in force.\n";
    std::string section;
    const json::value built_in = to_json(Settings{});
    for (const auto& leaf : all_leaves()) {
        if (leaf.section != section) {
            section = leaf.section;
            text += fmt::format("\n[{}]\n", section);
        }
        text += fmt::format("# {}\n# {} = {}\n", leaf.doc, leaf.field,
                            write_json(built_in.at(leaf.section).at(leaf.field)));
    }
    return text + "\n# Settings of a plugin are in its own section, such as [plugin.reorder];\n"
                  "# docs/ has a page for each plugin with its settings.\n";
}

} // namespace barmkeep::daemon
