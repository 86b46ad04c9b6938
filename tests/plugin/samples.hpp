// A plugin for the tests: counts lots, writes once, works long, and fails in every honest way.
#pragma once

#include "sdk/contract/reminder.hpp"
#include "sdk/plugin/plugin.hpp"

namespace barmkeep::plugin::test {

struct TallyCount {
    static constexpr About about{"tally.count", Access::look, Effect::reads, "Counts."};
    struct Params {
        std::int64_t by = 1;
        static FieldList fields(auto) {
            return {field<&Params::by>("Step.").defaulted().between(1, 10)};
        }
    };
    struct Result {
        std::int64_t count = 0;
        std::string caller;
        Instant arrived;
        static FieldList fields(auto) {
            return {field<&Result::count>("Count."), field<&Result::caller>("Who."),
                    field<&Result::arrived>("When.")};
        }
    };
};

struct TallyNote {
    static constexpr About about{"tally.note",   Access::keep,
                                 Effect::writes, "Posts a reminder with the present count.",
                                 false,          Lane::log};
    struct Params {
        std::string name;
        static FieldList fields(auto) {
            return {field<&Params::name>("Name of the reminder.").length(1, 80)};
        }
    };
    struct Result {
        std::string title;
        static FieldList fields(auto) { return {field<&Result::title>("The reminder's title.")}; }
    };
};

/// Fails as its params say.
struct TallyFail {
    static constexpr About about{"tally.fail", Access::look, Effect::reads, "Fails."};
    struct Params {
        std::string how;
        static FieldList fields(auto) { return {field<&Params::how>("How.")}; }
    };
    struct Result {
        double number = 0;
        static FieldList fields(auto) { return {field<&Result::number>("A number.")}; }
    };
};

struct TallyWork {
    static constexpr About about{"tally.work", Access::look, Effect::reads, "Works.", true};
    using Params = Nothing;
    using Result = Nothing;
};

/// Calls itself without end, on behalf of the call or of the plugin's own accord.
struct TallyCircle {
    static constexpr About about{"tally.circle", Access::look, Effect::reads, "Goes in circles."};
    struct Params {
        bool own_accord = false;
        static FieldList fields(auto) {
            return {field<&Params::own_accord>("On nobody's behalf.").defaulted()};
        }
    };
    using Result = Nothing;
};

class Tally final : public Plugin {
public:
    static constexpr Identity identity{"tally", "1.2.3"};
    struct Settings {
        std::int64_t first = 0;
        std::optional<std::string> greeting;
        static FieldList fields(auto) {
            return {field<&Settings::first>("Where to begin.").defaulted().at_least(0),
                    field<&Settings::greeting>("What to log at the start.").length(1, 80)};
        }
    };

    static void declare(Declaration<Tally>& plugin);
    Tally(const Host& host, const Settings& settings);
    ~Tally() override;

private:
    TallyCount::Result count(const PluginCall& call, const TallyCount::Params& params);
    TallyNote::Result note(const PluginCall& call, const TallyNote::Params& params);
    TallyFail::Result fail(const PluginCall& call, const TallyFail::Params& params);
    Nothing work(const PluginCall& call, const Nothing&);
    Nothing circle(const PluginCall& call, const TallyCircle::Params& params);
    void lot_changed(const contract::Event& event);

    const Host& host_;
    std::atomic<std::int64_t> count_;
};

} // namespace barmkeep::plugin::test
