// A person's settings for barm, and where each came from: option, environment, their file,
// the system's file, built in.
#pragma once

#include "sdk/client/paths.hpp"

#include <map>
#include <stdexcept>
#include <vector>

namespace barmkeep::barm {

/// A setting that is wrong; names the file and line, or the variable.
class PreferenceError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Reads a file whole; nothing if there is none.  A seam for tests.
using ReadFile = std::function<std::optional<std::string>(const std::string& path)>;

/// What can be set.
struct PreferenceRule {
    std::string_view name;     ///< in a settings file; as an option --name with dashes
    std::string_view variable; ///< in the environment
    std::string_view built_in; ///< what holds if nobody says anything
};
[[nodiscard]] const std::vector<PreferenceRule>& preference_rules();

class Preferences {
public:
    /// Reads the environment and the two files.  Throws PreferenceError for a file that is no
    /// TOML, a setting that is unknown or is no text.
    Preferences(const client::Environment& environment, const ReadFile& read_file);

    /// The value for a name of preference_rules(), `option` first.
    [[nodiscard]] client::Located value(std::string_view name,
                                        const std::optional<std::string>& option) const;
    /// What the environment and the files say; nothing where they are silent.
    [[nodiscard]] std::optional<client::Located> said(std::string_view name) const;
    /// Only the files.
    [[nodiscard]] std::optional<client::Located> configured(std::string_view name) const;

private:
    void read_settings_file(const std::string& path, const ReadFile& read_file);

    std::map<std::string, client::Located, std::less<>> environment_;
    std::map<std::string, client::Located, std::less<>> files_;
};

} // namespace barmkeep::barm
