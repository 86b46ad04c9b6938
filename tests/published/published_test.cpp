// Every published value held to its tolerance.
#include "tests/published/hold.hpp"

namespace barmkeep::published {
namespace {

TEST(Published, PlatoAgreesWithItsTables) {
    hold(plato_comparisons());
}
TEST(Published, DensitiesAgreeWithTheirTables) {
    hold(density_comparisons());
}
TEST(Published, MassBalanceAgreesWithItsTables) {
    hold(dilution_comparisons());
}
TEST(Published, InstrumentsAgreeWithTheirTables) {
    hold(instrument_comparisons());
}
TEST(Published, SteamAgreesWithItsTables) {
    hold(steam_comparisons());
}
TEST(Published, TheAtmosphereAgreesWithItsTables) {
    hold(atmosphere_comparisons());
}
TEST(Published, FuelAgreesWithItsExample) {
    hold(fuel_comparisons());
}

TEST(Worst, TakesNotANumberForTheWorst) {
    Worst worst;
    worst.compare(1.0, 1.0);
    worst.compare(std::nan(""), 1.0);
    EXPECT_EQ(worst.worst(), HUGE_VAL);
    EXPECT_EQ(worst.values(), 2);
}

} // namespace
} // namespace barmkeep::published
