#include "daemon/log.hpp"

#include "daemon/service_manager.hpp"

#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/sinks/systemd_sink.h>

namespace barmkeep::daemon {

std::shared_ptr<spdlog::logger> make_log(const LogSettings& settings) {
    const bool journal = settings.to == LogTarget::journal ||
                         (settings.to == LogTarget::automatic && stderr_is_journal());
    spdlog::sink_ptr sink;
    if (journal)
        sink = std::make_shared<spdlog::sinks::systemd_sink_mt>("barmkeepd");
    else
        sink = std::make_shared<spdlog::sinks::stderr_sink_mt>();
    auto log = std::make_shared<spdlog::logger>("barmkeepd", std::move(sink));
    if (!journal)
        log->set_pattern("%Y-%m-%dT%H:%M:%S%z %l %v");
    set_level(*log, settings.level);
    log->flush_on(spdlog::level::info);
    return log;
}

void set_level(spdlog::logger& log, LogLevel level) {
    switch (level) {
    case LogLevel::debug:
        return log.set_level(spdlog::level::debug);
    case LogLevel::info:
        return log.set_level(spdlog::level::info);
    case LogLevel::warning:
        return log.set_level(spdlog::level::warn);
    case LogLevel::error:
        return log.set_level(spdlog::level::err);
    }
}

} // namespace barmkeep::daemon
