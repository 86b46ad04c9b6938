// No method of the plugin answers without its cautions: all are called, and all are looked at.
#include "tests/canning/cellar.hpp"

#include <set>

namespace barmkeep::canning {
namespace {

using test::Cellar;
using test::minutes;

/// Which methods speak at which moment.
const std::map<std::string, Moment, std::less<>>& moments() {
    using enum Moment;
    static const std::map<std::string, Moment, std::less<>> all{
        {"canning.plan", planning},       {"process.set", process},
        {"process.list", process},        {"process.reference", process},
        {"run.start", running},           {"run.log", running},
        {"run.gauge", running},           {"run.show", running},
        {"run.status", running},          {"run.list", running},
        {"run.abandon", running},         {"run.seal_test", sealing},
        {"run.measure", storing},         {"run.hold", sealing},
        {"run.release", sealing},         {"storage.inspect", storing},
        {"storage.temperature", storing}, {"storage.show", storing},
        {"opening.show", opening},        {"opening.record", opening},
        {"trace.lot", storing},           {"trace.brew", storing},
        {"canning.cautions", running},    {"run.strike", running},
        {"run.undo_seal_test", sealing}};
    return all;
}

class EveryMethod : public Cellar {
protected:
    /// Calls a method as data and checks the cautions of its answer.
    json::value ask(const std::string& method, const json::object& params) {
        const auto outcome = host_->call(method, params);
        if (const auto* error = std::get_if<Error>(&outcome))
            throw std::runtime_error(method + ": " + error->what());
        asked_.insert(method);
        const auto& answer = std::get<json::value>(outcome);
        check(method, answer.as_object());
        return answer;
    }

    static void check(const std::string& method, const json::object& answer) {
        const auto* list = answer.if_contains("cautions");
        ASSERT_NE(list, nullptr) << method << " answers without cautions";
        std::set<std::string> keys;
        for (const auto& caution : list->as_array())
            keys.insert(std::string(caution.at("key").as_string()));
        for (const auto& wanted : cautions(moments().at(method)))
            EXPECT_TRUE(keys.contains(wanted.key)) << method << " leaves out " << wanted.key;
    }

    std::set<std::string> asked_;
};

TEST_F(EveryMethod, DeclaresCautionsInTheSchemaOfItsAnswer) {
    for (const auto& method : host_->manifest().methods) {
        const auto& required = method.result.at("required").as_array();
        EXPECT_NE(std::ranges::find(required, json::value("cautions")), required.end())
            << method.name;
        EXPECT_TRUE(moments().contains(method.name)) << method.name << ": say its moment here";
    }
}

TEST_F(EveryMethod, AnswersWithItsCautions) {
    const json::object strength{{"jar", "pint"}, {"jars", 7}, {"makes", "1 L"}, {"at", "1.035"}};
    json::object begin = strength;
    begin["process"] = "mine";
    ask("canning.cautions", {});
    ask("canning.plan", strength);
    ask("process.set", {{"name", "other"},
                        {"jar", "pint"},
                        {"gauge", "dial"},
                        {"appliance", "pressure_canner"},
                        {"pressure", "13 psi"},
                        {"time", "30 min"},
                        {"source", "the test's own figures"}});
    ask("process.list", {});
    ask("process.reference", {});
    ask("run.start", begin);
    ask("run.log", {{"run", 1}, {"step", "steam_flows"}});
    ask("run.gauge", {{"run", 1}, {"shows", "1 psi"}});
    ask("run.strike", {{"run", 1}, {"line", 2}, {"reason", "a test"}});
    ask("run.show", {{"run", 1}});
    ask("run.status", {{"run", 1}});
    ask("run.list", {});
    ask("run.abandon", {{"run", 1}, {"reason", "a test"}});
    (void)start();
    process_by_the_book(2);
    ask("run.seal_test", {{"run", 2}, {"held", 7}});
    ask("run.undo_seal_test", {{"run", 2}, {"reason", "a test"}});
    const auto sealed = ask("run.seal_test", {{"run", 2}, {"held", 5}, {"failed", 2}});
    const auto jars = sealed.at("lots").at(0).at("code");
    ask("run.hold", {{"run", 2}, {"reason", "a test"}});
    ask("run.release", {{"run", 2}, {"reason", "a test"}, {"kind", "quarantine"}});
    ask("run.measure", {{"lot", jars}, {"gravity", {"1.080"}}});
    ask("storage.inspect", {{"lot", jars}});
    ask("storage.temperature", {{"temperature", "15 C"}});
    ask("storage.show", {});
    ask("opening.show", {{"lot", jars}});
    const auto brew = call<contract::BrewPlan>({{}, parse_date("2026-03-10"), "ale"}).number;
    ask("opening.record",
        {{"lot", jars}, {"looked", true}, {"listened", true}, {"smelled", true}, {"brew", brew}});
    ask("trace.lot", {{"lot", jars}});
    ask("trace.brew", {{"brew", brew}});
    for (const auto& method : host_->manifest().methods)
        EXPECT_TRUE(asked_.contains(method.name)) << method.name << " was not asked";
}

} // namespace
} // namespace barmkeep::canning
