#include "sdk/client/wire.hpp"

#include <gtest/gtest.h>

namespace barmkeep::client {
namespace {

std::string reason_of_reading(std::string_view line) {
    try {
        (void)read_message(line);
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::text);
        return error.reason();
    }
    return "none";
}

TEST(Wire, WritesARequestInOneLine) {
    EXPECT_EQ(request_line(7, "stock.list", {}),
              "{\"jsonrpc\":\"2.0\",\"id\":7,\"method\":\"stock.list\"}\n");
    EXPECT_EQ(request_line(8, "ledger.backup", {{"file", "a\nb"}}, 8),
              "{\"jsonrpc\":\"2.0\",\"id\":8,\"method\":\"ledger.backup\","
              "\"params\":{\"file\":\"a\\nb\"},\"progress\":8}\n");
}

TEST(Wire, KeepsTheVeryBytesOfAResult) {
    const auto message =
        read_message(R"({"jsonrpc":"2.0","result":{"a":[1.50,"}\"]"],"b":{}} ,"id":3})");
    const auto& reply = std::get<Reply>(message);
    EXPECT_EQ(reply.id, 3);
    EXPECT_EQ(std::get<Answer>(reply.outcome).text, R"({"a":[1.50,"}\"]"],"b":{}})");
}

TEST(Wire, FindsScalarMembersToo) {
    EXPECT_EQ(member_text(R"({"id":1,"result":0.1})", "result"), "0.1");
    EXPECT_EQ(member_text(R"({"result":"x,y","id":1})", "result"), R"("x,y")");
    EXPECT_EQ(member_text(R"({ "result" : null , "id" : 1 })", "id"), "1 ");
    EXPECT_EQ(member_text(R"({"a":{"result":1}})", "result"), "");
}

TEST(Wire, ReadsAnErrorWithItsFaults) {
    const Error sent(ErrorKind::not_enough, "short", "There are 3.", "Recount it.", "/amount");
    const auto message = read_message(
        write_json(json::object{{"jsonrpc", "2.0"}, {"id", 1}, {"error", sent.to_json()}}));
    const auto& error = std::get<Error>(std::get<Reply>(message).outcome);
    EXPECT_EQ(error.kind(), ErrorKind::not_enough);
    EXPECT_EQ(error.faults().front().pointer, "/amount");
    EXPECT_EQ(error.hint(), "Recount it.");
}

TEST(Wire, ReadsANotification) {
    const auto message =
        read_message(R"({"jsonrpc":"2.0","method":"call.progress","params":{"token":1}})");
    EXPECT_EQ(std::get<Notification>(message).method, "call.progress");
    EXPECT_EQ(std::get<Notification>(message).params.at("token"), 1);
}

TEST(Wire, RefusesWhatIsNoReply) {
    EXPECT_EQ(reason_of_reading("HTTP/1.1 400 Bad Request"), "bad_reply");
    EXPECT_EQ(reason_of_reading("[]"), "bad_reply");
    EXPECT_EQ(reason_of_reading(R"({"id":1,"result":1})"), "bad_reply");
    EXPECT_EQ(reason_of_reading(R"({"jsonrpc":"2.0","id":1})"), "bad_reply");
    EXPECT_EQ(reason_of_reading(R"({"jsonrpc":"2.0","result":1})"), "bad_reply");
    EXPECT_EQ(reason_of_reading(R"({"jsonrpc":"2.0","id":1,"result":1,"error":{}})"), "bad_reply");
    EXPECT_EQ(reason_of_reading(R"({"jsonrpc":"2.0","method":3})"), "bad_reply");
    EXPECT_EQ(reason_of_reading(""), "bad_reply");
}

TEST(Wire, CutsLinesWhereverTheBytesWereCut) {
    const std::string text = "first\nsecond\n\nlast";
    for (std::size_t cut = 0; cut <= text.size(); ++cut) {
        LineBuffer lines;
        std::vector<std::string> found;
        for (const auto& part : {text.substr(0, cut), text.substr(cut)}) {
            lines.append(part);
            while (auto line = lines.next())
                found.push_back(*line);
        }
        EXPECT_EQ(found, (std::vector<std::string>{"first", "second", ""})) << cut;
    }
}

} // namespace
} // namespace barmkeep::client
