#include "sdk/plugin/manifest.hpp"

#include "sdk/plugin/text.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <set>

namespace barmkeep::plugin {
namespace {

[[noreturn]] void refuse(std::string_view reason, const std::string& message,
                         std::string_view hint) {
    throw Error(ErrorKind::unavailable, reason, message, hint);
}

std::string version_text(std::uint32_t major, std::uint32_t minor) {
    return std::to_string(major) + "." + std::to_string(minor);
}

void check_version(const barmkeep_plugin& plugin) {
    const bool plugin_is_newer =
        plugin.abi_major > BARMKEEP_ABI_MAJOR ||
        (plugin.abi_major == BARMKEEP_ABI_MAJOR && plugin.abi_minor > BARMKEEP_ABI_MINOR);
    const std::string versions = "The plugin is built for version " +
                                 version_text(plugin.abi_major, plugin.abi_minor) +
                                 " of the plugin boundary; this Barmkeep has " +
                                 version_text(BARMKEEP_ABI_MAJOR, BARMKEEP_ABI_MINOR) + ".";
    if (plugin_is_newer)
        refuse("plugin_too_new", versions, "Update Barmkeep.");
    if (plugin.abi_major < BARMKEEP_ABI_MAJOR)
        refuse("plugin_too_old", versions, "Update the plugin.");
}

/// Whether `schema` describes an object in a form that the house can walk.
bool describes_object(const json::object& schema) {
    const auto* type = schema.if_contains("type");
    if (type == nullptr || !type->is_string() || type->get_string() != "object")
        return false;
    const auto* properties = schema.if_contains("properties");
    return properties == nullptr || properties->is_object();
}

void check_methods(const Manifest& manifest, ParseContext& reading) {
    std::set<std::string> names;
    for (std::size_t i = 0; i < manifest.methods.size(); ++i) {
        const Description& method = manifest.methods[i];
        const ParseContext::Step methods{reading, "methods"};
        const ParseContext::Step at{reading, i};
        if (method.name.starts_with("rpc."))
            reading.fault("reserved_name", "Names that begin with rpc. are the protocol's own.");
        if (!names.insert(method.name).second)
            reading.fault("named_twice", "There are two methods '" + method.name + "'.");
        if (!describes_object(method.params))
            reading.fault("bad_schema", "The params of " + method.name +
                                            " must be described as an object: {\"type\": "
                                            "\"object\", \"properties\": {...}}.");
    }
}

std::string described_text(const barmkeep_plugin& plugin) {
    std::string text;
    try {
        plugin.describe(keep_text, &text);
    } catch (...) {
        refuse("plugin_threw", "The plugin threw an exception while describing itself.",
               "Its author must fix it.");
    }
    return text;
}

/// The faults as one error about the plugin, with the place before each sentence.
[[noreturn]] void refuse_all(const std::vector<FieldError>& faults) {
    std::vector<FieldError> told = faults;
    for (auto& fault : told)
        if (!fault.pointer.empty())
            fault.message = fault.pointer + ": " + fault.message;
    throw Error(ErrorKind::unavailable, std::move(told));
}

} // namespace

bool is_plugin_name(std::string_view name) noexcept {
    constexpr std::array<std::string_view, 2> taken{"core", "rpc"};
    if (name.empty() || name.size() > 40 || name.front() == '_')
        return false;
    if (name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") != std::string_view::npos)
        return false;
    return std::find(taken.begin(), taken.end(), name) == taken.end();
}

void check_descriptor(const barmkeep_plugin* plugin) {
    if (plugin == nullptr)
        refuse("not_a_plugin", "The plugin's entry returns nothing.", "Its author must fix it.");
    if (plugin->magic != BARMKEEP_PLUGIN_MAGIC)
        refuse("not_a_plugin",
               "The file exports the entry of a plugin, but what it returns is no "
               "description of one (wrong magic number).",
               "Check that it is a plugin of Barmkeep.");
    // The version stands where it always will, so it is checked before anything later is read.
    check_version(*plugin);
    constexpr std::size_t size_min = offsetof(barmkeep_plugin, sheet); // version 1.0
    if (plugin->size < size_min)
        refuse("not_a_plugin",
               "The plugin's description has " + std::to_string(plugin->size) + " bytes; version " +
                   version_text(plugin->abi_major, plugin->abi_minor) + " has " +
                   std::to_string(size_min) + " or more.",
               "Its author must fix it.");
    if (plugin->describe == nullptr || plugin->start == nullptr || plugin->call == nullptr ||
        plugin->stop == nullptr)
        refuse("not_a_plugin", "A function is missing from the plugin's description.",
               "Only `event` and `sheet` may be left out.");
}

Manifest read_manifest(const barmkeep_plugin& plugin) {
    const std::string text = described_text(plugin);
    json::value value;
    try {
        value = value_of(text);
    } catch (const std::exception& error) {
        refuse("bad_description",
               "The description of the plugin cannot be read: " + std::string(error.what()),
               "Its author must fix it.");
    }
    ParseContext reading;
    auto manifest = Codec<Manifest>::read(value, reading);
    if (manifest) {
        if (!is_plugin_name(manifest->name))
            reading.fault("bad_name", "'" + manifest->name + "' is not a valid name of a plugin.",
                          "Use small letters and _; core and rpc are taken.");
        if (!manifest->events.empty() && plugin.event == nullptr)
            reading.fault("no_event_function", "The plugin wants events but has no function to "
                                               "take them.");
        check_methods(*manifest, reading);
    }
    if (!reading.clean())
        refuse_all(reading.faults());
    return std::move(*manifest);
}

} // namespace barmkeep::plugin
