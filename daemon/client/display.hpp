// The way out: stdout, perhaps through a pager, notes and complaints on stderr, progress.
#pragma once

#include "daemon/client/error_text.hpp"
#include "daemon/client/exit_code.hpp"
#include "daemon/client/globals.hpp"
#include "daemon/client/outside.hpp"
#include "daemon/client/usage_error.hpp"
#include "sdk/client/client.hpp"

namespace barmkeep::barm {

/// Nobody reads stdout any more: barm ends, quietly.
struct NobodyReads {};

class Display {
public:
    Display(const Outside& outside, const Globals& globals, const Preferences& preferences);

    /// Width, colour and letters of stdout; units and currency are the caller's to set.
    [[nodiscard]] Style style() const;

    /// Prints a whole text; on a terminal and longer than it, through the pager.  Throws
    /// NobodyReads, std::system_error.
    void show(const std::string& text) const;
    /// Prints a line as it comes.  Throws as show.
    void stream(const std::string& text) const;
    /// A remark on stderr, unless --quiet.
    void note(const std::string& text) const;
    /// A step of long work, on a terminal's stderr only.
    void progress(std::string_view command, const client::Progress& progress);
    void clear_progress();

    ExitCode report_error(const Error& error, std::string_view command,
                          const std::vector<Option>& options, const Catalogue* catalogue) const;
    ExitCode report_error(const UsageError& error, const std::string& usage) const;
    ExitCode report_error(ExitCode code, const std::string& message) const;

private:
    [[nodiscard]] bool wants_colour(bool is_terminal) const;

    const Outside& outside_;
    const Globals& globals_;
    std::string colour_;
    std::string pager_;
    bool progress_shown_ = false;
};

} // namespace barmkeep::barm
