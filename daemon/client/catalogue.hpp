// The methods that can be called now, as the daemon describes them: barm's commands.
#pragma once

#include "sdk/method/about.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace barmkeep::barm {

/// One method seen as a command: `noun verb`.
struct Command {
    Description method;
    std::string provider;
    std::string noun;
    std::string verb; ///< with dashes; empty for a command of barm's own that is one word

    /// "stock buy": as it is typed.
    [[nodiscard]] std::string words() const;
};

/// A command for a method.
[[nodiscard]] Command command_of(Description method, std::string provider);

class Catalogue {
public:
    Catalogue() = default;
    /// Reads a discover document.  Throws Error(text, "bad_discover") for what is none.
    explicit Catalogue(const json::object& document);

    [[nodiscard]] const std::vector<Command>& commands() const noexcept { return commands_; }
    /// Version of the daemon that described them.
    [[nodiscard]] const std::string& version() const noexcept { return version_; }
    [[nodiscard]] std::vector<std::string> nouns() const;
    [[nodiscard]] std::vector<const Command*> of_noun(std::string_view noun) const;

    /// The commands with this verb, whatever their noun.
    [[nodiscard]] std::vector<const Command*> of_verb(std::string_view verb) const;

    /// The command, or null.
    [[nodiscard]] const Command* find(std::string_view noun, std::string_view verb) const;
    [[nodiscard]] const Command* find_method(std::string_view name) const;
    /// The command.  Throws UsageError with the nearest commands; none of them is run.
    [[nodiscard]] const Command& command(std::string_view noun, std::string_view verb) const;
    /// Throws UsageError unless some command has this noun.
    void require_noun(std::string_view noun) const;

private:
    [[nodiscard]] std::vector<std::string> verbs() const;

    std::vector<Command> commands_;
    std::string version_;
};

} // namespace barmkeep::barm
