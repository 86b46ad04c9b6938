#include "daemon/service_methods.hpp"

#include "daemon/protocol/discover.hpp"
#include "daemon/service_sheets.hpp"
#include "sdk/sheet/maker.hpp"

#include <algorithm>

namespace barmkeep::daemon {
namespace {

/// Settings that are brought into force while running; the others wait for a restart.
bool changes_while_running(const std::string& name) {
    return name == "log.level" || name.starts_with("access.");
}

const contract::Setting* find(const std::vector<contract::Setting>& all, const std::string& name) {
    const auto at = std::find_if(all.begin(), all.end(),
                                 [&](const auto& setting) { return setting.name == name; });
    return at == all.end() ? nullptr : &*at;
}

contract::ServiceReload::Result difference(const std::vector<contract::Setting>& before,
                                           const std::vector<contract::Setting>& after) {
    contract::ServiceReload::Result result;
    const auto note = [&](const std::string& name) {
        (changes_while_running(name) ? result.changed : result.needs_restart).push_back(name);
    };
    for (const auto& setting : after) {
        const auto* old = find(before, setting.name);
        if (old == nullptr || old->value != setting.value)
            note(setting.name);
    }
    for (const auto& setting : before)
        if (find(after, setting.name) == nullptr)
            note(setting.name);
    return result;
}

} // namespace

std::vector<contract::Setting> LiveSettings::listed() const {
    const std::lock_guard lock{mutex_};
    return in_force_.origins;
}

contract::ServiceReload::Result
LiveSettings::reload(const std::function<void(const Settings&)>& apply) {
    const std::lock_guard lock{mutex_};
    SettingsInForce fresh = read_settings(sources_);
    auto result = difference(in_force_.origins, fresh.origins);
    apply(fresh.settings);
    // What needs a restart is not in force yet, so its old line stays in the list.
    for (auto& setting : fresh.origins)
        if (!changes_while_running(setting.name))
            if (const auto* old = find(in_force_.origins, setting.name))
                setting = *old;
    std::erase_if(fresh.origins, [&](const auto& setting) {
        return find(in_force_.origins, setting.name) == nullptr;
    });
    in_force_ = std::move(fresh);
    return result;
}

void add_service_methods(MethodTable& table, const ServiceFacts& facts) {
    using namespace contract;
    add_direct<ServiceStatus>(
        table, "core",
        [facts, &table, started = facts.clock.now()](const Call&, const Nothing&) {
            ServiceStatus::Result status;
            status.version = BARMKEEP_VERSION;
            status.protocol = std::string(protocol::protocol_version);
            status.schema = facts.schema;
            status.started = started;
            status.now = facts.clock.now();
            status.store = facts.store;
            status.socket = facts.socket;
            status.connections = facts.connections();
            status.lanes = facts.lanes();
            status.methods = static_cast<std::int64_t>(table.rows().size());
            return status;
        },
        sheet::maker<ServiceStatus>(&status_sheet));
    add_direct<ServiceSettings>(
        table, "core",
        [facts](const Call&, const Nothing&) {
            return ServiceSettings::Result{facts.settings.listed()};
        },
        sheet::maker<ServiceSettings>(&settings_sheet));
    add_direct<ServiceReload>(
        table, "core",
        [facts](const Call&, const Nothing&) { return facts.settings.reload(facts.apply); },
        sheet::maker<ServiceReload>(&reload_sheet));
    if (facts.manual_clock == nullptr)
        return;
    add_direct<ClockSet>(
        table, "core",
        [facts](const Call&, const ClockSet::Params& params) {
            if (params.now < facts.clock.now())
                throw Error(ErrorKind::conflict, "time_goes_forward",
                            "The clock stands at " + to_text(facts.clock.now()) + " already.",
                            "Set a later time. The clock cannot go back.", "/now");
            facts.manual_clock->set(params.now);
            facts.time_changed();
            return ClockSet::Result{facts.clock.now()};
        },
        sheet::maker<ClockSet>(&clock_sheet));
}

} // namespace barmkeep::daemon
