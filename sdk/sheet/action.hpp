// What a person may do next: a call with its parameters, filled in as far as they are known.
#pragma once

#include "sdk/sheet/text.hpp"

namespace barmkeep::sheet {

/// A call offered to the reader.  The terminal prints its command; a page that is connected shows a
/// button; paper leaves it out.  The host takes out actions above the caller's rights.
struct Action {
    std::string label{};                 ///< what it does, verb first: "start the load"
    std::string method{};                ///< the method to call
    json::object params{};               ///< what is known already
    std::vector<std::string> ask{};      ///< names of parameters the person still has to give
    std::optional<std::string> letter{}; ///< key while a sheet is followed: one of a to z
    bool usual = false;                  ///< what most people do next; at most one of a sheet
    bool confirm = false;                ///< ask before calling: it cannot be undone
    bool operator==(const Action&) const = default;
    static FieldList fields(auto) {
        return {field<&Action::label>("What it does, verb first."),
                field<&Action::method>("The method to call."),
                field<&Action::params>("The parameters that are known already.").defaulted(),
                field<&Action::ask>("Names of the parameters to ask the person for.").defaulted(),
                field<&Action::letter>("The key for it while a sheet is followed: one letter."),
                field<&Action::usual>("Whether this is what most people do next.").defaulted(),
                field<&Action::confirm>("Whether to ask before calling.").defaulted()};
    }
};

} // namespace barmkeep::sheet
