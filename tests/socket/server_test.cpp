#include "daemon/socket/server.hpp"
#include "tests/protocol/spec_cases.hpp"
#include "tests/socket/cellar_socket.hpp"

#include <gtest/gtest.h>
#include <sys/syscall.h>

namespace barmkeep::tests {
namespace {

TEST(Server, AnswersEveryExchangeOfTheSpecification) {
    CellarSocket cellar;
    for (const auto& one : spec_cases(BARMKEEP_PROTOCOL_DATA)) {
        PlainClient client{cellar.path()};
        // A request of ours behind it shows when nothing was said to theirs.
        client.send(one.request + '\n' + request(77, "example.get_data") + '\n');
        std::string said = client.line().value_or("");
        if (parse_json(said).is_object() && parse_json(said).at("id") == 77)
            said.clear();
        EXPECT_TRUE(fits(said, one)) << one.id << ' ' << one.title << "\nsaid " << said;
    }
}

TEST(Server, TellsTheMethodWhoCalls) {
    CellarSocket cellar;
    PlainClient client{cellar.path()};
    client.send(request(1, "example.hold") + '\n');
    const auto one = cellar.held.take();
    EXPECT_EQ(one.call.caller.name, "anna");
    EXPECT_EQ(one.call.caller.access, Access::manage);
    one.done(json::value(1));
    EXPECT_EQ(client.reply().at("result"), 1);
}

/// Connects as another user, if we may: the kernel keeps who connected, so only this thread's
/// connect() needs to be the other's (the bare system call changes one thread only).
std::unique_ptr<PlainClient> connected_as(uid_t uid, const std::filesystem::path& path) {
    const auto change_to = [](uid_t effective) {
        return ::syscall(SYS_setresuid, uid_t(-1), effective, uid_t(-1)) == 0;
    };
    const uid_t before = ::geteuid();
    if (uid != before && !change_to(uid))
        throw std::runtime_error("cannot become another user");
    auto client = std::make_unique<PlainClient>(path);
    if (uid != before && !change_to(before))
        throw std::runtime_error("cannot become root again");
    return client;
}

TEST(Server, GoesByTheRightsOfThePeerAndTheirChange) {
    const uid_t other = ::geteuid() == 0 ? 12345 : ::geteuid();
    auto options = CellarSocket::own();
    options.access.owner = other + 1;
    options.access.look.users = {other};
    const Folder folder;
    const auto path = folder.path / "socket";
    ASSERT_EQ(::chmod(folder.path.c_str(), 0755), 0);
    CellarSocket cellar{{}, options, [&] {
                            return socket::Bound::at({path, 0666, std::nullopt});
                        }};
    const auto client = connected_as(other, path);
    client->send(request(1, "example.hold") + '\n');
    const auto one = cellar.held.take();
    EXPECT_EQ(one.call.caller.access, Access::look);
    options.access.look.users.clear();
    cellar.server->set_access(options.access);
    EXPECT_EQ(reason_of(client->reply()), "not_admitted") << "who is there already, too";
    EXPECT_EQ(client->line(), std::nullopt);
    const auto refused = connected_as(other, path);
    const auto said = refused->reply();
    EXPECT_EQ(reason_of(said), "not_admitted");
    EXPECT_NE(said.at("params").at("message").as_string().find(std::to_string(other)),
              json::string::npos);
    EXPECT_EQ(refused->line(), std::nullopt);
    options.access.keep.groups = {::getegid()};
    cellar.server->set_access(options.access);
    const auto by_group = connected_as(other, path);
    by_group->send(request(1, "example.hold") + '\n');
    EXPECT_EQ(cellar.held.take().call.caller.access, Access::keep);
}

TEST(Server, CountsConnectionsAndRefusesOneTooMany) {
    auto options = CellarSocket::own();
    options.connections_max = 2;
    CellarSocket cellar{{}, options};
    PlainClient first{cellar.path()};
    std::optional<PlainClient> second{std::in_place, cellar.path()};
    (void)first.ask(request(1, "example.get_data"));
    (void)second->ask(request(1, "example.get_data"));
    EXPECT_EQ(cellar.server->connections(), 2U);
    {
        PlainClient third{cellar.path()};
        third.send(request(1, "example.get_data") + '\n'); // must not keep the reason away
        EXPECT_EQ(reason_of(third.reply()), "too_many_connections");
        EXPECT_EQ(third.line(), std::nullopt);
    }
    second.reset();
    while (cellar.server->connections() == 2)
        std::this_thread::yield();
    PlainClient fourth{cellar.path()};
    EXPECT_EQ(fourth.ask(request(1, "example.get_data")).at("id"), 1);
}

TEST(Server, CountsConnectionsOfOneUser) {
    auto options = CellarSocket::own();
    options.connections_per_user = 1;
    CellarSocket cellar{{}, options};
    PlainClient first{cellar.path()};
    (void)first.ask(request(1, "example.get_data"));
    PlainClient second{cellar.path()};
    const auto said = second.reply();
    EXPECT_EQ(reason_of(said), "too_many_connections");
    EXPECT_NE(said.at("params").at("message").as_string().find("anna"), json::string::npos);
}

TEST(Server, AnswersManyClientsWithManyRequestsEach) {
    CellarSocket cellar;
    std::vector<std::jthread> threads;
    std::atomic<int> right = 0;
    for (int client_number = 0; client_number < 8; ++client_number)
        threads.emplace_back([&] {
            PlainClient client{cellar.path()};
            std::string all;
            for (int id = 0; id < 200; ++id)
                all += request(id, "example.subtract", "[" + std::to_string(id) + ",1]") + '\n';
            client.send(all);
            for (int id = 0; id < 200; ++id) {
                const auto reply = client.reply();
                right += reply.at("result").as_int64() == reply.at("id").as_int64() - 1 ? 1 : 0;
            }
        });
    threads.clear();
    EXPECT_EQ(right, 1600);
}

TEST(Server, AnswersAfterTheClientHasEndedItsSide) {
    CellarSocket cellar;
    PlainClient client{cellar.path()};
    client.send(request(1, "example.hold") + '\n' + request(2, "example.get_data"));
    client.end_sending();
    EXPECT_EQ(client.reply().at("id"), 2); // no line break behind it
    const auto one = cellar.held.take();
    EXPECT_FALSE(one.call.cancelled.stop_requested());
    one.done(json::value("late"));
    EXPECT_EQ(client.reply().at("result"), "late");
    EXPECT_EQ(client.line(), std::nullopt);
}

TEST(Server, AsksACallToStopWhenItsClientIsGone) {
    CellarSocket cellar;
    std::optional<PlainClient> client{std::in_place, cellar.path()};
    client->send(request(1, "example.hold") + '\n');
    const auto one = cellar.held.take();
    std::promise<void> stopped;
    const std::stop_callback callback{one.call.cancelled, [&] {
                                          stopped.set_value();
                                      }};
    client.reset();
    ASSERT_EQ(stopped.get_future().wait_for(std::chrono::seconds{30}), std::future_status::ready);
    one.done(json::value("nobody listens"));
    while (cellar.server->connections() > 0)
        std::this_thread::yield();
    PlainClient next{cellar.path()}; // and the others are served
    EXPECT_EQ(next.ask(request(1, "example.get_data")).at("id"), 1);
}

TEST(Server, AsksACallToStopWhenItsClientEndsOneSideFirstAndThenGoes) {
    CellarSocket cellar;
    std::optional<PlainClient> client{std::in_place, cellar.path()};
    client->send(request(1, "example.hold") + '\n');
    client->end_sending();
    const auto one = cellar.held.take();
    std::promise<void> stopped;
    const std::stop_callback callback{one.call.cancelled, [&] {
                                          stopped.set_value();
                                      }};
    client.reset();
    EXPECT_EQ(stopped.get_future().wait_for(std::chrono::seconds{30}), std::future_status::ready);
}

TEST(Server, CancelsAndSendsProgressOverTheSocket) {
    CellarSocket cellar;
    PlainClient client{cellar.path()};
    client.send(R"({"jsonrpc":"2.0","id":1,"method":"example.hold","progress":"p"})"
                "\n");
    const auto one = cellar.held.take();
    send_progress(one.call, 1, 3, "a third");
    EXPECT_EQ(client.reply().at("params").at("progress"), 1);
    EXPECT_EQ(client.ask(request(2, "call.cancel", R"({"id":1})")).at("id"), 2);
    EXPECT_TRUE(one.call.cancelled.stop_requested());
    one.done(Error(ErrorKind::cancelled, "cancelled", "Stopped."));
    EXPECT_EQ(reason_of(client.reply()), "cancelled");
}

TEST(Server, ServesTheDiscoverDocument) {
    CellarSocket cellar;
    PlainClient client{cellar.path()};
    const auto reply = client.ask(request(1, "rpc.discover"));
    const auto& url = reply.at("result").at("servers").at(0).at("url");
    EXPECT_EQ(url, json::value("unix://" + cellar.path().string()));
}

/// Whoever names a user may take a network's time; the others are not to wait for it.
TEST(Server, AsksForANameWithoutHoldingUpTheRest) {
    auto options = CellarSocket::own();
    std::promise<void> asked;
    std::promise<void> told;
    options.name_of = [&, answer = told.get_future().share()](uid_t) {
        asked.set_value();
        answer.wait();
        return std::optional<std::string>{"anna"};
    };
    CellarSocket cellar{{}, options};
    PlainClient client{cellar.path()};
    asked.get_future().wait();
    auto counted = std::async(std::launch::async, [&] { return cellar.server->connections(); });
    EXPECT_EQ(counted.wait_for(std::chrono::seconds{30}), std::future_status::ready);
    told.set_value();
    EXPECT_EQ(counted.get(), 0U);
    EXPECT_EQ(client.ask(request(1, "example.get_data")).at("id"), 1);
}

/// The loop takes a client from the queue and sees it only after it began to drain: it is held up
/// while the client connects, and what it does next is put in order.
TEST(Server, AClientTakenInTheMomentOfDrainingDoesNotKeepItFromItsEnd) {
    const Folder folder;
    const auto path = folder.path / "socket";
    MethodTable methods;
    Held held;
    held.add_to(methods, "example.hold");
    const auto service = std::make_shared<const protocol::Service>(
        protocol::Service{methods, {}, {"0.0", path.string()}, {}, {}});
    socket::Loop loop;
    socket::Server server{loop, service, socket::Bound::at({path, 0600, std::nullopt}),
                          CellarSocket::own()};
    server.start();
    std::jthread thread{[&] {
        loop.run();
    }};
    PlainClient first{path};
    first.send(request(1, "example.hold") + '\n');
    const auto one = held.take();

    std::promise<void> standing;
    std::promise<void> go_on;
    loop.post([&, gate = go_on.get_future().share()] {
        standing.set_value();
        gate.wait();
    });
    standing.get_future().wait();
    PlainClient late{path};
    std::promise<void> drained;
    loop.post([&] { server.drain([&] { drained.set_value(); }); });
    go_on.set_value();
    one.done(json::value("the last"));
    const auto end = drained.get_future().wait_for(std::chrono::seconds{20});
    EXPECT_EQ(end, std::future_status::ready);
    EXPECT_EQ(first.reply().at("result"), "the last");
    server.close_all();
    loop.stop();
}

} // namespace
} // namespace barmkeep::tests
