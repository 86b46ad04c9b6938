// Everything of the world that barm touches beside the daemon; tests put their own in its place.
#pragma once

#include "daemon/client/preferences.hpp"
#include "sdk/client/interruption.hpp"

#include <memory>
#include <string_view>

namespace barmkeep::barm {

struct Outside {
    client::Environment environment;
    ReadFile read_file;
    std::function<std::string()> read_stdin;
    /// Writes a file whole, in place of the one that is there.  Throws std::system_error.
    std::function<void(const std::string& path, std::string_view text)> write_file;
    /// Writes to stdout; false when nobody reads it any more.  Throws std::system_error.
    std::function<bool(std::string_view)> out;
    /// Writes to stderr, as far as that goes.
    std::function<void(std::string_view)> err;
    /// Shows a text in a pager; false if there is none of that name.
    std::function<bool(std::string_view text, const std::string& pager)> page;
    /// Takes Ctrl-C for as long as the object lives.  May be null.
    std::function<std::unique_ptr<client::Interruption>()> interruption;
    bool out_is_terminal = false;
    bool err_is_terminal = false;
    bool has_utf8 = true; ///< what the locale's letters are
    int width = 80;       ///< of the terminal
    int height = 24;
};

/// The real world.
[[nodiscard]] Outside real_outside();

} // namespace barmkeep::barm
