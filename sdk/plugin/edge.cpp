#include "sdk/plugin/edge.hpp"

#include "sdk/method/call.hpp"
#include "sdk/plugin/text.hpp"

#include <cstddef>

namespace barmkeep::plugin::edge {
namespace {

/// A started plugin; its address is the state that the host keeps for us.
struct Running {
    const Declared& declared;
    Host host;
    const barmkeep_host& table;
    std::unique_ptr<Plugin> plugin;
};

json::object object_of(std::string_view text) {
    const json::value value = value_of(text);
    if (value.is_null())
        return {};
    return value.as_object();
}

json::object description_of(const Declared& declared) {
    json::array methods;
    for (const auto& method : declared.methods)
        methods.push_back(to_json(method.description));
    json::array events;
    for (const auto& taker : declared.events)
        events.push_back(json::value(taker.beginning));
    return {{"name", declared.identity.name},
            {"version", declared.identity.version},
            {"methods", std::move(methods)},
            {"events", std::move(events)},
            {"settings", declared.settings}};
}

const Declared::Answerer& answerer_of(const Declared& declared, std::string_view method) {
    for (const auto& answerer : declared.methods)
        if (answerer.description.name == method)
            return answerer;
    throw Error(ErrorKind::method_unknown, "method_unknown",
                "This plugin has no method '" + std::string(method) + "'.");
}

/// When a request arrived; the present, where the host is of a version that does not say.
Instant arrival_of(const barmkeep_request& request, const Host& host) {
    if (request.size < offsetof(barmkeep_request, arrived) + sizeof request.arrived)
        return host.now();
    return Instant{std::chrono::milliseconds{request.arrived}};
}

/// Gives an outcome to the host.  A result that cannot be written becomes an error that can.
void send(const barmkeep_host& host, barmkeep_call_number number, Outcome outcome) noexcept {
    const auto give = [&](barmkeep_ending ending, const std::string& text) {
        host.answer(&host, number, ending, text.data(), text.size());
    };
    try {
        try {
            if (const auto* result = std::get_if<json::value>(&outcome))
                return give(BARMKEEP_RESULT, text_of(*result));
        } catch (const Error& error) {
            outcome = error;
        }
        give(BARMKEEP_ERROR, text_of(std::get<Error>(outcome).to_json()));
    } catch (...) { // out of memory: the host notices that no answer came
    }
}

void take_event(const Running& running, const contract::Event& event) {
    for (const auto& taker : running.declared.events)
        if (event.topic.starts_with(taker.beginning) || event.topic == "event.missed")
            taker.take(*running.plugin, event);
}

} // namespace

void describe(DeclaredBy declared, barmkeep_sink sink, void* context) noexcept {
    try {
        const std::string text = text_of(description_of(declared()));
        sink(context, text.data(), text.size());
    } catch (...) { // the host refuses a plugin that does not describe itself
    }
}

void* start(DeclaredBy declared, const barmkeep_host* host, const char* settings,
            std::size_t length, barmkeep_sink failure, void* context) noexcept {
    void* state = nullptr;
    const Done done = [&](const Outcome& outcome) {
        const auto* error = std::get_if<Error>(&outcome);
        if (error == nullptr)
            return;
        try {
            const std::string text = text_of(error->to_json());
            failure(context, text.data(), text.size());
        } catch (...) { // null is failure enough
        }
    };
    answer(done, [&]() -> json::value {
        auto running = std::make_unique<Running>(Running{declared(), Host{*host}, *host, nullptr});
        running->plugin =
            running->declared.make(running->host, object_of(view_of(settings, length)));
        state = running.release(); // the host's, until it hands it to stop
        return nullptr;
    });
    return state;
}

void call(void* state, barmkeep_call_number number, const barmkeep_request* request) noexcept {
    const auto& running = *static_cast<Running*>(state);
    const Done done = [&](Outcome outcome) {
        send(running.table, number, std::move(outcome));
    };
    answer(done, [&] {
        const auto& answerer =
            answerer_of(running.declared, view_of(request->method, request->method_length));
        const PluginCall circumstances{
            running.table, number, std::string(view_of(request->caller, request->caller_length)),
            std::string(view_of(request->key, request->key_length)),
            arrival_of(*request, running.host)};
        return answerer.answer(*running.plugin, circumstances,
                               object_of(view_of(request->params, request->params_length)));
    });
}

void event(void* state, const char* event, std::size_t length) noexcept {
    const auto& running = *static_cast<Running*>(state);
    const Done done = [&](const Outcome& outcome) {
        if (const auto* error = std::get_if<Error>(&outcome))
            running.host.log(LogLevel::error,
                             std::string("An event could not be handled: ") + error->what());
    };
    answer(done, [&]() -> json::value {
        take_event(running, decode<contract::Event>(value_of(view_of(event, length))));
        return nullptr;
    });
}

void stop(void* state) noexcept {
    const std::unique_ptr<Running> ended{static_cast<Running*>(state)};
}

void sheet(DeclaredBy declared, std::string_view method, std::string_view params,
           std::string_view result, barmkeep_sink sink, void* context) noexcept {
    try {
        const auto& answerer = answerer_of(declared(), method);
        if (!answerer.sheet)
            return;
        const std::string text = text_of(answerer.sheet(object_of(params), value_of(result)));
        sink(context, text.data(), text.size());
    } catch (...) { // the host shows the general form
    }
}

} // namespace barmkeep::plugin::edge
