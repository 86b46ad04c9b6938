// The plugins of the daemon: found, checked, loaded, called, retired.
#pragma once

#include "daemon/host/libraries.hpp"
#include "daemon/host/plugin_slot.hpp"

namespace barmkeep::host {

/// Thread safety: any thread, but `start_all` comes first, and neither `start_all` nor `stop` may
/// be called from a plugin's call.  The table's methods must not be called any more when the host
/// is destroyed.
class Host {
public:
    struct Options {
        /// Absolute paths; of two plugins with one name the first folder's is taken.
        std::vector<std::filesystem::path> folders;
        std::set<std::string> disabled;               ///< names of plugins that are not loaded
        bool safe_start = false;                      ///< load none; plugin.add still can
        std::map<std::string, json::object> settings; ///< by the plugin's name
        /// After so long a call is answered without its plugin.  The same holds for the load, the
        /// start and the stop of a plugin, and for the wait for its calls when it is retired.
        std::chrono::milliseconds call_time_max{30000};
        Trust trust = Trust::usual();
    };

    /// The executor runs the plugins and keeps their time limits.
    Host(Options options, MethodTable& methods, executor::Executor& executor, const Clock& clock,
         std::shared_ptr<spdlog::logger> log);
    /// Stops the plugins whose calls had not ended in time, but have ended now.
    /// REQUIRES: `stop` was called, and then the executor's stop, which waits for such calls.  It
    /// waits for ever if a plugin is stuck for ever; so where `stop` names one, the daemon puts its
    /// own things in order and ends the process instead.
    ~Host();
    Host(const Host&) = delete;
    Host& operator=(const Host&) = delete;

    /// Loads every NAME.so of the folders, in order of folder and name.  What fails is logged and
    /// listed as failed, with the reason.
    void start_all();
    /// Adds plugin.list, plugin.add and plugin.retire.  The last two answer later, from a thread of
    /// the host's.
    void add_methods(MethodTable& methods);
    /// Queues an event for the plugins that want it.
    void deliver(const contract::Event& event);
    /// Takes no more calls, waits for those under way, and stops the plugins in the reverse order
    /// of their start.  Answers the names of those that did not end in time, be it now or in a load
    /// or start before; their threads run on.
    std::vector<std::string> stop();

    /// In order of name.
    [[nodiscard]] std::vector<contract::PluginInfo> list() const;
    /// Loads a plugin by name from the folders.  Throws Error.
    contract::PluginInfo add(const std::string& name);
    /// Throws Error.
    contract::PluginInfo retire(const std::string& name);

private:
    /// Why a plugin is not to be loaded; empty if it is.
    [[nodiscard]] std::string reason_against(const std::string& name) const;
    void start_folder(const std::filesystem::path& folder);
    void start_file(const std::filesystem::path& file);
    void start(PluginSlot& slot);
    [[nodiscard]] std::filesystem::path find_file(const std::string& name) const;
    [[nodiscard]] std::shared_ptr<PluginSlot> slot_of(const std::string& name) const;
    [[nodiscard]] std::shared_ptr<PluginSlot> slot_for(const std::string& name);
    [[nodiscard]] std::vector<std::shared_ptr<PluginSlot>> slots() const;
    void warn_of_idle_settings() const;
    /// Answers from the thread that adds and retires, one at a time.
    void administer(const Done& done, std::function<json::value()> work);

    const Options options_;
    HostContext context_;

    std::mutex administration_mutex_; ///< held while plugins are started or stopped
    Libraries libraries_;
    bool is_stopped_ = false;

    mutable std::mutex mutex_;                       ///< guards what follows
    std::vector<std::shared_ptr<PluginSlot>> slots_; ///< in order of start

    /// Adding and retiring wait for a plugin, which nothing on the common executor may; so they
    /// have a thread of their own.  Last, because its tasks use the rest.
    executor::Executor administration_{{.threads = 1}};
};

} // namespace barmkeep::host
