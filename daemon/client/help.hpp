// Help texts, made from the same description that the commands are read with.
#pragma once

#include "daemon/client/arguments.hpp"
#include "daemon/client/catalogue.hpp"
#include "daemon/client/style.hpp"
#include "daemon/client/topics.hpp"

namespace barmkeep::barm {

/// The whole of barm.  `catalogue` is null where no daemon could be asked; `why` then says why not.
[[nodiscard]] std::string general_help(const Catalogue* catalogue, const std::string& why,
                                       const Style& style);
/// The commands of a topic and how they are used together.
[[nodiscard]] std::string topic_help(const Catalogue& catalogue, const Topic& topic,
                                     const Style& style);
/// The verbs of a noun.
[[nodiscard]] std::string noun_help(const Catalogue& catalogue, std::string_view noun,
                                    const Style& style);
[[nodiscard]] std::string command_help(const Command& command, const Style& style);

/// "barm stock buy GOOD AMOUNT PAID [options]"
[[nodiscard]] std::string usage_line(const Command& command, const std::vector<Option>& options);
/// An example made of the schema's own examples; empty if a required value has none.
[[nodiscard]] std::string example_line(const Command& command, const std::vector<Option>& options);
/// "--best-by DATE", "--all", "--inputs what=...,amount=... (repeats)"
[[nodiscard]] std::string option_usage(const Option& option);
/// The option's doc, what to write and its rules, in one paragraph.
[[nodiscard]] std::string option_doc(const Option& option);

} // namespace barmkeep::barm
