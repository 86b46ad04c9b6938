#include "daemon/client/display.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::barm {

Display::Display(const Outside& outside, const Globals& globals, const Preferences& preferences)
    : outside_{outside}, globals_{globals}, pager_{preferences.value("pager", {}).value} {
    const auto said = preferences.said("color");
    if (globals.color)
        colour_ = to_string(*globals.color);
    else if (said) {
        if (!from_string<Colour>(said->value))
            throw PreferenceError(fmt::format("{}: color is auto, always or never, not '{}'.",
                                              said->from, said->value));
        colour_ = said->value;
    }
}

bool Display::wants_colour(bool is_terminal) const {
    if (colour_ == "always" || colour_ == "never")
        return colour_ == "always";
    if (client::non_empty(outside_.environment, "NO_COLOR"))
        return false;
    if (client::non_empty(outside_.environment, "FORCE_COLOR"))
        return true;
    return is_terminal && outside_.environment("TERM").value_or("") != "dumb";
}

Style Display::style() const {
    Style style;
    style.is_plain = globals_.plain.value_or(false);
    style.has_colour = !style.is_plain && wants_colour(outside_.out_is_terminal);
    style.has_utf8 = outside_.has_utf8;
    constexpr int never_wrapped = 100'000;
    constexpr int usual_width = 80; // in a pipe or file
    style.width = style.is_plain             ? never_wrapped
                  : outside_.out_is_terminal ? std::max(outside_.width, 20)
                                             : usual_width;
    return style;
}

void Display::stream(const std::string& text) const {
    if (!outside_.out(text))
        throw NobodyReads{};
}

void Display::show(const std::string& text) const {
    const auto lines = std::count(text.begin(), text.end(), '\n');
    const bool is_long = lines >= outside_.height;
    if (outside_.out_is_terminal && globals_.pager && is_long && !pager_.empty() &&
        outside_.page(text, pager_))
        return;
    stream(text);
}

void Display::note(const std::string& text) const {
    if (!globals_.quiet)
        outside_.err(text);
}

void Display::progress(std::string_view command, const client::Progress& progress) {
    if (!outside_.err_is_terminal || globals_.quiet)
        return;
    const std::string share =
        progress.total > 0 ? fmt::format(" {:.0f} %", 100 * progress.done / progress.total) : "";
    std::string line = fmt::format("{}:{} {}", command, share, printable(progress.message));
    line = line.substr(0, static_cast<std::size_t>(std::max(outside_.width - 1, 1)));
    outside_.err("\r\x1b[K" + line);
    progress_shown_ = true;
}

void Display::clear_progress() {
    if (std::exchange(progress_shown_, false))
        outside_.err("\r\x1b[K");
}

ExitCode Display::report_error(const Error& error, std::string_view command,
                               const std::vector<Option>& options,
                               const Catalogue* catalogue) const {
    Style style;
    style.has_utf8 = outside_.has_utf8;
    style.width = outside_.err_is_terminal ? std::max(outside_.width, 20) : 100;
    outside_.err(globals_.json ? error_json(error)
                               : error_text(error, command, options, catalogue, style));
    return exit_code_of(error);
}

ExitCode Display::report_error(const UsageError& error, const std::string& usage) const {
    if (globals_.json)
        outside_.err(error_json(Error(ErrorKind::params, "usage", error.what(), error.hint())));
    else
        outside_.err(fmt::format("barm: {}\n{}{}", printable(error.what()),
                                 error.hint().empty() ? "" : "      " + error.hint() + '\n',
                                 usage.empty() ? "" : "Usage: " + usage + '\n'));
    return ExitCode::usage;
}

ExitCode Display::report_error(ExitCode code, const std::string& message) const {
    if (globals_.json)
        outside_.err(error_json(Error(ErrorKind::internal, "barm", message)));
    else
        outside_.err("barm: " + printable(message) + '\n');
    return code;
}

} // namespace barmkeep::barm
