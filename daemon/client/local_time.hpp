// Instants on the cellar's clock.
#pragma once

#include "sdk/method/time.hpp"

#include <functional>

namespace barmkeep::barm {

/// "2026-03-14 09:30:00 CET": what a person reads has no milliseconds.  In UTC where this machine
/// does not know the zone, because the ledger's machine may know more.
[[nodiscard]] std::string local_text(Instant instant, const std::string& zone);

/// The instant at which the clocks of a zone show a time of a day.  Throws std::invalid_argument
/// that says what to write where the zone is not known here, or its clocks show the time never or
/// twice (when summer time begins or ends).
[[nodiscard]] Instant instant_of(Date day, Seconds into_day, const std::string& zone);

/// Reads `09:30`, `yesterday 09:30`, `2026-03-14 09:30:15` by the cellar's clock.  Nothing for a
/// text of another form.  Throws as instant_of does.
[[nodiscard]] std::optional<Instant> local_instant(std::string_view text,
                                                   const std::function<Date()>& today,
                                                   const std::function<std::string()>& zone);

} // namespace barmkeep::barm
