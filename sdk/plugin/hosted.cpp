#include "sdk/plugin/hosted.hpp"

#include "sdk/method/schema_check.hpp"
#include "sdk/plugin/hosted_table.hpp"
#include "sdk/plugin/text.hpp"
#include "sdk/sheet/limits.hpp"

#include <algorithm>
#include <cstddef>

namespace barmkeep::plugin {
namespace {

/// How many plugins stand on this thread's stack.  A plugin may call itself of its own accord,
/// on no call's behalf, so that a count handed from call to call would miss it.
thread_local int plugins_on_stack = 0;

class OnStack {
public:
    OnStack() { ++plugins_on_stack; }
    ~OnStack() { --plugins_on_stack; }
    OnStack(const OnStack&) = delete;
    OnStack& operator=(const OnStack&) = delete;
};

Error too_deep(std::string_view method) {
    return {ErrorKind::refused, "too_deep",
            std::string(method) + " would be more than " + std::to_string(call_depth_max) +
                " plugins deep.",
            "Plugins call each other in a circle; retire one of them."};
}

Error plugin_fault(std::string_view reason, const std::string& message) {
    return {ErrorKind::unavailable, reason, message,
            "This is a fault of the plugin; report it to its author.  The log has more."};
}

/// The outcome that an answer's text stands for.  Throws for an invalid one.
Outcome outcome_of(barmkeep_ending ending, std::string_view text) {
    if (text.empty())
        throw std::invalid_argument("an empty text");
    json::value value = value_of(text);
    if (ending == BARMKEEP_RESULT)
        return value;
    if (ending != BARMKEEP_ERROR)
        throw std::invalid_argument("neither a result nor an error");
    const auto* error = value.if_object();
    const auto* message = error != nullptr ? error->if_contains("message") : nullptr;
    if (message == nullptr || !message->is_string())
        throw std::invalid_argument("an error without a message");
    return Error::from_json(value);
}

/// Throws Error(params) with every fault.
void require_fit(const json::object& given, const json::object& schema) {
    ParseContext reading;
    check_schema(given, schema, reading);
    reading.throw_faults();
}

} // namespace

Hosted::Hosted(const barmkeep_plugin* plugin, Services services)
    : plugin_{(check_descriptor(plugin), plugin)}, services_{std::move(services)},
      manifest_{read_manifest(*plugin)}, table_{Table::of(*this)} {}

bool Hosted::wants(std::string_view topic) const noexcept {
    return std::any_of(manifest_.events.begin(), manifest_.events.end(),
                       [&](const auto& beginning) { return topic.starts_with(beginning); });
}

void Hosted::start(const json::object& settings) {
    require_fit(settings, manifest_.settings);
    const std::string text = text_of(settings);
    std::string failure;
    try {
        const OnStack on_stack;
        state_ = plugin_->start(&table_, text.data(), text.size(), keep_text, &failure);
    } catch (...) {
        throw plugin_fault("plugin_threw", "The plugin threw an exception at its start.");
    }
    if (state_ != nullptr)
        return;
    json::value error;
    try {
        error = value_of(failure);
    } catch (const std::exception&) { // an invalid answer counts as none
    }
    if (error.is_null())
        throw plugin_fault("plugin_start", "The plugin did not start and did not say why.");
    throw Error::from_json(error);
}

void Hosted::stop() noexcept {
    if (state_ == nullptr)
        return;
    try {
        const OnStack on_stack;
        plugin_->stop(state_);
    } catch (...) {
        services_.log(LogLevel::error, "The plugin threw an exception at its stop.");
    }
    state_ = nullptr;
}

Outcome Hosted::call(std::string_view method, const Call& call,
                     const json::object& params) noexcept {
    try {
        return run(method, call, params);
    } catch (const Error& error) {
        return error;
    } catch (const std::exception& error) {
        return Error(ErrorKind::internal, "internal", error.what());
    }
}

Outcome Hosted::run(std::string_view method, const Call& call, const json::object& params) {
    Call inner = call;
    inner.depth = std::max(call.depth, plugins_on_stack);
    if (inner.depth >= call_depth_max)
        return too_deep(method);
    for (const auto& described : manifest_.methods)
        if (described.name == method)
            require_fit(params, described.params);
    if (!call.key.empty() && call.digest.empty())
        inner.digest = request_digest(method, params);
    const std::string text = text_of(params);
    const barmkeep_request request{sizeof(barmkeep_request),
                                   method.data(),
                                   method.size(),
                                   text.data(),
                                   text.size(),
                                   call.caller.name.data(),
                                   call.caller.name.size(),
                                   call.key.data(),
                                   call.key.size(),
                                   call.arrived.time_since_epoch().count()};
    const auto number = open(inner);
    bool threw = false;
    try {
        const OnStack on_stack;
        plugin_->call(state_, number, &request);
    } catch (...) { // one that keeps the rules never throws; another one must not end the daemon
        threw = true;
    }
    return close(number, method, threw);
}

barmkeep_call_number Hosted::open(const Call& call) {
    const std::scoped_lock lock{mutex_};
    OpenCall opened{call, std::nullopt};
    open_calls_.emplace(++last_number_, std::move(opened));
    return last_number_;
}

Outcome Hosted::close(barmkeep_call_number number, std::string_view method, bool threw) {
    OpenCall ended;
    {
        const std::scoped_lock lock{mutex_};
        ended = std::move(open_calls_.extract(number).mapped());
    }
    const auto fault = [&](std::string_view reason, const std::string& what) {
        services_.log(LogLevel::error, std::string(method) + ": " + what);
        return plugin_fault(reason, std::string(method) + ": " + what);
    };
    if (threw)
        return fault("plugin_threw", "the plugin threw an exception.");
    if (!ended.outcome)
        return fault("plugin_silent", "the plugin returned without an answer.");
    if (ended.answered_again)
        return fault("plugin_answered_twice", "the plugin answered more than once.");
    return std::move(*ended.outcome);
}

std::optional<Call> Hosted::find(barmkeep_call_number number) const {
    const std::scoped_lock lock{mutex_};
    const auto found = open_calls_.find(number);
    if (found == open_calls_.end())
        return std::nullopt;
    return found->second.call;
}

void Hosted::event(const contract::Event& event) noexcept {
    try {
        const std::string text = text_of(to_json(event));
        const OnStack on_stack;
        if (plugin_->event != nullptr)
            plugin_->event(state_, text.data(), text.size());
    } catch (...) {
        services_.log(LogLevel::error, "The plugin threw an exception on an event.");
    }
}

std::optional<json::value> Hosted::sheet(std::string_view method, const json::object& params,
                                         const json::value& result) const noexcept {
    try {
        const bool has_function =
            plugin_->size >= offsetof(barmkeep_plugin, sheet) + sizeof plugin_->sheet &&
            plugin_->sheet != nullptr;
        if (!has_function)
            throw std::runtime_error("the plugin has no function that makes sheets.");
        const std::string asked = text_of(params);
        const std::string answered = text_of(result);
        std::string text;
        plugin_->sheet(method.data(), method.size(), asked.data(), asked.size(), answered.data(),
                       answered.size(), keep_text, &text);
        auto decoded = sheet::decode_sheet(text);
        if (decoded.sheet)
            return to_json(*decoded.sheet);
        for (const auto& fault : decoded.faults)
            services_.log(LogLevel::error, std::string(method) + ": no sheet: " + fault);
    } catch (const std::exception& error) {
        services_.log(LogLevel::error, std::string(method) + ": no sheet: " + error.what());
    } catch (...) { // one that keeps the rules never throws
        services_.log(LogLevel::error, std::string(method) + ": no sheet: the plugin threw.");
    }
    return std::nullopt;
}

void Hosted::take_answer(barmkeep_call_number number, barmkeep_ending ending,
                         std::string_view text) {
    Outcome outcome = json::value(nullptr);
    try {
        outcome = outcome_of(ending, text);
    } catch (const std::exception& error) {
        services_.log(LogLevel::error,
                      std::string("The plugin answers with something invalid: ") + error.what());
        outcome =
            plugin_fault("plugin_invalid",
                         std::string("The plugin answers with something invalid: ") + error.what());
    }
    const std::scoped_lock lock{mutex_};
    const auto found = open_calls_.find(number);
    if (found == open_calls_.end())
        services_.log(LogLevel::warning, "An answer to a call that has ended is dropped.");
    else if (found->second.outcome)
        found->second.answered_again = true;
    else
        found->second.outcome = std::move(outcome);
}

Outcome Hosted::nested(barmkeep_call_number within, std::string_view method,
                       std::string_view params) {
    try {
        const json::value sent = value_of(params);
        if (!sent.is_null() && !sent.is_object() && !sent.is_array())
            throw std::invalid_argument("params that are neither an object nor an array");
        return services_.methods.call(method, nested_call(within, sent),
                                      sent.is_null() ? nullptr : &sent);
    } catch (const Error& error) {
        return error;
    } catch (const std::exception& error) {
        return Error(ErrorKind::request, "bad_request",
                     std::string("The plugin asks with something invalid: ") + error.what());
    }
}

Call Hosted::nested_call(barmkeep_call_number within, const json::value& params) const {
    Call inner;
    inner.caller = {manifest_.name, Access::keep, manifest_.name};
    inner.depth = std::max(plugins_on_stack, 1);
    if (within == BARMKEEP_OWN_ACCORD)
        return inner;
    const auto outer = find(within);
    if (!outer)
        throw Error(ErrorKind::conflict, "call_ended",
                    "The plugin asks on behalf of a call that has ended.");
    if (outer->cancelled.stop_requested())
        throw Error(ErrorKind::cancelled, "cancelled", "The request was cancelled.");
    inner.caller.name += " for " + outer->caller.name;
    // No listener goes along: with it a plugin could have the caller's connection watch events, and
    // the steps of one part of the work would pass for those of the whole.
    inner.cancelled = outer->cancelled;
    inner.arrived = outer->arrived;
    inner.depth = outer->depth + 1;
    // The digest names the outermost request.  It goes along with the keys made from that
    // request's own key, and with questions that bear no key (ledger.recall compares it).
    const auto* object = params.if_object();
    const auto* given = object != nullptr ? object->if_contains(request_key_field) : nullptr;
    const auto* key = given != nullptr ? given->if_string() : nullptr;
    if (given == nullptr || (key != nullptr && !outer->key.empty() &&
                             std::string_view(*key).starts_with(outer->key + "/")))
        inner.digest = outer->digest;
    return inner;
}

} // namespace barmkeep::plugin
