// The events of one plugin: queued, and handed over one at a time.
#include "daemon/host/plugin_slot.hpp"

namespace barmkeep::host {
namespace {

constexpr std::string_view event_missed = "event.missed";

} // namespace

void PluginSlot::deliver(const contract::Event& event) {
    if (!enter()) // what is read below stays while we are in
        return;
    bool begin = false;
    if (hosted_->wants(event.topic)) {
        const std::scoped_lock lock{mutex_};
        if (events_.size() < events_waiting_max)
            events_.push_back(event);
        else
            stand_for_missed(event);
        begin = !std::exchange(is_delivering_, true);
    }
    leave();
    if (begin)
        post_event();
}

void PluginSlot::stand_for_missed(const contract::Event& event) {
    // One event in the last place stands for all that are lost, with the latest number.
    events_missed_ += events_.back().topic == event_missed ? 1 : 2;
    events_.back() = {
        event.sequence, event.at, std::string(event_missed), {{"count", events_missed_}}};
}

void PluginSlot::post_event() {
    executor::Task task;
    task.lane = Lane::write; // it is news of what was written, and often makes a plugin write
    task.group = name_;
    task.work = [slot = shared_from_this()] {
        slot->take_event();
    };
    task.time_max = context_.call_time_max;
    task.late = [slot = shared_from_this()](bool begun) {
        if (begun)
            slot->log(plugin::LogLevel::warning,
                      "does not end with an event in time; its thread is replaced");
        else
            slot->post_event(); // it still waits, behind what others have waiting
    };
    try {
        context_.executor.submit(std::move(task));
    } catch (const Error&) { // the daemon is stopping
        const std::scoped_lock lock{mutex_};
        is_delivering_ = false;
    }
}

void PluginSlot::take_event() {
    if (const auto event = next_event()) {
        hosted_->event(*event);
        leave();
        post_event(); // behind what others have waiting
    }
}

std::optional<contract::Event> PluginSlot::next_event() {
    const std::scoped_lock lock{mutex_};
    if (!open_ || events_.empty()) {
        is_delivering_ = false;
        return std::nullopt;
    }
    contract::Event event = std::move(events_.front());
    events_.pop_front();
    if (event.topic == event_missed)
        events_missed_ = 0;
    ++inside_;
    return event;
}

} // namespace barmkeep::host
