#include "daemon/client/help.hpp"

#include "daemon/client/own_commands.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace barmkeep::barm {
namespace {

std::size_t columns(const Style& style) {
    return static_cast<std::size_t>(std::min(style.width, 80));
}

/// "  term  what it means, wrapped"; a long term has a line of its own.
std::string entry(const std::string& term, const std::string& doc, std::size_t doc_column,
                  const Style& style) {
    const std::size_t column = columns(style) < 60 ? 6 : doc_column;
    const bool own_line = 2 + width_of(term) + 2 > column;
    const std::string gap =
        own_line ? "\n" + std::string(column, ' ') : std::string(column - 2 - width_of(term), ' ');
    return "  " + term + gap + wrapped(doc, columns(style), column) + '\n';
}

std::string heading(const Style& style, std::string_view text) {
    return '\n' + style.heading(text) + '\n';
}

/// "  stock buy  Records a purchase.": one line of at most 80 columns.
std::string command_line(const Command& command, const Style& style) {
    const std::size_t column = columns(style) < 60 ? 6 : 24;
    const std::string words = command.words();
    const std::string gap = 2 + width_of(words) + 2 > column
                                ? "\n" + std::string(column, ' ')
                                : std::string(column - 2 - width_of(words), ' ');
    return "  " + words + gap + first_sentence(command.method.doc, columns(style) - column) + '\n';
}

std::string value_word(const json::object& schema) {
    if (!enum_words(schema).empty())
        return "WORD";
    const std::string kind = text_of(schema, "x-kind");
    const std::string format = text_of(schema, "format");
    if (kind == "amount")
        return "AMOUNT";
    if (kind == "money")
        return "SUM";
    if (kind == "lot")
        return "LOT";
    if (format == "date")
        return "DATE";
    if (format == "date-time")
        return "TIME";
    if (const auto unit = text_of(schema, "x-unit"); !unit.empty())
        return unit == "s" ? "DURATION" : "QUANTITY";
    switch (shape_of(schema)) {
    case Shape::text:
        return "TEXT";
    case Shape::number:
    case Shape::integer:
        return "NUMBER";
    case Shape::texts:
        return value_word(schema_at(schema, "items"));
    case Shape::members:
        return "NAME=VALUE";
    default:
        break;
    }
    return "JSON";
}

std::string record_pairs(const json::object& item_schema) {
    std::vector<std::string> names;
    for (const auto& member : options_of(item_schema))
        if (member.is_required)
            names.push_back(member.name + "=" + value_word(member.schema));
    return fmt::format("{}", fmt::join(names, ","));
}

/// "BREW", "LOT", "DATE": what stands for the value of an option.
std::string placeholder(const Option& option) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 4> named{
        {{"brew", "BREW"}, {"run", "RUN"}, {"entry", "ENTRY"}, {"good", "GOOD"}}};
    const auto found = std::ranges::find(named, std::string_view(option.name),
                                         &decltype(named)::value_type::first);
    return found != named.end() ? std::string(found->second) : value_word(option.schema);
}

std::string in_quotes(const std::string& text) {
    return text.find_first_of(" '\"$&;()*?") == std::string::npos ? text : '"' + text + '"';
}

std::string options_text(const std::vector<Option>& options, const Style& style) {
    std::string text;
    for (const auto& option : options)
        if (!option.is_positional)
            text += entry(option_usage(option), option_doc(option), 26, style);
    return text;
}

std::string rights_text(const Command& command) {
    std::string text = fmt::format("Needs the right '{}'.", to_string(command.method.access));
    if (command.method.effect == Effect::writes)
        text += "  Changes the cellar; repeated with the same --key it is done only once.";
    if (!command.provider.empty() && command.provider != "core" && command.provider != "barm")
        text += fmt::format("  From the plugin {}.", command.provider);
    return text;
}

/// The commands of a topic, or of barm itself, under a heading; empty if there are none.
std::string commands_text(std::string_view title, const std::vector<const Command*>& commands,
                          const Style& style) {
    std::string text;
    for (const auto* command : commands)
        text += command_line(*command, style);
    return text.empty() ? text : heading(style, title) + text;
}

std::string topic_heading(const Topic& topic, const Style& style) {
    return wrapped(fmt::format("{}  (`barm help {}`)", topic.title, topic.word), columns(style), 0);
}

/// barm's own commands: those of a person, or those of programs.
std::vector<const Command*> own_commands_for(bool programs) {
    std::vector<const Command*> found;
    for (const auto& command : own_commands())
        if ((command.noun == "send" || command.noun == "complete") == programs)
            found.push_back(&command);
    return found;
}

/// All commands by topic; those for programs come last.
std::string topics_text(const Catalogue* catalogue, const Style& style) {
    std::string text;
    for (const auto& topic : topics()) {
        const bool is_last = &topic == &topics().back();
        if (is_last)
            text += commands_text("barm itself", own_commands_for(false), style);
        auto commands =
            catalogue != nullptr ? commands_of(*catalogue, topic) : std::vector<const Command*>{};
        if (is_last)
            for (const auto* own : own_commands_for(true))
                commands.push_back(own);
        text += commands_text(topic_heading(topic, style), commands, style);
    }
    return text;
}

/// The first examples that a new brewer needs; those that this daemon has.
std::string examples_text(const Catalogue* catalogue) {
    std::string text = "  barm                    what is due and what is on the shelf\n";
    for (const char* method : {"good.add", "stock.buy", "stock.use", "stock.list", "brew.plan"})
        if (const auto* command = catalogue != nullptr ? catalogue->find_method(method) : nullptr)
            if (const auto line = example_line(*command, options_of(*command)); !line.empty())
                text += "  " + line + '\n';
    return text + "  barm help canning       the commands for canning, and how to use them\n"
                  "  barm help stock buy     one command with its options\n";
}

} // namespace

std::string option_usage(const Option& option) {
    if (option.shape == Shape::flag) {
        const auto* usual = option.schema.if_contains("default");
        return usual != nullptr && *usual == json::value(true) ? "--no-" + option.name
                                                               : "--" + option.name;
    }
    if (option.shape == Shape::records)
        return fmt::format("--{} {}", option.name, record_pairs(schema_at(option.schema, "items")));
    return fmt::format("--{} {}", option.name, placeholder(option));
}

/// What a person may write for an option: a quantity has its unit beside it, because a bare number
/// would be read by whoever had another unit in mind.
std::string typed_phrase(const json::object& schema) {
    if (text_of(schema, "format") == "date-time")
        return "time on the cellar's clock, as 09:30 or 2026-03-14 09:30";
    const std::string unit = text_of(schema, "x-unit");
    if (!unit.empty() && has_type(schema, "string") && text_of(schema, "x-kind") != "amount")
        return unit == "s" ? "with its unit, as 90 s or 25 min" : "with its unit";
    return kind_phrase(schema);
}

std::string option_doc(const Option& option) {
    std::string doc = option.doc;
    const std::string kind = typed_phrase(option.schema);
    const std::string rules = rules_phrase(option.schema);
    if (const bool says_more = kind != "text" && option.shape != Shape::flag; says_more)
        doc += fmt::format("  ({}{}{})", kind, rules.empty() ? "" : "; ", rules);
    else if (!rules.empty())
        doc += fmt::format("  ({})", rules);
    if (option.repeats())
        doc += "  May be repeated.";
    if (option.is_required && !option.is_positional)
        doc += "  Required.";
    return doc;
}

std::string usage_line(const Command& command, const std::vector<Option>& options) {
    std::string line = "barm " + command.words();
    bool has_more = false;
    for (const auto& option : options)
        if (option.is_positional)
            line += " " + operand_name(option);
        else if (option.is_required)
            line += " " + option_usage(option);
        else
            has_more = true;
    return has_more ? line + " [options]" : line;
}

std::string example_line(const Command& command, const std::vector<Option>& options) {
    std::string line = "barm " + command.words();
    for (const auto& option : options) {
        if (!option.is_required)
            continue;
        const auto* examples = option.schema.if_contains("examples");
        std::string example;
        if (examples != nullptr && examples->is_array() && !examples->get_array().empty() &&
            examples->get_array().front().is_string())
            example = std::string(examples->get_array().front().get_string());
        else if (const auto words = enum_words(option.schema); !words.empty())
            example = words.front();
        else if (option.name == "good")
            example = "light dry extract";
        else if (option.name == "what")
            example = "pint jars";
        else
            return {};
        line += (option.is_positional ? " " : " --" + option.name + " ") + in_quotes(example);
    }
    return line;
}

std::string command_help(const Command& command, const Style& style) {
    const auto options = options_of(command);
    const std::size_t width = columns(style);
    std::string text = "Usage: " + wrapped(usage_line(command, options), width, 7) + "\n\n" +
                       wrapped(command.method.doc, width, 0) + '\n';
    if (const auto example = example_line(command, options);
        !example.empty() && command.provider != "barm")
        text += heading(style, "Example") + "  " + example + '\n';
    std::string operands;
    for (const auto& option : options)
        if (option.is_positional)
            operands += entry(operand_name(option), option_doc(option), 16, style);
    if (!operands.empty())
        text += heading(style, "Operands") + operands;
    if (const auto own = options_text(options, style); !own.empty())
        text += heading(style, "Options") + own;
    text += '\n' + wrapped(rights_text(command), width, 0) + '\n';
    return text +
           wrapped("Options of every command: `barm help`.  Every operand may also be given "
                   "as --name.",
                   width, 0) +
           '\n';
}

std::string noun_help(const Catalogue& catalogue, std::string_view noun, const Style& style) {
    std::string text = fmt::format("Usage: barm {} VERB\n", noun) + heading(style, "Verbs");
    for (const auto* command : catalogue.of_noun(noun))
        text += entry(command->verb, command->method.doc, 16, style);
    return text + fmt::format("\n`barm {} VERB --help` describes one.\n", noun);
}

std::string topic_help(const Catalogue& catalogue, const Topic& topic, const Style& style) {
    std::string text = fmt::format("Usage: barm help {}\n\n", topic.word) +
                       wrapped(topic.use, columns(style), 0) + '\n';
    const auto commands = commands_of(catalogue, topic);
    text += commands_text(topic.title, commands, style);
    if (commands.empty())
        text +=
            "\nThe daemon has no commands of this topic.  `barm plugin list` lists its plugins.\n";
    return text + "\n`barm NOUN VERB --help` describes one command.\n";
}

std::string general_help(const Catalogue* catalogue, const std::string& why, const Style& style) {
    std::string text = "Usage: barm [NOUN VERB] [operands] [options]\n\n" +
                       wrapped("barm keeps a brewer's cellar: starter wort, yeast and what they "
                               "are made from.",
                               columns(style), 0) +
                       '\n' + heading(style, "Examples") + examples_text(catalogue);
    if (catalogue == nullptr)
        text += heading(style, "Commands") + "  " +
                wrapped("barm cannot list them, because it cannot ask the daemon: " + why,
                        columns(style), 2) +
                '\n';
    text += topics_text(catalogue, style);
    text += heading(style, "Options of every command") + options_text(global_options(), style);
    return text + '\n' +
           wrapped("`barm manual` prints the reference of every command.  Report faults to "
                   "the person who gave you Barmkeep, with the output of `barm --versions`.",
                   columns(style), 0) +
           '\n';
}

} // namespace barmkeep::barm
