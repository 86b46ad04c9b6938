// Settings of the starter plugin.
#pragma once

#include "plugins/starter/plan_messages.hpp"

namespace barmkeep::starter {

struct Settings {
    brewing::Temperature kept_at = brewing::Temperature::celsius(4.0);
    brewing::Mass dry_pack = 11.5 * brewing::gram;
    brewing::Gravity gravity = brewing::Gravity::sg(1.040);
    bool stirred = false;
    double foam_space = 0.3;
    brewing::Mass nutrient_per_litre;

    static FieldList fields(auto) {
        return {field<&Settings::kept_at>("Temperature at which you keep yeast.")
                    .defaulted()
                    .between(-30, 40)
                    .like("4 C"),
                field<&Settings::dry_pack>("Mass of a dry pack for which no cells are noted.")
                    .defaulted()
                    .above(0)
                    .at_most(1000)
                    .like("11.5 g"),
                field<&Settings::gravity>("Gravity of a starter's wort.")
                    .defaulted()
                    .between(1.01, 1.06)
                    .like("1.040"),
                field<&Settings::stirred>("Whether starters stand on a stir plate.").defaulted(),
                field<&Settings::foam_space>(
                    "Share of a flask that a plan leaves free for foam, from 0 to 0.9.")
                    .defaulted()
                    .between(0, 0.9),
                field<&Settings::nutrient_per_litre>(
                    "Mass of nutrient per litre of starter, by its label. 0 adds none.")
                    .defaulted()
                    .between(0, 100)
                    .like("0.5 g")};
    }
};

} // namespace barmkeep::starter
