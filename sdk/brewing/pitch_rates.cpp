#include "sdk/brewing/pitch_rates.hpp"

#include "sdk/brewing/joined_keys.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace barmkeep::brewing {
namespace {

using enum PitchUnit;
constexpr PitchedYeast liquid = PitchedYeast::liquid;
constexpr PitchedYeast dry = PitchedYeast::dry;

constexpr double weakest = weakest_pitched_plato;
constexpr double strongest = strongest_pitched_plato;
constexpr double strongest_dry = strongest_dry_pitched_plato;

// Columns: key, source, access, ale, lager, yeast, unit, low, high, from Plato, to Plato,
// conditions.
constexpr std::array rates{
    PitchRate{"PR01", "FIX", 'Q', true, false, liquid, per_plato, 0.75, 0.75, weakest, strongest,
              "the same figure cited in three texts"},
    PitchRate{"PR02", "FIX", 'Q', false, true, liquid, per_plato, 1.5, 1.5, weakest, strongest,
              "twice the ale rate"},
    PitchRate{"PR03", "WIKI", 'Q', true, true, liquid, per_plato, 1.0, 1.0, weakest, strongest,
              "rule of thumb"},
    PitchRate{"PR04", "BSI", 'P', true, false, liquid, per_plato, 1.0, 1.0, weakest, 16,
              "laboratory, below 16 P"},
    PitchRate{"PR05", "BSI", 'P', false, true, liquid, per_plato, 1.5, 1.5, weakest, 16,
              "laboratory, below 16 P"},
    PitchRate{"PR06", "CRO", 'P', true, false, liquid, per_plato, 1.0, 1.0, weakest, strongest,
              "a brewery's laboratory"},
    PitchRate{"PR06-lager", "CRO", 'P', false, true, liquid, per_plato, 2.0, 2.0, weakest,
              strongest, "stated as twice the ale rate"},
    PitchRate{"PR07", "MAD", 'P', true, false, liquid, per_plato, 0.75, 0.75, weakest, strongest,
              "practising brewer"},
    PitchRate{"PR08", "MAD", 'P', false, true, liquid, per_plato, 1.25, 1.25, weakest, strongest,
              "practising brewer; cool ales too"},
    PitchRate{"PR09", "MEN", 'P', true, false, liquid, per_plato, 0.5, 0.75, weakest, strongest,
              "British ale, wheat beer"},
    PitchRate{"PR10", "BYO1", 'P', true, false, liquid, per_volume, 6, 6, 9, 14,
              "ale of average strength, read as 9 to 14 P"},
    PitchRate{"PR12", "WYE1", 'P', true, false, liquid, per_volume, 6, 6, weakest, 15,
              "below SG 1.060, warm"},
    PitchRate{"PR13", "WYE1", 'P', true, false, liquid, per_volume, 12, 12, 15, 19,
              "SG 1.061 to 1.076, warm"},
    PitchRate{"PR14", "WL1", 'P', true, false, liquid, per_volume, 7.5, 7.5, weakest, 18,
              "base rate, started at 16 C or above"},
    PitchRate{"PR15-cool", "WL1", 'P', false, true, liquid, per_volume, 15, 15, weakest, 18,
              "started below 16 C"},
    PitchRate{"PR15-strong", "WL1", 'P', true, false, liquid, per_volume, 15, 15, 18, strongest,
              "18 P and above"},
    PitchRate{"PR16", "WL1", 'P', false, true, liquid, per_volume, 22.5, 22.5, 18, strongest,
              "started below 16 C and 18 P or above"},
    PitchRate{"PR17", "FER1", 'P', true, false, dry, per_volume, 4, 6, weakest, strongest_dry,
              "50 to 80 g a hectolitre"},
    PitchRate{"PR18", "FER1", 'P', false, true, dry, per_volume, 8, 12, weakest, strongest_dry,
              "80 to 120 g a hectolitre at 12 to 15 C; more when colder"},
    PitchRate{"PR19", "LAL3", 'Q', true, false, dry, per_volume, 2.5, 5, weakest, strongest_dry,
              "50 to 100 g a hectolitre, minimum"},
    PitchRate{"PR20", "LAL4", 'P', false, true, liquid, per_plato, 1.5, 1.5, 14, 16,
              "trial wort of 15 P at 12 C"},
    PitchRate{"PR21", "SUI", 'A', false, true, liquid, per_plato, 2.3, 2.3, 12, 16,
              "counted cells; more gave no faster fermentation"},
    PitchRate{"PR22", "SUI", 'A', false, true, liquid, per_plato, 2.9, 2.9, 20, 23,
              "counted cells, very high gravity"},
    PitchRate{"PR33", "CBG", 'P', true, false, liquid, per_plato, 1.0, 1.0, weakest, strongest,
              "rule of thumb"},
};

// The set of statements changes only at these gravities, so the text of their sources is laid down
// once for each stretch between two of them.
constexpr std::array stretches{2.0, 9.0, 12.0, 14.0, 15.0, 16.0, 18.0, 19.0, 20.0, 23.0};

consteval bool every_end_is_a_stretch() {
    for (const PitchRate& rate : rates)
        for (const double end : {rate.lowest_plato, rate.highest_plato})
            if (end != strongest && std::ranges::find(stretches, end) == stretches.end())
                return false;
    return true;
}
static_assert(every_end_is_a_stretch());

using StretchKeys = std::array<JoinedKeys<64>, stretches.size()>;

consteval StretchKeys keys_of(BeerClass beer, PitchedYeast yeast) {
    StretchKeys keys;
    for (std::size_t i = 0; i < stretches.size(); ++i)
        for (const PitchRate& rate : rates)
            if (rate.serves(beer, yeast) && rate.covers(Plato::degrees(stretches.at(i))) &&
                !keys.at(i).contains(rate.source))
                keys.at(i).append(rate.source);
    return keys;
}

constexpr std::array liquid_keys{keys_of(BeerClass::ale, liquid),
                                 keys_of(BeerClass::lager, liquid)};
constexpr std::array dry_keys{keys_of(BeerClass::ale, dry), keys_of(BeerClass::lager, dry)};

} // namespace

std::span<const PitchRate> pitch_rates() noexcept {
    return rates;
}

const PitchRate* find_pitch_rate(std::string_view key) noexcept {
    const auto found = std::ranges::find(rates, key, &PitchRate::key);
    return found == rates.end() ? nullptr : &*found;
}

std::string_view pitch_rate_sources(BeerClass beer, PitchedYeast yeast, Plato wort) noexcept {
    std::size_t stretch = 0;
    while (stretch + 1 < stretches.size() && stretches[stretch + 1] <= wort.degrees())
        ++stretch;
    const auto& keys = yeast == PitchedYeast::dry ? dry_keys : liquid_keys;
    return keys[static_cast<std::size_t>(beer)][stretch].text();
}

} // namespace barmkeep::brewing
