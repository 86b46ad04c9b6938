// What the temperature in the storage and the signs on a jar mean.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/storage/messages.hpp"

namespace barmkeep::canning {

/// What a temperature means for stored jars (S23 S24): best at 10 to 21 C, never above 35 C.
[[nodiscard]] std::vector<std::string> temperature_warnings(brewing::Temperature temperature);

/// "swollen_lid, mould: found at the back"; why jars were thrown out.
[[nodiscard]] std::string reason_of(const std::vector<Sign>& signs,
                                    const std::optional<std::string>& note);

/// Throws Error(params, "missing") for the sign `other` without a note.
void check_signs(const std::vector<Sign>& signs, const std::optional<std::string>& note);

/// What to do before a jar is opened, in order.
[[nodiscard]] std::vector<CheckStep> opening_checklist(const contract::Lot& lot);
/// Why a lot's jars must not be opened for use now.
[[nodiscard]] std::vector<std::string> opening_stops(const contract::Lot& lot, Date today);
/// What must be said of a lot at each use: holds that were released and why, the time of its
/// process, and that it was kept cold and is boiled first.
[[nodiscard]] std::vector<std::string> opening_notes(const contract::Lot& lot, Date today);
/// What must be said of the process of jars wherever they are shown; empty if nothing.
[[nodiscard]] std::vector<std::string> process_notes(const contract::Facts& facts);
/// A hold in words: "its run's log has a gap: No reading for 12 min".
[[nodiscard]] std::string hold_text(const contract::Hold& hold);
/// What to do with a jar once its opening is recorded.
[[nodiscard]] std::string what_now(bool used, const std::vector<Sign>& signs);

/// Throws Error(params, "wrong_class") for a lot that is not a lot of jars.
void require_jars(const contract::Lot& lot);

/// The published caution's boiling time at an altitude; nothing where it is not published.
[[nodiscard]] std::optional<Seconds> boil_time(std::optional<brewing::Length> altitude);
/// The published caution's boiling time at an altitude, never without what it is; nothing where it
/// is not published.
[[nodiscard]] std::optional<std::string> boil_before_use(std::optional<brewing::Length> altitude);

} // namespace barmkeep::canning
