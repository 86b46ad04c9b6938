// The few commands that are barm's own and need no method of the daemon.
#pragma once

#include "daemon/client/catalogue.hpp"

namespace barmkeep::barm {

struct HelpCommand {
    static constexpr About about{
        "help", Access::look, Effect::reads,
        "Lists all commands, or those of a topic, or describes one command."};
    struct Params {
        std::optional<std::string> topic;
        std::optional<std::string> verb;
        static FieldList fields(auto) {
            return {
                field<&Params::topic>("A topic, such as canning, or the first word of a command. "
                                      "All topics if left out.")
                    .positional(),
                field<&Params::verb>(
                    "The second word of the command. All commands of the first if left out.")
                    .positional()};
        }
    };
    using Result = Nothing;
};

struct ManualCommand {
    static constexpr About about{"manual", Access::look, Effect::reads,
                                 "Prints the reference of all commands and methods."};
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
                                 "Prints barm's own settings and the source of each."};
    using Params = Nothing;
    using Result = Nothing;
};

struct SendCommand {
    static constexpr About about{"send", Access::look, Effect::reads,
                                 "Calls a method with JSON and prints its result as JSON."};
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
        "Lists the words that may come next, for the completion of shells."};
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
