#include "daemon/client/catalogue.hpp"

#include "daemon/client/option.hpp"
#include "daemon/client/own_commands.hpp"
#include "daemon/client/usage_error.hpp"
#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

/// Methods that speak about the connection they come over, so that a command that ends with its
/// connection has no use for them.
bool is_about_connection(std::string_view name) {
    return name == "call.cancel" || name == "event.stop" || name.starts_with("rpc.");
}

[[noreturn]] void refuse(std::string_view why) {
    throw Error(ErrorKind::text, "bad_discover",
                fmt::format("The discover document cannot be used: {}.", why),
                "The daemon and barm are of different versions. Update the older one.");
}

template <NamedEnum E>
E word_at(const json::object& object, std::string_view name, E otherwise) {
    return from_string<E>(text_of(object, name)).value_or(otherwise);
}

const json::object& object_at(const json::object& object, std::string_view name) {
    static const json::object none;
    const auto* value = object.if_contains(name);
    return value != nullptr && value->is_object() ? value->get_object() : none;
}

/// Content descriptors back into the one object schema they came from.
json::object params_schema(const json::object& method) {
    json::object properties;
    json::array required;
    const auto* params = method.if_contains("params");
    if (params == nullptr || !params->is_array())
        refuse("a method has no list of params");
    for (const auto& param : params->get_array()) {
        if (!param.is_object())
            refuse("a param is no object");
        const auto& descriptor = param.get_object();
        json::object schema = object_at(descriptor, "schema");
        if (!schema.contains("description"))
            schema["description"] = text_of(descriptor, "description");
        const std::string name = text_of(descriptor, "name");
        properties[name] = std::move(schema);
        if (const auto* is_required = descriptor.if_contains("required");
            is_required != nullptr && *is_required == true)
            required.push_back(json::value(name));
    }
    return {{"type", "object"},
            {"properties", std::move(properties)},
            {"required", std::move(required)}};
}

Description description_of(const json::object& method) {
    std::string doc = text_of(method, "description");
    if (doc.empty())
        doc = text_of(method, "summary");
    const auto* is_long = method.if_contains("x-long");
    return {text_of(method, "name"),
            word_at(method, "x-access", Access::look),
            word_at(method, "x-effect", Effect::reads),
            std::move(doc),
            is_long != nullptr && *is_long == true,
            params_schema(method),
            object_at(object_at(method, "result"), "schema")};
}

/// "Did you mean `barm canning plan` or `barm starter plan`?"
std::string did_you_mean(std::vector<const Command*> commands) {
    constexpr std::size_t most = 4;
    commands.resize(std::min(commands.size(), most));
    std::string text;
    for (std::size_t i = 0; i < commands.size(); ++i)
        text += fmt::format("{}`barm {}`",
                            i == 0                     ? ""
                            : i + 1 == commands.size() ? " or "
                                                       : ", ",
                            commands[i]->words());
    return fmt::format("Did you mean {}?", text);
}

} // namespace

std::string Command::words() const {
    return verb.empty() ? noun : noun + " " + verb;
}

Command command_of(Description method, std::string provider) {
    const auto dot = method.name.find('.');
    std::string noun = dashed(method.name.substr(0, dot));
    std::string verb = dot == std::string::npos ? "" : dashed(method.name.substr(dot + 1));
    return {std::move(method), std::move(provider), std::move(noun), std::move(verb)};
}

Catalogue::Catalogue(const json::object& document)
    : version_{text_of(object_at(document, "info"), "x-program-version")} {
    if (version_.empty())
        version_ = text_of(object_at(document, "info"), "version");
    const auto* methods = document.if_contains("methods");
    if (methods == nullptr || !methods->is_array())
        refuse("it has no list of methods");
    for (const auto& method : methods->get_array()) {
        if (!method.is_object())
            refuse("a method is no object");
        Description description = description_of(method.get_object());
        if (!is_about_connection(description.name))
            commands_.push_back(
                command_of(std::move(description), text_of(method.get_object(), "x-provider")));
    }
}

std::vector<std::string> Catalogue::nouns() const {
    std::vector<std::string> all;
    for (const auto& command : commands_)
        if (std::find(all.begin(), all.end(), command.noun) == all.end())
            all.push_back(command.noun);
    std::sort(all.begin(), all.end());
    return all;
}

std::vector<const Command*> Catalogue::of_noun(std::string_view noun) const {
    std::vector<const Command*> all;
    for (const auto& command : commands_)
        if (command.noun == noun)
            all.push_back(&command);
    std::sort(all.begin(), all.end(),
              [](const auto* a, const auto* b) { return a->verb < b->verb; });
    return all;
}

const Command* Catalogue::find(std::string_view noun, std::string_view verb) const {
    for (const auto& command : commands_)
        if (command.noun == noun && command.verb == verb)
            return &command;
    return nullptr;
}

const Command* Catalogue::find_method(std::string_view name) const {
    for (const auto& command : commands_)
        if (command.method.name == name)
            return &command;
    return nullptr;
}

std::vector<const Command*> Catalogue::of_verb(std::string_view verb) const {
    std::vector<const Command*> all;
    for (const auto& command : commands_)
        if (command.verb == verb)
            all.push_back(&command);
    return all;
}

void Catalogue::require_noun(std::string_view noun) const {
    auto known = nouns();
    if (std::find(known.begin(), known.end(), noun) != known.end())
        return;
    for (const auto& own : own_commands())
        known.push_back(own.noun);
    const std::string what = fmt::format("There is no command '{}'.", noun);
    if (const auto others = of_verb(noun); !others.empty())
        throw UsageError(what, did_you_mean(others));
    if (const auto near = nearest(noun, known))
        throw UsageError(what, fmt::format("Did you mean '{}'?", *near));
    if (const auto near = nearest(noun, verbs()))
        throw UsageError(what, did_you_mean(of_verb(*near)));
    throw UsageError(what, "`barm help` lists the commands.");
}

const Command& Catalogue::command(std::string_view noun, std::string_view verb) const {
    if (const auto* found = find(noun, verb))
        return *found;
    require_noun(noun);
    const std::string what = fmt::format("There is no command '{} {}'.", noun, verb);
    std::vector<std::string> verbs;
    for (const auto* command : of_noun(noun))
        verbs.push_back(command->verb);
    if (const auto near = nearest(verb, verbs))
        throw UsageError(what, did_you_mean({find(noun, *near)}));
    if (const auto others = of_verb(verb); !others.empty())
        throw UsageError(what, did_you_mean(others));
    throw UsageError(what, fmt::format("`barm {} --help` lists its commands.", noun));
}

std::vector<std::string> Catalogue::verbs() const {
    std::vector<std::string> all;
    for (const auto& command : commands_)
        all.push_back(command.verb);
    return all;
}

} // namespace barmkeep::barm
