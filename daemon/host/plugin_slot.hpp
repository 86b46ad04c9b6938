// One plugin's place in the host: its file, its state, its calls and its events.
#pragma once

#include "daemon/host/host_context.hpp"
#include "sdk/contract/service.hpp"
#include "sdk/plugin/hosted.hpp"

#include <condition_variable>
#include <deque>
#include <filesystem>

namespace barmkeep::host {

/// Thread safety: any thread; start, retire and is_in_use one at a time, and not from a plugin's
/// call. Kept by shared pointers: a call under way keeps the slot that it sits in.
class PluginSlot : public std::enable_shared_from_this<PluginSlot> {
public:
    /// Events that may wait for one plugin; when more come, the plugin gets a notice that it missed
    /// some.
    static constexpr std::size_t events_waiting_max = 4096;

    PluginSlot(std::string name, std::filesystem::path file, HostContext& context);

    [[nodiscard]] const std::string& name() const noexcept { return name_; }
    [[nodiscard]] const std::filesystem::path& file() const noexcept { return file_; }
    [[nodiscard]] contract::PluginInfo info() const;
    /// Whether it runs, or has not yet ended.  Not beside start and retire.
    [[nodiscard]] bool is_in_use() const noexcept { return hosted_ != nullptr; }
    /// Whether a load, start or stop that we no longer wait for is still running.
    [[nodiscard]] bool is_stuck() const noexcept { return is_stuck_; }

    /// Notes why it is not running.
    void note(contract::PluginState state, std::string_view fault);

    using Load = std::function<const barmkeep_plugin*()>;
    /// Loads and starts a plugin and puts its methods into the table.  Throws the Error of `load`
    /// or the plugin's, or Error(unavailable, "plugin_slow") if one of the two takes longer than a
    /// call may.  REQUIRES: not running.
    void start(const Load& load, const json::object& settings);
    /// Takes its methods away, waits for its calls under way and stops it.  Throws
    /// Error(conflict) if it is not running, Error(unavailable, "plugin_slow") if its calls, or
    /// the plugin's stop, take longer than a call may; it can be tried again.
    void retire();

    /// Stops it on this thread, if `retire` could not.  REQUIRES: the executor has stopped.
    void end() noexcept;

    /// Puts an event in its queue, if it runs and wants it.
    void deliver(const contract::Event& event);

private:
    /// Counts a call or an event as under way; false if the slot is closed.
    [[nodiscard]] bool enter();
    void leave();

    [[nodiscard]] std::shared_ptr<plugin::Hosted> loaded(const Load& load);
    void take_manifest();
    /// Runs a load, start or stop on the executor, with the time limit of a call.  When it ends too
    /// late, `undo` is run after it, because nobody else does.  Not from a thread of the executor.
    void run_limited(std::string_view what, const std::function<void()>& work,
                     const std::function<void()>& undo);
    struct Attempt;
    void end_attempt(Attempt& attempt, std::optional<Error> failure,
                     const std::function<void()>& undo);
    void give_up(Attempt& attempt, std::string_view what, bool begun);
    void open();
    void add_methods();
    void begin_call(const std::string& method, Lane lane, Call call, json::object params,
                    const Done& done);
    /// Where a call waits for a thread, without its work.
    [[nodiscard]] executor::Task task_of(Lane lane, const Call& call) const;
    using Work = std::function<Outcome(const Call& call)>;
    /// Does work of the plugin on the executor; it is left when that has ended.  REQUIRES: entered.
    void submit(const std::string& what, executor::Task task, Call call, Work work,
                const Done& done);
    void make_sheet(const std::string& method, const Call& call, const json::object& params,
                    const json::value& result, const Done& done);
    [[nodiscard]] bool drained();
    void stand_for_missed(const contract::Event& event);
    void post_event();
    [[nodiscard]] std::optional<contract::Event> next_event();
    void take_event();
    void log(plugin::LogLevel level, std::string_view text) const;

    const std::string name_;
    const std::filesystem::path file_;
    HostContext& context_;

    /// Set while the slot is closed; read by those who have entered.
    std::shared_ptr<plugin::Hosted> hosted_;
    std::atomic<bool> is_stuck_ = false;

    mutable std::mutex mutex_; ///< guards what follows
    std::condition_variable left_;
    bool open_ = false;
    int inside_ = 0;
    contract::PluginState state_ = contract::PluginState::failed;
    std::optional<std::string> fault_ = "It was not started.";
    std::optional<plugin::Manifest> manifest_;
    std::deque<contract::Event> events_;
    std::int64_t events_missed_ = 0;
    bool is_delivering_ = false;
};

} // namespace barmkeep::host
