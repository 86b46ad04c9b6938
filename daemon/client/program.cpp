#include "daemon/client/program.hpp"

#include "daemon/client/help.hpp"
#include "daemon/client/own_commands.hpp"
#include "sdk/contract/event.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <system_error>
#include <unistd.h>

namespace barmkeep::barm {
namespace {

constexpr std::size_t all = std::numeric_limits<std::size_t>::max();

} // namespace

ExitCode Program::run() noexcept {
    try {
        // The display must stand before anything can go wrong that it has to show.
        preferences_.emplace([](std::string_view) { return std::nullopt; },
                             [](const std::string&) { return std::nullopt; });
        display_.emplace(outside_, globals_, *preferences_);
        return run_or_throw();
    } catch (const NobodyReads&) {
        return ExitCode::done;
    } catch (const std::exception& error) { // while an error was shown
        outside_.err(fmt::format("barm: {}\n", error.what()));
        return ExitCode::internal;
    }
}

/// The one place that turns an error into words and an exit status.
ExitCode Program::run_or_throw() {
    try {
        return run_front();
    } catch (const UsageError& error) {
        return display_->report_error(error, usage_);
    } catch (const Error& error) {
        display_->clear_progress();
        return display_->report_error(error, command_, options_, command_catalogue());
    } catch (const PreferenceError& error) {
        return display_->report_error(ExitCode::configuration, error.what());
    } catch (const std::system_error& error) {
        return display_->report_error(ExitCode::output, error.what());
    }
}

void Program::take_globals(const Sorted& sorted) {
    add_globals(globals_given_, sorted);
    globals_ = globals_of(globals_given_);
    if (display_) // --color and --json may have come
        display_.emplace(outside_, globals_, *preferences_);
}

ExitCode Program::run_front() {
    // --json among the options must hold for a complaint about the very first word.
    globals_.json = std::find(words_.begin(), words_.end(), "--json") != words_.end();
    preferences_.emplace(outside_.environment, outside_.read_file);
    options_ = global_options();
    const Sorted front = sort_words(words_, 0, {}, 1);
    take_globals(front);
    options_.clear();
    if (front.operands.empty()) {
        if (globals_.version || globals_.versions)
            return versions();
        return globals_.help ? help() : glance();
    }
    const std::string& noun = front.operands.front();
    if (noun == "complete") {
        words_.erase(words_.begin(), words_.begin() + static_cast<std::ptrdiff_t>(front.used));
        return complete();
    }
    if (const auto* own = own_command(noun))
        return run_own(*own, front.used);
    return run_method(noun, front.used);
}

ExitCode Program::run_own(const Command& command, std::size_t first) {
    options_ = options_of(command);
    command_ = command.words();
    const Sorted rest = sort_words(words_, first, options_, all);
    take_globals(rest);
    if (globals_.help) {
        display_->show(command_help(command, display_->style()));
        return ExitCode::done;
    }
    usage_ = usage_line(command, options_);
    const json::object params = params_of(rest, options_, value_context());
    const auto text = [&](std::string_view name) {
        const auto* value = params.if_contains(name);
        return value != nullptr ? std::string(value->as_string()) : "";
    };
    if (command.noun == "help")
        return params.empty() ? help() : help_on(text("topic"), text("verb"));
    if (command.noun == "manual")
        return manual(params);
    return command.noun == "settings" ? settings() : send(params);
}

void Program::take_where_to_ask(std::size_t first) {
    std::vector<std::string> found;
    for (std::size_t i = first; i < words_.size() && words_[i] != "--"; ++i)
        for (const std::string_view option : {"--socket", "--time-out", "--discover"}) {
            if (words_[i] == option && i + 1 < words_.size())
                found.insert(found.end(), {words_[i], words_[i + 1]});
            else if (words_[i].starts_with(std::string(option) + "="))
                found.push_back(words_[i]);
        }
    take_globals(sort_words(found, 0, {}, all));
}

ExitCode Program::run_method(const std::string& noun, std::size_t first) {
    take_where_to_ask(first);
    const Sorted second = sort_words(words_, first, {}, 1);
    take_globals(second);
    if (second.operands.empty()) {
        catalogue().require_noun(noun);
        if (globals_.help)
            return help(noun, "");
        display_->note(noun_help(catalogue(), noun, display_->style()));
        return ExitCode::usage;
    }
    return run_command(catalogue().command(noun, second.operands.front()), second.used);
}

ExitCode Program::run_command(const Command& command, std::size_t first) {
    command_ = command.words();
    options_ = options_of(command);
    const Sorted rest = sort_words(words_, first, options_, all);
    take_globals(rest);
    if (globals_.help)
        return help(command.noun, command.verb);
    if (globals_.key && command.method.effect != Effect::writes)
        throw UsageError(fmt::format("'{}' changes nothing, so it takes no --key.", command_));
    usage_ = usage_line(command, options_);
    const json::object params = params_of(rest, options_, value_context());
    if (command.method.name == contract::EventWatch::about.name)
        return watch(params);
    return call(command, params);
}

client::Located Program::socket() const {
    return client::choose_socket(
        globals_.socket, outside_.environment, preferences_->configured("socket"),
        [](const std::string& path) { return ::access(path.c_str(), F_OK) == 0; });
}

std::chrono::milliseconds Program::time_out() const {
    if (globals_.time_out)
        return *globals_.time_out;
    const auto said = preferences_->value("time_out", {});
    try {
        return parse_duration(said.value);
    } catch (const std::invalid_argument& error) {
        throw PreferenceError(fmt::format("{}: time_out: {}", said.from, error.what()));
    }
}

client::ClientOptions Program::client_options() const {
    client::ClientOptions options;
    options.socket = socket().value;
    options.time_out = time_out();
    options.connect_time_out = std::min(options.connect_time_out, options.time_out);
    return options;
}

client::Client& Program::daemon() {
    if (!client_)
        client_.emplace(client_options());
    return *client_;
}

const Catalogue& Program::catalogue() {
    if (catalogue_)
        return *catalogue_;
    if (!globals_.discover)
        return catalogue_.emplace(daemon().discover());
    const auto text = *globals_.discover == "-" ? std::optional(outside_.read_stdin())
                                                : outside_.read_file(*globals_.discover);
    if (!text)
        throw UsageError(fmt::format("There is no file '{}' to read.", *globals_.discover));
    try {
        const json::value document = parse_json(*text);
        if (!document.is_object())
            throw std::invalid_argument("it is not a JSON object.");
        return catalogue_.emplace(document.get_object());
    } catch (const std::invalid_argument& error) {
        throw UsageError(fmt::format("{}: {}", *globals_.discover, error.what()));
    }
}

const Catalogue* Program::command_catalogue() const {
    return catalogue_ && command_ != "send" ? &*catalogue_ : nullptr;
}

ValueContext Program::value_context() {
    return {[this] { return daemon().call<contract::CellarGlance>().today; },
            [this] { return daemon().call<contract::CellarShow>().time_zone; },
            outside_.read_stdin};
}

Style Program::cellar_style(const contract::Cellar& cellar) const {
    Style style = display_->style();
    auto units = cellar.units;
    if (globals_.units)
        units = *globals_.units;
    else if (const auto said = preferences_->said("units")) {
        const auto word = from_string<contract::Units>(said->value);
        if (!word)
            throw PreferenceError(
                fmt::format("{}: units is metric or us, not '{}'.", said->from, said->value));
        units = *word;
    }
    style.system = units == contract::Units::us ? brewing::System::us : brewing::System::metric;
    style.currency = cellar.currency == contract::no_currency ? "" : cellar.currency;
    style.time_zone = cellar.time_zone;
    return style;
}

Style Program::cellar_style() {
    contract::Cellar cellar;
    try {
        cellar = daemon().call<contract::CellarShow>();
    } catch (const Error&) { // what was asked for is done; its look is not worth an error
    }
    return cellar_style(cellar);
}

} // namespace barmkeep::barm
