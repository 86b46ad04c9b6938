// barmkeepd: reads arguments and settings, does the task they name, and says by the exit code how
// it went.  The rooms are wired together in serving.cpp.

#include "daemon/options.hpp"
#include "daemon/serving.hpp"
#include "daemon/settings/sources.hpp"

#include "daemon/ledger/ledger.hpp"

#include <cstdio>
#include <fmt/format.h>
#include <unistd.h>

namespace barmkeep::daemon {
namespace {

// The exit codes of a service (LSB): the unit file names those that a restart does not help.
constexpr int exit_fault = 1;
constexpr int exit_arguments = 2;
constexpr int exit_permission = 4;
constexpr int exit_settings = 6;
constexpr int exit_not_ours = 150; // of those left to programs: another daemon's, or of a newer one

void print_faults(const Error& error) {
    for (const auto& fault : error.faults()) {
        fmt::print(stderr, "barmkeepd: {}\n", fault.message);
        if (!fault.hint.empty())
            fmt::print(stderr, "  {}\n", fault.hint);
    }
}

int exit_code_of(const Error& error, int usual) {
    for (const auto* reason : {"in_use", "already_running", "database_newer"})
        if (error.reason() == reason)
            return exit_not_ours;
    if (error.kind() == ErrorKind::refused || error.reason() == "read_only")
        return exit_permission;
    return error.kind() == ErrorKind::params && usual == exit_fault ? exit_settings : usual;
}

/// Runs `work`; prints the faults it throws and returns `code` for them, if they have none of
/// their own.
template <class Work>
int guarded(int code, Work work) {
    try {
        return work();
    } catch (const Error& error) {
        print_faults(error);
        return exit_code_of(error, code);
    } catch (const std::exception& error) {
        fmt::print(stderr, "barmkeepd: {}\n", error.what());
        return exit_fault;
    }
}

int print(const std::string& text) {
    std::fputs(text.c_str(), stdout);
    return 0;
}

int print_settings(const SettingsInForce& settings) {
    for (const auto& setting : settings.origins)
        fmt::print("{:<34} {:<28} {}\n", setting.name, setting.value, setting.from);
    return 0;
}

int restore(const Options& options, const Settings& settings) {
    ledger::Ledger::restore(options.backup, settings.ledger.file);
    fmt::print("{} now holds what {} held; the ledger that was there is kept beside it.\n",
               settings.ledger.file, options.backup.string());
    return 0;
}

int with_settings(const Options& options) {
    SettingSources sources;
    sources.options = options.set;
    sources.environment = client::process_environment();
    sources.files =
        options.config ? std::vector{*options.config} : usual_files(sources.environment);
    sources.files_required = options.config.has_value();
    sources.is_root = ::geteuid() == 0;

    std::optional<SettingsInForce> settings;
    const int bad = guarded(exit_settings, [&] {
        settings = read_settings(sources);
        return 0;
    });
    if (bad != 0)
        return bad;
    if (options.task == Task::print_settings)
        return print_settings(*settings);
    return guarded(exit_fault, [&] {
        if (options.task == Task::restore)
            return restore(options, settings->settings);
        return serve(options, sources, std::move(*settings));
    });
}

int run(const std::vector<std::string>& arguments) {
    Options options;
    const int bad = guarded(exit_arguments, [&] {
        options = parse_options(arguments);
        return 0;
    });
    if (bad != 0)
        return bad;
    switch (options.task) {
    case Task::help:
        return print(help_text());
    case Task::manual:
        return print(man_page(BARMKEEP_VERSION));
    case Task::version:
        return print("barmkeepd " BARMKEEP_VERSION "\n");
    case Task::sample_settings:
        return print(sample_file());
    default:
        return with_settings(options);
    }
}

} // namespace
} // namespace barmkeep::daemon

int main(int count, char** values) {
    return barmkeep::daemon::run(std::vector<std::string>(values + 1, values + count));
}
