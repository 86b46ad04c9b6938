// The canning plugin: puts together plan, process, run, storage and trace.
#pragma once

#include "plugins/canning/context.hpp"
#include "sdk/plugin/plugin.hpp"

namespace barmkeep::canning {

/// Its methods are free functions over a Context, declared by each folder for itself.
/// Thread safety: it has no state but what the settings and the start gave.
class Canning final : public plugin::Plugin, public Context {
public:
    static constexpr plugin::Identity identity{canning_owner, "0.1.0"};
    using Settings = canning::Settings;

    static void declare(Declaration& plugin);
    Canning(const plugin::Host& host, const Settings& settings);
};

// Each folder's own part of `declare`.
void declare_cautions(Declaration& plugin);
void declare_plan(Declaration& plugin);
void declare_process(Declaration& plugin);
void declare_run(Declaration& plugin);
void declare_seal(Declaration& plugin);
void declare_jars(Declaration& plugin);
void declare_storage(Declaration& plugin);
void declare_opening(Declaration& plugin);
void declare_trace(Declaration& plugin);
void declare_sheets(Declaration& plugin);

} // namespace barmkeep::canning
