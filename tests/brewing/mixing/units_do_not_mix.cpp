// Each case must fail to compile; without a case the file compiles, so that a failure is known to
// come from the case and from nothing else.
#include "sdk/brewing/units.hpp"

using namespace barmkeep::brewing;

int main() {
    [[maybe_unused]] Mass mass = 4.0 * ounce;
    [[maybe_unused]] Volume volume = 1.0 * litre;
    [[maybe_unused]] GaugePressure gauge = 15.0 * psi_gauge;
    [[maybe_unused]] AbsolutePressure air = 101.325 * kilopascal;
    [[maybe_unused]] Temperature warm = Temperature::celsius(20.0);
    [[maybe_unused]] TemperatureDifference warmer = 5.0 * kelvin;
#if BARMKEEP_MIX == 1
    mass = mass + volume;
#elif BARMKEEP_MIX == 2
    mass = volume;
#elif BARMKEEP_MIX == 3
    air = gauge;
#elif BARMKEEP_MIX == 4
    mass = 4.0;
#elif BARMKEEP_MIX == 5
    double number = mass;
#elif BARMKEEP_MIX == 6
    warm = warm + warm;
#elif BARMKEEP_MIX == 7
    warmer = warm;
#elif BARMKEEP_MIX == 8
    volume = 1.0 * ounce;
#elif BARMKEEP_MIX == 9
    bool lighter = mass < volume;
#elif BARMKEEP_MIX == 10
    double grams = mass.in(litre);
#elif BARMKEEP_MIX == 11
    Gravity gravity = 1.048;
#elif BARMKEEP_MIX == 12
    Gravity gravity = Plato::degrees(12.0);
#endif
}
