// A small plugin: greets whoever asks, and counts the lots that changed.
#pragma once

#include "sdk/plugin/plugin.hpp"

#include <atomic>

struct GreetingSay {
    static constexpr barmkeep::About about{"greeting.say", barmkeep::Access::look,
                                           barmkeep::Effect::reads, "Greets the caller."};
    struct Params {
        std::string to;
        static barmkeep::FieldList fields(auto) {
            return {barmkeep::field<&Params::to>("Whom to greet.").positional().length(1, 60)};
        }
    };
    struct Result {
        std::string text;
        std::int64_t changes = 0;
        static barmkeep::FieldList fields(auto) {
            return {barmkeep::field<&Result::text>("The greeting."),
                    barmkeep::field<&Result::changes>("Lots that changed since the start.")};
        }
    };
};

class Greeting final : public barmkeep::plugin::Plugin {
public:
    static constexpr barmkeep::plugin::Identity identity{"greeting", "1.0.0"};

    struct Settings {
        std::string word = "Hello";
        static barmkeep::FieldList fields(auto) {
            return {barmkeep::field<&Settings::word>("The word to greet with.")
                        .defaulted()
                        .length(1, 20)};
        }
    };

    static void declare(barmkeep::plugin::Declaration<Greeting>& plugin) {
        plugin.method<GreetingSay>(&Greeting::say);
        plugin.event("lot.", &Greeting::lot_changed);
    }

    Greeting(const barmkeep::plugin::Host&, const Settings& settings) : word_{settings.word} {}

private:
    GreetingSay::Result say(const barmkeep::plugin::PluginCall&,
                            const GreetingSay::Params& params) {
        return {word_ + ", " + params.to + "!", changes_};
    }
    void lot_changed(const barmkeep::contract::Event&) { ++changes_; }

    const std::string word_;
    std::atomic<std::int64_t> changes_ = 0;
};
