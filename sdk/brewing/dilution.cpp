#include "sdk/brewing/dilution.hpp"

#include "sdk/brewing/density.hpp"
#include "sdk/brewing/errors.hpp"

namespace barmkeep::brewing {
namespace {

Dilution between(const Wort& before, const Wort& after) {
    const Mass water = mass_of(after) - mass_of(before);
    const Volume water_volume = water / water_density(reference_temperature);
    return {after, water, water_volume, before.volume + water_volume - after.volume};
}

void require_extract(const Gravity& gravity) {
    require_within("apparent specific gravity", gravity.sg(), 1.0001, general_fit.highest_sg, "",
                   "the wort must contain extract");
}

} // namespace

Dilution to_volume(const Wort& wort, Volume target) {
    return between(wort, made_up(extract_in(wort), target));
}

Dilution to_gravity(const Wort& wort, Gravity target) {
    require_extract(wort.gravity);
    require_extract(target);
    return between(wort, {extract_in(wort) / extract_concentration(target), target});
}

Dilution add_water(const Wort& wort, Mass water) {
    return between(wort, dissolve(extract_in(wort), water_in(wort) + water));
}

Wort blend(std::span<const Wort> parts) {
    Mass extract;
    Mass water;
    for (const Wort& part : parts) {
        extract += extract_in(part);
        water += water_in(part);
    }
    return dissolve(extract, water);
}

PointsGravity points_at_volume(const Wort& wort, Volume target) {
    const Gravity really = to_volume(wort, target).after.gravity;
    const Gravity shortcut =
        Gravity::sg(1.0 + wort.gravity.points() * (wort.volume / target) / 1000.0);
    return {shortcut, shortcut.points() - really.points()};
}

PointsVolume points_to_gravity(const Wort& wort, Gravity target) {
    const Volume really = to_gravity(wort, target).after.volume;
    const Volume shortcut = wort.volume * (wort.gravity.points() / target.points());
    return {shortcut, shortcut - really, to_volume(wort, shortcut).after.gravity};
}

} // namespace barmkeep::brewing
