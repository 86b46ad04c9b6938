// From which lots an amount is taken.
#pragma once

#include "daemon/ledger/lots.hpp"

namespace barmkeep::ledger {

/// A part of what is taken.
struct Part {
    std::int64_t lot = 0;
    std::int64_t steps = 0;
    std::int64_t from_reserved = 0; ///< how many of them the brew day had reserved
    std::int64_t swept = 0; ///< how many of them nobody asked for: a rest below the scale's step
};

/// What is taken for whom, and when.
struct TakeRequest {
    Amount amount;                    ///< REQUIRES: in the good's measure and above zero
    std::optional<std::int64_t> brew; ///< may take what it has reserved
    Date day;                         ///< on which it is wanted
    bool is_boiled = false;           ///< a named lot kept cold may be taken (is_usable_chilled)
    bool is_promised = false;         ///< only to be reserved: no rest is swept
};

/// Chooses the lots for a wish: the lot named, or a good's lots in the order in which they are
/// taken; first what the brew day has reserved, then what nobody has.  Lots on hold are left out,
/// and refused when named; jars and cans past their best by are left out unless their lot is named.
/// What a weighing would leave of a lot below the scale's step goes with it.  Throws
/// Error(not_enough), which says what there is, and Error(conflict, "on_hold").
[[nodiscard]] std::vector<Part> choose(const View& view, const Named& named,
                                       const TakeRequest& wish, std::string_view pointer);

/// The error of having too little: says what is on hand, reserved, on hold and free in `lots`.
[[nodiscard]] Error not_enough(const View& view, const std::string& of_what,
                               const std::vector<LotRow>& lots, const Amount& asked,
                               std::string_view pointer);

} // namespace barmkeep::ledger
