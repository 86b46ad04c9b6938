// Writing a plugin in C++: include this header, link barmkeep::plugin, export one class.
//
//     struct Greeting {
//         static constexpr barmkeep::About about{"greeting.say", barmkeep::Access::look,
//                                                barmkeep::Effect::reads, "Greets the cellar."};
//         using Params = barmkeep::Nothing;
//         struct Result {
//             std::string text;
//             static barmkeep::FieldList fields(auto) {
//                 return {barmkeep::field<&Result::text>("The greeting.")};
//             }
//         };
//     };
//
//     class Greeter final : public barmkeep::plugin::Plugin {
//     public:
//         static constexpr barmkeep::plugin::Identity identity{"greeting", "1.0.0"};
//
//         struct Settings { ... static barmkeep::FieldList fields(auto) ... };   // may be left out
//
//         static void declare(barmkeep::plugin::Declaration<Greeter>& plugin) {
//             plugin.method<Greeting>(&Greeter::say);
//             plugin.event("lot.", &Greeter::lot_changed);
//         }
//
//         Greeter(const barmkeep::plugin::Host& host, const Settings& settings);
//
//     private:
//         Greeting::Result say(const barmkeep::plugin::PluginCall&, const barmkeep::Nothing&);
//         void lot_changed(const barmkeep::contract::Event&);
//     };
//
//     BARMKEEP_PLUGIN(Greeter)
//
// `declare` is run before any instance is made and names all that the plugin offers.  The
// constructor is the start: what it throws is shown to the operator as the reason why the plugin
// failed.  Settings are read and checked before it; an unknown one is refused with the nearest
// known name.  (With no `Settings` the second parameter is a `const barmkeep::Nothing&`.)  The
// host outlives the plugin.  The destructor is the stop.
//
// Thread safety: methods are called from several threads at once, and an event beside them; a
// plugin with state of its own guards it.  Never hold a lock while calling the host: the call may
// lead back to the plugin.
#pragma once

#include "sdk/plugin/edge.hpp"

namespace barmkeep::plugin {

/// The C description of the plugin P; fake hosts take it, and the macro below exports it.
template <class P>
const barmkeep_plugin& descriptor() noexcept {
    static constexpr barmkeep_plugin description{
        sizeof(barmkeep_plugin),
        BARMKEEP_PLUGIN_MAGIC,
        BARMKEEP_ABI_MAJOR,
        BARMKEEP_ABI_MINOR,
        [](barmkeep_sink sink, void* context) { edge::describe(&declared<P>, sink, context); },
        [](const barmkeep_host* host, const char* settings, std::size_t length,
           barmkeep_sink failure, void* context) {
            return edge::start(&declared<P>, host, settings, length, failure, context);
        },
        &edge::call,
        &edge::event,
        &edge::stop,
        [](const char* method, std::size_t method_length, const char* params,
           std::size_t params_length, const char* result, std::size_t result_length,
           barmkeep_sink sink, void* context) {
            edge::sheet(&declared<P>, {method, method_length}, {params, params_length},
                        {result, result_length}, sink, context);
        }};
    return description;
}

} // namespace barmkeep::plugin

/// Exports P as the plugin of this shared object.  Once, at namespace scope.
#define BARMKEEP_PLUGIN(P)                                                                         \
    extern "C" BARMKEEP_PLUGIN_EXPORT const barmkeep_plugin* barmkeep_plugin_entry(void) {         \
        return &::barmkeep::plugin::descriptor<P>();                                               \
    }
