// What may come next on a command line: the one place that knows, asked by every shell.
#pragma once

#include "daemon/client/arguments.hpp"
#include "daemon/client/catalogue.hpp"

namespace barmkeep::barm {

struct Candidate {
    std::string text;
    std::string doc;
};

/// What only the daemon knows.
enum class Source { goods, lots, brews, reminders };
/// Asks the daemon, with a short time-out; nothing where it does not answer.
using Fetch = std::function<std::vector<Candidate>(Source)>;

/// The candidates for the last of `words` (those after `barm`; the last may be empty).  Nothing
/// for a line that cannot be understood.
[[nodiscard]] std::vector<Candidate> candidates(const std::vector<std::string>& words,
                                                const Catalogue& catalogue, const Fetch& fetch);

} // namespace barmkeep::barm
