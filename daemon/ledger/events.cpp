#include "daemon/ledger/events.hpp"

#include "daemon/ledger/methods.hpp"

namespace barmkeep::ledger {
namespace {

constexpr std::size_t about_bytes_max = 16 << 10;

contract::Event read_event(const Row& row) {
    contract::Event event;
    std::string about;
    take_row(row, event.sequence, event.at, event.topic, about);
    event.about = parse_json(about).as_object();
    return event;
}

contract::EventPost::Result post(Transaction& transaction, const Call& call,
                                 const contract::EventPost::Params& params) {
    const std::string& plugin = call.caller.plugin;
    if (plugin.empty())
        throw Error(ErrorKind::refused, "not_a_plugin", "Only a plugin may post events.",
                    "Every change in the ledger posts its own event.");
    if (!params.topic.starts_with(plugin + ".") || params.topic.size() == plugin.size() + 1)
        throw Error(ErrorKind::params, "bad_topic",
                    "A topic of plugin " + plugin + " begins with '" + plugin + ".'.",
                    "Choose a topic such as " + plugin + ".changed.", "/topic");
    if (write_json(params.about).size() > about_bytes_max)
        throw Error(ErrorKind::params, "too_large",
                    "An event's text is at most " + std::to_string(about_bytes_max) + " bytes.",
                    "Put the document into a record and post its name.", "/about");
    return {transaction.event(params.topic, params.about)};
}

} // namespace

std::int64_t last_event(const View& view) {
    return view.number("SELECT coalesce(max(sequence), 0) FROM event");
}

void require_events_after(const View& view, std::int64_t after) {
    const std::int64_t last = last_event(view);
    if (after > last)
        throw Error(
            ErrorKind::conflict, "events_ahead",
            "Event " + std::to_string(after) + " has not happened here; the last is " +
                std::to_string(last) + ".",
            "The ledger may have been restored from a backup. Call event.watch without `after`.",
            "/after");
    const std::int64_t first = view.number("SELECT coalesce(min(sequence), 1) FROM event");
    if (after + 1 < first)
        throw Error(
            ErrorKind::conflict, "events_gone",
            "Events up to " + std::to_string(first - 1) + " are no longer kept.",
            "Call event.watch without `after`: the answer contains the state of the cellar.",
            "/after");
}

std::vector<contract::Event> events_after(const View& view, std::int64_t after,
                                          std::int64_t count_max) {
    return view.all("SELECT sequence, at, topic, about FROM event WHERE sequence > ? "
                    "ORDER BY sequence LIMIT ?",
                    read_event, after, count_max);
}

void add_event_post(Methods& methods) {
    methods.writes<contract::EventPost>(&post);
}

} // namespace barmkeep::ledger
