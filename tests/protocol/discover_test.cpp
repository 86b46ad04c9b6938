#include "tests/protocol/contract_methods.hpp"
#include "tests/protocol/conversation.hpp"

#include <gtest/gtest.h>
#include <set>

namespace barmkeep::tests {
namespace {

json::object document() {
    MethodTable methods;
    add_contract_methods(methods);
    return protocol::discover_document(methods, {"0.1.0", "/run/barm keep/socket"}, {});
}

TEST(Discover, DescribesEveryMethodOnce) {
    MethodTable methods;
    add_contract_methods(methods);
    const auto all = document();
    std::set<std::string> names;
    for (const auto& method : all.at("methods").as_array())
        EXPECT_TRUE(names.insert(std::string(method.at("name").as_string())).second);
    EXPECT_EQ(names.size(), methods.rows().size());
    EXPECT_GT(names.size(), 30U);
}

TEST(Discover, IsBuiltOnceForEachStateOfTheMethods) {
    MethodTable methods;
    add_contract_methods(methods);
    protocol::DiscoverCache cache;
    const auto ask = [&] {
        return cache.document(methods, {"0.1.0", "/run/socket"}, {});
    };
    const auto first = ask();
    EXPECT_EQ(ask(), first) << "the very same";
    methods.add(example<Nothing>("example.more"), "example", nullptr);
    const auto second = ask();
    EXPECT_EQ(second->at("methods").as_array().size(), first->at("methods").as_array().size() + 1);
    methods.remove_provider("example");
    EXPECT_EQ(*ask(), *first);
}

TEST(Discover, PutsRequiredParametersFirst) {
    const auto all = document();
    for (const auto& method : all.at("methods").as_array()) {
        bool optional_seen = false;
        for (const auto& param : method.at("params").as_array()) {
            const bool is_required = param.at("required").as_bool();
            EXPECT_FALSE(optional_seen && is_required)
                << method.at("name") << ' ' << param.at("name");
            optional_seen = optional_seen || !is_required;
        }
    }
}

struct Mixed {
    std::optional<std::int64_t> extra;
    std::int64_t needed = 0;
    static FieldList fields(auto) {
        return {field<&Mixed::extra>("Optional, and described first."),
                field<&Mixed::needed>("Required.")};
    }
};

TEST(Discover, PositionsAreInTheOrderOfTheDocument) {
    Conversation c;
    add_example(c.methods, example<Mixed>("example.mixed"),
                [](const Call&, const json::object& params) -> json::value { return params; });
    c.call("1", "example.mixed", "[1,2]");
    EXPECT_EQ(c.replies().at(0).at("result"), (json::value{{"needed", 1}, {"extra", 2}}));
    const auto document = protocol::discover_document(c.methods, {}, {});
    for (const auto& method : document.at("methods").as_array())
        if (method.at("name") == "example.mixed") {
            EXPECT_EQ(method.at("params").at(0).at("name"), "needed");
        }
}

TEST(Discover, TellsLimitsTopicsVersionsAndWhereTheSocketIs) {
    const auto all = document();
    EXPECT_EQ(all.at("openrpc"), "1.3.2");
    EXPECT_EQ(all.at("info").at("version"), "1.0");
    EXPECT_EQ(all.at("info").at("x-program-version"), "0.1.0");
    EXPECT_EQ(all.at("x-limits").at("line_bytes_max"), 1 << 20);
    EXPECT_EQ(all.at("x-limits").at("json_depth_max"), 32);
    EXPECT_FALSE(all.at("x-topics").as_array().empty());
    EXPECT_EQ(all.at("servers").at(0).at("url"), "unix:///run/barm%20keep/socket");
}

TEST(Discover, EveryErrorRefersToOneThatIsThere) {
    const auto all = document();
    const auto& errors = all.at("components").at("errors").as_object();
    EXPECT_EQ(errors.size(), 13U);
    for (const auto& method : all.at("methods").as_array()) {
        ASSERT_FALSE(method.at("errors").as_array().empty());
        for (const auto& error : method.at("errors").as_array()) {
            const auto& path = error.at("$ref").as_string();
            EXPECT_TRUE(errors.contains(std::string_view(path).substr(path.rfind('/') + 1)));
        }
    }
}

TEST(Discover, IsCalledLikeAnyMethodAndTakesNoParameters) {
    Conversation c{{}, Access::look};
    c.call("1", "rpc.discover");
    c.call("2", "rpc.discover", "[]");
    c.call("3", "rpc.discover", "[1]");
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 3U);
    EXPECT_TRUE(said[0].at("result").as_object().contains("openrpc"));
    EXPECT_EQ(said[0].at("result"), said[1].at("result"));
    EXPECT_EQ(code_in(said[2]), -32602);
}

TEST(Discover, FollowsTheTable) {
    Conversation c;
    const auto count = [&] {
        return protocol::discover_document(c.methods, {}, {}).at("methods").as_array().size();
    };
    const auto before = count();
    c.methods.add(example<Nothing>("late.comer"), "late", {});
    EXPECT_EQ(count(), before + 1);
    c.methods.remove_provider("late");
    EXPECT_EQ(count(), before);
}

} // namespace
} // namespace barmkeep::tests
