// The plugin of reorder points and their reminders.
#pragma once

#include "plugins/reorder/good_status.hpp"
#include "sdk/plugin/plugin.hpp"

namespace barmkeep::reorder {

/// Keeps nothing in memory: the reorder points are records, and after every event the reminders are
/// computed again from the cellar as it is.  So a missed event only delays a reminder.
///
/// Thread safety: any method on any thread.
class Reorder final : public plugin::Plugin {
public:
    static constexpr plugin::Identity identity{"reorder", "0.1.0"};

    static void declare(plugin::Declaration<Reorder>& declaration);
    /// Updates the reminders; if that fails, it is logged and the plugin starts all the same.
    Reorder(const plugin::Host& host, const Nothing& settings);

    [[nodiscard]] ReorderPoint set(const plugin::PluginCall& call,
                                   const ReorderSet::Params& params) const;
    [[nodiscard]] ReorderList::Result list(const plugin::PluginCall& call, const Nothing&) const;
    [[nodiscard]] ReorderRemove::Result remove(const plugin::PluginCall& call,
                                               const ReorderRemove::Params& params) const;
    [[nodiscard]] ReorderCheck::Result check(const plugin::PluginCall& call,
                                             const ReorderCheck::Params& params) const;

private:
    void stock_moved(const contract::Event& event) const;
    void record_moved(const contract::Event& event) const;
    void events_missed(const contract::Event& event) const;
    /// Posts the reminders of goods that are low and clears those of goods that are not.
    void refresh() const;

    const plugin::Host& host_;
};

} // namespace barmkeep::reorder
