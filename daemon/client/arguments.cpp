#include "daemon/client/arguments.hpp"

#include "daemon/client/usage_error.hpp"
#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace barmkeep::barm {
namespace {

/// A flag, given as --no-NAME or --NAME.
struct Found {
    const Option* option = nullptr;
    bool is_global = false;
    bool is_negated = false;
};

Found find_in(const std::vector<Option>& options, std::string_view name, bool is_global) {
    if (const auto* option = find_option(options, name))
        return {option, is_global, false};
    if (name.starts_with("no-"))
        if (const auto* option = find_option(options, name.substr(3));
            option != nullptr && option->shape == Shape::flag)
            return {option, is_global, true};
    return {};
}

[[noreturn]] void refuse_option(std::string_view name, const std::vector<Option>& own) {
    std::vector<std::string> known;
    for (const auto* options : {&own, &global_options()})
        for (const auto& option : *options) {
            known.push_back("--" + option.name);
            if (option.shape == Shape::flag)
                known.push_back("--no-" + option.name);
        }
    const auto near = nearest(name, known);
    throw UsageError(fmt::format("There is no option '{}' here.", name),
                     near ? fmt::format("Did you mean '{}'?", *near)
                          : "`--help` lists the options; those of a command come after it.");
}

bool is_operand(std::string_view word) {
    if (word.size() < 2 || word[0] != '-')
        return true;
    // A negative number, or a day such as -2d: no option begins with a digit.
    return std::isdigit(static_cast<unsigned char>(word[1])) != 0 || word[1] == '.';
}

class Sorter {
public:
    Sorter(const std::vector<std::string>& words, std::size_t first, const std::vector<Option>& own)
        : words_{words}, at_{first}, own_{own} {}

    Sorted run(std::size_t operands_max) {
        bool options_ended = false;
        while (at_ < words_.size() && sorted_.operands.size() < operands_max) {
            const std::string& word = words_[at_++];
            if (!options_ended && word == "--")
                options_ended = true;
            else if (options_ended || is_operand(word))
                sorted_.operands.push_back(word);
            else if (word.starts_with("--"))
                take_long(word);
            else
                take_short(word);
        }
        sorted_.used = at_;
        return std::move(sorted_);
    }

private:
    void take_long(const std::string& word) {
        const auto equals = word.find('=');
        const std::string name = word.substr(2, equals == std::string::npos ? equals : equals - 2);
        Found found = find_in(own_, name, false);
        if (found.option == nullptr)
            found = find_in(global_options(), name, true);
        if (found.option == nullptr && name == "no-color") {
            add({find_option(global_options(), "color"), true}, "never");
            return;
        }
        if (found.option == nullptr)
            refuse_option(word.substr(0, equals), own_);
        if (equals != std::string::npos && !found.is_negated)
            add(found, word.substr(equals + 1));
        else if (found.option->takes_value())
            add(found, next_value(word));
        else
            add(found, found.is_negated ? "false" : "true");
    }

    void take_short(const std::string& word) {
        for (const char letter : word.substr(1)) {
            const std::string_view name = letter == 'h' ? "help" : letter == 'q' ? "quiet" : "";
            if (name.empty())
                refuse_option("-" + std::string(1, letter), own_);
            add({find_option(global_options(), name), true}, "true");
        }
    }

    std::string next_value(const std::string& name) {
        if (at_ == words_.size() || words_[at_].starts_with("--"))
            throw UsageError(
                fmt::format("{} wants a value.", name),
                fmt::format("Write {}=VALUE for one that begins with two dashes.", name));
        return words_[at_++];
    }

    void add(const Found& found, std::string text) {
        (found.is_global ? sorted_.global : sorted_.own).push_back({found.option, std::move(text)});
    }

    const std::vector<std::string>& words_;
    std::size_t at_;
    const std::vector<Option>& own_;
    Sorted sorted_;
};

/// Options given twice where one value is wanted: the later one would silently win.
void refuse_twice(const std::vector<Sorted::Given>& given) {
    for (auto one = given.begin(); one != given.end(); ++one)
        if (!one->option->repeats() && one->option->takes_value() &&
            std::any_of(given.begin(), one,
                        [&](const auto& earlier) { return earlier.option == one->option; }))
            throw UsageError(fmt::format("--{} is given twice.", one->option->name));
}

/// Operands to positional options in order; those already given by name are passed over.
std::vector<Sorted::Given> place_operands(const Sorted& sorted, const std::vector<Option>& own) {
    std::vector<Sorted::Given> placed = sorted.own;
    auto operand = sorted.operands.begin();
    for (const auto& option : own) {
        const bool by_name =
            std::any_of(sorted.own.begin(), sorted.own.end(),
                        [&](const auto& given) { return given.option == &option; });
        if (!option.is_positional || by_name)
            continue;
        if (operand == sorted.operands.end())
            break;
        do
            placed.push_back({&option, *operand++});
        while (option.is_variadic && operand != sorted.operands.end());
    }
    if (operand != sorted.operands.end())
        throw UsageError(fmt::format("'{}' is one word too many.", *operand),
                         "Put a name or an amount of several words in quotes: \"light dry "
                         "extract\", \"4 oz\".");
    return placed;
}

void require(const json::object& params, const std::vector<Option>& own) {
    std::vector<std::string> missing;
    json::object copy = params;
    for (const auto& option : own)
        if (option.is_required && find_at(copy, option.path) == nullptr)
            missing.push_back(option.is_positional ? operand_name(option) : "--" + option.name);
    if (!missing.empty())
        throw UsageError(fmt::format("Still wanted: {}.", fmt::join(missing, ", ")),
                         "`--help` describes them.");
}

json::object read_given(const std::vector<Sorted::Given>& given, const ValueContext& context) {
    json::object params;
    std::vector<FieldError> faults;
    for (const auto& [option, text] : given)
        try {
            put_value(params, *option, text, context);
        } catch (const Error& error) {
            if (error.kind() != ErrorKind::params)
                throw;
            faults.insert(faults.end(), error.faults().begin(), error.faults().end());
        }
    if (!faults.empty())
        throw Error(ErrorKind::params, std::move(faults));
    return params;
}

} // namespace

std::vector<Option> options_of(const Command& command) {
    auto options = options_of(command.method.params);
    if (command.method.effect == Effect::writes)
        std::erase_if(options, [](const Option& one) { return one.name == request_key_field; });
    return options;
}

const std::vector<Option>& global_options() {
    static const std::vector<Option> options = options_of(Codec<Globals>::schema(Direction::taken));
    return options;
}

Sorted sort_words(const std::vector<std::string>& words, std::size_t first,
                  const std::vector<Option>& own, std::size_t operands_max) {
    return Sorter{words, first, own}.run(operands_max);
}

json::object params_of(const Sorted& sorted, const std::vector<Option>& own,
                       const ValueContext& context) {
    const auto given = place_operands(sorted, own);
    refuse_twice(given);
    json::object params = read_given(given, context);
    require(params, own);
    return params;
}

void add_globals(json::object& globals, const Sorted& sorted) {
    for (const auto& member : read_given(sorted.global, {}))
        globals[member.key()] = member.value();
}

Globals globals_of(const json::object& globals) {
    return read_as<Globals>(globals);
}

std::string operand_name(const Option& option) {
    std::string name = option.name;
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    if (option.is_variadic)
        name += "...";
    return option.is_required ? name : "[" + name + "]";
}

} // namespace barmkeep::barm
