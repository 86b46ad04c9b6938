#include "plugins/starter/made.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

/// The lines that no later one took back.
std::vector<const MadeLine*> in_force(const std::vector<MadeLine>& log) {
    std::vector<const MadeLine*> lines;
    for (const MadeLine& line : log)
        if (line.deed != Deed::undone)
            lines.push_back(&line);
        else if (!lines.empty())
            lines.pop_back();
    return lines;
}

/// Has the plan and the state follow the log.
void follow_log(Made& made) {
    made.state = MadeState::dropped; // with its first step undone
    for (const MadeLine* line : in_force(made.log)) {
        switch (line->deed) {
        case Deed::step:
            if (line->step && made.steps_made < std::ssize(made.plan.steps))
                made.plan.steps[static_cast<std::size_t>(made.steps_made)] = *line->step;
            ++made.steps_made;
            made.state = MadeState::growing;
            break;
        case Deed::finished:
            made.state = MadeState::finished;
            break;
        case Deed::dropped:
        case Deed::undone:
            made.state = MadeState::dropped;
            break;
        }
    }
}

} // namespace

Made made_of(const contract::Record& record, std::optional<std::int64_t> lines) {
    Made made;
    made.number = record.number;
    const auto count = std::min(lines.value_or(std::ssize(record.lines)), std::ssize(record.lines));
    try {
        made.plan = decode<Plan>(record.document);
        for (std::int64_t i = 0; i < count; ++i)
            made.log.push_back(decode<MadeLine>(record.lines[static_cast<std::size_t>(i)]));
    } catch (const Error& error) {
        throw Error(ErrorKind::internal, "record_not_understood",
                    fmt::format("The record of starter {} cannot be read: {}", record.number,
                                error.what()));
    }
    follow_log(made);
    return made;
}

const MadeLine* last_in_force(const Made& made) {
    const auto lines = in_force(made.log);
    return lines.empty() ? nullptr : lines.back();
}

} // namespace barmkeep::starter
