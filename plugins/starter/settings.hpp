// Settings of the starter plugin.
#pragma once

#include "plugins/starter/plan_messages.hpp"

namespace barmkeep::starter {

struct Settings {
    brewing::Temperature kept_at = brewing::Temperature::celsius(4.0);
    brewing::Mass dry_pack = 11.5 * brewing::gram;
    brewing::Gravity gravity = brewing::Gravity::sg(1.040);
    Aeration aeration = Aeration::still;
    double headroom = 0.3;
    brewing::Mass nutrient_per_litre;

    static FieldList fields(auto) {
        return {
            field<&Settings::kept_at>("Temperature the yeast is kept at.")
                .defaulted()
                .between(-30, 40)
                .like("4 C"),
            field<&Settings::dry_pack>("Mass of a dry pack that has no cell fact of its own.")
                .defaulted()
                .above(0)
                .at_most(1000)
                .like("11.5 g"),
            field<&Settings::gravity>("Gravity of a starter.")
                .defaulted()
                .between(1.01, 1.06)
                .like("1.040"),
            field<&Settings::aeration>("Whether starters stand still or are stirred.").defaulted(),
            field<&Settings::headroom>("Share of a flask that is left free for foam.")
                .defaulted()
                .between(0, 0.9),
            field<&Settings::nutrient_per_litre>(
                "Nutrient for a litre of starter, by its maker's word; 0 if none is given.")
                .defaulted()
                .between(0, 100)
                .like("0.5 g")};
    }
};

} // namespace barmkeep::starter
