#include "daemon/socket/server.hpp"

#include "daemon/socket/connection.hpp"
#include "daemon/socket/peer.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <mutex>

namespace barmkeep::socket {
namespace {

using Acceptor = asio::local::stream_protocol::acceptor;

Error too_many(std::string_view whose, std::size_t most) {
    return {
        ErrorKind::busy, "too_many_connections",
        fmt::format("There are already {} connections{}. The daemon takes no more.", most, whose),
        "Close one, or raise the limit in the settings (section [limits])."};
}

} // namespace

/// Shared with the coroutine and with every connection's farewell, which may come later than the
/// server's end.
struct Server::State : std::enable_shared_from_this<State> {
    struct Entry {
        std::shared_ptr<Connection> connection;
        protocol::Peer peer;
        bool is_served = false; ///< else it only gets the reason why not
    };

    State(Loop& loop, std::shared_ptr<const protocol::Service> shared_service, Bound place,
          ServerOptions chosen)
        : context{loop.context()}, strand{asio::make_strand(context)}, acceptor{strand},
          pause{strand}, service{std::move(shared_service)}, options{std::move(chosen)},
          bound{std::move(place)}, access{options.access} {
        acceptor.assign(asio::local::stream_protocol{}, bound.release());
    }

    static asio::awaitable<void> accept(std::shared_ptr<State> self);
    void admit(Stream stream);
    [[nodiscard]] Caller check(const protocol::Peer& peer) const;
    void count(const protocol::Peer& peer, const std::string& name) const;
    [[nodiscard]] bool enter(const std::shared_ptr<Connection>& connection,
                             const protocol::Peer& peer, bool is_served);
    void set_access(protocol::AccessRules rules);
    void remove_name();
    void leave(const Connection* connection);
    void drain(std::function<void()> when_done);
    [[nodiscard]] std::vector<std::shared_ptr<Connection>> all() const;
    void warn(std::string_view text) const {
        if (options.warn)
            options.warn(text);
    }

    asio::io_context& context;
    Strand strand;
    Acceptor acceptor;
    asio::steady_timer pause;
    const std::shared_ptr<const protocol::Service> service;
    const ServerOptions options;

    mutable std::mutex mutex; ///< guards what follows
    Bound bound;
    protocol::AccessRules access;
    std::map<const Connection*, Entry> entries;
    bool draining = false;
    std::function<void()> drained;
};

asio::awaitable<void> Server::State::accept(std::shared_ptr<State> self) {
    while (self->acceptor.is_open()) {
        error_code error;
        Stream stream = co_await self->acceptor.async_accept(
            asio::any_io_executor(asio::make_strand(self->context)),
            asio::redirect_error(asio::use_awaitable, error));
        if (!error) {
            self->admit(std::move(stream));
            continue;
        }
        if (error == asio::error::operation_aborted)
            continue;
        // Out of descriptors or memory: the client waits in the queue until there are some again.
        self->warn(fmt::format("Cannot accept a connection: {}.", error.message()));
        self->pause.expires_after(std::chrono::milliseconds{100});
        co_await self->pause.async_wait(asio::redirect_error(asio::use_awaitable, error));
    }
}

void Server::State::admit(Stream stream) {
    const int number = stream.native_handle();
    // Weak: a connection must not keep its server, which keeps the connection.
    const auto self = weak_from_this();
    const auto connection = std::make_shared<Connection>(
        std::move(stream), Timeouts{options.partial_line, options.write, options.farewell},
        [self](const Connection& ended) {
            if (const auto state = self.lock())
                state->leave(&ended);
        },
        [self](std::string_view text) {
            if (const auto state = self.lock())
                state->warn(text);
        });
    protocol::Peer peer;
    try {
        peer = peer_of(number);
        Caller caller = check(peer);
        if (enter(connection, peer, true))
            connection->start(service, std::move(caller));
    } catch (const Error& reason) {
        warn(fmt::format("Refused a connection of uid {}, pid {}: {}", peer.uid, peer.pid,
                         reason.what()));
        if (!enter(connection, peer, false))
            return; // a flood: not even the reason is said
        connection->refuse(service, reason);
        if (reason.reason() == protocol::stopping_reason)
            connection->drain(); // those that were there before drain already
    }
}

/// Throws Error(refused), Error(busy) or Error(unavailable) for a peer that is not served.
Caller Server::State::check(const protocol::Peer& peer) const {
    protocol::AccessRules rules;
    {
        const std::lock_guard lock{mutex};
        rules = access;
    }
    // Asks for the login name, which may take a network's time: not under the lock.
    Caller caller = protocol::caller_of(peer, rules, options.name_of);
    count(peer, caller.name);
    return caller;
}

void Server::State::count(const protocol::Peer& peer, const std::string& name) const {
    const std::lock_guard lock{mutex};
    if (draining) // it was taken from the queue in the moment the queue was closed
        throw protocol::stopping();
    const auto served = [&](auto which) {
        return static_cast<std::size_t>(
            std::count_if(entries.begin(), entries.end(), [&](const auto& entry) {
                return entry.second.is_served && which(entry.second);
            }));
    };
    if (served([](const Entry&) { return true; }) >= options.connections_max)
        throw too_many("", options.connections_max);
    if (served([&](const Entry& entry) { return entry.peer.uid == peer.uid; }) >=
        options.connections_per_user)
        throw too_many(" of " + name, options.connections_per_user);
}

/// Enters a connection; false if too many are being turned away already.
bool Server::State::enter(const std::shared_ptr<Connection>& connection, const protocol::Peer& peer,
                          bool is_served) {
    const std::lock_guard lock{mutex};
    if (!is_served && entries.size() >= 2 * options.connections_max)
        return false;
    entries.emplace(connection.get(), Entry{connection, peer, is_served});
    return true;
}

void Server::State::set_access(protocol::AccessRules rules) {
    const std::lock_guard lock{mutex};
    access = std::move(rules);
    for (const auto& [key, entry] : entries)
        if (entry.is_served)
            entry.connection->set_access(protocol::access_of(entry.peer, access));
}

void Server::State::remove_name() {
    const std::lock_guard lock{mutex};
    bound.remove_name();
}

void Server::State::leave(const Connection* connection) {
    std::shared_ptr<Connection> last; // dies after the lock is free
    std::function<void()> done;
    {
        const std::lock_guard lock{mutex};
        const auto found = entries.find(connection);
        if (found == entries.end())
            return;
        last = std::move(found->second.connection);
        entries.erase(found);
        if (draining && entries.empty())
            done = std::exchange(drained, nullptr);
    }
    if (done)
        done();
}

void Server::State::drain(std::function<void()> when_done) {
    error_code ignored;
    acceptor.close(ignored);
    pause.cancel();
    remove_name();
    std::function<void()> at_once; // where there is nobody to wait for
    {
        const std::lock_guard lock{mutex};
        draining = true;
        (entries.empty() ? at_once : drained) = std::move(when_done);
    }
    if (at_once)
        return at_once();
    for (const auto& connection : all())
        connection->drain();
}

std::vector<std::shared_ptr<Connection>> Server::State::all() const {
    const std::lock_guard lock{mutex};
    std::vector<std::shared_ptr<Connection>> found;
    for (const auto& [key, entry] : entries)
        found.push_back(entry.connection);
    return found;
}

Server::Server(Loop& loop, std::shared_ptr<const protocol::Service> service, Bound bound,
               ServerOptions options)
    : state_{std::make_shared<State>(loop, std::move(service), std::move(bound),
                                     std::move(options))} {}

Server::~Server() {
    state_->remove_name(); // what is still posted may keep the state
    asio::post(state_->strand, [state = state_] {
        error_code ignored;
        state->acceptor.close(ignored);
    });
}

void Server::start() {
    asio::co_spawn(
        state_->strand, State::accept(state_), [state = state_](std::exception_ptr failure) {
            if (failure)
                state->warn(
                    "The socket accepts no more connections because of a fault of the daemon.");
        });
}

std::size_t Server::connections() const {
    const std::lock_guard lock{state_->mutex};
    return static_cast<std::size_t>(
        std::count_if(state_->entries.begin(), state_->entries.end(),
                      [](const auto& entry) { return entry.second.is_served; }));
}

void Server::set_access(protocol::AccessRules access) {
    state_->set_access(std::move(access));
}

void Server::remove_name() {
    state_->remove_name();
}

void Server::drain(std::function<void()> done) {
    asio::post(state_->strand, [state = state_, done = std::move(done)]() mutable {
        state->drain(std::move(done));
    });
}

void Server::close_all() {
    for (const auto& connection : state_->all())
        connection->close_now();
}

} // namespace barmkeep::socket
