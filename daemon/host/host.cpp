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
            near ? "Did you mean " + *near + "?" : "plugin.list shows the plugins."};
}

} // namespace

Host::Host(Options options, MethodTable& methods, const Clock& clock,
           std::shared_ptr<spdlog::logger> log)
    : options_{std::move(options)},
      surroundings_{methods,
                    clock,
                    std::move(log),
                    options_.call_time_max,
                    options_.deadlines ? options_.deadlines : std::make_shared<TimedDeadlines>(),
                    Workers{static_cast<std::size_t>(std::max(options_.workers, 1))}},
      libraries_{options_.trust} {}

Host::~Host() {
    stop();
    administration_.finish();
    surroundings_.workers.finish();
    // Calls that did not end in time have ended now, so that their plugins can be stopped too.
    auto all = seats();
    std::reverse(all.begin(), all.end());
    for (const auto& seat : all)
        seat->end();
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
        surroundings_.log->warn("plugin folder {}: {}", folder.string(), error.code().message());
    }
}

void Host::start_file(const fs::path& file) {
    const std::string name = file.stem().string();
    if (const auto other = seat_of(name)) {
        surroundings_.log->warn("plugin file {} is passed over: {} has the same name",
                                file.string(), other->file().string());
        return;
    }
    const auto seat = std::make_shared<Seat>(name, file, surroundings_);
    {
        const std::scoped_lock lock{mutex_};
        seats_.push_back(seat);
    }
    if (const std::string reason = reason_against(name); !reason.empty()) {
        seat->note(PluginState::disabled, reason);
        surroundings_.log->info("plugin {}: not loaded: {}", name, reason);
        return;
    }
    try {
        start(*seat);
    } catch (const Error&) { // told by start; the rest of the plugins go on
    }
}

std::string Host::reason_against(const std::string& name) const {
    if (options_.disabled.contains(name))
        return "The settings disable it (plugins.disabled).";
    if (options_.safe_start)
        return "The daemon was started without plugins; plugin.add loads this one.";
    return "";
}

void Host::start(Seat& seat) {
    try {
        if (!plugin::is_plugin_name(seat.name()))
            throw Error(ErrorKind::unavailable, "bad_name",
                        fmt::format("{} is no name of a plugin's file.", seat.file().string()),
                        "A plugin is a file NAME.so, NAME in small letters and _.");
        const auto settings = options_.settings.find(seat.name());
        seat.start([this, file = seat.file()] { return libraries_.load(file); },
                   settings == options_.settings.end() ? json::object{} : settings->second);
    } catch (const Error& error) {
        seat.note(PluginState::failed, error.what());
        surroundings_.log->error("plugin {}: {} {}", seat.name(), error.what(), error.hint());
        throw;
    }
}

void Host::warn_of_idle_settings() const {
    for (const auto& [name, settings] : options_.settings)
        if (!seat_of(name))
            surroundings_.log->warn("there are settings for a plugin {}, but there is no {}.so in "
                                    "the plugin folders",
                                    name, name);
}

std::vector<std::string> Host::stop() {
    const std::scoped_lock lock{administration_mutex_};
    std::vector<std::string> stuck;
    if (std::exchange(is_stopped_, true))
        return stuck;
    auto all = seats();
    std::reverse(all.begin(), all.end());
    for (const auto& seat : all) {
        try {
            if (seat->is_in_use())
                seat->retire();
        } catch (const Error& error) {
            surroundings_.log->error("plugin {}: {}", seat->name(), error.what());
            stuck.push_back(seat->name());
            continue;
        }
        if (seat->is_stuck()) {
            surroundings_.log->error("plugin {}: its load or start has not ended", seat->name());
            stuck.push_back(seat->name());
        }
    }
    return stuck;
}

std::vector<PluginInfo> Host::list() const {
    std::vector<PluginInfo> all;
    for (const auto& seat : seats())
        all.push_back(seat->info());
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
                    "Take it from plugins.disabled and restart the daemon.");
    const auto seat = seat_for(name);
    if (seat->is_in_use())
        throw Error(ErrorKind::conflict, "plugin_in_use",
                    fmt::format("The plugin {} is already there.", name),
                    "To begin it anew, retire it first.");
    start(*seat);
    // What is started last is stopped first.
    const std::scoped_lock seats_lock{mutex_};
    const auto at = std::find(seats_.begin(), seats_.end(), seat);
    std::rotate(at, at + 1, seats_.end());
    return seat->info();
}

PluginInfo Host::retire(const std::string& name) {
    const std::scoped_lock lock{administration_mutex_};
    const auto seat = seat_of(name);
    if (!seat) {
        std::vector<std::string> known;
        for (const auto& other : seats())
            known.push_back(other->name());
        throw unknown_plugin(name, known);
    }
    seat->retire();
    return seat->info();
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

std::shared_ptr<Seat> Host::seat_for(const std::string& name) {
    const fs::path file = find_file(name);
    auto known = seat_of(name);
    if (known && known->file() == file)
        return known;
    if (known && (known->is_in_use() || known->is_stuck()))
        return known;
    auto seat = std::make_shared<Seat>(name, file, surroundings_);
    const std::scoped_lock lock{mutex_};
    std::erase(seats_, known);
    seats_.push_back(seat);
    return seat;
}

std::shared_ptr<Seat> Host::seat_of(const std::string& name) const {
    const std::scoped_lock lock{mutex_};
    const auto found = std::find_if(seats_.begin(), seats_.end(),
                                    [&](const auto& seat) { return seat->name() == name; });
    return found == seats_.end() ? nullptr : *found;
}

std::vector<std::shared_ptr<Seat>> Host::seats() const {
    const std::scoped_lock lock{mutex_};
    return seats_;
}

void Host::deliver(const contract::Event& event) {
    for (const auto& seat : seats())
        seat->deliver(event);
}

} // namespace barmkeep::host
