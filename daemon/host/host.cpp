#include "daemon/host/host.hpp"

#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::host {

using contract::PluginInfo;
using contract::PluginState;
namespace fs = std::filesystem;

namespace {

/// The plugin files of a folder, by name.  Throws std::filesystem::filesystem_error.
std::vector<fs::path> files_in(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator{folder})
        if (entry.path().extension() == ".so")
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

Error unknown_plugin(const std::string& name, const std::vector<std::string>& known) {
    const auto near = nearest(name, known);
    return {ErrorKind::not_found, "plugin_unknown", fmt::format("There is no plugin '{}'.", name),
            near ? "Did you mean '" + *near + "'?" : "`barm plugin list` lists the plugins."};
}

} // namespace

Host::Host(Options options, MethodTable& methods, executor::Executor& executor, const Clock& clock,
           std::shared_ptr<spdlog::logger> log)
    : options_{std::move(options)}, context_{methods, executor, clock, std::move(log),
                                             options_.call_time_max},
      libraries_{options_.trust} {}

Host::~Host() {
    administration_.stop();
    auto all = slots();
    std::reverse(all.begin(), all.end());
    for (const auto& slot : all)
        slot->end();
}

void Host::start_all() {
    const std::scoped_lock lock{administration_mutex_};
    for (const auto& folder : options_.folders)
        start_folder(folder);
    warn_of_idle_settings();
}

void Host::start_folder(const fs::path& folder) {
    try {
        for (const auto& file : files_in(folder))
            start_file(file);
    } catch (const fs::filesystem_error& error) {
        context_.log->warn("plugin folder {}: {}", folder.string(), error.code().message());
    }
}

void Host::start_file(const fs::path& file) {
    const std::string name = file.stem().string();
    if (const auto other = slot_of(name)) {
        context_.log->warn("plugin file {} is ignored: {} has the same name", file.string(),
                           other->file().string());
        return;
    }
    const auto slot = std::make_shared<PluginSlot>(name, file, context_);
    {
        const std::scoped_lock lock{mutex_};
        slots_.push_back(slot);
    }
    if (const std::string reason = reason_against(name); !reason.empty()) {
        slot->note(PluginState::disabled, reason);
        context_.log->info("plugin {}: not loaded: {}", name, reason);
        return;
    }
    try {
        start(*slot);
    } catch (const Error&) { // logged by start; the rest of the plugins go on
    }
}

std::string Host::reason_against(const std::string& name) const {
    if (options_.disabled.contains(name))
        return "The settings disable it (plugins.disabled).";
    if (options_.safe_start)
        return "The daemon was started without plugins. `barm plugin add " + name +
               "` loads this one.";
    return "";
}

void Host::start(PluginSlot& slot) {
    try {
        if (!plugin::is_plugin_name(slot.name()))
            throw Error(
                ErrorKind::unavailable, "bad_name",
                fmt::format("{} is not a valid file name of a plugin.", slot.file().string()),
                "Name the file NAME.so, with NAME in small letters and _.");
        const auto settings = options_.settings.find(slot.name());
        slot.start([this, file = slot.file()] { return libraries_.load(file); },
                   settings == options_.settings.end() ? json::object{} : settings->second);
    } catch (const Error& error) {
        slot.note(PluginState::failed, error.what());
        context_.log->error("plugin {}: {} {}", slot.name(), error.what(), error.hint());
        throw;
    }
}

void Host::warn_of_idle_settings() const {
    for (const auto& [name, settings] : options_.settings)
        if (!slot_of(name))
            context_.log->warn("there are settings for a plugin {}, but there is no {}.so in "
                               "the plugin folders",
                               name, name);
}

std::vector<std::string> Host::stop() {
    const std::scoped_lock lock{administration_mutex_};
    std::vector<std::string> stuck;
    if (std::exchange(is_stopped_, true))
        return stuck;
    auto all = slots();
    std::reverse(all.begin(), all.end());
    for (const auto& slot : all) {
        try {
            if (slot->is_in_use())
                slot->retire();
        } catch (const Error& error) {
            context_.log->error("plugin {}: {}", slot->name(), error.what());
            stuck.push_back(slot->name());
            continue;
        }
        if (slot->is_stuck()) {
            context_.log->error("plugin {}: its load or start has not ended", slot->name());
            stuck.push_back(slot->name());
        }
    }
    return stuck;
}

std::vector<PluginInfo> Host::list() const {
    std::vector<PluginInfo> all;
    for (const auto& slot : slots())
        all.push_back(slot->info());
    std::sort(all.begin(), all.end(),
              [](const auto& one, const auto& other) { return one.name < other.name; });
    return all;
}

PluginInfo Host::add(const std::string& name) {
    const std::scoped_lock lock{administration_mutex_};
    if (is_stopped_)
        throw Error(ErrorKind::unavailable, "stopping", "The daemon is stopping.");
    if (options_.disabled.contains(name))
        throw Error(ErrorKind::conflict, "plugin_disabled",
                    fmt::format("The settings disable the plugin {}.", name),
                    "Remove it from plugins.disabled and restart the daemon.");
    const auto slot = slot_for(name);
    if (slot->is_in_use())
        throw Error(ErrorKind::conflict, "plugin_in_use",
                    fmt::format("The plugin {} is already loaded.", name),
                    "To begin it again, retire it first.");
    start(*slot);
    // What is started last is stopped first.
    const std::scoped_lock slots_lock{mutex_};
    const auto at = std::find(slots_.begin(), slots_.end(), slot);
    std::rotate(at, at + 1, slots_.end());
    return slot->info();
}

PluginInfo Host::retire(const std::string& name) {
    const std::scoped_lock lock{administration_mutex_};
    const auto slot = slot_of(name);
    if (!slot) {
        std::vector<std::string> known;
        for (const auto& other : slots())
            known.push_back(other->name());
        throw unknown_plugin(name, known);
    }
    slot->retire();
    return slot->info();
}

fs::path Host::find_file(const std::string& name) const {
    std::vector<std::string> known;
    for (const auto& folder : options_.folders) {
        std::error_code error;
        for (fs::directory_iterator at{folder, error}, end; at != end && !error;
             at.increment(error)) {
            if (at->path().extension() != ".so")
                continue;
            if (at->path().stem() == name)
                return at->path();
            known.push_back(at->path().stem().string());
        }
    }
    throw unknown_plugin(name, known);
}

std::shared_ptr<PluginSlot> Host::slot_for(const std::string& name) {
    const fs::path file = find_file(name);
    auto known = slot_of(name);
    if (known && known->file() == file)
        return known;
    if (known && (known->is_in_use() || known->is_stuck()))
        return known;
    auto slot = std::make_shared<PluginSlot>(name, file, context_);
    const std::scoped_lock lock{mutex_};
    std::erase(slots_, known);
    slots_.push_back(slot);
    return slot;
}

std::shared_ptr<PluginSlot> Host::slot_of(const std::string& name) const {
    const std::scoped_lock lock{mutex_};
    const auto found = std::find_if(slots_.begin(), slots_.end(),
                                    [&](const auto& slot) { return slot->name() == name; });
    return found == slots_.end() ? nullptr : *found;
}

std::vector<std::shared_ptr<PluginSlot>> Host::slots() const {
    const std::scoped_lock lock{mutex_};
    return slots_;
}

void Host::deliver(const contract::Event& event) {
    for (const auto& slot : slots())
        slot->deliver(event);
}

} // namespace barmkeep::host
