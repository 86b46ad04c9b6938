// What a plugin says of itself before it is started.
#pragma once

#include "sdk/abi/barmkeep_plugin.h"
#include "sdk/method/about.hpp"

namespace barmkeep::plugin {

struct Manifest {
    std::string name;
    std::string version;
    std::vector<Description> methods;
    std::vector<std::string> events;
    json::object settings;
    static FieldList fields(auto) {
        return {field<&Manifest::name>("Small letters and _; the file's name without .so.")
                    .length(1, 40),
                field<&Manifest::version>("Its version.").length(1, 40),
                field<&Manifest::methods>("The methods it adds.").defaulted().length(0, 200),
                field<&Manifest::events>("Beginnings of the topics it wants to hear of.")
                    .defaulted()
                    .length(0, 50),
                field<&Manifest::settings>("JSON Schema of its settings.").defaulted()};
    }
};

/// Whether a plugin may bear the name: small letters and `_`, not a name of the core's.
[[nodiscard]] bool is_plugin_name(std::string_view name) noexcept;

/// Checks a plugin's descriptor.  Throws Error(unavailable) that says what is wrong and, of two
/// versions that do not fit, which side to update.
void check_descriptor(const barmkeep_plugin* plugin);

/// Asks a plugin to describe itself and checks the answer.  REQUIRES: the descriptor was checked.
/// Throws Error(unavailable) that lists the faults.
[[nodiscard]] Manifest read_manifest(const barmkeep_plugin& plugin);

} // namespace barmkeep::plugin
