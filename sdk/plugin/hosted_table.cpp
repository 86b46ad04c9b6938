#include "sdk/plugin/hosted_table.hpp"

#include "sdk/plugin/text.hpp"

#include <cmath>

namespace barmkeep::plugin {
namespace {

LogLevel level_of(barmkeep_log_level level) noexcept {
    // A plugin may hand over any number.
    const bool known = level >= BARMKEEP_LOG_DEBUG && level <= BARMKEEP_LOG_ERROR;
    return known ? static_cast<LogLevel>(level) : LogLevel::info;
}

} // namespace

barmkeep_host Hosted::Table::of(Hosted& hosted) noexcept {
    return {sizeof(barmkeep_host), BARMKEEP_ABI_MAJOR, BARMKEEP_ABI_MINOR, &hosted,
            &Table::answer,        &Table::call,       &Table::cancelled,  &Table::progress,
            &Table::now,           &Table::log};
}

void Hosted::Table::answer(const barmkeep_host* host, barmkeep_call_number call,
                           barmkeep_ending ending, const char* text, std::size_t length) noexcept {
    guarded(host, [&](Hosted& hosted) { hosted.take_answer(call, ending, view_of(text, length)); });
}

barmkeep_ending Hosted::Table::call(const barmkeep_host* host, barmkeep_call_number within,
                                    const char* method, std::size_t method_length,
                                    const char* params, std::size_t params_length,
                                    barmkeep_sink sink, void* sink_context) noexcept {
    barmkeep_ending ending = BARMKEEP_ERROR;
    guarded(host, [&](Hosted& hosted) {
        Outcome outcome =
            hosted.nested(within, view_of(method, method_length), view_of(params, params_length));
        std::string text;
        try {
            if (const auto* result = std::get_if<json::value>(&outcome)) {
                text = text_of(*result);
                ending = BARMKEEP_RESULT;
            }
        } catch (const Error& error) { // a result too long for the boundary
            outcome = error;
        }
        if (ending == BARMKEEP_ERROR)
            text = text_of(std::get<Error>(outcome).to_json());
        sink(sink_context, text.data(), text.size());
    });
    return ending;
}

int Hosted::Table::cancelled(const barmkeep_host* host, barmkeep_call_number call) noexcept {
    bool unwanted = false;
    guarded(host, [&](Hosted& hosted) {
        if (call == BARMKEEP_OWN_ACCORD)
            return;
        const auto found = hosted.find(call);
        unwanted = !found || found->cancelled.stop_requested();
    });
    return unwanted ? 1 : 0;
}

void Hosted::Table::progress(const barmkeep_host* host, barmkeep_call_number call, double done,
                             double total, const char* message, std::size_t length) noexcept {
    guarded(host, [&](Hosted& hosted) {
        if (!std::isfinite(done) || !std::isfinite(total))
            throw std::invalid_argument("The plugin's progress is not a finite number.");
        if (const auto found = hosted.find(call))
            send_progress(*found, done, total, one_line(view_of(message, length)));
    });
}

std::int64_t Hosted::Table::now(const barmkeep_host* host) noexcept {
    return hosted(host).services_.clock.now().time_since_epoch().count();
}

void Hosted::Table::log(const barmkeep_host* host, barmkeep_log_level level, const char* text,
                        std::size_t length) noexcept {
    guarded(host, [&](Hosted& hosted) {
        hosted.services_.log(level_of(level), one_line(view_of(text, length)));
    });
}

} // namespace barmkeep::plugin
