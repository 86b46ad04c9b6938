#include "plugins/starter/starter_record.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

/// The lines that no later one took back.
std::vector<const LogLine*> in_force(const std::vector<LogLine>& log) {
    std::vector<const LogLine*> lines;
    for (const LogLine& line : log)
        if (line.kind != LogKind::undone)
            lines.push_back(&line);
        else if (!lines.empty())
            lines.pop_back();
    return lines;
}

/// Brings the plan and the state up to the log.
void follow_log(StarterRecord& starter) {
    starter.state = StarterState::dropped; // with its first step undone
    for (const LogLine* line : in_force(starter.log)) {
        switch (line->kind) {
        case LogKind::step:
            if (line->step && starter.steps_made < std::ssize(starter.plan.steps))
                starter.plan.steps[static_cast<std::size_t>(starter.steps_made)] = *line->step;
            ++starter.steps_made;
            starter.state = StarterState::growing;
            break;
        case LogKind::finished:
            starter.state = StarterState::finished;
            break;
        case LogKind::dropped:
        case LogKind::undone:
            starter.state = StarterState::dropped;
            break;
        }
    }
}

} // namespace

StarterRecord record_from(const contract::Record& record, std::optional<std::int64_t> lines) {
    StarterRecord starter;
    starter.number = record.number;
    const auto count = std::min(lines.value_or(std::ssize(record.lines)), std::ssize(record.lines));
    try {
        starter.plan = decode<Plan>(record.document);
        for (std::int64_t i = 0; i < count; ++i)
            starter.log.push_back(decode<LogLine>(record.lines[static_cast<std::size_t>(i)]));
    } catch (const Error& error) {
        throw Error(ErrorKind::internal, "record_not_understood",
                    fmt::format("The record of starter {} cannot be read: {}", record.number,
                                error.what()));
    }
    follow_log(starter);
    return starter;
}

const LogLine* last_in_force(const StarterRecord& starter) {
    const auto lines = in_force(starter.log);
    return lines.empty() ? nullptr : lines.back();
}

} // namespace barmkeep::starter
