// The families' records, from the comparisons that the tests hold.
#include "tests/published/comparison.hpp"

namespace barmkeep::published {
namespace {

void append(std::vector<Deviation>& all, const std::vector<Comparison>& comparisons) {
    const std::vector<Deviation> more = deviations_of(comparisons);
    all.insert(all.end(), more.begin(), more.end());
}

} // namespace

std::vector<Deviation> extract_deviations() {
    std::vector<Deviation> all;
    append(all, plato_comparisons());
    append(all, density_comparisons());
    append(all, dilution_comparisons());
    append(all, instrument_comparisons());
    return all;
}

std::vector<Deviation> steam_deviations() {
    std::vector<Deviation> all;
    append(all, steam_comparisons());
    append(all, atmosphere_comparisons());
    return all;
}

std::vector<Deviation> fuel_deviations() {
    return deviations_of(fuel_comparisons());
}

} // namespace barmkeep::published
