// What each command does, once the command line is understood.
#include "daemon/client/command_text.hpp"
#include "daemon/client/help.hpp"
#include "daemon/client/manual.hpp"
#include "daemon/client/own_commands.hpp"
#include "daemon/client/program.hpp"
#include "daemon/client/render.hpp"
#include "daemon/client/table.hpp"
#include "sdk/client/events.hpp"
#include "sdk/sheet/html_writer.hpp"
#include "sdk/sheet/text_writer.hpp"

#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

/// Asked on every press of the Tab key, so a slow daemon must not be waited for.
constexpr std::chrono::milliseconds completion_time_out{500};

/// Long work may go on for long; it sends progress, and Ctrl-C ends it.
constexpr std::chrono::hours long_work{1};

/// "code=J14M number=4": an event's few facts in one line.
std::string facts_text(const json::object& about) {
    std::string text;
    for (const auto& fact : about) {
        const auto& value = fact.value();
        text += text.empty() ? "" : " ";
        text += std::string(fact.key()) + '=' +
                (value.is_string() ? std::string(value.get_string()) : write_json(value));
    }
    return printable(text);
}

std::string event_line(const contract::Event& event, const Style& style) {
    const std::string_view gap = style.is_plain ? "\t" : "  ";
    const json::object instant{{"type", "string"}, {"format", "date-time"}};
    return fmt::format("{}{}{}{}{}{}{}\n", event.sequence, gap,
                       value_text(to_json(event.at), instant, style), gap, printable(event.topic),
                       gap, facts_text(event.about));
}

} // namespace

template <class Ask>
auto Program::asked(const Command& command, Ask ask) {
    const auto interruption = outside_.interruption ? outside_.interruption() : nullptr;
    client::CallOptions options;
    options.key = globals_.key.value_or("");
    options.interruption = interruption.get();
    options.cancelling = [&] {
        display_->clear_progress();
        outside_.err("barm: asked the daemon to stop; press Ctrl-C again to end barm at once.\n");
    };
    if (command.method.is_long) {
        options.time_out = globals_.time_out ? time_out() : long_work;
        options.progress = [&](const client::Progress& step) {
            display_->progress(command.words(), step);
        };
        display_->progress(command.words(), {0, 0, "..."});
    }
    auto given = ask(options);
    display_->clear_progress();
    return given;
}

client::Answer Program::answer(const Command& command, const json::object& params) {
    return asked(command, [&](const client::CallOptions& options) {
        return daemon().call(command.method.name, params,
                             client::repeat_of(command.method.access, command.method.effect),
                             options);
    });
}

ExitCode Program::help() {
    const Catalogue* known = nullptr;
    std::string why;
    try {
        known = &catalogue();
    } catch (const Error& error) {
        why = error.what();
    }
    display_->show(general_help(known, why, display_->style()));
    return ExitCode::done;
}

ExitCode Program::help_on(const std::string& word, const std::string& verb) {
    const auto* topic = find_topic(word);
    if (topic == nullptr || !verb.empty())
        return help(word, verb);
    display_->show(topic_help(catalogue(), *topic, display_->style()));
    return ExitCode::done;
}

ExitCode Program::help(const std::string& noun, const std::string& verb) {
    if (const auto* own = own_command(noun)) {
        display_->show(command_help(*own, display_->style()));
        return ExitCode::done;
    }
    catalogue().require_noun(noun);
    if (verb.empty())
        display_->show(noun_help(catalogue(), noun, display_->style()));
    else
        display_->show(command_help(catalogue().command(noun, verb), display_->style()));
    return ExitCode::done;
}

ExitCode Program::glance() {
    return call(catalogue().command("cellar", "glance"), {});
}

ExitCode Program::versions() {
    display_->show(fmt::format("barm {}\n", BARMKEEP_VERSION));
    if (globals_.versions) {
        const auto status = daemon().call<contract::ServiceStatus>();
        display_->show(fmt::format("barmkeepd {} (protocol {}, tables {}) at {}\n",
                                   printable(status.version), printable(status.protocol),
                                   status.schema, socket().value));
    }
    return ExitCode::done;
}

ExitCode Program::manual(const json::object& params) {
    const auto* man = params.if_contains("man");
    display_->show(man != nullptr && man->as_bool() ? man_page(catalogue(), BARMKEEP_VERSION)
                                                    : methods_markdown(catalogue()));
    return ExitCode::done;
}

ExitCode Program::settings() {
    json::array listed;
    Table table{{{"setting", false}, {"value", false}, {"from", false}}, {}};
    for (const auto& rule : preference_rules()) {
        const auto* option = globals_given_.if_contains(rule.name);
        auto located =
            preferences_->value(rule.name, option != nullptr && option->is_string()
                                               ? std::optional(std::string(option->get_string()))
                                               : std::nullopt);
        if (rule.name == "socket")
            located = socket();
        table.rows.push_back({std::string(rule.name), located.value, located.from});
        listed.push_back(
            json::object{{"name", rule.name}, {"value", located.value}, {"from", located.from}});
    }
    display_->show(globals_.json ? write_json(json::object{{"settings", std::move(listed)}}) + '\n'
                                 : table_text(table, display_->style(), 0));
    return ExitCode::done;
}

ExitCode Program::send(const json::object& params) {
    const std::string name(params.at("method").as_string());
    const auto* command = catalogue().find_method(name);
    if (command == nullptr)
        throw UsageError(fmt::format("There is no method '{}'.", name),
                         "`barm manual` lists the methods.");
    const auto* given = params.if_contains("params");
    if (given != nullptr && !given->is_object())
        throw UsageError("The params are not a JSON object.", "Write {\"name\": value}.");
    const auto result = answer(*command, given != nullptr ? given->get_object() : json::object{});
    display_->show(result.text + '\n');
    return ExitCode::done;
}

/// As much of a list as comes in one page: a line being typed waits for no more.
template <class M>
typename M::Result Program::one_page() {
    typename M::Params params;
    params.limit = contract::page_size_max;
    return daemon().call<M>(params);
}

std::vector<Candidate> Program::fetched(Source source) {
    std::vector<Candidate> found;
    try {
        if (source == Source::goods)
            for (const auto& good : one_page<contract::GoodList>().all)
                found.push_back({good.name, std::string(to_string(good.category))});
        else if (source == Source::lots)
            for (const auto& shelf : daemon().call<contract::StockList>().shelves)
                for (const auto& lot : shelf.lots)
                    found.push_back({to_text(lot.code), lot.good});
        else if (source == Source::brews)
            for (const auto& brew : one_page<contract::BrewList>().brews)
                found.push_back({std::to_string(brew.number), to_text(brew.day) + ' ' + brew.name});
        else
            for (const auto& reminder : one_page<contract::ReminderList>().reminders)
                found.push_back({reminder.name, reminder.title});
    } catch (const Error&) { // without a daemon there is nothing to offer
    }
    return found;
}

ExitCode Program::complete() {
    if (!words_.empty() && words_.front() == "--")
        words_.erase(words_.begin());
    try {
        client::ClientOptions options = client_options();
        if (!globals_.time_out)
            options.time_out = options.connect_time_out = completion_time_out;
        options.attempts_max = 1;
        client_.emplace(std::move(options));
        const auto fetch = [this](Source source) {
            return fetched(source);
        };
        std::string text;
        for (const auto& candidate : candidates(words_, catalogue(), fetch))
            text += candidate.text + '\t' + printable(candidate.doc) + '\n';
        display_->stream(text);
    } catch (const Error&) { // a line being typed is no place for a complaint
    }
    return ExitCode::done;
}

ExitCode Program::watch(const json::object& params) {
    const auto interruption = outside_.interruption ? outside_.interruption() : nullptr;
    const auto* after = params.if_contains("after");
    client::EventStream events{client_options(),
                               after != nullptr ? std::optional(after->as_int64()) : std::nullopt,
                               interruption.get()};
    const Style style = cellar_style();
    if (!globals_.json)
        display_->note(fmt::format("Watching after event {}; Ctrl-C ends it.\n", events.last()));
    for (const contract::Event& event : events)
        display_->stream(globals_.json ? write_json(to_json(event)) + '\n'
                                       : event_line(event, style));
    return ExitCode::done; // Ctrl-C is the way a watch ends
}

ExitCode Program::call(const Command& command, const json::object& params) {
    const bool is_silent = globals_.quiet && command.method.effect == Effect::writes;
    const bool is_for_program = globals_.json || display_->style().is_plain ||
                                command.noun == "sheet"; // its answer is a sheet already
    if (!is_silent && !is_for_program)
        return show_sheet(command, params);
    const auto result = answer(command, params);
    if (is_silent)
        return ExitCode::done;
    if (!display_->style().is_plain) {
        display_->show(result.text + '\n');
        return ExitCode::done;
    }
    const Rendered rendered = render(result.result, command.method.result, cellar_style());
    if (!rendered.out.empty())
        display_->show(rendered.out);
    if (!rendered.notes.empty())
        display_->note(rendered.notes);
    return ExitCode::done;
}

ExitCode Program::show_sheet(const Command& command, const json::object& params) {
    const auto shown = asked(command, [&](const client::CallOptions& options) {
        return daemon().show(command.method.name, params,
                             client::repeat_of(command.method.access, command.method.effect),
                             options);
    });
    const sheet::Reader reader = reader_at(shown.now);
    if (globals_.html) {
        outside_.write_file(*globals_.html, sheet::write_html(shown.sheet, reader));
        display_->note(fmt::format("Wrote {}.\n", printable(*globals_.html)));
        return ExitCode::done;
    }
    display_->show(sheet::write_text(shown.sheet, reader));
    return ExitCode::done;
}

sheet::Reader Program::reader_at(Instant now) {
    const Style style = cellar_style();
    sheet::Reader reader;
    reader.units = style.system;
    reader.kitchen = style.system != brewing::System::metric;
    reader.currency = style.currency;
    reader.time_zone = style.time_zone;
    reader.now = now;
    reader.width = style.width;
    reader.unicode = style.has_utf8;
    reader.colour = style.has_colour;
    reader.full = globals_.full;
    reader.command = [this](const std::string& method, const json::object& params,
                            const std::vector<std::string>& ask) {
        return command_text(catalogue(), method, params, ask);
    };
    return reader;
}

} // namespace barmkeep::barm
