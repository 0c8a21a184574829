"""Draws, and what a whole fire shares: factors, turnout, failure. Times by hand where no draw enters them."""

import math
import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))

from by_hand import run, tanker, when
from luck import Duration, Luck

POND = [{"name": "P", "flow": 1000, "out": {"minutes": 5}, "back": {"minutes": 3}}]
NO_NURSE = {"setup": 500, "nurse": False}
HUGE = [{"capacity": 90_000, "dump_positions": 9}]


def gaps(result, who, begin, end):
    return [b - a for a, b in zip(when(result, who, begin), when(result, who, end))]


class Draws(unittest.TestCase):
    def mean_and_error(self, draws):
        mean = sum(draws) / len(draws)
        return mean, math.sqrt(sum((draw - mean) ** 2 for draw in draws)) / len(draws)

    def test_means_of_draws(self):
        # The sample mean of 20,000 draws lies within 5 standard errors of the stated mean.
        shapes = [
            {"mean": 4, "cv": 0.5},
            {"mean": 4, "shape": "exponential"},
            {"low": 1, "likely": 2, "high": 6},
            {"low": 1, "high": 6},
            {"samples": [1, 2, 9]},
        ]
        for shape in shapes:
            duration = Duration("test", shape)
            mean, error = self.mean_and_error([Luck(1, k).minutes(duration, "T", "x") for k in range(20_000)])
            self.assertLess(abs(mean - duration.mean()), 5 * error, shape)

    def test_factors_have_mean_1_and_their_spread(self):
        draws = [Luck(1, k).factor(0.3, "the fire", "driving") for k in range(20_000)]
        mean, error = self.mean_and_error(draws)
        self.assertLess(abs(mean - 1), 5 * error)
        # Standard deviation 0.3: that of the sample lies within a few parts in a hundred.
        self.assertAlmostEqual(error * math.sqrt(len(draws)), 0.3, delta=0.015)


class AWholeFire(unittest.TestCase):
    def drive(self, planned=False, **parts):
        tankers = parts.pop("tankers", [tanker("A", 1000, response=10), tanker("B", 2000, response=20)])
        return run(
            planned=planned,
            incident={"duration": 200, "attack_flow": 0},
            supply=NO_NURSE,
            drop_tanks=HUGE,
            tankers=tankers,
            fill_sites=POND,
            handling={"fill_connect": 2, "dump_position": 1},
            **parts,
        )

    def test_driving(self):
        # One factor for all: A's way out (5) and back (3) and B's stand in it.
        result = self.drive(whole_fire={"driving_cv": 0.4})
        out = gaps(result, "A", "leaves for P", "at P")
        factor = out[0] / 5
        self.assertNotAlmostEqual(factor, 1, 3)
        back = when(result, "A", "at the scene with 1000.000 gal")[1] - when(result, "A", "leaves P")[0]
        self.assertAlmostEqual(back, 3 * factor, 9)
        for minutes in gaps(result, "B", "leaves for P", "at P"):
            self.assertAlmostEqual(minutes, 5 * factor, 9)
        # Neither handling nor response is touched.
        self.assertAlmostEqual(gaps(result, "A", "at P", "fills")[0], 2, 9)
        self.assertEqual(when(result, "B", "at the scene with 2000.000 gal")[0], 20)

    def test_handling_and_response(self):
        result = self.drive(whole_fire={"handling_cv": 0.4, "response_cv": 0.4})
        a, b = (when(result, who, f"at the scene with {load}.000 gal")[0] for who, load in (("A", 1000), ("B", 2000)))
        self.assertNotAlmostEqual(a, 10, 3)
        self.assertAlmostEqual(b, 2 * a, 9)
        position = when(result, "A", "dumps into drop tank 1")[0] - a
        self.assertNotAlmostEqual(position, 1, 3)
        self.assertAlmostEqual(gaps(result, "B", "at P", "fills")[0], 2 * position, 9)
        self.assertAlmostEqual(gaps(result, "A", "leaves for P", "at P")[0], 5, 9)

    def test_crew(self):
        tankers = [tanker("A", 1000, response=10, crew_cv=0.4), tanker("B", 2000, response=20)]
        result = self.drive(tankers=tankers)
        own = gaps(result, "A", "at P", "fills")[0]
        self.assertNotAlmostEqual(own, 2, 3)
        position = when(result, "A", "dumps into drop tank 1")[0] - 10
        self.assertAlmostEqual(position, own / 2, 9)
        self.assertAlmostEqual(gaps(result, "B", "at P", "fills")[0], 2, 9)

    def test_planned_every_factor_is_1_and_every_unit_comes(self):
        tankers = [tanker("A", 1000, response=10, crew_cv=0.4, turnout=0), tanker("B", 2000, response=20)]
        fire = {"driving_cv": 0.4, "handling_cv": 0.4, "response_cv": 0.4}
        self.assertEqual(self.drive(planned=True, tankers=tankers, whole_fire=fire)["events"], self.drive()["events"])


class Turnout(unittest.TestCase):
    def test_a_tanker_that_does_not_come_brings_nothing(self):
        # A and the tank it brings never come; the draft stands in the second tank, 300 gal of B's in it at 10.3.
        result = run(
            planned=False,
            supply={"nurse": False},
            drop_tanks=[{"capacity": 3000, "brought_by": "A"}, {"capacity": 3000}],
            tankers=[tanker("A", 1000, response=2, turnout=0), tanker("B", 1000, response=10)],
        )
        self.assertEqual(when(result, "A", "does not come"), [2])
        self.assertEqual(when(result, "pump", "hooked up"), [2])
        self.assertEqual(when(result, "drop tank 1", "ready"), [])
        self.assertAlmostEqual(result["established"], 10.3, 9)

    def without_supply_engine(self, **supply):
        return run(
            planned=False,
            supply={"nurse": False, "engine": {"name": "Engine 8", "response": 12, "setup": 5, "turnout": 0}, **supply},
            drop_tanks=[{"capacity": 3000}],
            tankers=[tanker("A", 3000)],
        )

    def test_the_attack_engine_drafts_itself(self):
        # That Engine 8 does not come is known at 12; set up by 17.
        self.assertEqual(when(self.without_supply_engine(), "pump", "hooked up"), [17])

    def test_not_through_a_lay(self):
        self.assertEqual(when(self.without_supply_engine(lay_volume=100), "pump", "hooked up"), [])


class Failure(unittest.TestCase):
    def test_the_pump_fails_and_is_primed_again(self):
        # A gives 8,000 gal at once; the pump draws from 300 on, 100 gpm. Failed, it draws nothing for 7 min, nursing opens
        # again, and it is primed 2 min after the repair (8,000 gal last 80 min).
        table = {
            "incident": {"duration": 30, "attack_flow": 100},
            "attack_engine": {"name": "Engine 3", "tank": 2000, "tank_refill": 0},
            "supply": {"failure": {"chance": 1, "repair": 7}, "reprime": 2},
            "drop_tanks": [{"capacity": 9000}],
            "tankers": [tanker("A", 8000, dump_rate=80_000)],
        }
        result, seed = self.failing_between(0.1, 20, "pump", lambda seed: run(seed, planned=False, **table))
        failed = when(result, "pump", "fails")[0]
        self.assertEqual(when(result, "pump", "prime lost"), [failed])
        self.assertAlmostEqual(when(result, "pump", "primed again")[0], failed + 7 + 2, 9)
        # Delivered all along: 100 gpm from the engine's own while the pump is down, 9 min of it and the 300 / 80,000 at first.
        self.assertAlmostEqual(result["lowest_engine_tank"], 2000 - 900 - 100 * 300 / 80_000, 6)
        # B, 1 min after the failure, nurses.
        table["tankers"].append(tanker("B", 1000, response=failed + 1))
        self.assertEqual(when(run(seed, planned=False, **table), "B", "nurses"), [failed + 1])

    def test_no_failure_as_planned(self):
        result = run(supply={"failure": {"chance": 1}}, drop_tanks=[{"capacity": 9000}])
        self.assertEqual(when(result, "pump", "fails"), [])

    def at_a_site(self, seed, repair, response):
        failure = {"chance": 1, "repair": repair}
        return run(
            seed,
            planned=False,
            incident={"duration": 20, "attack_flow": 0},
            supply=NO_NURSE,
            drop_tanks=HUGE,
            tankers=[tanker("A", 10_000, dump_rate=100_000, response=response)],
            fill_sites=[{**POND[0], "failure": failure}],
        )

    def failing_between(self, low, high, who, run_with):
        """The result of the first seed with which it fails in that span (the moment is drawn)."""
        for seed in range(200):
            result = run_with(seed)
            if low < when(result, who, "fails")[0] < high:
                return result, seed
        raise AssertionError("no such seed")

    def test_those_filling_stay(self):
        # Filling from 5.1 at 1,000 gpm, 10 min; failed for 3 of them.
        result, _ = self.failing_between(6, 9, "P", lambda seed: self.at_a_site(seed, 3, 0))
        self.assertAlmostEqual(when(result, "A", "full")[0], 18.1, 9)

    def test_down_for_good_it_is_not_chosen(self):
        result, _ = self.failing_between(0, 10, "P", lambda seed: self.at_a_site(seed, None, 10))
        self.assertAlmostEqual(when(result, "A", "stands by")[0], 10.1, 9)
        self.assertEqual(when(result, "A", "leaves for P"), [])

    def test_down_for_a_time_it_opens_when_repaired(self):
        # A leaves at 13. By P it would be back at 13 + 5 + 1 + 3; when P has failed, at failure + 30 + 1 + 3 at the earliest,
        # and by Q at 13 + 10 + 1 + 10 = 34.
        def two_sites(seed):
            return run(
                seed,
                planned=False,
                incident={"duration": 20, "attack_flow": 0},
                supply=NO_NURSE,
                drop_tanks=HUGE,
                tankers=[tanker("A", 1000, response=12)],
                fill_sites=[
                    {**POND[0], "failure": {"chance": 1, "repair": 30}},
                    {"name": "Q", "flow": 1000, "out": {"minutes": 10}, "back": {"minutes": 10}},
                ],
            )

        before, _ = self.failing_between(0, 13, "P", two_sites)
        self.assertEqual(when(before, "A", "leaves for Q"), [13])
        after, _ = self.failing_between(13, 20, "P", two_sites)
        self.assertEqual(when(after, "A", "leaves for P"), [13])


if __name__ == "__main__":
    unittest.main()
