// barmkeep-plugin-check: tries a plugin before it is given to a daemon.
#include "sdk/plugin/check/check.hpp"

#include <cstdlib>
#include <iostream>
#include <stdexcept>

namespace {

constexpr std::string_view usage =
    "Usage: barmkeep-plugin-check FILE.so [--settings JSON] [--seconds N]\n"
    "\n"
    "Loads a plugin and tries it against a host without a cellar: its description,\n"
    "its start, every method with empty and absurd params, its events, its stop.\n"
    "\n"
    "  --settings JSON  what to start it with, as an object; {} if left out\n"
    "  --seconds N      how long a step may take; 5 if left out\n"
    "\n"
    "Status: 0 all sound, 1 something fails, 2 the command line is wrong.\n";

barmkeep::plugin::CheckOptions read_options(const std::vector<std::string>& arguments) {
    barmkeep::plugin::CheckOptions options;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const std::string& argument = arguments[i];
        const bool takes_value = argument == "--settings" || argument == "--seconds";
        if (takes_value && i + 1 == arguments.size())
            throw std::invalid_argument(argument + " wants a value");
        if (argument == "--settings")
            options.settings = barmkeep::parse_json(arguments[++i]).as_object();
        else if (argument == "--seconds")
            options.time_max = std::chrono::seconds{std::stoul(arguments[++i])};
        else if (argument.starts_with("-") || !options.file.empty())
            throw std::invalid_argument("'" + argument + "' is one too many");
        else
            options.file = argument;
    }
    if (options.file.empty())
        throw std::invalid_argument("the plugin's file is missing");
    return options;
}

} // namespace

int main(int count, char** values) {
    const std::vector<std::string> arguments(values + 1, values + count);
    if (arguments == std::vector<std::string>{"--help"}) {
        std::cout << usage;
        return 0;
    }
    try {
        const auto options = read_options(arguments);
        return barmkeep::plugin::check_plugin(options, std::cout) == 0 ? 0 : 1;
    } catch (const std::exception& error) {
        std::cerr << "barmkeep-plugin-check: " << error.what() << "\n\n" << usage;
        return 2;
    }
}
