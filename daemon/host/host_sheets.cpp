#include "daemon/host/host_sheets.hpp"

#include "sdk/sheet/builder.hpp"

namespace barmkeep::host {

using contract::PluginInfo;
using contract::PluginState;
using sheet::column;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

sheet::Count methods_of(const PluginInfo& plugin) {
    return sheet::count(static_cast<std::int64_t>(plugin.methods.size()), "method");
}

void add_fault(SheetBuilder& made, const PluginInfo& plugin) {
    if (!plugin.fault)
        return;
    sheet::Warning warning{
        text(plugin.name, ": ", *plugin.fault), "plugin_fault", sheet::Severity::warning, {}};
    if (plugin.state == PluginState::failed)
        warning.action = sheet::offer("load it again", "plugin.add", {{"name", plugin.name}});
    made.add(std::move(warning));
}

/// One plugin after it was added or retired: its methods and its file.
void add_rest(SheetBuilder& made, const PluginInfo& plugin) {
    add_fault(made, plugin);
    std::vector<Text> methods;
    for (const std::string& method : plugin.methods)
        methods.push_back(text(sheet::command(method)));
    made.more(text("Its methods and its file"),
              SheetBuilder().facts({{"file", text(plugin.file)}}).lines(std::move(methods)));
    made.action(sheet::offer("all plugins", "plugin.list", {}, "p"));
}

} // namespace

sheet::Sheet list_sheet(const Nothing&, const contract::PluginList::Result& result) {
    SheetBuilder made("Plugins");
    std::int64_t running = 0;
    std::int64_t failed = 0;
    sheet::Table table;
    table.columns = {column("plugin"), column("version", sheet::Align::left, 3), column("state"),
                     column("adds", sheet::Align::right, 2)};
    for (const PluginInfo& plugin : result.plugins) {
        running += plugin.state == PluginState::running ? 1 : 0;
        failed += plugin.state == PluginState::failed ? 1 : 0;
        table.rows.push_back(
            sheet::row(plugin.name, plugin.version, to_string(plugin.state),
                       plugin.methods.empty() ? Text{} : text(methods_of(plugin))));
    }
    made.lead(sheet::count(running, "plugin runs", "plugins run"),
              failed == 0 ? text(".")
                          : text("; ", sheet::count(failed, "has", "have"), " failed."));
    for (const PluginInfo& plugin : result.plugins)
        add_fault(made, plugin);
    made.table(std::move(table));
    sheet::Action add = sheet::offer("add one", "plugin.add", {}, "a");
    add.ask = {"name"};
    made.action(std::move(add));
    return made;
}

sheet::Sheet added_sheet(const contract::PluginAdd::Params&, const PluginInfo& plugin) {
    SheetBuilder made("Plugin ", plugin.name);
    if (plugin.state == PluginState::running)
        made.lead(plugin.name, " ", plugin.version, " runs and adds ", methods_of(plugin), ".");
    else
        made.lead(plugin.name, " does not run: ", to_string(plugin.state), ".");
    add_rest(made, plugin);
    return made;
}

sheet::Sheet retired_sheet(const contract::PluginRetire::Params&, const PluginInfo& plugin) {
    SheetBuilder made("Plugin ", plugin.name);
    made.lead(plugin.name, " is retired: its methods are gone, its records stay in the ledger.");
    add_fault(made, plugin);
    sheet::Action again = sheet::offer("load it again", "plugin.add", {{"name", plugin.name}}, "a");
    made.action(std::move(again));
    made.action(sheet::offer("all plugins", "plugin.list", {}, "p"));
    return made;
}

} // namespace barmkeep::host
