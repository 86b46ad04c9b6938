#include "daemon/ledger/view.hpp"

#include "sdk/method/zone.hpp"

namespace barmkeep::ledger {

Date View::day_of(Instant instant) const {
    const auto zone = first("SELECT time_zone FROM cellar", take_one<std::string>);
    return local_day(instant, zone.value());
}

std::int64_t Transaction::event(std::string_view topic, json::object about) {
    run("INSERT INTO event (at, topic, about) VALUES (?, ?, ?)", now(), topic, write_json(about));
    const std::int64_t sequence = last_number();
    run("DELETE FROM event WHERE sequence <= ?", sequence - events_kept_);
    events_.push_back({sequence, now(), std::string(topic), std::move(about)});
    return sequence;
}

} // namespace barmkeep::ledger
