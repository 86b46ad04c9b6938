// The single settings, one by one, read off the description of the Settings struct.
#pragma once

#include "sdk/method/json.hpp"

#include <string>
#include <vector>

namespace barmkeep::daemon {

struct Leaf {
    std::string section;
    std::string field;
    std::string doc;
    json::object schema;

    /// "ledger.file".
    [[nodiscard]] std::string name() const { return section + "." + field; }
    /// "BARMKEEP_LEDGER_FILE".
    [[nodiscard]] std::string variable() const;
    /// The value that an option or the environment writes as text: a number or truth value where
    /// the schema wants one, a list from parts between commas, else the text itself.
    [[nodiscard]] json::value from_text(const std::string& text) const;
};

/// All settings but those of plugins.
[[nodiscard]] const std::vector<Leaf>& all_leaves();
/// The one of that name, or null.
[[nodiscard]] const Leaf* find_leaf(const std::string& name);

} // namespace barmkeep::daemon
