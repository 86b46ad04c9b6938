#include "sdk/method/call.hpp"

#include <gtest/gtest.h>

namespace barmkeep {
namespace {

struct Add {
    static constexpr About about{"number.add", Access::keep, Effect::writes, "Adds two numbers."};
    struct Params {
        std::int64_t a = 0;
        std::int64_t b = 0;
        static FieldList fields(auto) {
            return {field<&Params::a>("One."), field<&Params::b>("The other.")};
        }
    };
    struct Result {
        std::int64_t sum = 0;
        std::string key;
        static FieldList fields(auto) {
            return {field<&Result::sum>("The sum."), field<&Result::key>("The key seen.")};
        }
    };
};

class CallTest : public testing::Test {
protected:
    CallTest() {
        add_direct<Add>(table, "core", [this](const Call& call, const Add::Params& params) {
            digest = call.digest;
            arrived = call.arrived;
            return Add::Result{params.a + params.b, call.key};
        });
    }
    Outcome send(const char* method, const char* params, Access access = Access::keep) {
        Call circumstances;
        circumstances.caller = {"anna", access, ""};
        const json::value value = parse_json(params);
        return table.call(method, circumstances, &value);
    }
    static std::string reason(const Outcome& outcome) { return std::get<Error>(outcome).reason(); }

    ManualClock clock{parse_instant("2026-03-14T08:00:00Z")};
    MethodTable table{clock};
    std::string digest;
    Instant arrived;
};

TEST_F(CallTest, AnswersByNameAndByPosition) {
    const json::value expected{{"sum", 5}, {"key", ""}};
    EXPECT_EQ(std::get<json::value>(send("number.add", R"({"a":2,"b":3})")), expected);
    EXPECT_EQ(std::get<json::value>(send("number.add", "[2,3]")), expected);
}

TEST_F(CallTest, TakesTheKeyOutAndDigestsTheRest) {
    const auto outcome = send("number.add", R"({"a":2,"b":3,"key":"k1"})");
    EXPECT_EQ(std::get<json::value>(outcome).at("key"), "k1");
    const std::string first = digest;
    (void)send("number.add", R"({"b":3,"key":"k2","a":2})");
    EXPECT_EQ(digest, first) << "the order of members and the key itself do not matter";
    (void)send("number.add", R"({"a":2,"b":4,"key":"k1"})");
    EXPECT_NE(digest, first);
}

TEST_F(CallTest, RefusesWithAReason) {
    EXPECT_EQ(reason(send("number.ad", "{}")), "method_unknown");
    EXPECT_EQ(std::get<Error>(send("number.ad", "{}")).hint(), "Did you mean number.add?");
    EXPECT_EQ(reason(send("number.add", R"({"a":1,"b":1})", Access::look)), "not_allowed");
    EXPECT_EQ(reason(send("number.add", R"({"a":1,"b":1,"key":""})")), "out_of_range");
    EXPECT_EQ(reason(send("number.add", R"({"a":1})")), "missing");
}

TEST_F(CallTest, AHandlerThatThrowsAnythingIsAnError) {
    table.add({"number.fail", Access::look, Effect::reads, "Fails.", false, {}, {}}, "core",
              [](const Call&, const json::object&, const Done& done) {
                  answer(done, []() -> json::value { throw std::logic_error("oops"); });
              });
    EXPECT_EQ(std::get<Error>(send("number.fail", "{}")).kind(), ErrorKind::internal);
}

TEST_F(CallTest, NamesAreNounDotVerbAndUnique) {
    const auto add = [&](const char* name) {
        table.add({name, Access::look, Effect::reads, "", false, {}, {}}, "other", nullptr);
    };
    for (const char* name : {"", "add", ".add", "number.", "a.b.c", "Number.add", "number.add"})
        EXPECT_THROW(add(name), Error) << name;
    table.remove_provider("core");
    EXPECT_NO_THROW(add("number.add"));
}

TEST_F(CallTest, ACallThatComesWithoutAnArrivalArrivesNow) {
    (void)send("number.add", "[2,3]");
    EXPECT_EQ(arrived, clock.now());
    Call earlier;
    earlier.caller.access = Access::keep;
    earlier.arrived = clock.now() - std::chrono::seconds{24};
    const json::value params{2, 3};
    (void)table.call("number.add", earlier, &params);
    EXPECT_EQ(arrived, earlier.arrived);
}

TEST_F(CallTest, TheGenerationIsThatOfTheMethods) {
    const auto before = table.generation();
    EXPECT_EQ(table.generation(), before);
    table.add({"number.more", Access::look, Effect::reads, "", false, {}, {}}, "other", nullptr);
    EXPECT_NE(table.generation(), before);
    const auto between = table.generation();
    table.remove_provider("other");
    EXPECT_NE(table.generation(), between);
}

TEST_F(CallTest, TheLaneIsThatOfTheEffectUnlessTheMethodNamesOne) {
    Description method = describe<Add>();
    EXPECT_EQ(lane_of(method), Lane::write);
    method.lane = "log";
    EXPECT_EQ(lane_of(method), Lane::log);
    method.lane = "a word of a later version";
    EXPECT_EQ(lane_of(method), Lane::write);
    method.lane = "log";
    method.effect = Effect::reads;
    EXPECT_EQ(lane_of(method), Lane::look) << "nothing that only reads goes before the log";
}

TEST_F(CallTest, WritingMethodsTellOfTheKey) {
    const auto row = table.find("number.add");
    EXPECT_TRUE(row->description.params.at("properties").as_object().contains("key"));
}

} // namespace
} // namespace barmkeep
