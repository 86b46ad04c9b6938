// Holds: why stock may not be used, and who may end that.
//
// The kinds are the core's closed list, because jars that may hurt people depend on it.  A plugin
// sets kind, note and links, and no more.  A lot has a set of holds and is stock only without one.
#pragma once

#include "sdk/contract/link.hpp"
#include "sdk/method/lot_code.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

enum class HoldKind {
    quarantine,       ///< the brewer's own
    evidence_missing, ///< the run's log has a gap: nobody can show what happened
    run_suspect,      ///< a jar of the same run was spoiled
    process_unknown,  ///< nobody knows how the jar was canned: a gift, a find, a purchase
    deviation_known,  ///< a step of the process went wrong
    seal_failed,      ///< the jar did not seal
    unknown,          ///< stored by a newer program; never given
};
constexpr auto enum_names(HoldKind) {
    using N = EnumName<HoldKind>;
    return std::array{N{HoldKind::quarantine, "quarantine"},
                      N{HoldKind::evidence_missing, "evidence_missing"},
                      N{HoldKind::run_suspect, "run_suspect"},
                      N{HoldKind::process_unknown, "process_unknown"},
                      N{HoldKind::deviation_known, "deviation_known"},
                      N{HoldKind::seal_failed, "seal_failed"},
                      N{HoldKind::unknown, "unknown"}};
}

/// How a hold of a kind can end.
enum class HoldEnd {
    by_brewer,  ///< released with a reason
    by_process, ///< only by the process that the brewer states for it (lot.vouch)
    never,      ///< the lot never becomes shelf stock
};
[[nodiscard]] constexpr HoldEnd end_of(HoldKind kind) {
    switch (kind) {
    case HoldKind::quarantine:
    case HoldKind::evidence_missing:
    case HoldKind::run_suspect:
        return HoldEnd::by_brewer;
    case HoldKind::process_unknown:
        return HoldEnd::by_process;
    default:
        return HoldEnd::never;
    }
}
/// Whether a release of the kind is shown at every later use of the lot.
[[nodiscard]] constexpr bool is_remembered(HoldKind kind) {
    return kind != HoldKind::quarantine;
}
/// What the kind means, in plain words: "the log of its run has a gap".
[[nodiscard]] constexpr std::string_view meaning_of(HoldKind kind) {
    switch (kind) {
    case HoldKind::quarantine:
        return "put in quarantine";
    case HoldKind::evidence_missing:
        return "the log of its run has a gap";
    case HoldKind::run_suspect:
        return "another jar of its run was spoiled";
    case HoldKind::process_unknown:
        return "nobody knows how it was canned";
    case HoldKind::deviation_known:
        return "a step of its process went wrong";
    case HoldKind::seal_failed:
        return "it did not seal";
    default:
        return "held for a reason that this program does not know";
    }
}

/// One hold of a lot, in force or ended.
struct Hold {
    std::int64_t number = 0;
    HoldKind kind = HoldKind::quarantine;
    std::string note;
    Links about;
    Instant at;
    std::string who;
    std::optional<Instant> ended_at;
    std::optional<std::string> ended_by;
    std::optional<std::string> end_reason;
    static FieldList fields(auto) {
        return {
            field<&Hold::number>("Its number."),
            field<&Hold::kind>("The kind of hold. It decides how the hold can end."),
            field<&Hold::note>("What happened, in the words of the person or plugin that set it."),
            field<&Hold::about>("What it is about, such as a canning run.").defaulted(),
            field<&Hold::at>("When it was set."),
            field<&Hold::who>("Who set it."),
            field<&Hold::ended_at>("When it ended. Left out while it is in force."),
            field<&Hold::ended_by>("Who ended it."),
            field<&Hold::end_reason>("The reason for ending it.")};
    }
};

/// A hold to be set on a lot as it is made.
struct HoldGiven {
    HoldKind kind = HoldKind::quarantine;
    std::string note;
    static FieldList fields(auto) {
        return {field<&HoldGiven::kind>("The kind of hold."),
                field<&HoldGiven::note>("What happened.").length(1, 400)};
    }
};

} // namespace barmkeep::contract
