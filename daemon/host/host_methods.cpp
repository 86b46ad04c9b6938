// The methods of the host: plugin.list, plugin.add, plugin.retire.
#include "daemon/host/host.hpp"
#include "daemon/host/host_sheets.hpp"
#include "sdk/sheet/maker.hpp"

namespace barmkeep::host {

using contract::PluginAdd;
using contract::PluginList;
using contract::PluginRetire;

void Host::add_methods(MethodTable& methods) {
    add_direct<PluginList>(
        methods, "core", [this](const Call&, const Nothing&) { return PluginList::Result{list()}; },
        sheet::maker<PluginList>(&list_sheet));
    methods.add(
        describe<PluginAdd>(), "core",
        [this](const Call&, const json::object& params, const Done& done) {
            administer(done, [this, params] {
                return to_json(add(read_as<PluginAdd::Params>(params).name));
            });
        },
        sheet::maker<PluginAdd>(&added_sheet));
    methods.add(
        describe<PluginRetire>(), "core",
        [this](const Call&, const json::object& params, const Done& done) {
            administer(done, [this, params] {
                return to_json(retire(read_as<PluginRetire::Params>(params).name));
            });
        },
        sheet::maker<PluginRetire>(&retired_sheet));
}

void Host::administer(const Done& done, std::function<json::value()> work) {
    // Starting and retiring wait for a plugin; the caller's thread must not.
    executor::Task task;
    task.lane = Lane::write;
    task.work = [done, work = std::move(work)] {
        answer(done, work);
    };
    try {
        administration_.submit(std::move(task));
    } catch (const Error& error) {
        done(error);
    }
}

} // namespace barmkeep::host
