#include "daemon/host/seat.hpp"

#include "daemon/host/flight.hpp"
#include "daemon/host/overdue.hpp"

#include <fmt/format.h>
#include <future>

namespace barmkeep::host {

using contract::PluginState;

namespace {

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

Seat::Seat(std::string name, std::filesystem::path file, Surroundings& surroundings)
    : name_{std::move(name)}, file_{std::move(file)}, surroundings_{surroundings} {}

contract::PluginInfo Seat::info() const {
    const std::scoped_lock lock{mutex_};
    contract::PluginInfo info{name_, "", state_, file_.string(), {}, fault_};
    if (manifest_)
        info.version = manifest_->version;
    if (manifest_ && state_ == PluginState::running)
        for (const auto& method : manifest_->methods)
            info.methods.push_back(method.name);
    return info;
}

void Seat::note(PluginState state, std::string_view fault) {
    const std::scoped_lock lock{mutex_};
    state_ = state;
    if (fault.empty())
        fault_.reset();
    else
        fault_ = fault;
}

void Seat::start(const Load& load, const json::object& settings) {
    if (hosted_)
        throw Error(ErrorKind::conflict, "plugin_in_use",
                    fmt::format("The plugin {} is still in use.", name_),
                    "Retire it first; if that does not end, restart the daemon.");
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

std::shared_ptr<plugin::Hosted> Seat::loaded(const Load& load) {
    const plugin::Hosted::Services services{surroundings_.methods, surroundings_.clock,
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

void Seat::take_manifest() {
    const plugin::Manifest& manifest = hosted_->manifest();
    if (manifest.name != name_)
        throw Error(ErrorKind::unavailable, "name_differs",
                    fmt::format("The plugin calls itself {}, but its file is {}.", manifest.name,
                                file_.string()),
                    fmt::format("Name the file {}.so.", manifest.name));
    const std::scoped_lock lock{mutex_};
    manifest_ = manifest;
}

/// Settled once: by its end or by the end of our patience.
struct Seat::Attempt {
    std::promise<std::optional<Error>> ended; ///< with why it failed, if it did
    std::mutex mutex;                         ///< guards what follows
    bool is_settled = false;
};

void Seat::run_limited(std::string_view what, const std::function<void()>& work,
                       const std::function<void()>& undo) {
    if (is_stuck_)
        throw Error(ErrorKind::unavailable, "plugin_stuck",
                    fmt::format("The plugin {} is stuck in its load, start or stop.", name_),
                    "Restart the daemon to be rid of it; tell its author.");
    const auto attempt = std::make_shared<Attempt>();
    const auto run = [seat = shared_from_this(), attempt, work, undo](bool overdue) {
        seat->end_attempt(*attempt, overdue ? std::nullopt : failure_of(work), undo);
    };
    const auto on_overdue = [seat = shared_from_this(), attempt, text = std::string(what)](bool) {
        seat->give_up(*attempt, text);
    };
    auto ended = attempt->ended.get_future();
    if (!Overdue::post(surroundings_, run, on_overdue))
        throw Error(ErrorKind::unavailable, "stopping", "The daemon is stopping.");
    if (const auto failure = ended.get())
        throw Error(*failure);
}

void Seat::end_attempt(Attempt& attempt, std::optional<Error> failure,
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

void Seat::give_up(Attempt& attempt, std::string_view what) {
    {
        const std::scoped_lock lock{attempt.mutex};
        if (std::exchange(attempt.is_settled, true))
            return;
        is_stuck_ = true; // within the lock, so that a late end comes after it and takes it back
    }
    attempt.ended.set_value(Error(ErrorKind::unavailable, "plugin_slow",
                                  fmt::format("The {} of {} did not end in time.", what, name_),
                                  "Restart the daemon to be rid of it; tell its author."));
}

void Seat::open() {
    const std::scoped_lock lock{mutex_};
    open_ = true;
}

void Seat::add_methods() {
    for (const auto& method : hosted_->manifest().methods)
        surroundings_.methods.add(method, name_,
                                  [seat = shared_from_this(), name = method.name](
                                      Call call, json::object params, const Done& done) {
                                      seat->begin_call(name, std::move(call), std::move(params),
                                                       done);
                                  });
}

void Seat::retire() {
    if (!hosted_)
        throw Error(ErrorKind::conflict, "not_running",
                    fmt::format("The plugin {} is not running.", name_));
    surroundings_.methods.remove_provider(name_);
    if (!drained()) {
        note(PluginState::failed, "It was to be retired, but calls of it do not end.");
        throw Error(ErrorKind::unavailable, "plugin_slow",
                    fmt::format("Calls of {} are still under way; it takes no more.", name_),
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

void Seat::end() noexcept {
    if (hosted_)
        hosted_->stop();
    hosted_.reset();
}

bool Seat::drained() {
    std::unique_lock lock{mutex_};
    open_ = false;
    events_.clear();
    return left_.wait_for(lock, surroundings_.call_time_max, [this] { return inside_ == 0; });
}

bool Seat::enter() {
    const std::scoped_lock lock{mutex_};
    if (!open_)
        return false;
    ++inside_;
    return true;
}

void Seat::leave() {
    const std::scoped_lock lock{mutex_};
    --inside_;
    left_.notify_all();
}

void Seat::begin_call(const std::string& method, Call call, json::object params, const Done& done) {
    if (!enter()) {
        done(Error(ErrorKind::unavailable, "plugin_retired",
                   fmt::format("The plugin {} was retired.", name_)));
        return;
    }
    if (call.depth == 0) {
        run_on_worker(method, std::move(call), std::move(params), done);
        return;
    }
    // From a plugin: on the thread that it stands on.  Were it to wait for another worker, plugins
    // that call each other could take up all workers and wait for ever.
    Outcome outcome = hosted_->call(method, call, params);
    leave();
    done(std::move(outcome));
}

void Seat::run_on_worker(const std::string& method, Call call, json::object params,
                         const Done& done) {
    const auto flight = std::make_shared<Flight>(method, std::move(call), done);
    const auto run = [seat = shared_from_this(), flight, params = std::move(params)](bool overdue) {
        if (!overdue) {
            Outcome outcome = seat->hosted_->call(flight->method(), flight->call(), params);
            if (!flight->land(std::move(outcome)))
                seat->log(plugin::LogLevel::warning,
                          flight->method() + ": the answer came too late and is dropped");
        }
        seat->leave();
    };
    const auto give_up = [seat = shared_from_this(), flight](bool begun) {
        flight->give_up(begun, seat->surroundings_.call_time_max);
        seat->log(plugin::LogLevel::warning,
                  flight->method() + (begun ? ": does not answer in time; its thread is replaced"
                                            : ": found no free thread in time"));
    };
    if (!Overdue::post(surroundings_, run, give_up)) {
        flight->land(Error(ErrorKind::unavailable, "stopping", "The daemon is stopping."));
        leave();
    }
}

void Seat::log(plugin::LogLevel level, std::string_view text) const {
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
    surroundings_.log->log(of(level), "plugin {}: {}", name_, text);
}

} // namespace barmkeep::host
