// The texts by which a run is found again: the memo of its entries and the names of its reminders.
// They are written and read here, and nowhere else.
//
// Thread safety: pure functions.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace barmkeep::canning {

/// The whole number, above zero, that a text ends with after a beginning; nothing if it has another
/// beginning, or anything else than one such number after it.
[[nodiscard]] std::optional<std::int64_t> number_after(std::string_view text,
                                                       std::string_view beginning);

/// The memo of the journal entries that a run makes.  Anyone may write such a memo, so it tells
/// which run to look at, and the run's own document tells whether the entry is its own.
[[nodiscard]] std::string memo_of(std::int64_t run);
/// The run of a memo, if it is one.
[[nodiscard]] std::optional<std::int64_t> run_of_memo(const std::optional<std::string>& memo);

/// What a run reminds of.
enum class Reminds { seals, inspection, refrigerator };

[[nodiscard]] std::string reminder_name(std::int64_t run, Reminds about);

struct RunReminder {
    std::int64_t run = 0;
    Reminds about = Reminds::seals;
};
/// What a reminder of that name is about; nothing if it is not a run's.
[[nodiscard]] std::optional<RunReminder> run_reminder(std::string_view name);

} // namespace barmkeep::canning
