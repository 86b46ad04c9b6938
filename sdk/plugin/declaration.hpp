// What a plugin offers and wants to hear, declared before it is started.
#pragma once

#include "sdk/contract/event.hpp"
#include "sdk/plugin/plugin_call.hpp"
#include "sdk/sheet/maker.hpp"

#include <functional>
#include <memory>
#include <vector>

namespace barmkeep::plugin {

/// Base of every plugin.  Its constructor starts it, its destructor stops it.
class Plugin {
public:
    Plugin() = default;
    virtual ~Plugin() = default;
    Plugin(const Plugin&) = delete;
    Plugin& operator=(const Plugin&) = delete;
};

/// A plugin's name (that of its file, without .so) and version.
struct Identity {
    std::string_view name;
    std::string_view version;
};

/// All that is known of a plugin before it starts.  Unchanging once made.
struct Declared {
    struct Answerer {
        Description description;
        std::function<json::value(Plugin&, const PluginCall&, const json::object&)> answer;
        /// Makes the sheet of an answer; empty if the method has none.
        std::function<json::value(const json::object& params, const json::value& result)> sheet{};
    };
    struct EventTaker {
        std::string beginning; ///< of the topics wanted
        std::function<void(Plugin&, const contract::Event&)> take;
    };

    Identity identity;
    std::vector<Answerer> methods;
    std::vector<EventTaker> events;
    json::object settings; ///< schema
    std::function<std::unique_ptr<Plugin>(const Host&, const json::object& settings)> make;
};

/// Passed to `P::declare`; see plugin.hpp.
template <class P>
class Declaration {
public:
    explicit Declaration(Declared& declared) : declared_{declared} {}

    /// Adds a method.  `handler` is a member function or any callable
    ///     M::Result handler(P&, const PluginCall&, const M::Params&)
    /// Params are checked against their fields before it runs.  What it throws becomes the
    /// caller's error.  It runs on several of the host's threads at once.
    template <Method M, class Handler>
    void method(Handler handler) {
        declared_.methods.push_back(
            {describe<M>(),
             [handler](Plugin& plugin, const PluginCall& call, const json::object& params) {
                 return to_json<typename M::Result>(std::invoke(
                     handler, static_cast<P&>(plugin), call, read_as<typename M::Params>(params)));
             },
             {}});
    }

    /// Gives a method that was added before the function that makes the sheet of its answers, which
    /// a person reads.  It has no access to the plugin or the host.
    template <Method M>
    void sheet(sheet::SheetOf<M> function) {
        for (auto& answerer : declared_.methods)
            if (answerer.description.name == M::about.name) {
                answerer.description.has_sheet = true;
                answerer.sheet = [function](const json::object& params, const json::value& result) {
                    return sheet::made<M>(function, params, result);
                };
            }
    }

    /// Adds a handler of the events whose topic begins so, as "lot." or "entry.posted":
    ///     void handler(P&, const contract::Event&)
    /// One event at a time and in order, but beside calls of methods.  What it throws is logged.
    /// When so many events wait that some had to be dropped, the topic is "event.missed": whoever
    /// keeps a sum of events must count again.
    template <class Handler>
    void event(std::string_view topic_beginning, Handler handler) {
        declared_.events.push_back(
            {std::string(topic_beginning), [handler](Plugin& plugin, const contract::Event& event) {
                 std::invoke(handler, static_cast<P&>(plugin), event);
             }});
    }

    /// The same for one of the core's own topics.
    template <class Handler>
    void event(contract::Topic topic, Handler handler) {
        event(to_string(topic), handler);
    }

private:
    Declared& declared_;
};

namespace detail {
template <class P>
struct SettingsOf {
    using type = Nothing;
};
template <class P>
requires requires {
    typename P::Settings;
}
struct SettingsOf<P> {
    using type = typename P::Settings;
};
} // namespace detail

/// The declaration of P, made at the first call.
template <class P>
const Declared& declared() {
    using Settings = typename detail::SettingsOf<P>::type;
    static const Declared made = [] {
        Declared one;
        one.identity = P::identity;
        one.settings = Codec<Settings>::schema(Direction::taken);
        one.make = [](const Host& host, const json::object& settings) -> std::unique_ptr<Plugin> {
            return std::make_unique<P>(host, read_as<Settings>(settings));
        };
        Declaration<P> declaration{one};
        P::declare(declaration);
        return one;
    }();
    return made;
}

} // namespace barmkeep::plugin
