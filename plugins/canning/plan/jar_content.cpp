#include "plugins/canning/plan/jar_content.hpp"

#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/units.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::canning {
namespace {

using brewing::Gravity;
using brewing::Mass;
using brewing::Volume;
using brewing::Wort;

Mass dissolved(const JarGroup& group, std::span<const ExtractLot> lots,
               double brewing::Estimate<double>::*which) {
    Mass sum;
    for (const Part& part : group.parts)
        sum += part.mass *
               brewing::ExtractPotential::of_points_per_pound_gallon(lots[part.lot].points.*which)
                   .mass_fraction();
    return sum;
}

/// Volume to which a jar's extract is diluted: as asked, or what reaches the gravity asked, or no
/// dilution at all.
Volume diluted_volume(const Wort& jar, const Strength& strength) {
    if (strength.makes)
        return *strength.makes;
    if (strength.at)
        return brewing::to_gravity(jar, *strength.at).after.volume;
    return jar.volume;
}

template <class T>
void widen(Range<T>& range, const Range<T>& other) {
    range.low = std::min(range.low, other.low);
    range.high = std::max(range.high, other.high);
}

} // namespace

JarNeed need_of(const Strength& strength) {
    if (strength.weigh) {
        if (strength.makes && strength.at)
            throw Error(
                ErrorKind::params, "too_much_said",
                "You gave three figures for a jar: weigh, makes and at. Two settle the third.",
                "Leave one of --weigh, --makes and --at out.", "/weigh");
        return {false, *strength.weigh};
    }
    if (!strength.makes || !strength.at)
        throw Error(
            ErrorKind::params, "missing",
            "The strength of a jar is missing: give what it makes and at which gravity, or the "
            "extract to weigh into it.",
            "For example --makes '1 L' --at 1.035, or --weigh '4 oz'.",
            strength.makes ? "/at" : "/makes");
    return {true, brewing::extract_in({*strength.makes, *strength.at})};
}

JarContent content_of(const JarGroup& group, std::span<const ExtractLot> lots, Volume fill,
                      const Strength& strength) {
    using Points = brewing::Estimate<double>;
    const Mass low = dissolved(group, lots, &Points::low);
    const Mass likely = dissolved(group, lots, &Points::likely);
    const Mass high = dissolved(group, lots, &Points::high);
    const Wort jar = brewing::made_up(likely, fill);

    JarContent content;
    content.fill = fill;
    for (const Part& part : group.parts)
        content.weighed += part.mass;
    content.extract = brewing::Estimate<Mass>{low, likely, high, "the extract's potential"};
    content.gravity =
        brewing::Estimate<Gravity>{brewing::made_up(low, fill).gravity, jar.gravity,
                                   brewing::made_up(high, fill).gravity, "the extract's potential"};
    content.water = brewing::mass_of(jar) - content.weighed;
    if (content.water < Mass{})
        throw Error(ErrorKind::params, "jar_overfilled",
                    "This much extract alone overfills the jar: its fill is " +
                        brewing::print(fill, brewing::System::metric) + ".",
                    "Choose a larger jar, or let a jar make less.");
    content.makes = diluted_volume(jar, strength);
    if (content.makes < fill)
        throw Error(ErrorKind::params, "weaker_than_asked",
                    brewing::print(content.makes, brewing::System::metric) +
                        " of wort is less than the fill of the jar.",
                    "Let it make at least " + brewing::print(fill, brewing::System::metric) + ".",
                    "/makes");
    content.makes_gravity = brewing::Estimate<Gravity>{
        brewing::made_up(low, content.makes).gravity,
        brewing::made_up(likely, content.makes).gravity,
        brewing::made_up(high, content.makes).gravity, "the extract's potential"};
    content.top_up = brewing::to_volume(jar, content.makes).water_volume;
    const auto points = brewing::points_at_volume(jar, content.makes);
    content.points_gravity = points.gravity;
    content.points_error = std::round(points.error_points * 100) / 100;
    return content;
}

JarContent content_of_all(std::span<const JarGroup> groups, std::span<const ExtractLot> lots,
                          Volume fill, const Strength& strength) {
    JarContent all = content_of(groups.front(), lots, fill, strength);
    for (const JarGroup& group : groups.subspan(1)) {
        const JarContent one = content_of(group, lots, fill, strength);
        widen(all.extract, one.extract);
        widen(all.gravity, one.gravity);
        widen(all.makes_gravity, one.makes_gravity);
    }
    return all;
}

std::optional<std::string> strength_warning(const JarContent& content,
                                            const SensibleRange& sensible) {
    const Gravity gravity = content.gravity.likely;
    const auto range = [&] {
        return brewing::print(sensible.low) + " to " + brewing::print(sensible.high) +
               " (common practice, no source)";
    };
    if (gravity < sensible.low)
        return "The concentrate is thin: " + brewing::print(gravity) + ", outside " + range() +
               ". You fill more jars than you need.";
    if (gravity > sensible.high)
        return "The concentrate is thick: " + brewing::print(gravity) + ", outside " + range() +
               ". A thicker liquid heats more slowly in the jar, and no process was tested for it. "
               "[S39 S13]";
    return std::nullopt;
}

double ounces_of(Mass mass) {
    return std::round(mass.in(brewing::ounce)*100) / 100;
}

} // namespace barmkeep::canning
