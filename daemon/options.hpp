// The command line of barmkeepd.
#pragma once

#include "sdk/method/time.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace barmkeep::daemon {

enum class Task { serve, help, version, manual, print_settings, sample_settings, restore };

struct Options {
    Task task = Task::serve;
    std::vector<std::string> set;                ///< --set section.name=value, each
    std::optional<std::filesystem::path> config; ///< --config FILE, in place of the usual files
    std::optional<Instant> clock;                ///< --clock INSTANT: a clock that stands until set
    bool safe = false;                           ///< --safe: no plugins
    std::filesystem::path backup;                ///< --restore FILE
};

/// Throws Error(params) with every fault at once.
[[nodiscard]] Options parse_options(const std::vector<std::string>& arguments);

/// What --help prints: the options, then every setting with its doc.
[[nodiscard]] std::string help_text();
/// The same as a man page, in troff's man macros.
[[nodiscard]] std::string man_page(std::string_view version);

} // namespace barmkeep::daemon
