#include "sdk/client/client.hpp"

#include "sdk/contract/entry.hpp"
#include "sdk/contract/ledger.hpp"
#include "tests/client/fake_cellar.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::client {
namespace {

using test::FakeDaemon;
using test::Fate;
using testing::HasSubstr;
using namespace std::chrono_literals;

class ClientCalls : public testing::Test {
protected:
    ClientCalls() { test::add_fake_cellar(daemon.table()); }

    [[nodiscard]] ClientOptions options() const {
        return {.socket = daemon.socket(),
                .connect_time_out = 5s,
                .time_out = 20s,
                .attempts_max = 4,
                .pause_first = 1ms,
                .pause_max = 2ms};
    }
    [[nodiscard]] std::vector<std::string> keys_sent(std::string_view method) const {
        std::vector<std::string> keys;
        for (const auto& request : daemon.requests(method))
            keys.emplace_back(request.at("params").at("key").as_string());
        return keys;
    }
    static contract::StockBuy::Params purchase() {
        contract::StockBuy::Params params;
        params.good = "light dry extract";
        params.amount.given = "3 lb";
        params.paid = parse_money("18.50");
        return params;
    }

    FakeDaemon daemon;
};

/// The error of a call; fails if there is none.
template <class Work>
Error error_of(Work work) {
    try {
        work();
    } catch (const Error& error) {
        return error;
    }
    ADD_FAILURE() << "no error was thrown";
    return {ErrorKind::internal, "none", "none"};
}

TEST_F(ClientCalls, AnswersWithTypes) {
    Client client{options()};
    const auto cellar = client.call<contract::CellarShow>();
    EXPECT_EQ(cellar.name, "Home");
    EXPECT_EQ(client.call<contract::CellarGlance>().shelves.size(), 2U);
    EXPECT_EQ(daemon.requests().size(), 2U);
}

TEST_F(ClientCalls, SendsAKeyWithEveryWriteAndNoneWithAReading) {
    Client client{options()};
    (void)client.call<contract::StockBuy>(purchase());
    (void)client.call<contract::StockBuy>(purchase());
    const auto keys = keys_sent("stock.buy");
    ASSERT_EQ(keys.size(), 2U);
    EXPECT_NE(keys[0], keys[1]);
    (void)client.call<contract::CellarShow>();
    EXPECT_FALSE(daemon.requests("cellar.show").front().contains("params"));
}

TEST_F(ClientCalls, RepeatsAWriteWithTheSameKeySoThatItIsDoneOnce) {
    daemon.plan("stock.buy", {Fate::drop_after, Fate::drop_before, Fate::drop_after});
    Client client{options()};
    EXPECT_EQ(client.call<contract::StockBuy>(purchase()).entry, 1);
    const auto keys = keys_sent("stock.buy");
    ASSERT_EQ(keys.size(), 4U);
    EXPECT_EQ(std::set<std::string>(keys.begin(), keys.end()).size(), 1U);
    EXPECT_EQ(client.call<contract::StockBuy>(purchase()).entry, 2);
}

TEST_F(ClientCalls, KeepsAKeyThatItIsGiven) {
    Client client{options()};
    CallOptions with_key;
    with_key.key = "mine";
    EXPECT_EQ(client.call<contract::StockBuy>(purchase(), with_key).entry, 1);
    EXPECT_EQ(client.call<contract::StockBuy>(purchase(), with_key).entry, 1);
}

TEST_F(ClientCalls, TellsTheKeyWhenTheOutcomeStaysOpen) {
    daemon.plan("stock.buy", std::vector<Fate>(9, Fate::drop_after));
    Client client{options()};
    const Error error = error_of([&] { (void)client.call<contract::StockBuy>(purchase()); });
    EXPECT_EQ(error.kind(), ErrorKind::unknown_outcome);
    const auto keys = keys_sent("stock.buy");
    EXPECT_EQ(keys.size(), 4U); // attempts_max
    EXPECT_THAT(error.hint(), HasSubstr(keys.front()));
}

TEST_F(ClientCalls, RepeatsAReadingToo) {
    daemon.plan("cellar.show", {Fate::drop_before, Fate::drop_after});
    Client client{options()};
    EXPECT_EQ(client.call<contract::CellarShow>().name, "Home");
    EXPECT_EQ(daemon.requests("cellar.show").size(), 3U);
}

TEST_F(ClientCalls, NeverRepeatsAManagingCallThatHasNoKey) {
    daemon.plan("ledger.backup", {Fate::drop_after});
    Client client{options()};
    const Error error =
        error_of([&] { (void)client.call<contract::LedgerBackup>({.file = "/copy"}); });
    EXPECT_EQ(error.kind(), ErrorKind::unknown_outcome);
    EXPECT_EQ(daemon.requests("ledger.backup").size(), 1U);
}

TEST_F(ClientCalls, OutlivesARestartOfTheDaemon) {
    Client client{options()};
    (void)client.call<contract::CellarShow>();
    daemon.stop();
    daemon.start();
    EXPECT_EQ(client.call<contract::StockBuy>(purchase()).entry, 1);
}

TEST_F(ClientCalls, SaysAtOnceThatThereIsNoDaemon) {
    daemon.stop();
    Client client{options()};
    const Error error = error_of([&] { (void)client.call<contract::CellarShow>(); });
    EXPECT_EQ(error.kind(), ErrorKind::unavailable);
    EXPECT_EQ(error.reason(), "no_socket");
}

TEST_F(ClientCalls, StopsTryingWhenTheDaemonKeepsClosingForTheSameReason) {
    daemon.plan("cellar.show", std::vector<Fate>(9, Fate::close_with_reason));
    Client client{options()};
    const Error error = error_of([&] { (void)client.call<contract::CellarShow>(); });
    EXPECT_THAT(error.what(), HasSubstr("Too many connections."));
    EXPECT_EQ(daemon.requests("cellar.show").size(), 2U);
}

TEST_F(ClientCalls, TimesOutWithAClearWord) {
    daemon.plan("cellar.show", {Fate::silence});
    daemon.plan("stock.buy", {Fate::silence});
    Client client{options()};
    CallOptions brief;
    brief.time_out = 20ms;
    const Error reading = error_of([&] { (void)client.call<contract::CellarShow>({}, brief); });
    EXPECT_EQ(reading.kind(), ErrorKind::unavailable);
    EXPECT_THAT(reading.what(), HasSubstr("no answer came in time"));
    const Error writing =
        error_of([&] { (void)client.call<contract::StockBuy>(purchase(), brief); });
    EXPECT_EQ(writing.kind(), ErrorKind::unknown_outcome);
    EXPECT_EQ(client.call<contract::CellarShow>().name, "Home"); // on a new connection
}

TEST_F(ClientCalls, RefusesRubbishAsAProtocolFault) {
    daemon.plan("cellar.show", {Fate::invalid});
    Client client{options()};
    EXPECT_EQ(error_of([&] { (void)client.call<contract::CellarShow>(); }).kind(), ErrorKind::text);
}

TEST_F(ClientCalls, HandsOnTheDaemonsErrorsUnchanged) {
    Client client{options()};
    auto params = purchase();
    params.good.clear();
    const Error error = error_of([&] { (void)client.call<contract::StockBuy>(params); });
    EXPECT_EQ(error.kind(), ErrorKind::params);
    EXPECT_EQ(error.faults().front().pointer, "/good");
    EXPECT_EQ(keys_sent("stock.buy").size(), 1U); // an answer is not repeated
}

TEST_F(ClientCalls, PassesOverMembersThatANewerDaemonAdds) {
    const json::value newer{{"name", "Home"},
                            {"currency", "EUR"},
                            {"units", "us"},
                            {"time_zone", "UTC"},
                            {"mood", "good"}};
    EXPECT_EQ(Client::understood<contract::Cellar>(newer).units, contract::Units::us);
    EXPECT_EQ(error_of([] {
                  (void)Client::understood<contract::Cellar>({{"name", 3}});
              }).kind(),
              ErrorKind::text);
}

TEST_F(ClientCalls, ReportsProgressOfLongWork) {
    Client client{options()};
    std::vector<std::string> steps;
    CallOptions with_progress;
    with_progress.progress = [&](const Progress& step) {
        steps.push_back(step.message + " " + std::to_string(static_cast<int>(step.done)) + "/" +
                        std::to_string(static_cast<int>(step.total)));
    };
    (void)client.call<contract::LedgerBackup>({.file = "/copy"}, with_progress);
    EXPECT_EQ(steps, (std::vector<std::string>{"copying 1/4", "checking 4/4"}));
    (void)client.call<contract::LedgerBackup>({.file = "/copy"});
    EXPECT_FALSE(daemon.requests("ledger.backup").back().contains("progress"));
}

TEST_F(ClientCalls, AsksForAStopWhenInterruptedAndStillHearsTheAnswer) {
    Client client{options()};
    StopButton button;
    CallOptions interruptible;
    interruptible.interruption = &button;
    bool was_told = false;
    interruptible.cancelling = [&] {
        was_told = true;
    };
    std::thread presser([&] {
        daemon.wait_for_requests("demo.slow", 1);
        button.press();
    });
    const Error error =
        error_of([&] { (void)client.call("demo.slow", {}, Repeat::freely, interruptible); });
    presser.join();
    EXPECT_EQ(error.kind(), ErrorKind::cancelled);
    EXPECT_EQ(error.reason(), "cancelled"); // the daemon's own word
    EXPECT_TRUE(was_told);
    EXPECT_EQ(daemon.requests("call.cancel").size(), 1U);
}

TEST_F(ClientCalls, LeavesAtOnceWhenInterruptedTwice) {
    daemon.plan("stock.buy", {Fate::silence});
    Client client{options()};
    StopButton button;
    button.press();
    button.press();
    CallOptions interruptible;
    interruptible.interruption = &button;
    const Error error =
        error_of([&] { (void)client.call<contract::StockBuy>(purchase(), interruptible); });
    EXPECT_EQ(error.kind(), ErrorKind::cancelled);
    EXPECT_EQ(error.reason(), "interrupted");
    daemon.wait_for_requests("stock.buy", 1);
    EXPECT_THAT(error.hint(), HasSubstr(keys_sent("stock.buy").front()));
}

} // namespace
} // namespace barmkeep::client
