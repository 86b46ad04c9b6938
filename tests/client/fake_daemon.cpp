#include "tests/client/fake_daemon.hpp"

#include <cstring>
#include <poll.h>
#include <stdexcept>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

namespace barmkeep::test {

json::object discover_document(const MethodTable& table) {
    json::array methods;
    for (const auto& row : table.rows()) {
        const Description& method = row->description;
        json::array params;
        const auto* required = method.params.if_contains("required");
        for (const auto& property : method.params.at("properties").as_object()) {
            bool is_required = false;
            if (required != nullptr)
                for (const auto& name : required->as_array())
                    is_required = is_required || name == json::value(property.key());
            params.push_back(json::object{
                {"name", property.key()}, {"required", is_required}, {"schema", property.value()}});
        }
        methods.push_back(
            json::object{{"name", method.name},
                         {"summary", method.doc},
                         {"params", std::move(params)},
                         {"result", json::object{{"name", "result"}, {"schema", method.result}}},
                         {"x-access", to_string(method.access)},
                         {"x-effect", to_string(method.effect)},
                         {"x-long", method.is_long},
                         {"x-provider", row->provider}});
    }
    return {{"openrpc", "1.3.2"},
            {"info", json::object{{"title", "Barmkeep"}, {"version", "1"}}},
            {"methods", std::move(methods)}};
}

/// One connection.
class FakeDaemon::Peer : public Listener {
public:
    explicit Peer(int descriptor) : descriptor_{descriptor} {}
    ~Peer() override { ::close(descriptor_); }

    bool notify(std::string_view method, json::object params) override {
        return send(write_json(
            json::object{{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}}));
    }
    bool send(std::string line) {
        const std::lock_guard lock{mutex_};
        line += '\n';
        return ::send(descriptor_, line.data(), line.size(), MSG_NOSIGNAL) ==
               static_cast<ssize_t>(line.size());
    }
    void drop() { ::shutdown(descriptor_, SHUT_RDWR); }
    [[nodiscard]] int descriptor() const { return descriptor_; }

private:
    int descriptor_;
    std::mutex mutex_;
};

FakeDaemon::FakeDaemon() {
    std::string pattern = (std::filesystem::temp_directory_path() / "barm-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr)
        throw std::runtime_error("mkdtemp failed");
    folder_ = pattern;
    start();
}

FakeDaemon::~FakeDaemon() {
    stop();
    std::filesystem::remove_all(folder_);
}

void FakeDaemon::start() {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    std::strncpy(address.sun_path, socket().c_str(), sizeof address.sun_path - 1);
    listener_ = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (::bind(listener_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0 ||
        ::listen(listener_, 16) != 0)
        throw std::runtime_error("the fake daemon cannot listen");
    stopping_ = false;
    accepting_ = std::thread([this] { accept_peers(); });
}

void FakeDaemon::stop() {
    if (stopping_.exchange(true))
        return;
    ::shutdown(listener_, SHUT_RDWR);
    accepting_.join();
    ::close(listener_);
    std::filesystem::remove(socket());
    std::vector<std::thread> serving;
    {
        const std::lock_guard lock{mutex_};
        for (const auto& peer : peers_)
            peer->drop();
        for (auto& [request, source] : under_way_)
            source.request_stop();
        serving.swap(serving_);
    }
    for (auto& thread : serving)
        thread.join();
    const std::lock_guard lock{mutex_};
    peers_.clear();
    watchers_.clear();
    under_way_.clear();
}

void FakeDaemon::accept_peers() {
    for (;;) {
        const int descriptor = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
        if (descriptor < 0)
            return;
        auto peer = std::make_shared<Peer>(descriptor);
        const std::lock_guard lock{mutex_};
        peers_.push_back(peer);
        serving_.emplace_back([this, peer] { serve(peer); });
    }
}

namespace {

/// The request that is meant: of one for a sheet, that of the method whose answer it shows.
json::object meant(const json::object& request) {
    if (request.at("method") != "sheet.show")
        return request;
    json::object inner = request;
    inner["method"] = request.at("params").at("method");
    inner["params"] = request.at("params").at("params");
    return inner;
}

} // namespace

void FakeDaemon::serve(const std::shared_ptr<Peer>& peer) {
    client::LineBuffer lines;
    std::vector<std::thread> calls; // so that call.cancel is heard while a call runs
    char chunk[4096];
    for (;;) {
        while (const auto line = lines.next()) {
            const json::object request = parse_json(*line).as_object();
            calls.emplace_back([this, peer, request] { handle(peer, request); });
            // One after the other, but for long ones and cancels.
            if (meant(request).at("method") != "demo.slow")
                calls.back().join(), calls.pop_back();
        }
        const auto got = ::recv(peer->descriptor(), chunk, sizeof chunk, 0);
        if (got <= 0)
            break;
        lines.append({chunk, static_cast<std::size_t>(got)});
    }
    for (auto& call : calls)
        call.join();
}

Fate FakeDaemon::next_fate(const std::string& method) {
    const std::lock_guard lock{mutex_};
    auto& planned = fates_[method];
    if (planned.empty())
        return Fate::answer;
    const Fate fate = planned.front();
    planned.erase(planned.begin());
    return fate;
}

void FakeDaemon::handle(const std::shared_ptr<Peer>& peer, const json::object& request) {
    const json::object inner = meant(request);
    const std::string method(inner.at("method").as_string());
    {
        const std::lock_guard lock{mutex_};
        // Before anybody can know of the request, it can be cancelled.
        under_way_.insert_or_assign({peer.get(), request.at("id").as_int64()}, std::stop_source{});
        requests_.push_back(inner);
        changed_.notify_all();
    }
    switch (next_fate(method)) {
    case Fate::drop_before:
        return peer->drop();
    case Fate::invalid:
        peer->send("HTTP/1.1 400 Bad Request");
        return;
    case Fate::silence:
        return;
    case Fate::close_with_reason:
        peer->notify("connection.closing",
                     {{"reason", "too_many"}, {"message", "Too many connections."}});
        return peer->drop();
    case Fate::drop_after:
        call(peer, request, false);
        return peer->drop();
    case Fate::answer:
        break;
    }
    call(peer, request, true);
}

void FakeDaemon::call(const std::shared_ptr<Peer>& peer, const json::object& request,
                      bool is_answered) {
    const std::string method(request.at("method").as_string());
    const json::value id = request.at("id");
    const auto reply = [&](std::string_view member, json::value value) {
        if (is_answered)
            peer->send(write_json(
                json::object{{"jsonrpc", "2.0"}, {"id", id}, {member, std::move(value)}}));
    };
    if (method == "rpc.discover")
        return reply("result", discover_document(table_));
    if (method == "event.watch")
        return answer_watch(peer, request);
    if (method == "call.cancel") {
        const std::lock_guard lock{mutex_};
        const auto found = under_way_.find({peer.get(), request.at("params").at("id").as_int64()});
        if (found != under_way_.end())
            found->second.request_stop();
        return reply("result", json::object{});
    }
    Call call;
    call.caller = {"anna", Access::manage, ""};
    call.listener = peer;
    if (const auto* token = request.if_contains("progress"))
        call.progress_token = *token;
    {
        const std::lock_guard lock{mutex_};
        call.cancelled = under_way_.at({peer.get(), id.as_int64()}).get_token();
    }
    const Outcome outcome = table_.call(method, std::move(call), request.if_contains("params"));
    if (const auto* error = std::get_if<Error>(&outcome))
        return reply("error", error->to_json());
    reply("result", std::get<json::value>(outcome));
}

void FakeDaemon::answer_watch(const std::shared_ptr<Peer>& peer, const json::object& request) {
    const std::lock_guard lock{mutex_};
    const auto* params = request.if_contains("params");
    const auto* after = params != nullptr ? params->as_object().if_contains("after") : nullptr;
    contract::EventWatch::Result result;
    result.sequence = static_cast<std::int64_t>(events_.size());
    if (after == nullptr) {
        result.state.emplace();
        result.state->today = parse_date("2026-03-14");
    }
    peer->send(write_json(
        json::object{{"jsonrpc", "2.0"}, {"id", request.at("id")}, {"result", to_json(result)}}));
    if (after != nullptr)
        for (auto i = static_cast<std::size_t>(after->as_int64()); i < events_.size(); ++i)
            peer->notify(contract::event_notification, events_[i]);
    watchers_.push_back(peer);
}

void FakeDaemon::plan(const std::string& method, std::vector<Fate> fates) {
    const std::lock_guard lock{mutex_};
    fates_[method] = std::move(fates);
}

std::vector<json::object> FakeDaemon::requests() const {
    const std::lock_guard lock{mutex_};
    return requests_;
}

std::vector<json::object> FakeDaemon::requests(std::string_view method) const {
    std::vector<json::object> all;
    for (auto& request : requests())
        if (request.at("method") == json::value(method))
            all.push_back(std::move(request));
    return all;
}

void FakeDaemon::wait_for_requests(std::string_view method, std::size_t count) const {
    std::unique_lock lock{mutex_};
    changed_.wait(lock, [&] {
        std::size_t seen = 0;
        for (const auto& request : requests_)
            seen += request.at("method") == json::value(method) ? 1 : 0;
        return seen >= count;
    });
}

void FakeDaemon::post_event(const std::string& topic, json::object about) {
    const std::lock_guard lock{mutex_};
    contract::Event event;
    event.sequence = static_cast<std::int64_t>(events_.size()) + 1;
    event.at = parse_instant("2026-03-14T08:30:00Z");
    event.topic = topic;
    event.about = std::move(about);
    events_.push_back(to_json(event).as_object());
    for (const auto& watcher : watchers_)
        watcher->notify(contract::event_notification, events_.back());
}

void FakeDaemon::post_event_with_gap() {
    {
        const std::lock_guard lock{mutex_};
        events_.emplace_back();
    }
    post_event("entry.posted");
}

void FakeDaemon::drop_watchers() {
    const std::lock_guard lock{mutex_};
    for (const auto& watcher : watchers_)
        watcher->drop();
    watchers_.clear();
}

} // namespace barmkeep::test
