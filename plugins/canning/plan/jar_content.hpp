// What a jar holds and what it makes, by mass balance.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/plan/extract_lots.hpp"
#include "plugins/canning/settings.hpp"

namespace barmkeep::canning {

/// How a jar's strength was asked for.
struct Strength {
    std::optional<brewing::Volume> makes;
    std::optional<brewing::Gravity> at;
    std::optional<brewing::Mass> weigh;
};

/// The dissolved extract or the product that each jar is to get.
/// Throws Error(params) unless either `makes` and `at` are given, or `weigh` and at most one of
/// them.
[[nodiscard]] JarNeed need_of(const Strength& strength);

/// The likely content of the jars of one group.
/// Throws brewing::OutOfRange beyond 40 P, or if the extract alone overfills the jar.
[[nodiscard]] JarContent content_of(const JarGroup& group, std::span<const ExtractLot> lots,
                                    brewing::Volume fill, const Strength& strength);

/// One content for all groups: the first group's, its ranges widened to hold every group's.
[[nodiscard]] JarContent content_of_all(std::span<const JarGroup> groups,
                                        std::span<const ExtractLot> lots, brewing::Volume fill,
                                        const Strength& strength);

/// Warns, in a sentence, of a concentrate outside the sensible range; nothing inside it.
[[nodiscard]] std::optional<std::string> strength_warning(const JarContent& content,
                                                          const SensibleRange& sensible);

/// Ounces of a mass, to a hundredth.
[[nodiscard]] double ounces_of(brewing::Mass mass);

} // namespace barmkeep::canning
