// The plugin of what jars cost.
#pragma once

#include "plugins/cost/comparison.hpp"
#include "sdk/plugin/plugin.hpp"

namespace barmkeep::cost {

/// Thread safety: holds nothing, so any method may run on any thread.
class Cost final : public plugin::Plugin {
public:
    static constexpr plugin::Identity identity{"cost", "0.1.0"};

    static void declare(plugin::Declaration<Cost>& declaration);
    Cost(const plugin::Host&, const Nothing&) {}

    [[nodiscard]] CostJar::Result jar(const plugin::PluginCall& call,
                                      const CostJar::Params& params) const;
    [[nodiscard]] CostCompare::Result compare(const plugin::PluginCall& call,
                                              const CostCompare::Params& params) const;
};

} // namespace barmkeep::cost
