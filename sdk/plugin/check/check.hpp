// Tries a plugin as its author should before giving it to others.
#pragma once

#include "sdk/plugin/fake_host.hpp"

#include <chrono>
#include <filesystem>
#include <iosfwd>

namespace barmkeep::plugin {

struct CheckOptions {
    std::filesystem::path file;
    json::object settings;                    ///< what it is started with
    std::chrono::milliseconds time_max{5000}; ///< for each step
};

/// Loads the plugin and puts it through its paces against a fake host that has no method of the
/// core, so that every call the plugin makes is answered by an error: it must say so, and never
/// hang, throw, or answer invalid JSON.  Prints a line a step to `out`; answers how many failed.
///
/// A step that does not end is reported, and then the process ends with status 1 there and then:
/// the plugin's thread cannot be ended otherwise.
[[nodiscard]] int check_plugin(const CheckOptions& options, std::ostream& out);

} // namespace barmkeep::plugin
