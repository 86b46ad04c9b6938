// What barm's exit status says.  Scripts rely on these numbers; docs/barm.md lists them.
#pragma once

#include "sdk/method/error.hpp"

namespace barmkeep::barm {

/// The numbers are those of sysexits.h where it has a fitting one.
enum class ExitCode {
    done = 0,
    not_done = 1,       ///< the cellar's state forbids it: not found, not enough, conflict
    usage = 64,         ///< the command line is wrong
    bad_data = 65,      ///< a value is wrong
    unreachable = 69,   ///< no daemon, or a part of it does not answer
    internal = 70,      ///< a fault of barm or of the daemon
    output = 74,        ///< the output could not be written
    try_again = 75,     ///< busy, or the outcome is unknown: repeat with the same key
    protocol = 76,      ///< the other side does not speak our protocol
    refused = 77,       ///< no right to do it
    configuration = 78, ///< a setting is wrong
    interrupted = 130,  ///< Ctrl-C
};

[[nodiscard]] ExitCode exit_code_of(const Error& error) noexcept;

} // namespace barmkeep::barm
