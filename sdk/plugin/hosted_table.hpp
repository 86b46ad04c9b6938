// The host's functions behind the C table.  For the SDK's own use.
#pragma once

#include "sdk/plugin/hosted.hpp"

namespace barmkeep::plugin {

struct Hosted::Table {
    [[nodiscard]] static barmkeep_host of(Hosted& hosted) noexcept;

    static void answer(const barmkeep_host* host, barmkeep_call_number call, barmkeep_ending ending,
                       const char* text, std::size_t length) noexcept;
    static barmkeep_ending call(const barmkeep_host* host, barmkeep_call_number within,
                                const char* method, std::size_t method_length, const char* params,
                                std::size_t params_length, barmkeep_sink sink,
                                void* sink_context) noexcept;
    static int cancelled(const barmkeep_host* host, barmkeep_call_number call) noexcept;
    static void progress(const barmkeep_host* host, barmkeep_call_number call, double done,
                         double total, const char* message, std::size_t length) noexcept;
    static std::int64_t now(const barmkeep_host* host) noexcept;
    static void log(const barmkeep_host* host, barmkeep_log_level level, const char* text,
                    std::size_t length) noexcept;

private:
    static Hosted& hosted(const barmkeep_host* host) noexcept {
        return *static_cast<Hosted*>(host->context);
    }
    /// Runs `work`; what it throws is logged, for nothing may cross the boundary.
    template <class Work>
    static void guarded(const barmkeep_host* host, Work work) noexcept {
        try {
            work(hosted(host));
        } catch (const std::exception& error) {
            hosted(host).services_.log(LogLevel::error, error.what());
        } catch (...) {
            hosted(host).services_.log(LogLevel::error, "The plugin's sink threw an exception.");
        }
    }
};

} // namespace barmkeep::plugin
