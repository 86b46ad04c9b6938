// Which jars of concentrate a wort takes, and the water with them, by mass balance.
//
// Extract is what is conserved: jars are opened, first to expire first, until their extract is
// enough; of the last one only so much is poured as the wort still needs.  What water the wort then
// lacks is topped up (sdk/brewing/dilution.hpp).
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/plan_messages.hpp"
#include "plugins/starter/shelf.hpp"
#include "sdk/brewing/extract.hpp"
#include "sdk/contract/equipment.hpp"

#include <span>

namespace barmkeep::starter {

/// Jars of one lot that may be opened.
struct JarStock {
    contract::Lot lot;
    std::int64_t jars = 0;
};

/// What one jar of a lot holds.
///
/// The measured gravity outranks the extract that was weighed in.  A fill that the lot does not
/// have is that of its jar size, or follows from extract and gravity.
/// Throws Error(conflict), "gravity_unknown" or "fill_unknown", with the command that sets it, and
/// Error(conflict) for facts that no formula holds for.
[[nodiscard]] brewing::Wort concentrate_in(const contract::Lot& lot,
                                           std::span<const contract::JarSize> sizes);

/// The lots of concentrate to open, first to expire first: of the lot or good in `wanted`, or of
/// the one good that has the jar that expires first; jars past their best by, and chilled ones that
/// are boiled, only where `wanted` is their lot's code.  Throws Error(not_found) for a name that is
/// no concentrate on the shelf, and Error(conflict), "boil_first", for a chilled jar without the
/// confirmation that it is boiled.
[[nodiscard]] std::vector<JarStock> jars_on_shelf(std::span<const contract::Shelf> shelves,
                                                  const std::optional<std::string>& wanted,
                                                  const Taking& taking);

/// What one wort takes.
struct Poured {
    std::vector<JarsOpened> jars;
    brewing::Volume water;
    brewing::Mass extract_missing; ///< zero if the jars have enough; only then `water` holds
};

/// Takes the jars of a wort out of `stock`.  Throws Error(conflict), "concentrate_too_weak", if a
/// lot that comes next is weaker than the wort, and as concentrate_in() for the lots it comes to.
[[nodiscard]] Poured pour(std::vector<JarStock>& stock, const brewing::Wort& wort,
                          std::span<const contract::JarSize> sizes);

} // namespace barmkeep::starter
