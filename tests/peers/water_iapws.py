"""Holds the program's figures of water against a general steam-table library.

iapws computes them from the IAPWS-IF97 formulation. The trade rounds its figures, so each is held to
what its digits allow; where trade and formulation differ by more than that, the difference is named.
Two wrong figures (water of 80 F, an imperial gallon) must be found to differ.

    python water_iapws.py PROGRAM BUILDING
"""

import json
import subprocess
import sys

from iapws import IAPWS97

# Exact by definition.
KILOGRAMS_PER_POUND = 0.45359237
CUBIC_METRES_PER_GALLON = 231 * 0.0254**3
KILOJOULES_PER_KG_IN_BTU_PER_LB = 2.326
CUBIC_METRES_PER_IMPERIAL_GALLON = 4.54609e-3
PASCALS_PER_PSI = KILOGRAMS_PER_POUND * 9.80665 / 0.0254**2
# One standard atmosphere, MPa.
ATMOSPHERE = 0.101325


def kelvin(fahrenheit):
    return (fahrenheit - 32) / 1.8 + 273.15


def liquid(fahrenheit):
    return IAPWS97(T=kelvin(fahrenheit), P=ATMOSPHERE)


def pounds(fahrenheit, gallon=CUBIC_METRES_PER_GALLON):
    """Weight of a gallon, lb."""
    return liquid(fahrenheit).rho * gallon / KILOGRAMS_PER_POUND


def btu_to_boil():
    """Heat to boil off a pound at one atmosphere, Btu."""
    steam, water = (IAPWS97(P=ATMOSPHERE, x=share).h for share in (1, 0))
    return (steam - water) / KILOJOULES_PER_KG_IN_BTU_PER_LB


def btu_a_gallon(fahrenheit, gallon=CUBIC_METRES_PER_GALLON):
    """Heat that takes a gallon from this temperature to steam, Btu."""
    steam = IAPWS97(P=ATMOSPHERE, x=1).h
    heat = (steam - liquid(fahrenheit).h) / KILOJOULES_PER_KG_IN_BTU_PER_LB
    return heat * pounds(fahrenheit, gallon)


def psi_per_foot(fahrenheit):
    return liquid(fahrenheit).rho * 9.80665 * 0.3048 / PASCALS_PER_PSI


def main():
    program, building = sys.argv[1:]
    told = json.loads(subprocess.run([program, "flow", building, "--json"], check=True,
                                     capture_output=True, text=True).stdout)
    water = told["constants"]
    start = water["water_celsius"] * 9 / 5 + 32
    rows = [
        # What, the program's figure, the library's, how far apart they may be.
        ("lb a gallon at 62 F, two decimals", water["weight_lb_per_gal"], pounds(62), 0.005),
        # The trade's steam tables print 970.3, the formulation gives 970.1.
        ("Btu to boil a pound", water["heat_to_boil_btu_per_lb"], btu_to_boil(), 0.25),
        # What the two rows above allow: 0.005 lb x 1,120 Btu and 8.34 lb x 0.25 Btu. The 9,346 that older
        # texts print is off by 8.8.
        (f"Btu a gallon from {start:g} F to steam", water["heat_to_steam_btu_per_gal"],
         btu_a_gallon(start), 7.7),
        # The figure is that of water at its densest; at 62 F it is 0.433.
        ("psi a foot of water at 39 F, three decimals", water["head_psi_per_ft"], psi_per_foot(39.2),
         0.0005),
    ]
    wrong = [
        ("water of 80 F", water["heat_to_steam_btu_per_gal"], btu_a_gallon(80), 7.7),
        ("an imperial gallon", water["weight_lb_per_gal"],
         pounds(62, CUBIC_METRES_PER_IMPERIAL_GALLON), 0.005),
    ]
    failed = False
    for what, ours, theirs, within in rows:
        right = abs(ours - theirs) <= within
        failed |= not right
        print(f"{'ok  ' if right else 'FAIL'} {what}: {ours:.4f}, iapws {theirs:.4f}")
    for what, ours, theirs, within in wrong:
        found = abs(ours - theirs) > within
        failed |= not found
        print(f"{'ok  ' if found else 'FAIL'} {what} is found to differ: {ours:.4f}, {theirs:.4f}")
    sys.exit(failed)


if __name__ == "__main__":
    main()
