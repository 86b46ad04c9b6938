#include "daemon/options.hpp"

#include "daemon/settings/leaves.hpp"
#include "sdk/client/troff.hpp"
#include "sdk/method/nearest.hpp"

#include <fmt/format.h>

namespace barmkeep::daemon {
namespace {

struct Switch {
    std::string_view name;
    std::string_view value; ///< what its value is called; empty if it takes none
    std::string_view doc;
    void (*take)(Options&, const std::string& value);
};

// The one list of options: parsing and --help both read it.
constexpr Switch switches[] = {
    {"--help", "", "Print this and leave.",
     [](Options& o, const std::string&) {
         o.task = Task::help;
     }},
    {"--version", "", "Print the version and stop.",
     [](Options& o, const std::string&) {
         o.task = Task::version;
     }},
    {"--config", "FILE", "Read this settings file in place of the usual ones.",
     [](Options& o, const std::string& v) {
         o.config = v;
     }},
    {"--set", "SECTION.NAME=VALUE", "Set one setting; may be repeated.",
     [](Options& o, const std::string& v) {
         o.set.push_back(v);
     }},
    {"--print-settings", "", "Print each setting in force and its source.",
     [](Options& o, const std::string&) {
         o.task = Task::print_settings;
     }},
    {"--sample-settings", "", "Print a commented settings file.",
     [](Options& o, const std::string&) {
         o.task = Task::sample_settings;
     }},
    {"--manual", "", "Print the man page and stop.",
     [](Options& o, const std::string&) {
         o.task = Task::manual;
     }},
    {"--safe", "", "Start without plugins.",
     [](Options& o, const std::string&) {
         o.safe = true;
     }},
    {"--clock", "INSTANT",
     "Use a clock that stands at this time until `clock set`; for demos and tests.",
     [](Options& o, const std::string& v) {
         o.clock = parse_instant(v);
     }},
    {"--restore", "BACKUP",
     "Replace the ledger by a checked copy, keep the old one beside it, and stop.",
     [](Options& o, const std::string& v) {
         o.task = Task::restore;
         o.backup = v;
     }},
};

constexpr std::string_view purpose =
    "barmkeepd keeps the cellar: stock, brew days and reminders, served on a local socket.";
constexpr std::string_view sources_of_settings =
    "option (--set), environment (BARMKEEP_SECTION_NAME), the user's file, "
    "/etc/barmkeep/barmkeepd.toml";
constexpr std::string_view exit_codes =
    "0 done, 1 fault while running, 2 bad arguments, 4 no permission, 6 bad settings, 150 the "
    "cellar "
    "or the socket is another daemon's, or the ledger was made by a newer version.";

std::string usage_of(const Switch& option) {
    return option.value.empty() ? std::string(option.name)
                                : fmt::format("{} {}", option.name, option.value);
}

const Switch* find_switch(std::string_view name) {
    if (name == "-h")
        name = "--help";
    for (const auto& one : switches)
        if (one.name == name)
            return &one;
    return nullptr;
}

FieldError unknown(const std::string& name) {
    std::vector<std::string> known;
    for (const auto& one : switches)
        known.emplace_back(one.name);
    const auto near = nearest(name, known);
    return {"", "unknown_option", fmt::format("There is no option '{}'.", name),
            near ? "Did you mean " + *near + "?" : "--help lists the options."};
}

} // namespace

Options parse_options(const std::vector<std::string>& arguments) {
    Options options;
    std::vector<FieldError> faults;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const auto equals = arguments[i].find('=');
        const std::string name = arguments[i].substr(0, equals);
        const Switch* option = find_switch(name);
        if (option == nullptr) {
            faults.push_back(unknown(name));
            continue;
        }
        std::string value;
        if (equals != std::string::npos)
            value = arguments[i].substr(equals + 1);
        else if (!option->value.empty() && i + 1 < arguments.size())
            value = arguments[++i];
        if (value.empty() != option->value.empty()) {
            faults.push_back({"", "option_value",
                              option->value.empty() ? fmt::format("{} takes no value.", name)
                                                    : fmt::format("{} needs a value.", name),
                              fmt::format("{} {}: {}", name, option->value, option->doc)});
            continue;
        }
        try {
            option->take(options, value);
        } catch (const std::invalid_argument& error) {
            faults.push_back({"", "option_value", fmt::format("{}: {}", name, error.what()), ""});
        }
    }
    if (!faults.empty())
        throw Error(ErrorKind::params, std::move(faults));
    return options;
}

std::string help_text() {
    std::string text =
        fmt::format("{}\n\n"
                    "  barmkeepd                       serve, with the settings found\n"
                    "  barmkeepd --print-settings      show what is in force\n\n"
                    "Options\n",
                    purpose);
    for (const auto& option : switches)
        text += fmt::format("  {:<32}{}\n", usage_of(option), option.doc);
    text += fmt::format("\nSettings, by {}\n", sources_of_settings);
    for (const auto& leaf : all_leaves())
        text += fmt::format("  {:<34}{}\n", leaf.name(), leaf.doc);
    return text + fmt::format("\nExit codes: {}\n", exit_codes);
}

std::string man_page(std::string_view version) {
    using client::man_item;
    using client::troff;
    std::string text =
        fmt::format(".TH BARMKEEPD 8 \"\" \"Barmkeep {}\" \"System services\"\n.SH NAME\n"
                    "barmkeepd \\- serve a brewer's cellar\n.SH SYNOPSIS\n.B barmkeepd\n"
                    "[\\fIoptions\\fR]\n.SH DESCRIPTION\n{}\n.SH OPTIONS\n",
                    version, troff(purpose));
    for (const auto& option : switches)
        text += man_item(usage_of(option), option.doc);
    text += fmt::format(".SH SETTINGS\nBy {}.\n", troff(sources_of_settings));
    for (const auto& leaf : all_leaves())
        text += man_item(leaf.name(), leaf.doc);
    return text +
           fmt::format(".SH EXIT STATUS\n{}\n.SH SEE ALSO\n.BR barm (1)\n", troff(exit_codes));
}

} // namespace barmkeep::daemon
