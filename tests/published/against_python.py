"""Compares the values printed by print_values with independent programs.

Each line of the file is family,name,arguments...,value.  Every (family, name) must be known here,
and every one known here under a family that is printed must occur, so that nothing is left out
unnoticed.  Prints the worst deviation of each function; exits 1 beyond a tolerance.
"""
import csv
import math
import sys

from iapws import IAPWS95
from iapws.iapws97 import _PSat_T, _TSat_P
from scipy import constants, integrate, optimize, special, stats


def air_pressure(height):
    """Hydrostatic equilibrium of the standard's lowest layer, integrated; no closed formula."""
    radius, base, lapse = 6356766.0, 288.15, 0.0065
    def slope(z, pressure):
        gravity = 9.80665 * (radius / (radius + z)) ** 2
        warmth = base - lapse * radius * z / (radius + z)
        return -pressure * gravity * 28.9644 / (8314.32 * warmth)
    solved = integrate.solve_ivp(slope, (0.0, height), [101.325], rtol=1e-11, atol=1e-11)
    return solved.y[0][-1]


def water_density(celsius):
    return IAPWS95(T=celsius + 273.15, P=0.101325).rho


GENERAL = (182.46007, -775.68212, 1262.7794, -669.56218)
LABORATORY = (135.997, -630.272, 1111.14, -616.868)


def plato(sg, fit):
    return sum(c * sg ** (3 - i) for i, c in enumerate(fit))


def gravity_of(degrees, fit):
    return optimize.brentq(lambda s: plato(s, fit) - degrees, 0.99, 1.2, xtol=1e-15, rtol=1e-15)


def grams_per_litre(sg):
    return plato(sg, GENERAL) / 100.0 * (sg * (998.2031 - 1.2) + 1.2)


def sucrose_density(degrees, celsius):
    """The polynomial term by term, on the water of the same source, which test files give."""
    terms = {(0, 1): 385.1761, (0, 2): 135.3705, (0, 3): 40.9299, (0, 4): -3.9643,
             (0, 5): 13.4853, (0, 6): -17.289, (1, 1): -46.272, (1, 2): -7.172, (1, 3): 1.1597,
             (1, 4): 5.1126, (1, 5): 17.5254, (2, 1): 59.7712, (2, 2): 7.2491, (2, 3): 12.363,
             (2, 4): -35.4791, (3, 1): -47.2207, (3, 2): -21.6977, (3, 3): 27.6301,
             (4, 1): 18.3184, (4, 2): 12.3081}
    warmth, share = (celsius - 20.0) / 100.0, degrees / 100.0
    return water_density(celsius) + math.fsum(
        value * warmth ** i * share ** j for (i, j), value in terms.items())


def t_quantile(degrees, p):
    """By the incomplete beta function; for p above a half."""
    share = special.betaincinv(degrees / 2.0, 0.5, 2.0 * (1.0 - p))
    return math.sqrt(degrees * (1.0 - share) / share)


# (family, name): (function, tolerance, relative?)
KNOWN = {
    # Both are the same closed equation, so only rounding may differ.
    ("steam", "saturation_pressure"): (lambda t: _PSat_T(t) * 1000.0, 1e-10, True),
    ("steam", "saturation_temperature"): (lambda p: _TSat_P(p / 1000.0), 1e-10, True),
    ("air", "pressure_at_geometric_altitude"): (air_pressure, 1e-8, True),
    # EX3 against EX12: formulas of other decades, 7 in a million at most.
    ("density", "water"): (water_density, 7e-6, True),
    ("density", "sucrose"): (sucrose_density, 7e-6, True),
    ("extract", "gravity_of_plato_general"): (lambda p: gravity_of(p, GENERAL), 1e-13, False),
    ("extract", "gravity_of_plato_laboratory"): (lambda p: gravity_of(p, LABORATORY), 1e-13, False),
    # The density of water at 20 C is written here with seven digits.
    ("extract", "gravity_of_grams_per_litre"): (
        lambda g: optimize.brentq(lambda s: grams_per_litre(s) - g, 0.99, 1.2, xtol=1e-15),
        2e-8, False),
    ("unit_litre", "1 gal"): (lambda: constants.gallon * 1000, 1e-15, True),
    ("unit_litre", "1 fl oz"): (lambda: constants.fluid_ounce * 1000, 1e-15, True),
    ("unit_litre", "1 bbl"): (lambda: 31 * constants.gallon * 1000, 1e-15, True),
    ("unit_litre", "1 imp gal"): (lambda: constants.gallon_imp * 1000, 1e-15, True),
    ("unit_litre", "1 imp fl oz"): (lambda: constants.fluid_ounce_imp * 1000, 1e-15, True),
    ("unit_gram", "1 lb"): (lambda: constants.lb * 1000, 1e-15, True),
    ("unit_gram", "1 oz"): (lambda: constants.oz * 1000, 1e-15, True),
    ("unit_gram", "1 st"): (lambda: constants.stone * 1000, 1e-15, True),
    ("unit_metre", "1 in"): (lambda: constants.inch, 1e-15, True),
    ("unit_metre", "1 ft"): (lambda: constants.foot, 1e-15, True),
    ("unit_metre", "1 mi"): (lambda: constants.mile, 1e-15, True),
    ("unit_metre", "1 yd"): (lambda: constants.yard, 1e-15, True),
    ("unit_kilopascal", "1 psia"): (lambda: constants.psi / 1000, 1e-15, True),
    ("unit_kilopascal", "1 atm"): (lambda: constants.atm / 1000, 1e-15, True),
    ("unit_kilopascal", "1 bar"): (lambda: constants.bar / 1000, 1e-15, True),
    # SciPy takes the torr, which is 1/760 atm and 0.14 in a million smaller.
    ("unit_kilopascal", "1 mmHg"): (lambda: constants.mmHg / 1000, 2e-7, True),
    ("unit_kilojoule", "1 BTU"): (lambda: constants.Btu / 1000, 1e-11, True),
    ("unit_celsius", "fahrenheit"): (
        lambda f: constants.convert_temperature(f, "Fahrenheit", "Celsius"), 1e-10, False),
    ("distribution", "gamma_quantile"): (lambda a, p: stats.gamma.ppf(p, a), 1e-9, True),
    # stats.beta is Boost.Math itself in this SciPy; betaincinv is Cephes, and so independent.
    ("distribution", "beta_quantile"): (special.betaincinv, 1e-9, True),
    ("distribution", "chi_square_above"): (lambda n, x: stats.chi2.sf(x, n), 1e-9, True),
    # stats.t.ppf is off by 4e-9 at 32 degrees of freedom (integrating the density shows it).
    ("distribution", "t_quantile"): (t_quantile, 1e-9, True),
    ("distribution", "normal_quantile"): (lambda p: stats.norm.ppf(p), 1e-9, True),
}


def main(path):
    worst = {}
    with open(path, newline="", encoding="utf-8") as file:
        for line in csv.reader(file):
            key, numbers = (line[0], line[1]), [float(text) for text in line[2:]]
            function, _, relative = KNOWN[key]
            expected = float(function(*numbers[:-1]))
            off = abs(numbers[-1] - expected)
            if relative and expected != 0.0:
                off /= abs(expected)
            if math.isnan(off):
                off = math.inf
            count, most, _ = worst.get(key, (0, -1.0, None))
            worst[key] = (count + 1, *((off, numbers) if off > most else worst[key][1:]))
    families = {family for family, _ in worst}
    if not {"steam", "air", "density", "extract"} <= families:
        raise SystemExit("values of whole families are missing")
    missing = [key for key in KNOWN if key[0] in families and key not in worst]
    bad = False
    for key, (count, off, where) in sorted(worst.items()):
        allowed = KNOWN[key][1]
        verdict = "ok" if off <= allowed else "BEYOND " + format(allowed, "g")
        bad |= off > allowed
        print(f"{'.'.join(key):45} {count:4} values, worst {off:.2e} at {where[:-1]}: {verdict}")
    for key in missing:
        print(".".join(key), "was not printed")
    return 1 if bad or missing else 0


sys.exit(main(sys.argv[1]))
