#include "daemon/client/command_text.hpp"

#include "daemon/client/arguments.hpp"
#include "daemon/client/option.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

std::string value_word(const json::value& value) {
    return value.is_string() ? std::string(value.get_string()) : write_json(value);
}

/// The words that give one option its value.
std::vector<std::string> option_words(const Option& option, const json::value& value) {
    const std::string name = "--" + option.name;
    if (option.shape == Shape::flag && value.is_bool())
        return {value.get_bool() ? name : "--no-" + option.name};
    std::vector<std::string> words;
    if (option.repeats() && value.is_array()) {
        for (const auto& one : value.get_array())
            words.insert(words.end(), {name, value_word(one)});
        return words;
    }
    return {name, value_word(value)};
}

std::string in_capitals(std::string_view name) {
    std::string text = dashed(name);
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return text;
}

/// Name and value of each param, for a method that is no command here.
std::string method_text(std::string_view method, const json::object& params) {
    std::string text(method);
    for (const auto& param : params)
        text += fmt::format(" {}={}", std::string_view(param.key()), value_word(param.value()));
    return text;
}

bool is_asked(const std::vector<std::string>& ask, const Option& option) {
    return option.path.size() == 1 &&
           std::find(ask.begin(), ask.end(), option.path.front()) != ask.end();
}

} // namespace

std::string shell_word(std::string_view word) {
    constexpr std::string_view plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                       "0123456789-_./:,+@%=";
    if (!word.empty() && word.find_first_not_of(plain) == std::string_view::npos)
        return std::string(word);
    std::string quoted = "'";
    for (const char c : word)
        if (c == '\'')
            quoted += "'\\''";
        else
            quoted += c;
    return quoted + "'";
}

std::string command_text(const Catalogue& catalogue, std::string_view method,
                         const json::object& params, const std::vector<std::string>& ask) {
    const Command* command = catalogue.find_method(method);
    if (command == nullptr)
        return method_text(method, params);
    json::object given = params;
    const auto options = options_of(*command);
    std::vector<std::string> operands;
    std::vector<std::string> rest;
    for (const Option& option : options) {
        const auto* value = find_at(given, option.path);
        const bool is_inner = option.shape == Shape::record; // its members are options themselves
        if (value != nullptr && !is_inner) {
            if (option.is_positional && !option.is_variadic)
                operands.push_back(shell_word(value_word(*value)));
            else
                for (const auto& word : option_words(option, *value))
                    rest.push_back(shell_word(word));
        } else if (is_asked(ask, option)) {
            if (option.is_positional)
                operands.push_back(in_capitals(option.name));
            else
                rest.insert(rest.end(), {"--" + option.name, in_capitals(option.name)});
        }
    }
    std::string text = "barm " + command->words();
    for (const auto* words : {&operands, &rest})
        for (const auto& word : *words)
            text += " " + word;
    return text;
}

} // namespace barmkeep::barm
