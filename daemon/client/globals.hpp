// The options that every command takes, described as a method's params are, so that help,
// completion and the reading of them come from the same place.
#pragma once

#include "sdk/contract/cellar.hpp"

namespace barmkeep::barm {

enum class Colour { automatic, always, never };
constexpr auto enum_names(Colour) {
    return std::array{EnumName<Colour>{Colour::automatic, "auto"},
                      EnumName<Colour>{Colour::always, "always"},
                      EnumName<Colour>{Colour::never, "never"}};
}

struct Globals {
    bool help = false;
    bool version = false;
    bool versions = false;
    bool json = false;
    std::optional<bool> plain;
    bool quiet = false;
    bool full = false;
    std::optional<std::string> html;
    bool pager = true;
    bool input = true;
    std::optional<Colour> color;
    std::optional<contract::Units> units;
    std::optional<std::string> socket;
    std::optional<Seconds> time_out;
    std::optional<std::string> key;
    std::optional<std::string> discover;

    static FieldList fields(auto) {
        return {
            field<&Globals::help>("Print help and stop (-h).").defaulted(),
            field<&Globals::version>("Print barm's version and stop.").defaulted(),
            field<&Globals::versions>("Print barm's and the daemon's versions and stop.")
                .defaulted(),
            field<&Globals::json>("Print the result as JSON, just as the daemon sent it; errors "
                                  "too, on stderr.")
                .defaulted(),
            field<&Globals::plain>("Print the result for programs: columns divided by tabs, one "
                                   "record a line. If left out, text for a person is printed, in "
                                   "a pipe too."),
            field<&Globals::full>("Print all cautions in full, and what is folded away.")
                .defaulted(),
            field<&Globals::html>("Write the answer to this file as a page to read or print, "
                                  "instead of printing it.")
                .length(1, 1000),
            field<&Globals::quiet>("Print nothing about changes, and no notes (-q).").defaulted(),
            field<&Globals::pager>(
                "Whether long output on a terminal goes through a pager. It does if left "
                "out.")
                .defaulted(),
            field<&Globals::input>(
                "Whether barm may ask questions. It may if left out, but it asks none.")
                .defaulted(),
            field<&Globals::color>("When to use colour: auto, always or never. auto if left out."),
            field<&Globals::units>("Units to show: metric or us; the cellar's own if left out.  "
                                   "Write it before the command if the command has --units too."),
            field<&Globals::socket>("Path of the daemon's socket.  The usual one if left out."),
            field<&Globals::time_out>("How long to wait for an answer.  30 s if left out, one "
                                      "hour for long work.")
                .like("30 s"),
            field<&Globals::key>("Request key of a writing command; made up if left out.  The "
                                 "same command with the same key is done only once.")
                .length(1, request_key_length_max),
            field<&Globals::discover>(
                "Read the methods from this file instead of asking the daemon, "
                "for help and manuals.")};
    }
};

} // namespace barmkeep::barm
