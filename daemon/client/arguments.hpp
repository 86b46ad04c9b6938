// The words of a command line, sorted into options and operands, and then into params.
#pragma once

#include "daemon/client/catalogue.hpp"
#include "daemon/client/globals.hpp"
#include "daemon/client/value.hpp"

#include <string>
#include <vector>

namespace barmkeep::barm {

/// Words sorted, not yet understood.
struct Sorted {
    struct Given {
        const Option* option = nullptr;
        std::string text;
    };
    std::vector<Given> own;            ///< options of the command
    std::vector<Given> global;         ///< options of barm
    std::vector<std::string> operands; ///< in order
    std::size_t used = 0;              ///< words looked at
};

/// The options of a command: those of its params, less the request key, which is barm's own.
[[nodiscard]] std::vector<Option> options_of(const Command& command);
/// The options of Globals.
[[nodiscard]] const std::vector<Option>& global_options();

/// Sorts words from `first` on, and stops after `operands_max` operands.  `--name value`,
/// `--name=value`, `--flag`, `--no-flag`; `--` ends the options; `-5` and `-` are operands; `-h`
/// and `-q` are short for --help and --quiet.  An option that the command and barm both have is
/// the command's.  Throws UsageError for an unknown option (with the nearest one) or a missing
/// value.
[[nodiscard]] Sorted sort_words(const std::vector<std::string>& words, std::size_t first,
                                const std::vector<Option>& own, std::size_t operands_max);

/// The same options and operands as params.  Throws UsageError for too many operands and for
/// required ones that are missing, Error(params) listing every wrong value.
[[nodiscard]] json::object params_of(const Sorted& sorted, const std::vector<Option>& own,
                                     const ValueContext& context);

/// Adds the global options given to what was given before.  Throws as params_of.
void add_globals(json::object& globals, const Sorted& sorted);
[[nodiscard]] Globals globals_of(const json::object& globals);

/// "GOOD", "[LOT]", "TEXT...": how help names an operand.
[[nodiscard]] std::string operand_name(const Option& option);

} // namespace barmkeep::barm
