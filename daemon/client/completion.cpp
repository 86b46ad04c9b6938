#include "daemon/client/completion.hpp"

#include "daemon/client/own_commands.hpp"
#include "daemon/client/topics.hpp"
#include "daemon/client/usage_error.hpp"

#include <algorithm>

namespace barmkeep::barm {
namespace {

using Candidates = std::vector<Candidate>;

void append(Candidates& all, Candidates more) {
    std::move(more.begin(), more.end(), std::back_inserter(all));
}

Candidates values_of(const Option& option, const Command& command, const Fetch& fetch) {
    const json::object& schema =
        option.shape == Shape::texts ? schema_at(option.schema, "items") : option.schema;
    Candidates all;
    for (const auto& word : enum_words(schema))
        all.push_back({word, ""});
    if (text_of(schema, "format") == "date")
        for (const char* day : {"today", "tomorrow", "+7d"})
            all.push_back({day, ""});
    if (text_of(schema, "x-kind") == "lot" || option.name == "what")
        append(all, fetch(Source::lots));
    if (option.name == "good" || option.name == "what" ||
        (command.noun == "good" && command.verb == "change" && option.name == "name"))
        append(all, fetch(Source::goods));
    if (option.name == "brew" || (command.noun == "brew" && option.name == "number"))
        append(all, fetch(Source::brews));
    if (command.noun == "reminder" && option.name == "name" && command.verb != "post")
        append(all, fetch(Source::reminders));
    return all;
}

Candidates option_names(const std::vector<Option>& own) {
    Candidates all;
    for (const auto* options : {&own, &global_options()})
        for (const auto& option : *options) {
            const auto* usual = option.schema.if_contains("default");
            const bool is_on = usual != nullptr && *usual == json::value(true);
            all.push_back({(is_on ? "--no-" : "--") + option.name, option.doc});
        }
    return all;
}

Candidates nouns(const Catalogue& catalogue) {
    Candidates all;
    for (const auto& noun : catalogue.nouns())
        all.push_back({noun, ""});
    for (const auto& command : own_commands())
        all.push_back({command.noun, command.method.doc});
    return all;
}

Candidates topics_and_nouns(const Catalogue& catalogue) {
    Candidates all = nouns(catalogue);
    for (const auto& topic : topics())
        if (std::ranges::find(all, topic.word, &Candidate::text) == all.end())
            all.push_back({std::string(topic.word), std::string(topic.title)});
    return all;
}

Candidates verbs(const Catalogue& catalogue, std::string_view noun) {
    Candidates all;
    for (const auto* command : catalogue.of_noun(noun))
        all.push_back({command->verb, command->method.doc});
    return all;
}

/// The option that still wants its value, where the last whole word is one.
const Option* waiting_option(const std::vector<std::string>& whole,
                             const std::vector<Option>& own) {
    if (whole.empty() || !whole.back().starts_with("--") ||
        whole.back().find('=') != std::string::npos)
        return nullptr;
    const std::string_view name = std::string_view(whole.back()).substr(2);
    const auto* option = find_option(own, name);
    if (option == nullptr)
        option = find_option(global_options(), name);
    return option != nullptr && option->takes_value() ? option : nullptr;
}

const Option* next_operand(const Sorted& sorted, const std::vector<Option>& own) {
    std::size_t left = sorted.operands.size();
    for (const auto& option : own) {
        const bool by_name =
            std::any_of(sorted.own.begin(), sorted.own.end(),
                        [&](const auto& given) { return given.option == &option; });
        if (!option.is_positional || by_name)
            continue;
        if (left == 0 || option.is_variadic)
            return &option;
        --left;
    }
    return nullptr;
}

Candidates for_command(const Command& command, std::vector<std::string> whole, std::size_t first,
                       const std::string& last, const Fetch& fetch) {
    const auto own = options_of(command);
    if (const auto* option = waiting_option(whole, own))
        return values_of(*option, command, fetch);
    if (last.starts_with("-"))
        return option_names(own);
    const Sorted sorted = sort_words(whole, first, own, whole.size() + 1);
    const auto* operand = next_operand(sorted, own);
    return operand != nullptr ? values_of(*operand, command, fetch) : Candidates{};
}

Candidates all_candidates(const std::vector<std::string>& whole, const std::string& last,
                          const Catalogue& catalogue, const Fetch& fetch) {
    const std::vector<Option> none;
    if (const auto* option = waiting_option(whole, none);
        option != nullptr &&
        sort_words({whole.begin(), whole.end() - 1}, 0, none, 1).operands.empty())
        return values_of(*option, Command{}, fetch);
    const Sorted front = sort_words(whole, 0, none, 1);
    if (front.operands.empty())
        return last.starts_with("-") ? option_names(none) : nouns(catalogue);
    const std::string& noun = front.operands.front();
    if (noun == "help") {
        const auto named = static_cast<std::size_t>(whole.size() - front.used);
        return named == 0   ? topics_and_nouns(catalogue)
               : named == 1 ? verbs(catalogue, whole.back())
                            : Candidates{};
    }
    if (const auto* own = own_command(noun))
        return for_command(*own, whole, front.used, last, fetch);
    const Sorted second = sort_words(whole, front.used, none, 1);
    if (second.operands.empty())
        return last.starts_with("-") ? option_names(none) : verbs(catalogue, noun);
    const auto* command = catalogue.find(noun, second.operands.front());
    return command != nullptr ? for_command(*command, whole, second.used, last, fetch)
                              : Candidates{};
}

} // namespace

std::vector<Candidate> candidates(const std::vector<std::string>& words, const Catalogue& catalogue,
                                  const Fetch& fetch) {
    // A value after an equals sign is completed as one that stands by itself.
    if (!words.empty() && words.back().starts_with("--"))
        if (const auto equals = words.back().find('='); equals != std::string::npos) {
            auto apart = words;
            apart.back().resize(equals);
            apart.push_back(words.back().substr(equals + 1));
            auto found = candidates(apart, catalogue, fetch);
            for (auto& candidate : found)
                candidate.text.insert(0, words.back(), 0, equals + 1);
            return found;
        }
    const std::vector<std::string> whole(words.begin(),
                                         words.empty() ? words.end() : words.end() - 1);
    const std::string last = words.empty() ? "" : words.back();
    Candidates fitting;
    try {
        for (auto& candidate : all_candidates(whole, last, catalogue, fetch))
            if (candidate.text.starts_with(last))
                fitting.push_back(std::move(candidate));
    } catch (const UsageError&) { // a line that cannot be understood has nothing to go on with
    }
    return fitting;
}

} // namespace barmkeep::barm
