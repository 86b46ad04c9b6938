// Where the socket and a person's settings are found.  The daemon uses the same rule for the
// place where it listens, so that the two meet without a word of configuration.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barmkeep::client {

/// Looks up one variable of the environment; nothing if it is not set.  A seam for tests.
using Environment = std::function<std::optional<std::string>(std::string_view name)>;
/// The environment of this process.  Not for use while another thread changes it.
[[nodiscard]] Environment process_environment();
/// The variable's value, if it is set and not empty.
[[nodiscard]] std::optional<std::string> non_empty(const Environment& environment,
                                                   std::string_view name);

inline constexpr std::string_view socket_variable = "BARMKEEP_SOCKET";
inline constexpr std::string_view system_socket_path = "/run/barmkeep/barmkeep.sock";
/// Bytes that a socket's path can have on Linux: sun_path less its closing zero.
inline constexpr std::size_t socket_path_length_max = 107;

/// Where a person's daemon listens by default: $XDG_RUNTIME_DIR/barmkeep/barmkeep.sock;
/// where that is not set (or not absolute, which the XDG rules say to pass over), in the folder of
/// the ledger; without a home, the system's place.
[[nodiscard]] std::string usual_socket_path(const Environment& environment);

/// $XDG_STATE_HOME/barmkeep, else $HOME/.local/state/barmkeep: where a person's ledger is kept;
/// nothing where neither variable holds an absolute path.
[[nodiscard]] std::optional<std::string> user_state_folder(const Environment& environment);

/// $XDG_CONFIG_HOME/barmkeep/NAME, else $HOME/.config/barmkeep/NAME; nothing where neither
/// variable holds an absolute path.
[[nodiscard]] std::optional<std::string> user_config_file(const Environment& environment,
                                                          std::string_view name);
/// /etc/barmkeep/NAME.
[[nodiscard]] std::string system_config_file(std::string_view name);

/// A value and where it came from, for a person who wonders.
struct Located {
    std::string value;
    std::string from;
};

/// The socket to connect to, in this order: `option`, the variable, `configured`, the person's
/// usual place, the system's place.  The last is taken only where the person's own socket does
/// not exist and the system's does, according to `exists`.
[[nodiscard]] Located choose_socket(const std::optional<std::string>& option,
                                    const Environment& environment,
                                    const std::optional<Located>& configured,
                                    const std::function<bool(const std::string&)>& exists);

} // namespace barmkeep::client
