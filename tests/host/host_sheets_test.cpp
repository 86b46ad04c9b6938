// What a person reads of the plugins.
#include "daemon/host/host_sheets.hpp"

#include "sdk/sheet/limits.hpp"
#include "sdk/sheet/text_writer.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::host {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

contract::PluginInfo starter() {
    contract::PluginInfo plugin;
    plugin.name = "starter";
    plugin.version = "1.0.0";
    plugin.file = "/usr/lib/barmkeep/plugins/starter.so";
    plugin.methods = {"starter.plan", "starter.make"};
    return plugin;
}

std::string written(const sheet::Sheet& made) {
    EXPECT_THAT(sheet::check(made), IsEmpty());
    return sheet::write_text(made, {});
}

TEST(HostSheets, TheListSaysWhatFailedAndWhy) {
    contract::PluginList::Result result;
    result.plugins = {starter(), starter()};
    result.plugins[1].name = "cost";
    result.plugins[1].state = contract::PluginState::failed;
    result.plugins[1].methods.clear();
    result.plugins[1].fault = "It took too long to start.";
    EXPECT_THAT(written(list_sheet({}, result)),
                AllOf(HasSubstr("1 plugin runs; 1 has failed."), HasSubstr("2 methods"),
                      HasSubstr("cost: It took too long"), HasSubstr("plugin.add name=cost"),
                      Not(HasSubstr("no methods"))));
}

TEST(HostSheets, AddingAndRetiring) {
    EXPECT_THAT(written(added_sheet({}, starter())),
                AllOf(HasSubstr("starter 1.0.0 runs and adds 2 methods."),
                      HasSubstr("Its methods and its file")));
    auto gone = starter();
    gone.state = contract::PluginState::retired;
    EXPECT_THAT(written(retired_sheet({}, gone)), HasSubstr("starter is retired"));
    gone.state = contract::PluginState::failed;
    gone.fault = "Its file is gone.";
    EXPECT_THAT(written(added_sheet({}, gone)),
                AllOf(HasSubstr("does not run: failed"), HasSubstr("Its file is gone.")));
}

} // namespace
} // namespace barmkeep::host
