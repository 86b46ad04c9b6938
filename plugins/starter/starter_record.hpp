// A starter as its record has it: the plan in the document, and what its log made of it.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/record_messages.hpp"
#include "sdk/contract/record.hpp"

namespace barmkeep::starter {

/// The plugin's collection, and what a link to one of its records leads to.
inline constexpr std::string_view collection = "made";
inline constexpr std::string_view link_target = "starter.made";

/// Reads a record; with `lines`, as it stood when its log had so many of them, so that a repeated
/// request is answered alike.  Throws Error(internal, "record_not_understood") for a document that
/// is no starter.
[[nodiscard]] StarterRecord record_from(const contract::Record& record,
                                        std::optional<std::int64_t> lines = std::nullopt);

/// The line that an undoing takes back: the last one still in force; null if there is none.
[[nodiscard]] const LogLine* last_in_force(const StarterRecord& starter);

} // namespace barmkeep::starter
