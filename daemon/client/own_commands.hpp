// The few commands that are barm's own and need no method of the daemon.
#pragma once

#include "daemon/client/catalogue.hpp"

namespace barmkeep::barm {

struct HelpCommand {
    static constexpr About about{"help", Access::look, Effect::reads,
                                 "Shows what barm can do, or one command."};
    struct Params {
        std::optional<std::string> noun;
        std::optional<std::string> verb;
        static FieldList fields(auto) {
            return {field<&Params::noun>("First word of a command.").positional(),
                    field<&Params::verb>("Its second word.").positional()};
        }
    };
    using Result = Nothing;
};

struct ManualCommand {
    static constexpr About about{
        "manual", Access::look, Effect::reads,
        "Prints the reference of all methods, made from the daemon's own description."};
    struct Params {
        bool man = false;
        static FieldList fields(auto) {
            return {field<&Params::man>("As a man page of barm, instead of Markdown.").defaulted()};
        }
    };
    using Result = Nothing;
};

struct SettingsCommand {
    static constexpr About about{"settings", Access::look, Effect::reads,
                                 "Prints barm's own settings and where each came from."};
    using Params = Nothing;
    using Result = Nothing;
};

struct SendCommand {
    static constexpr About about{
        "send", Access::look, Effect::reads,
        "Calls a method with params in JSON and prints its result in JSON, for scripts."};
    struct Params {
        std::string method;
        json::object params;
        static FieldList fields(auto) {
            return {field<&Params::method>("The method's name.").positional().like("stock.list"),
                    field<&Params::params>("Its params as a JSON object; - reads them from stdin.")
                        .positional()
                        .defaulted()};
        }
    };
    using Result = Nothing;
};

struct CompleteCommand {
    static constexpr About about{
        "complete", Access::look, Effect::reads,
        "Lists what may come next on a command line; the completion of shells asks it."};
    struct Params {
        std::vector<std::string> words;
        static FieldList fields(auto) {
            return {field<&Params::words>("The words so far; the last is the one to complete.")
                        .variadic()
                        .defaulted()};
        }
    };
    using Result = Nothing;
};

/// All of them, each of one word.
[[nodiscard]] const std::vector<Command>& own_commands();
/// The one of that name, or null.
[[nodiscard]] const Command* own_command(std::string_view name);

} // namespace barmkeep::barm
