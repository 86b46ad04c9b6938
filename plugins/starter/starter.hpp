// The plugin of yeast and starters.
#pragma once

#include "plugins/starter/making.hpp"
#include "sdk/plugin/plugin.hpp"

namespace barmkeep::starter {

/// Thread safety: holds nothing but its settings, so any method may run on any thread.
class Starter final : public plugin::Plugin {
public:
    static constexpr plugin::Identity identity{"starter", "0.1.0"};
    using Settings = starter::Settings;

    static void declare(plugin::Declaration<Starter>& declaration);
    Starter(const plugin::Host& host, const Settings& settings);

    [[nodiscard]] YeastList::Result yeast(const plugin::PluginCall& call,
                                          const YeastList::Params& params) const;
    [[nodiscard]] Plan plan(const plugin::PluginCall& call, const StarterRequest& request) const;
    [[nodiscard]] StockChange make(const plugin::PluginCall& call,
                                   const StarterRequest& request) const;
    [[nodiscard]] StockChange step(const plugin::PluginCall& call,
                                   const StarterStep::Params& params) const;
    [[nodiscard]] StarterRecord finish(const plugin::PluginCall& call,
                                       const StarterFinish::Params& params) const;
    [[nodiscard]] StarterRecord drop(const plugin::PluginCall& call,
                                     const StarterDrop::Params& params) const;
    [[nodiscard]] StockChange undo(const plugin::PluginCall& call,
                                   const StarterUndo::Params& params) const;
    [[nodiscard]] StarterRecord show(const plugin::PluginCall& call,
                                     const StarterNumber& params) const;
    [[nodiscard]] StarterList::Result list(const plugin::PluginCall& call,
                                           const StarterList::Params& params) const;

private:
    Settings settings_;
};

} // namespace barmkeep::starter
