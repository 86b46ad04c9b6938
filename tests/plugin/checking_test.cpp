// What the host checks before a plugin sees it, whatever language the plugin is written in.
#include "sdk/plugin/fake_host.hpp"

#include <gmock/gmock.h>

namespace barmkeep::plugin::test {
namespace {

using testing::HasSubstr;

/// A plugin that looks at nothing it is given: only the host can refuse.
namespace blind {

constexpr std::string_view description =
    R"({"name": "blind", "version": "1", "methods": [
        {"name": "blind.take", "access": "keep", "effect": "writes", "doc": "Takes.",
         "params": {"type": "object", "required": ["jars"], "additionalProperties": false,
                    "properties": {"jars": {"type": "array", "maxItems": 2,
                                            "items": {"enum": ["pint", "quart"]}}}},
         "result": {}},
        {"name": "blind.any", "access": "look", "effect": "reads", "doc": "Takes anything.",
         "params": {"type": "object"}, "result": {}}],
        "settings": {"type": "object", "properties": {"altitude_m": {"type": "number"}},
                     "additionalProperties": false}})";

struct State {
    const barmkeep_host* host;
};

void describe(barmkeep_sink sink, void* context) {
    sink(context, description.data(), description.size());
}
void* start(const barmkeep_host* host, const char*, std::size_t, barmkeep_sink, void*) {
    return new State{host};
}
void call(void* state, barmkeep_call_number number, const barmkeep_request* request) {
    const auto* host = static_cast<State*>(state)->host;
    host->answer(host, number, BARMKEEP_RESULT, request->params, request->params_length);
}
void stop(void* state) {
    delete static_cast<State*>(state);
}
/// Makes what its params say: nothing, a sheet, or what is none.
void sheet(const char*, std::size_t, const char* params, std::size_t length, const char*,
           std::size_t, barmkeep_sink sink, void* context) {
    const std::string_view how{params, length};
    std::string text;
    if (how.find("throw") != how.npos)
        throw std::runtime_error("no sheet today");
    if (how.find("good") != how.npos)
        text = R"({"title": "Blind", "lead": "It sees nothing."})";
    else if (how.find("broken") != how.npos)
        text = R"({"title": )";
    else if (how.find("control") != how.npos)
        text = R"({"title": "a\u0007b"})";
    else if (how.find("huge") != how.npos)
        text = R"({"title": ")" + std::string(300'000, 'x') + R"("})";
    sink(context, text.data(), text.size());
}

constexpr barmkeep_plugin plugin{sizeof(barmkeep_plugin),
                                 BARMKEEP_PLUGIN_MAGIC,
                                 BARMKEEP_ABI_MAJOR,
                                 BARMKEEP_ABI_MINOR,
                                 describe,
                                 start,
                                 call,
                                 nullptr,
                                 stop,
                                 sheet};

} // namespace blind

std::vector<FieldError> faults_of(const Outcome& outcome) {
    const auto* error = std::get_if<Error>(&outcome);
    return error != nullptr ? error->faults() : std::vector<FieldError>{};
}

TEST(Checked, ASheetThatIsNoneIsLoggedAndNotShown) {
    FakeHost host;
    host.start(&blind::plugin);
    const auto sheet = [&](std::string_view how) {
        return host.sheet("blind.take", {{"jars", {how}}}, json::object{});
    };
    EXPECT_EQ(sheet("good").title, sheet::text("Blind"));
    EXPECT_TRUE(host.log_lines().empty());
    for (const char* how : {"nothing", "broken", "control", "huge", "throw"}) {
        const auto lines_before = host.log_lines().size();
        try {
            (void)sheet(how);
            ADD_FAILURE() << how;
        } catch (const Error& error) {
            EXPECT_EQ(error.reason(), "no_sheet") << how;
        }
        EXPECT_GT(host.log_lines().size(), lines_before) << how;
    }
}

TEST(Checked, ParamsThatDoNotFitTheDescriptionDoNotReachThePlugin) {
    FakeHost host;
    host.start(&blind::plugin);
    const auto faults =
        faults_of(host.call("blind.take", {{"jasr", 1}, {"jars", {"pint", "quarrt", 3}}}));
    ASSERT_EQ(faults.size(), 4u);
    EXPECT_EQ(faults[0].pointer, "/jasr");
    EXPECT_THAT(faults[0].hint, HasSubstr("'jars'"));
    EXPECT_EQ(faults[1].reason, "too_long");
    EXPECT_EQ(faults[2].pointer, "/jars/1");
    EXPECT_THAT(faults[2].hint, HasSubstr("Did you mean quart?"));
    EXPECT_EQ(faults[3].pointer, "/jars/2");
    EXPECT_EQ(faults_of(host.call("blind.take", {})).at(0).reason, "missing");
}

TEST(Checked, ParamsThatFitReachThePluginAsTheyAre) {
    FakeHost host;
    host.start(&blind::plugin);
    const json::object fitting{{"jars", json::array{"pint"}}};
    EXPECT_EQ(std::get<json::value>(host.call("blind.take", fitting)), fitting);
    json::object keyed = fitting;
    keyed["key"] = "k1"; // which the description of the plugin does not name
    EXPECT_EQ(std::get<json::value>(host.call("blind.take", keyed)), fitting);
    const json::object other{{"whatever", json::array{nullptr}}};
    EXPECT_EQ(std::get<json::value>(host.call("blind.any", other)), other);
}

TEST(Checked, SettingsThatDoNotFitTheDescriptionDoNotReachThePlugin) {
    FakeHost host;
    for (const json::object& settings :
         {json::object{{"altitude", 1200}}, json::object{{"altitude_m", "high"}}})
        EXPECT_THROW(host.start(&blind::plugin, settings), Error);
    host.start(&blind::plugin, {{"altitude_m", 1200}});
    host.stop();
    host.start(&blind::plugin, {{"altitude_m", nullptr}});
}

} // namespace
} // namespace barmkeep::plugin::test
