#include "plugins/canning/canning.hpp"

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/method/clock.hpp"

#include <atomic>
#include <ctime>
#include <unistd.h>

namespace barmkeep::canning {
namespace {

/// A word that no other start of the plugin has, even by a clock that stands still.
std::string session_word(Instant began) {
    static std::atomic<int> starts{0};
    return to_text(began) + "/" + std::to_string(getpid()) + "/" + std::to_string(++starts);
}

std::optional<std::int64_t> machine_uptime() {
    timespec time{};
    if (clock_gettime(CLOCK_BOOTTIME, &time) != 0)
        return std::nullopt;
    return std::int64_t{time.tv_sec} * 1000 + time.tv_nsec / 1'000'000;
}

/// A demo's or a test's clock is set by hand and far from the machine's own; comparing it with the
/// machine's uptime would find a fault in every line.
bool is_real(Instant now) {
    constexpr std::chrono::seconds near{5};
    const auto difference = SystemClock{}.now() - now;
    return difference < near && -difference < near;
}

CanningCautions::Result show_cautions(const Context&, const Call&,
                                      const CanningCautions::Params& params) {
    CanningCautions::Result result;
    result.cautions = params.moment ? cautions(*params.moment) : all_cautions();
    for (const auto& source : contract::safety_sources)
        result.sources.push_back({std::string(source.key), std::string(source.title)});
    return result;
}

} // namespace

Date today(const Call& call) {
    return call.call<contract::CellarGlance>({}).today;
}

void declare_cautions(Declaration& plugin) {
    plugin.method<CanningCautions>(&show_cautions);
}

void Canning::declare(Declaration& plugin) {
    declare_cautions(plugin);
    declare_plan(plugin);
    declare_process(plugin);
    declare_run(plugin);
    declare_seal(plugin);
    declare_jars(plugin);
    declare_storage(plugin);
    declare_opening(plugin);
    declare_trace(plugin);
    declare_sheets(plugin); // of methods that are there already
}

Canning::Canning(const plugin::Host& host, const Settings& settings)
    : Context{
          host,
          settings,
          {settings.reading_gap_max},
          {static_cast<int>(settings.best_by_days), static_cast<int>(settings.refrigerator_days)},
          {settings.thin, settings.thick},
          {},
          host.now(),
          nullptr} {
    session = session_word(session_began);
    if (is_real(session_began))
        uptime = &machine_uptime;
    if (settings.thin >= settings.thick)
        throw Error(ErrorKind::params, "out_of_range",
                    "The setting thin must be below the setting thick.",
                    "Change one of them in [plugin.canning].", "/thin");
}

} // namespace barmkeep::canning
