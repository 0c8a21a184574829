"""Runs random plans and checks at every instant what must hold whatever the rules say.

    python check_invariants.py SEED COUNT

Every plan is run as planned, and once more with spread, breakdowns, stay-aways and failures put into it. Held against
each: every drop of water is accounted for to a thousandth of a gallon, levels and loads stay within what holds them,
places are held by exactly those who stand on them, and the clock does not stand still.
"""

import random
import sys

from random_scenarios import scenario as random_scenario
from scenario import read_scenario
from simulation import Run

GALLONS = 1e-3
ON_INTAKES = ("nurse_connect", "nursing", "nurse_disconnect")
ON_POSITIONS = ("dump_position", "dumping", "dump_clear")
ON_FILL_POSITIONS = ("fill_connect", "filling", "fill_disconnect")


class Broken(Exception):
    """What must hold does not."""


def hold(condition, what):
    if not condition:
        raise Broken(what)


class WatchedRun(Run):
    def apply_events(self):
        super().apply_events()
        self.check_places()
        self.check_water()

    def check_places(self):
        on_intakes = sum(1 for tanker in self.tankers if tanker.phase in ON_INTAKES)
        hold(on_intakes == self.intakes_held <= self.plan.intakes, f"minute {self.now}: intakes")
        for tank in self.drop_tanks:
            there = sum(1 for t in self.tankers if t.drop_tank is tank and t.phase in ON_POSITIONS)
            hold(there == tank.positions_held <= tank.spec.dump_positions, f"minute {self.now}: {tank.spec.name}")
        for site in self.sites:
            there = sum(1 for t in self.tankers if t.site is site and t.phase in ON_FILL_POSITIONS)
            hold(there == site.positions_held <= site.spec.positions, f"minute {self.now}: {site.spec.name}")
        hold(all(t.phase == "line" for t in self.line), f"minute {self.now}: somebody in line is elsewhere")
        in_line = sum(1 for t in self.tankers if t.phase == "line")
        hold(in_line == len(self.line), f"minute {self.now}: the line has lost somebody")

    def check_water(self):
        within(self, "engine tank", self.engine_level, self.plan.engine_tank)
        for tank in self.drop_tanks:
            within(self, tank.spec.name, tank.level, tank.spec.capacity)
        for tanker in self.tankers:
            within(self, tanker.spec.name, tanker.load, tanker.spec.full_load())
            within(self, f"{tanker.spec.name}'s fill", tanker.fill_left, tanker.spec.fill_gal())
        for site in self.sites:
            if site.volume is not None:
                within(self, site.spec.name, site.volume, site.spec.volume)


def within(run, name, gallons, most):
    hold(-GALLONS <= gallons <= most + GALLONS, f"minute {run.now}: {name} holds {gallons}")


def check(plan, seed=1, planned=True):
    """Runs the plan; raises `Broken` if anything that must hold does not."""
    result = WatchedRun(plan, seed, 0, planned).run().result()
    gone = ("delivered_gal", "spilled_gal", "still_there_gal", "carried_away_gal")
    missing = result["arrived_gal"] - sum(result[key] for key in gone)
    hold(abs(missing) <= GALLONS, f"{missing} gal unaccounted for")
    for key in (*gone, "minutes_short", "unmet_gal"):
        hold(result[key] >= -GALLONS, f"{key} is {result[key]}")
    return result


def with_misfortune(table, seed):
    """The same plan with spread in its times and everything in it that may go wrong."""
    pick = random.Random(f"misfortune/{seed}")
    factors = ("driving_cv", "handling_cv", "response_cv")
    table = {**table, "whole_fire": {key: pick.choice((0, 0.2, 0.4)) for key in factors}}
    table["tankers"] = [
        {**tanker, "turnout": 0.8, "crew_cv": 0.2, "breakdown_per_trip": 0.05, "repair": pick.choice((None, 8))}
        for tanker in table["tankers"]
    ]
    table["drop_tanks"] = [{**tank, "turnout": 0.8} for tank in table["drop_tanks"]]
    failure = {"chance": 0.5, "repair": pick.choice((None, 5, {"mean": 20, "cv": 0.5}))}
    table["supply"] = {**table["supply"], "failure": failure}
    if "engine" in table["supply"]:
        table["supply"]["engine"] = {**table["supply"]["engine"], "turnout": 0.7}
    table["fill_sites"] = [{**site, "failure": failure} for site in table["fill_sites"]]
    return table


def main(seed, count):
    broken = 0
    for n in range(count):
        table = random_scenario(f"{seed}/{n}")
        for name, plan, planned in (("planned", table, True), ("with misfortune", with_misfortune(table, n), False)):
            try:
                check(read_scenario(plan), n, planned)
            except (Broken, RuntimeError, ArithmeticError) as error:
                broken += 1
                print(f"{seed}/{n} {name}: {error}")
    print(f"{count} plans, {broken} broken runs")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2])))
