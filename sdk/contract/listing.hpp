// What every list method shares.
#pragma once

#include "sdk/method/about.hpp"

namespace barmkeep::contract {

/// A list comes in pages: give the `next` of one answer as the `cursor` of the following request.
/// A cursor is opaque; one that the daemon did not make is refused.
inline constexpr std::int64_t page_size_max = 500;
inline constexpr std::int64_t page_size_usual = 100;

} // namespace barmkeep::contract
