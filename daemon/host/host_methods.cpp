// The methods of the host: plugin.list, plugin.add, plugin.retire.
#include "daemon/host/host.hpp"

namespace barmkeep::host {

using contract::PluginAdd;
using contract::PluginList;
using contract::PluginRetire;

void Host::add_methods(MethodTable& methods) {
    add_direct<PluginList>(methods, "core", [this](const Call&, const Nothing&) {
        return PluginList::Result{list()};
    });
    methods.add(describe<PluginAdd>(), "core",
                [this](const Call&, const json::object& params, const Done& done) {
                    administer(done, [this, params] {
                        return to_json(add(read_as<PluginAdd::Params>(params).name));
                    });
                });
    methods.add(describe<PluginRetire>(), "core",
                [this](const Call&, const json::object& params, const Done& done) {
                    administer(done, [this, params] {
                        return to_json(retire(read_as<PluginRetire::Params>(params).name));
                    });
                });
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
