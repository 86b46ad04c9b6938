// A daemon for the client's tests: a real Unix socket over a MethodTable, and a script of
// misfortunes (connections dropped, invalid text sent, silence) that a real one has only by
// accident.
#pragma once

#include "sdk/client/wire.hpp"
#include "sdk/contract/event.hpp"
#include "sdk/method/call.hpp"

#include <atomic>
#include <condition_variable>
#include <filesystem>
#include <thread>

namespace barmkeep::test {

/// The discover document of a table, in the form that the protocol gives it.
[[nodiscard]] json::object discover_document(const MethodTable& table);

/// What to do with a request.
enum class Fate {
    answer,
    drop_before, ///< close the connection, and do nothing
    drop_after,  ///< do it, and close the connection without an answer
    invalid,     ///< answer what is no JSON-RPC
    silence,     ///< never answer
    close_with_reason,
};

/// Thread safety: all members may be called while it serves.
class FakeDaemon {
public:
    FakeDaemon();
    ~FakeDaemon();
    FakeDaemon(const FakeDaemon&) = delete;
    FakeDaemon& operator=(const FakeDaemon&) = delete;

    [[nodiscard]] std::string socket() const { return (folder_ / "sock").string(); }
    [[nodiscard]] std::filesystem::path folder() const { return folder_; }
    [[nodiscard]] MethodTable& table() { return table_; }

    /// The fates of the coming requests for a method, in order; later ones are answered.
    void plan(const std::string& method, std::vector<Fate> fates);
    /// Every request so far, as it came.
    [[nodiscard]] std::vector<json::object> requests() const;
    [[nodiscard]] std::vector<json::object> requests(std::string_view method) const;
    /// Waits until so many requests for the method have come.
    void wait_for_requests(std::string_view method, std::size_t count) const;

    /// Takes the socket away and closes all connections, as a daemon that is being restarted.
    void stop();
    void start();

    /// Adds an event and sends it to all watchers.
    void post_event(const std::string& topic, json::object about = {});
    /// Sends watchers an event with a number that skips others.
    void post_event_with_gap();
    /// Closes the connections of all watchers.
    void drop_watchers();

private:
    class Peer;
    void accept_peers();
    void serve(const std::shared_ptr<Peer>& peer);
    void handle(const std::shared_ptr<Peer>& peer, const json::object& request);
    void answer_watch(const std::shared_ptr<Peer>& peer, const json::object& request);
    void call(const std::shared_ptr<Peer>& peer, const json::object& request, bool is_answered);
    [[nodiscard]] Fate next_fate(const std::string& method);

    std::filesystem::path folder_;
    MethodTable table_;
    mutable std::mutex mutex_;
    mutable std::condition_variable changed_;
    std::map<std::string, std::vector<Fate>> fates_;
    std::vector<json::object> requests_;
    std::vector<json::object> events_;
    std::vector<std::shared_ptr<Peer>> peers_;
    std::vector<std::shared_ptr<Peer>> watchers_;
    std::map<std::pair<const Peer*, std::int64_t>, std::stop_source> under_way_;
    int listener_ = -1;
    std::atomic<bool> stopping_{false};
    std::thread accepting_;
    std::vector<std::thread> serving_;
};

} // namespace barmkeep::test
