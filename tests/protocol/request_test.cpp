#include "daemon/protocol/request.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace barmkeep::protocol {
namespace {

std::variant<Request, Refusal> read(std::string_view text, const Limits& limits = {}) {
    return read_request(parse_json(text), limits);
}

std::string reason_of(const std::variant<Request, Refusal>& read) {
    const auto* refusal = std::get_if<Refusal>(&read);
    return refusal != nullptr ? refusal->error.reason() : "";
}

TEST(Request, KeepsWhatWasSent) {
    const auto one = std::get<Request>(
        read(R"({"jsonrpc":"2.0","id":"a","method":"m","params":[1],"progress":7,"later":true})"));
    EXPECT_EQ(*one.id, "a");
    EXPECT_EQ(one.method, "m");
    EXPECT_EQ(*one.params, (json::value{1})); // braces make an array
    EXPECT_EQ(one.progress_token, 7);
}

TEST(Request, WithoutIdIsANotificationAndWithNullIsNot) {
    EXPECT_FALSE(std::get<Request>(read(R"({"jsonrpc":"2.0","method":"m"})")).id);
    EXPECT_TRUE(std::get<Request>(read(R"({"jsonrpc":"2.0","method":"m","id":null})")).id);
}

TEST(Request, EachFaultHasItsReason) {
    EXPECT_EQ(reason_of(read("7")), "not_an_object");
    EXPECT_EQ(reason_of(read(R"({"method":"m","id":1})")), "bad_version");
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.1","method":"m","id":1})")), "bad_version");
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","id":1})")), "bad_method");
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","method":"m","params":null})")), "bad_params");
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","method":"m","progress":[]})")), "bad_progress");
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","method":"m","id":[1]})")), "bad_id");
}

TEST(Request, AnIdMustComeBackAsItWasSent) {
    Limits limits;
    limits.id_bytes_max = 4;
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","method":"m","id":"abcd"})", limits)), "");
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","method":"m","id":"abcde"})", limits)),
              "id_too_long");
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","method":"m","id":18446744073709551615})")), "");
    // One more does not fit an integer, and a double would come back as another number.
    EXPECT_EQ(reason_of(read(R"({"jsonrpc":"2.0","method":"m","id":18446744073709551616})")),
              "id_too_large");
    const auto half = std::get<Request>(read(R"({"jsonrpc":"2.0","method":"m","id":0.5})"));
    EXPECT_EQ(id_text(*half.id), "0.5");
}

TEST(Request, ARefusalTellsTheIdWhereItCouldBeRead) {
    EXPECT_EQ(std::get<Refusal>(read(R"({"jsonrpc":"2.0","id":5})")).id, 5);
    EXPECT_TRUE(std::get<Refusal>(read(R"({"jsonrpc":"2.0"})")).id.is_null());
    EXPECT_TRUE(std::get<Refusal>(read(R"({"jsonrpc":"2.0","id":{},"method":"m"})")).id.is_null());
}

TEST(Request, AReplyIsOneLineOfJsonEvenIfTheResultIsNot) {
    EXPECT_EQ(reply_text(1, json::value("a\nb")), R"({"jsonrpc":"2.0","id":1,"result":"a\nb"})");
    const json::value broken = json::array{std::nan("")};
    const auto reply = parse_json(reply_text(1, broken));
    EXPECT_EQ(reply.at("error").at("code"), -32603);
    EXPECT_EQ(reply.at("error").at("data").at("reason"), "not_finite");
}

TEST(Request, AnErrorReplyListsEveryFault) {
    const Error error{ErrorKind::params,
                      {{"/a", "missing", "'a' is missing.", "Give it."},
                       {"/b", "out_of_range", "b is out of range.", ""}}};
    const auto reply = parse_json(reply_text("x", error));
    EXPECT_EQ(reply.at("id"), "x");
    EXPECT_EQ(reply.at("error").at("code"), -32602);
    EXPECT_EQ(reply.at("error").at("data").at("faults").as_array().size(), 2U);
    EXPECT_EQ(reply.at("error").at("data").at("pointer"), "/a");
    EXPECT_FALSE(reply.as_object().contains("result"));
}

} // namespace
} // namespace barmkeep::protocol
