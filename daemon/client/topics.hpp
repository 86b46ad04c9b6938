// The help of a brewer in groups: each command belongs to one topic.
#pragma once

#include "daemon/client/catalogue.hpp"

namespace barmkeep::barm {

/// What a brewer sets out to do, and the commands for it.
struct Topic {
    std::string_view word;  ///< `barm help WORD`: "brew-days"
    std::string_view title; ///< "Brew days: plan them and reserve stock"
    /// Nouns of commands ("stock"), and methods that belong here although their noun belongs to
    /// another topic ("cellar.glance"); parted by spaces.
    std::string_view members;
    /// How the commands are used together, for `barm help WORD`.
    std::string_view use;
};

/// All topics in the order of the help; "more" and "programs" are the last two.
[[nodiscard]] const std::vector<Topic>& topics();
/// The topic with this word, or null.
[[nodiscard]] const Topic* find_topic(std::string_view word);
/// The topic of a method; "more" for a method of a plugin that barm does not know.
[[nodiscard]] const Topic& topic_of(std::string_view method);
/// The commands of a topic, by noun in the order of the topic's members, then by verb.
[[nodiscard]] std::vector<const Command*> commands_of(const Catalogue& catalogue,
                                                      const Topic& topic);

} // namespace barmkeep::barm
