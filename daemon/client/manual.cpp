#include "daemon/client/manual.hpp"

#include "daemon/client/help.hpp"
#include "daemon/client/own_commands.hpp"
#include "sdk/client/troff.hpp"

#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

using client::troff;

/// One field as a list item, and below it the fields within.
std::string field_lines(const std::string& name, const json::object& schema, bool required,
                        int depth) {
    const std::string doc = text_of(schema, "description");
    const std::string rules = rules_phrase(schema);
    std::string text = fmt::format("{:{}}- `{}`: {}{}{}{}\n", "", depth * 2, name,
                                   kind_phrase(schema), rules.empty() ? "" : "; " + rules,
                                   required ? "; **required**" : "", doc.empty() ? "" : ". " + doc);
    if (is_range(schema) || text_of(schema, "x-kind") == "amount")
        return text;
    const json::object& inner =
        shape_of(schema) == Shape::records ? schema_at(schema, "items") : schema;
    if (text_of(inner, "x-kind") == "amount" || is_range(inner))
        return text;
    for (const auto& property : properties_of(inner))
        if (property.value().is_object())
            text += field_lines(property.key(), property.value().get_object(),
                                is_required(inner, property.key()) &&
                                    inner.contains("additionalProperties"),
                                depth + 1);
    return text;
}

std::string fields_text(const json::object& object_schema, bool tell_required) {
    std::string text;
    for (const auto& property : properties_of(object_schema))
        if (property.value().is_object())
            text += field_lines(property.key(), property.value().get_object(),
                                tell_required && is_required(object_schema, property.key()), 0);
    return text.empty() ? "- nothing\n" : text;
}

/// The request key is described once for all methods.
json::object params_without_key(const Description& method) {
    json::object params = method.params;
    if (auto* properties = params.if_contains("properties");
        properties != nullptr && method.effect == Effect::writes)
        properties->as_object().erase(request_key_field);
    return params;
}

std::string method_markdown(const Command& command) {
    const Description& method = command.method;
    std::string facts =
        fmt::format("right `{}`, {}", to_string(method.access), to_string(method.effect));
    if (method.is_long)
        facts += ", sends progress";
    return fmt::format("### {}\n\n{}\n\n    {}\n\n({}; from {})\n\nParams:\n\n{}\nResult:\n\n{}\n",
                       method.name, method.doc, usage_line(command, options_of(command)), facts,
                       command.provider, fields_text(params_without_key(method), true),
                       fields_text(method.result, false));
}

std::string man_options(const std::vector<Option>& options, bool positional) {
    std::string text;
    for (const auto& option : options)
        if (option.is_positional == positional)
            text += client::man_item(positional ? operand_name(option) : option_usage(option),
                                     option_doc(option));
    return text;
}

std::string man_command(const Command& command) {
    const auto options = options_of(command);
    return fmt::format(".SS {}\n.B {}\n.PP\n{}\n", troff(command.words()),
                       troff(usage_line(command, options)), troff(command.method.doc)) +
           man_options(options, true) + man_options(options, false);
}

constexpr std::string_view man_tail = R"(.SH EXIT STATUS
.TP
.B 0
Done.
.TP
.B 1
The cellar's state forbids it: not found, not enough, or in conflict with what is there.
.TP
.B 64
The command line cannot be understood.
.TP
.B 65
A value is wrong.
.TP
.B 69
No daemon can be reached, or a part of it does not answer.
.TP
.B 70
A fault of the program.
.TP
.B 74
The output could not be written.
.TP
.B 75
Busy, or the outcome is unknown: repeat with the same key.
.TP
.B 76
The other side does not speak the protocol.
.TP
.B 77
Not allowed.
.TP
.B 78
A setting is wrong.
.TP
.B 130
Interrupted.
.SH ENVIRONMENT
.B BARMKEEP_SOCKET
(the daemon's socket),
.BR BARM_UNITS ,
.BR BARM_COLOR ,
.BR BARM_TIME_OUT ,
.B BARM_PAGER
or
.BR PAGER ,
.BR NO_COLOR ,
.BR FORCE_COLOR ,
.BR XDG_RUNTIME_DIR ,
.BR XDG_CONFIG_HOME .
.SH FILES
.I $XDG_CONFIG_HOME/barmkeep/barm.toml
and
.IR /etc/barmkeep/barm.toml :
settings socket, units, color, pager, time_out.
.B barm settings
prints those in force.
)";

} // namespace

std::string methods_markdown(const Catalogue& catalogue) {
    std::string text =
        "# Methods\n\nEvery method of the daemon and its plugins, with the command that calls it."
        "\nGenerated from the daemon's own description by `barm manual`; do not edit.\n\nA "
        "quantity is a number in the unit named. If a field takes text too, you may write\nanother "
        "unit (`4 oz`, `68 F`). A writing method also takes `key`: the same request with\nthe same "
        "key is done once.\n";
    for (const auto& noun : catalogue.nouns()) {
        text += fmt::format("\n## {}\n\n", noun);
        for (const auto* command : catalogue.of_noun(noun))
            text += method_markdown(*command);
    }
    while (text.ends_with("\n\n"))
        text.pop_back();
    return text;
}

std::string man_page(const Catalogue& catalogue, const std::string& version) {
    std::string text = fmt::format(
        ".TH BARM 1 \"\" \"Barmkeep {}\" \"User commands\"\n.SH NAME\nbarm \\- keep a brewer's "
        "cellar\n.SH SYNOPSIS\n.B barm\n[\\fINOUN VERB\\fR] [\\fIoperands\\fR] "
        "[\\fIoptions\\fR]\n.SH DESCRIPTION\n"
        "barm talks to the daemon barmkeepd over its socket.  Without a command it shows the\n"
        "cellar at a glance.  Its commands are the methods of the daemon and its plugins.\n"
        "Values are written with their units (4 oz, 1.5 kg, 68 F); a date also as today,\n"
        "tomorrow or +10d.\n.SH EXAMPLES\n.nf\nbarm good add \"light dry extract\" extract\n"
        "barm stock buy \"light dry extract\" \"3 lb\" 18.50 \\-\\-supplier \"corner shop\"\n"
        "barm stock use \"light dry extract\" \"200 g\"\nbarm brew plan +10d Porter "
        "\\-\\-volume \"20 L\" \\-\\-gravity 1.048\n.fi\n.SH OPTIONS\n",
        version);
    text += man_options(global_options(), false) + ".SH COMMANDS\n";
    for (const auto& noun : catalogue.nouns())
        for (const auto* command : catalogue.of_noun(noun))
            text += man_command(*command);
    text += ".SH COMMANDS OF BARM'S OWN\n";
    for (const auto& command : own_commands())
        text += man_command(command);
    return text + std::string(man_tail);
}

} // namespace barmkeep::barm
