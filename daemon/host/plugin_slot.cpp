#include "daemon/host/plugin_slot.hpp"

#include "daemon/host/pending_call.hpp"

#include <fmt/format.h>
#include <future>

namespace barmkeep::host {

using contract::PluginState;

namespace {

/// A sheet is computed from what is there already: longer than this is a fault.
constexpr std::chrono::milliseconds sheet_time_max{1000};

/// Runs `work`; answers what it throws, as an Error.
std::optional<Error> failure_of(const std::function<void()>& work) noexcept {
    std::optional<Error> failure;
    const Done keep = [&](Outcome outcome) {
        if (auto* error = std::get_if<Error>(&outcome))
            failure = std::move(*error);
    };
    answer(keep, [&]() -> json::value {
        work();
        return nullptr;
    });
    return failure;
}

} // namespace

PluginSlot::PluginSlot(std::string name, std::filesystem::path file, HostContext& context)
    : name_{std::move(name)}, file_{std::move(file)}, context_{context} {}

contract::PluginInfo PluginSlot::info() const {
    const std::scoped_lock lock{mutex_};
    contract::PluginInfo info{name_, "", state_, file_.string(), {}, fault_};
    if (manifest_)
        info.version = manifest_->version;
    if (manifest_ && state_ == PluginState::running)
        for (const auto& method : manifest_->methods)
            info.methods.push_back(method.name);
    return info;
}

void PluginSlot::note(PluginState state, std::string_view fault) {
    const std::scoped_lock lock{mutex_};
    state_ = state;
    if (fault.empty())
        fault_.reset();
    else
        fault_ = fault;
}

void PluginSlot::start(const Load& load, const json::object& settings) {
    if (hosted_)
        throw Error(ErrorKind::conflict, "plugin_in_use",
                    fmt::format("The plugin {} is still in use.", name_),
                    "Retire it first. If this does not end, restart the daemon.");
    hosted_ = loaded(load);
    try {
        take_manifest();
        run_limited(
            "start", [hosted = hosted_, settings] { hosted->start(settings); },
            [hosted = hosted_] { hosted->stop(); });
    } catch (...) {
        hosted_.reset();
        throw;
    }
    open();
    try {
        add_methods();
    } catch (const Error&) {
        retire();
        throw;
    }
    note(PluginState::running, "");
    log(plugin::LogLevel::info, fmt::format("version {} runs", hosted_->manifest().version));
}

std::shared_ptr<plugin::Hosted> PluginSlot::loaded(const Load& load) {
    const plugin::Hosted::Services services{context_.methods, context_.clock,
                                            [this](plugin::LogLevel level, std::string_view text) {
                                                log(level, text);
                                            }};
    const auto made = std::make_shared<std::shared_ptr<plugin::Hosted>>();
    run_limited(
        "load",
        [made, load, services] { *made = std::make_shared<plugin::Hosted>(load(), services); },
        [] {});
    return *made;
}

void PluginSlot::take_manifest() {
    const plugin::Manifest& manifest = hosted_->manifest();
    if (manifest.name != name_)
        throw Error(ErrorKind::unavailable, "name_differs",
                    fmt::format("The plugin calls itself {}, but its file is {}.", manifest.name,
                                file_.string()),
                    fmt::format("Name the file {}.so.", manifest.name));
    const std::scoped_lock lock{mutex_};
    manifest_ = manifest;
}

/// Settled once: by its end or by the time limit.
struct PluginSlot::Attempt {
    std::promise<std::optional<Error>> ended; ///< with why it failed, if it did
    std::mutex mutex;                         ///< guards what follows
    bool is_settled = false;
};

void PluginSlot::run_limited(std::string_view what, const std::function<void()>& work,
                             const std::function<void()>& undo) {
    if (is_stuck_)
        throw Error(ErrorKind::unavailable, "plugin_stuck",
                    fmt::format("The plugin {} is stuck in its load, start or stop.", name_),
                    "Restart the daemon to remove it, and report the fault to its author.");
    const auto attempt = std::make_shared<Attempt>();
    executor::Task task;
    task.lane = Lane::write;
    task.work = [slot = shared_from_this(), attempt, work, undo] {
        slot->end_attempt(*attempt, failure_of(work), undo);
    };
    task.time_max = context_.call_time_max;
    task.late = [slot = shared_from_this(), attempt, text = std::string(what)](bool begun) {
        slot->give_up(*attempt, text, begun);
    };
    auto ended = attempt->ended.get_future();
    context_.executor.submit(std::move(task));
    if (const auto failure = ended.get())
        throw Error(*failure);
}

void PluginSlot::end_attempt(Attempt& attempt, std::optional<Error> failure,
                             const std::function<void()>& undo) {
    const bool is_late = [&] {
        const std::scoped_lock lock{attempt.mutex};
        return std::exchange(attempt.is_settled, true);
    }();
    if (is_late) {
        undo();
        is_stuck_ = false;
    } else {
        attempt.ended.set_value(std::move(failure));
    }
}

void PluginSlot::give_up(Attempt& attempt, std::string_view what, bool begun) {
    {
        const std::scoped_lock lock{attempt.mutex};
        if (std::exchange(attempt.is_settled, true))
            return;
        is_stuck_ = begun; // within the lock, so that a late end comes after it and takes it back
    }
    attempt.ended.set_value(
        Error(ErrorKind::unavailable, "plugin_slow",
              fmt::format("The {} of {} did not end in time.", what, name_),
              "Restart the daemon to remove it, and report the fault to its author."));
}

void PluginSlot::open() {
    const std::scoped_lock lock{mutex_};
    open_ = true;
}

void PluginSlot::add_methods() {
    for (const auto& method : hosted_->manifest().methods) {
        MakeSheet sheet;
        if (method.has_sheet)
            sheet = [slot = shared_from_this(),
                     name = method.name](const Call& call, const json::object& params,
                                         const json::value& result, const Done& done) {
                slot->make_sheet(name, call, params, result, done);
            };
        context_.methods.add(
            method, name_,
            [slot = shared_from_this(), name = method.name,
             lane = lane_of(method)](Call call, json::object params, const Done& done) {
                slot->begin_call(name, lane, std::move(call), std::move(params), done);
            },
            std::move(sheet));
    }
}

void PluginSlot::retire() {
    if (!hosted_)
        throw Error(ErrorKind::conflict, "not_running",
                    fmt::format("The plugin {} is not running.", name_));
    context_.methods.remove_provider(name_);
    if (!drained()) {
        note(PluginState::failed, "Its calls did not end when it was retired.");
        throw Error(ErrorKind::unavailable, "plugin_slow",
                    fmt::format("Calls of {} are still running. It takes no new ones.", name_),
                    "Try again later, or restart the daemon.");
    }
    try {
        run_limited(
            "stop", [hosted = hosted_] { hosted->stop(); }, [] {});
    } catch (const Error& error) {
        note(PluginState::failed, error.what());
        throw;
    }
    hosted_.reset();
    note(PluginState::retired, "");
    log(plugin::LogLevel::info, "retired");
}

void PluginSlot::end() noexcept {
    if (hosted_)
        hosted_->stop();
    hosted_.reset();
}

bool PluginSlot::drained() {
    std::unique_lock lock{mutex_};
    open_ = false;
    events_.clear();
    return left_.wait_for(lock, context_.call_time_max, [this] { return inside_ == 0; });
}

bool PluginSlot::enter() {
    const std::scoped_lock lock{mutex_};
    if (!open_)
        return false;
    ++inside_;
    return true;
}

void PluginSlot::leave() {
    const std::scoped_lock lock{mutex_};
    --inside_;
    left_.notify_all();
}

void PluginSlot::begin_call(const std::string& method, Lane lane, Call call, json::object params,
                            const Done& done) {
    if (!enter()) {
        done(Error(ErrorKind::unavailable, "plugin_retired",
                   fmt::format("The plugin {} was retired.", name_)));
        return;
    }
    if (call.depth == 0) {
        executor::Task task = task_of(lane, call);
        submit(
            method, std::move(task), std::move(call),
            [slot = shared_from_this(), method, params = std::move(params)](const Call& asked) {
                return slot->hosted_->call(method, asked, params);
            },
            done);
        return;
    }
    // From a plugin: on the thread that it stands on.  Were it to wait for another thread, plugins
    // that call each other could take up all threads and wait for ever.
    Outcome outcome = hosted_->call(method, call, params);
    leave();
    done(std::move(outcome));
}

executor::Task PluginSlot::task_of(Lane lane, const Call& call) const {
    executor::Task task;
    task.lane = lane;
    task.time_max = context_.call_time_max;
    if (lane == Lane::log) { // one at a time, in the order in which they came, whoever sent them
        task.caller = std::hash<std::string>{}(name_) | 1;
        task.group = name_ + " log";
        task.group_max = 1;
    } else {
        task.caller = executor::turn_of(call);
        task.group = name_;
    }
    return task;
}

void PluginSlot::submit(const std::string& what, executor::Task task, Call call, Work work,
                        const Done& done) {
    const auto pending = std::make_shared<PendingCall>(what, std::move(call), done);
    task.cancelled = pending->call().cancelled;
    task.work = [slot = shared_from_this(), pending, work = std::move(work)] {
        if (!pending->answer(work(pending->call())))
            slot->log(plugin::LogLevel::warning,
                      pending->method() + ": the answer came too late and is dropped");
        slot->leave();
    };
    task.dropped = [slot = shared_from_this(), pending] {
        pending->drop();
        slot->leave();
    };
    task.late = [slot = shared_from_this(), pending, time_max = task.time_max](bool begun) {
        if (pending->give_up(begun, time_max))
            slot->log(plugin::LogLevel::warning,
                      pending->method() + (begun
                                               ? ": does not answer in time; its thread is replaced"
                                               : ": found no free thread in time"));
        if (!begun)
            slot->leave();
    };
    try {
        context_.executor.submit(std::move(task));
    } catch (const Error& error) {
        pending->answer(error);
        leave();
    } catch (const std::exception& error) { // no memory: whoever waits is answered all the same
        pending->answer(Error(ErrorKind::internal, "internal", error.what()));
        leave();
    }
}

void PluginSlot::make_sheet(const std::string& method, const Call& call, const json::object& params,
                            const json::value& result, const Done& done) {
    const Work work = [slot = shared_from_this(), method, params, result](const Call&) -> Outcome {
        if (auto sheet = slot->hosted_->sheet(method, params, result))
            return std::move(*sheet);
        return Error(ErrorKind::unavailable, "no_sheet",
                     fmt::format("The plugin {} made no sheet of this answer.", slot->name_));
    };
    if (!enter()) {
        done(Error(ErrorKind::unavailable, "plugin_retired",
                   fmt::format("The plugin {} was retired.", name_)));
        return;
    }
    if (call.depth > 0) { // as in begin_call
        Outcome outcome = work(call);
        leave();
        done(std::move(outcome));
        return;
    }
    executor::Task task = task_of(Lane::look, call);
    task.time_max = std::min(context_.call_time_max, sheet_time_max);
    submit(method + " (sheet)", std::move(task), call, work, done);
}

void PluginSlot::log(plugin::LogLevel level, std::string_view text) const {
    const auto of = [](plugin::LogLevel known) {
        switch (known) {
        case plugin::LogLevel::debug:
            return spdlog::level::debug;
        case plugin::LogLevel::warning:
            return spdlog::level::warn;
        case plugin::LogLevel::error:
            return spdlog::level::err;
        default:
            return spdlog::level::info;
        }
    };
    context_.log->log(of(level), "plugin {}: {}", name_, text);
}

} // namespace barmkeep::host
