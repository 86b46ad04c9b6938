// Where settings come from, and which one wins.
//
// In falling order: option (`--set ledger.file=...`), environment (BARMKEEP_LEDGER_FILE), the
// user's file, the system's file, built in.  Each value remembers its origin, so that a fault can
// name the file and the line, and `--print-settings` can say where everything came from.
#pragma once

#include "daemon/settings/settings.hpp"
#include "sdk/client/paths.hpp"
#include "sdk/contract/service.hpp"

#include <filesystem>

namespace barmkeep::daemon {

using client::Environment;

struct SettingSources {
    std::vector<std::string> options; ///< "section.name=value"
    Environment environment;
    std::vector<std::filesystem::path>
        files;                   ///< the first outranks the next; absent ones are skipped
    bool files_required = false; ///< a file named by hand must be there
    bool is_root = false;        ///< whose built-in paths hold
};

/// The user's file and the system's file.
[[nodiscard]] std::vector<std::filesystem::path> usual_files(const Environment& environment);

struct SettingsInForce {
    Settings settings;
    std::vector<contract::Setting> origins; ///< every setting, its value and its origin
};

/// Reads everything and throws Error(params) with all faults at once; each message begins with
/// the origin, such as "/etc/barmkeep/barmkeepd.toml line 12".
[[nodiscard]] SettingsInForce read_settings(const SettingSources& sources);

/// A commented sample of the file with every setting and its built-in value.
[[nodiscard]] std::string sample_file();

} // namespace barmkeep::daemon
