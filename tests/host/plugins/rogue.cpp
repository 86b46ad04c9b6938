// A plugin that passes the checks and then breaks the rules, one rule a method.  It is written
// against the C header alone, for the SDK would not let it.
#include "sdk/abi/barmkeep_plugin.h"

#include <atomic>
#include <chrono>
#include <string>
#include <string_view>
#include <thread>

namespace {

struct Rogue {
    const barmkeep_host* host;
    std::atomic<barmkeep_call_number> last{0}; ///< a call that has ended
};

void keep(void* text, const char* bytes, size_t length) {
    static_cast<std::string*>(text)->assign(bytes, length);
}

void answer(const Rogue& rogue, barmkeep_call_number number, std::string_view text,
            barmkeep_ending ending = BARMKEEP_RESULT) {
    rogue.host->answer(rogue.host, number, ending, text.data(), text.size());
}

/// Calls a method and answers with what it answers.
void relay(const Rogue& rogue, barmkeep_call_number number, barmkeep_call_number within,
           std::string_view method, std::string_view params) {
    std::string text;
    const auto ending = rogue.host->call(rogue.host, within, method.data(), method.size(),
                                         params.data(), params.size(), keep, &text);
    answer(rogue, number, text, ending);
}

void note(const Rogue& rogue, barmkeep_call_number within) {
    std::string ignored;
    const std::string_view method = "test.note";
    rogue.host->call(rogue.host, within, method.data(), method.size(), "{}", 2, keep, &ignored);
}

/// Sends the core a sign that it has begun, and stands still.
void wait_until_unwanted(const Rogue& rogue, barmkeep_call_number number) {
    std::string ignored;
    const std::string_view method = "test.heard";
    rogue.host->call(rogue.host, number, method.data(), method.size(), "{}", 2, keep, &ignored);
    while (rogue.host->cancelled(rogue.host, number) == 0)
        std::this_thread::yield();
}

constexpr std::string_view methods[] = {"gate",    "invalid", "infinite",  "neither", "bare",
                                        "twice",   "silent",  "throw",     "stone",   "circle",
                                        "slow",    "ended",   "primitive", "count",   "after",
                                        "forever", "step",    "own",       "log"};

void describe(barmkeep_sink sink, void* context) {
    std::string text = R"({"name": "rogue", "version": "9", "events": ["lot."], "methods": [)";
    for (const auto name : methods)
        text += std::string(name == methods[0] ? "" : ", ") + R"({"name": "rogue.)" +
                std::string(name) +
                (name == "step" || name == "log"
                     ? R"(", "access": "keep", "effect": "writes", "lane": "log", )"
                     : R"(", "access": "look", "effect": "reads", "lane": "fast", )") +
                R"("doc": "Breaks a rule.", )"
                R"("params": {"type": "object"}, "result": {}})";
    text += "]}";
    sink(context, text.data(), text.size());
}

void* start(const barmkeep_host* host, const char*, size_t, barmkeep_sink, void*) {
    return new Rogue{host};
}

void call(void* state, barmkeep_call_number number, const barmkeep_request* request) {
    auto& rogue = *static_cast<Rogue*>(state);
    const std::string_view method{request->method, request->method_length};
    const std::string_view params{request->params, request->params_length};
    if (method == "rogue.gate" || method == "rogue.log")
        relay(rogue, number, number, "test.gate", params);
    else if (method == "rogue.invalid")
        answer(rogue, number, "Guten Tag");
    else if (method == "rogue.infinite")
        answer(rogue, number, "1e999");
    else if (method == "rogue.neither")
        answer(rogue, number, "{}", 7);
    else if (method == "rogue.bare")
        answer(rogue, number, "{\"code\": 1}", BARMKEEP_ERROR);
    else if (method == "rogue.twice") {
        answer(rogue, number, "1");
        answer(rogue, number, "2");
    } else if (method == "rogue.throw")
        throw std::string("over the edge");
    else if (method == "rogue.stone")
        throw 42;
    else if (method == "rogue.circle")
        relay(rogue, number, BARMKEEP_OWN_ACCORD, "rogue.circle", "{}");
    else if (method == "rogue.slow") {
        wait_until_unwanted(rogue, number);
        answer(rogue, number, "\"at last\"");
    } else if (method == "rogue.forever") {
        for (;;)
            std::this_thread::sleep_for(std::chrono::hours{1});
    } else if (method == "rogue.after") {
        wait_until_unwanted(rogue, number);
        relay(rogue, number, number, "test.heard", "{}");
    } else if (method == "rogue.ended") {
        answer(rogue, rogue.last, "1");
        relay(rogue, number, rogue.last, "test.heard", "{}");
    } else if (method == "rogue.step") {
        note(rogue, number);
        answer(rogue, number, std::to_string(request->arrived));
    } else if (method == "rogue.own") {
        note(rogue, BARMKEEP_OWN_ACCORD);
        answer(rogue, number, "1");
    } else if (method == "rogue.primitive")
        relay(rogue, number, number, "test.heard", "5");
    else if (method == "rogue.count")
        relay(rogue, number, number, "tally.count", params);
    rogue.last = number;
}

void event(void* state, const char* text, size_t length) {
    const auto& rogue = *static_cast<Rogue*>(state);
    std::string ignored;
    const std::string_view method = "test.heard";
    rogue.host->call(rogue.host, BARMKEEP_OWN_ACCORD, method.data(), method.size(), text, length,
                     keep, &ignored);
}

void stop(void* state) {
    const auto* rogue = static_cast<Rogue*>(state);
    const std::string_view word = "rogue has stopped";
    rogue->host->log(rogue->host, BARMKEEP_LOG_INFO, word.data(), word.size());
    delete rogue;
}

constexpr barmkeep_plugin plugin{sizeof(barmkeep_plugin),
                                 BARMKEEP_PLUGIN_MAGIC,
                                 BARMKEEP_ABI_MAJOR,
                                 BARMKEEP_ABI_MINOR,
                                 describe,
                                 start,
                                 call,
                                 event,
                                 stop,
                                 nullptr};

} // namespace

extern "C" const barmkeep_plugin* barmkeep_plugin_entry(void) {
    return &plugin;
}
