// The real daemon's conversation: events through a crash, its own description, lines that are none.
#include "sdk/client/events.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/good.hpp"
#include "tests/socket/plain_client.hpp"
#include "tests/system/process_test.hpp"

#include <set>

namespace barmkeep::test {
namespace {

using tests::PlainClient;

class ConversationTest : public ProcessTest {
protected:
    client::ClientOptions options() const {
        client::ClientOptions all;
        all.socket = daemon.socket().string();
        return all;
    }
    void add_good(const std::string& name) {
        contract::GoodAdd::Params good;
        good.name = name;
        good.category = contract::Category::lids;
        (void)client().call<contract::GoodAdd>(good);
    }
};

TEST_F(ConversationTest, AWatchMissesNothingAndRepeatsNothingThroughACrash) {
    daemon.start();
    client::EventStream events{options()};
    const auto first = events.last();
    constexpr int each = 5;
    std::vector<std::int64_t> numbers;
    std::vector<std::string> goods;
    const auto take = [&](int count) {
        for (int i = 0; i < count; ++i) {
            const auto event = events.next();
            ASSERT_TRUE(event);
            numbers.push_back(event->sequence);
            goods.emplace_back(event->about.at("good").as_string());
        }
    };
    for (int i = 0; i < each; ++i)
        add_good("before " + std::to_string(i));
    take(each - 2); // two are on their way, or lost with the connection
    daemon.kill();
    daemon.start();
    for (int i = 0; i < each; ++i)
        add_good("after " + std::to_string(i));
    take(each + 2);

    for (int i = 0; i < 2 * each; ++i) {
        const auto place = static_cast<std::size_t>(i);
        EXPECT_EQ(numbers.at(place), first + 1 + i);
        EXPECT_EQ(goods.at(place), (i < each ? "before " : "after ") + std::to_string(i % each));
    }
}

TEST_F(ConversationTest, TheDocumentOfTheRunningDaemonWithItsPluginsIsValid) {
    daemon.start();
    const auto document = client().discover();
    std::set<std::string> providers;
    for (const auto& method : document.at("methods").as_array())
        providers.emplace(method.at("x-provider").as_string());
    EXPECT_EQ(providers, (std::set<std::string>{"canning", "core", "cost", "reorder", "starter"}));
    const auto file = folder.path() / "document";
    std::ofstream(file) << json::serialize(document);
    const std::string protocol = BARMKEEP_SOURCE "/tests/protocol/";
    const auto checked =
        run({"/bin/sh", "-c", "exec \"$0\" \"$1\" - \"$2\" < \"$3\"", BARMKEEP_PYTHON,
             protocol + "check_discover.py", protocol + "data", file.string()});
    EXPECT_EQ(checked.exit_code, 0) << checked.out << checked.err;
}

TEST_F(ConversationTest, WhatIsNoRequestLeavesTheLedgerAsItWas) {
    daemon.start();
    add_good("lids");
    (void)client().call("stock.buy", {{"good", "lids"}, {"amount", 24}, {"paid", "6.00"}},
                        client::Repeat::by_key);
    const auto entries = [&] {
        return write_json(to_json(client().call<contract::EntryList>()));
    };
    const auto last_event = [&] {
        return client::EventStream{options()}.last();
    };
    const auto entries_before = entries();
    const auto event_before = last_event();
    const auto bytes_before = bytes_of(daemon.ledger());

    const std::string buy = R"({"jsonrpc":"2.0","id":1,"method":"stock.buy","params":)"
                            R"({"good":"lids","amount":"1","paid":"1.00")";
    const std::vector<std::pair<std::string, std::string>> lines{
        {buy, "not_json"},                          // cut short
        {buy + "}}}", "not_json"},                  // too much
        {buy + ",\"note\":\"\xFF\"}}", "not_json"}, // no UTF-8
        {std::string(100, '['), "not_json"},        // nested too deep
        {"[]", "empty_batch"},
        {"5", "not_an_object"},
        {R"({"id":1,"method":"stock.buy","params":{"good":"lids","amount":"1","paid":"1"}})",
         "bad_version"},
        {buy + ",\"note\":\"" + std::string(2 << 20, 'x') + "\"}}", "line_too_long"},
        {"POST / HTTP/1.1", "speaks_http"},
    };
    for (const auto& [line, reason] : lines) {
        PlainClient connection{daemon.socket()};
        connection.send(line + "\n");
        EXPECT_EQ(connection.reply().at("error").at("data").at("reason"), json::value(reason));
    }
    EXPECT_EQ(entries(), entries_before);
    EXPECT_EQ(last_event(), event_before);
    EXPECT_TRUE(bytes_of(daemon.ledger()) == bytes_before);
}

} // namespace
} // namespace barmkeep::test
