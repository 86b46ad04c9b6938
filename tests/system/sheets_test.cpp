// Every method that a person calls has a sheet: asked of a running daemon with all its plugins.
#include "sdk/client/client.hpp"
#include "tests/system/daemon_under_test.hpp"

#include <gtest/gtest.h>
#include <map>
#include <set>

namespace barmkeep::test {
namespace {

/// Methods without a sheet, each with its reason.
const std::map<std::string, std::string, std::less<>> without_sheet{
    {"rpc.discover", "for programs: the description of all methods"},
    {"sheet.show", "for programs: it answers with the sheet of another method"},
    {"sheet.make", "for programs: it answers with the sheet of another method"},
    {"call.cancel", "for programs: it ends another call of the same connection"},
    {"event.post", "for plugins and programs"},
    {"event.watch", "for programs: the client prints the events themselves"},
    {"event.stop", "for programs that watch"},
    {"ledger.batch", "for programs: several calls in one transaction"},
    {"ledger.recall", "for programs: the stored answer to a request key"},
    {"record.add", "for plugins: their own records"},
    {"record.append", "for plugins: their own records"},
    {"record.get", "for plugins: their own records"},
    {"record.list", "for plugins: their own records"},
    {"record.put", "for plugins: their own records"},
    {"record.remove", "for plugins: their own records"},
};

TEST(Sheets, EveryMethodThatAPersonCallsHasOne) {
    ScratchFolder folder;
    DaemonUnderTest daemon{folder.path()};
    daemon.start();
    client::ClientOptions options;
    options.socket = daemon.socket().string();
    client::Client client{options};
    const auto all = client.call("rpc.discover", {}, client::Repeat::freely, {}).result;
    std::set<std::string, std::less<>> seen;
    for (const auto& method : all.at("methods").as_array()) {
        const std::string name(method.at("name").as_string());
        const json::value* sheet = method.as_object().if_contains("x-sheet");
        const bool has_sheet = sheet != nullptr && sheet->as_bool();
        seen.insert(name);
        EXPECT_EQ(has_sheet, !without_sheet.contains(name))
            << name << ": give it a sheet beside its method, or name it here with the reason";
    }
    EXPECT_TRUE(seen.contains("canning.plan")) << "the plugins are not loaded";
    EXPECT_TRUE(seen.contains("starter.plan")) << "the plugins are not loaded";
}

TEST(Sheets, AStatusAndAGlanceAreReadByAPerson) {
    ScratchFolder folder;
    DaemonUnderTest daemon{folder.path()};
    daemon.start();
    const Finished status = daemon.barm({"service", "status"});
    EXPECT_NE(status.out.find("The daemon runs since"), std::string::npos) << status.out;
    const Finished settings = daemon.barm({"service", "settings"});
    EXPECT_NE(settings.out.find("socket.path"), std::string::npos) << settings.out;
    const Finished reload = daemon.barm({"service", "reload"});
    EXPECT_NE(reload.out.find("Nothing has changed."), std::string::npos) << reload.out;
    const Finished glance = daemon.barm({"cellar", "glance"});
    EXPECT_NE(glance.out.find("No jar is ready to use; nothing is due."), std::string::npos)
        << glance.out;
}

} // namespace
} // namespace barmkeep::test
