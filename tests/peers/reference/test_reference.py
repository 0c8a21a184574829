"""Water and pump, by hand: flows, loads, drop tanks, draft and lay. Each comment is the sum worked from the model's page.

python -m unittest discover -s tests/peers/reference
"""

import math
import pathlib
import sys
import unittest
from collections import Counter

sys.path.insert(0, str(pathlib.Path(__file__).parent))

from by_hand import FAR, read, run, tanker, when
from check_invariants import check, with_misfortune
from random_scenarios import scenario as random_scenario
from scenario import read_scenario
from simulation import Run

RULES = ("on deck", "breaks off", "pulls clear", "stands by", "nurses", "prime lost", "site dry", "enters lane")


class ByHand(unittest.TestCase):
    def test_engine_tank_alone(self):
        # 1,000 gal at 500 gpm last 2 min; then 118 min short, 59,000 gal unmet.
        result = run()
        self.assertAlmostEqual(result["minutes_short"], 118, 9)
        self.assertAlmostEqual(result["unmet_gal"], 59_000, 6)
        self.assertEqual(len(result["interruptions"]), 1)
        self.assertAlmostEqual(result["interruptions"][0]["start"], 2, 9)

    def test_one_tanker_nursing(self):
        # Cycle: connect 1, pump off 1,800 gal at 450 gpm (lines want 450, refill 0) 4, disconnect 1, out 3, fill 1 + 2 + 1
        # (2,000 gal at 1,000 gpm), back 3 = 16 min; waste 10%. Flow 1,800 / 16 = 112.5 gpm; 4 min in 16 with water.
        result = run(
            incident={"duration": 160, "attack_flow": 450},
            attack_engine={"name": "Engine 3", "tank": 0, "tank_refill": 0},
            tankers=[{"name": "T", "capacity": 2000, "pump_off": 450}],
            fill_sites=[{"name": "Pond", "flow": 1200, "out": {"minutes": 3}, "back": {"minutes": 3}}],
            handling={"nurse_connect": 1, "nurse_disconnect": 1, "fill_connect": 1, "fill_disconnect": 1},
        )
        self.assertAlmostEqual(result["delivered_gal"], 18_000, 6)
        self.assertAlmostEqual(result["spilled_gal"], 2_000, 6)
        self.assertAlmostEqual(result["minutes_short"], 120, 6)
        self.assertEqual(result["tankers"], [{"name": "T", "trips": 10}])
        self.assertEqual(result["established"], 1)

    def test_gravity_gives_nine_tenths_at_the_stated_average(self):
        # Average 1,000 gpm over the first 90%: 2,700 of 3,000 gal out at 2.7 min. T = 2.7 / (1 - sqrt 0.1) = 3.94868... min
        # is when the last drop leaves. The rest of the drop tank is wide enough.
        result = run(
            incident={"duration": 10, "attack_flow": 0},
            supply={"setup": 500, "nurse": False},
            drop_tanks=[{"capacity": 4000}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0, "dump_curve": "gravity"}],
            fill_sites=FAR,
        )
        self.assertAlmostEqual(when(result, "T", "empty")[0], 2.7 / (1 - math.sqrt(0.1)), 9)
        # So a pump that draws from 2,700 gal on draws first at 2.7 min.
        drawn = run(
            incident={"duration": 10, "attack_flow": 0},
            supply={"restart_level": 2700, "nurse": False},
            drop_tanks=[{"capacity": 4000}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0, "dump_curve": "gravity"}],
            fill_sites=FAR,
        )
        self.assertAlmostEqual(drawn["established"], 2.7, 9)

    def test_gravity_stops_at_the_residual(self):
        # 4% of 2,500 gal stays: v ends at 0.04 v0, sqrt 0.2, so the driver leaves at 0.8 T.
        result = run(
            incident={"duration": 10, "attack_flow": 0},
            supply={"setup": 500, "nurse": False},
            drop_tanks=[{"capacity": 4000}],
            tankers=[{"name": "T", "capacity": 2500, "waste": 0, "residual": 0.04, "dump_curve": "gravity"}],
            fill_sites=FAR,
        )
        whole = 0.9 * 2500 / (1000 * (1 - math.sqrt(0.1)))
        self.assertAlmostEqual(when(result, "T", "empty")[0], 0.8 * whole, 9)

    def test_full_drop_tank_passes_on_what_leaves(self):
        # Tank 1,500 gal, restart 300, load 3,000 at 1,000 gpm, draw 500. Level 300 at 0.3 min, then +500 gpm: full at
        # 0.3 + 2.4 = 2.7 min with 300 left aboard... 3,000 - 2,700; those follow the draw: 0.6 min more. Empty at 3.3.
        result = run(
            attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0},
            supply={"nurse": False, "low_water": "lose_prime"},
            drop_tanks=[{"capacity": 1500}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0}],
            fill_sites=FAR,
        )
        self.assertAlmostEqual(result["established"], 0.3, 9)
        self.assertAlmostEqual(when(result, "T", "empty")[0], 3.3, 9)
        # Then 1,500 gal last 3 min to 6.3, prime is lost at unusable 0, and the engine tank, down 150 gal from before
        # 0.3 min and never refilled, holds 850 gal: 1.7 min. Short from 8.0.
        self.assertAlmostEqual(when(result, "pump", "prime lost")[0], 6.3, 9)
        self.assertAlmostEqual(result["interruptions"][0]["start"], 8.0, 9)

    def test_two_gravity_dumpers_in_a_full_tank(self):
        # Two equal loads share alike, so together they do as one of twice the size would: the sum of the loads falls by
        # what leaves, until the free rate is down to 500 gpm. One tanker: v0 2,000, T 1.8 / (1 - sqrt 0.1). Both may dump
        # because a tank that lacks its restart level (2,100, with 2,000 at it) is dumped into whatever its room. With
        # r = sqrt(v / v0) and free rate 4,000 r / T each: both free until the tank (2,100 gal, nothing drawn yet) is full:
        # 2 x 2,000 (1 - r^2) = 2,100, r^2 = 0.475. From minute 5 the pump, with 500 gpm: 8,000 r / T = 500 at r2 = T / 16;
        # 4,000 (0.475 - r2^2) gal take that / 500 min; the rest runs free for T r2 min.
        whole = 1.8 / (1 - math.sqrt(0.1))
        r2 = whole / 16
        result = run(
            attack_engine={"name": "Engine 3", "tank": 5000, "tank_refill": 0, "response": 5, "intakes": 0},
            supply={"restart_level": 2100},
            drop_tanks=[{"capacity": 2100, "dump_positions": 2}],
            tankers=[{"name": "T", "count": 2, "capacity": 2000, "waste": 0, "dump_curve": "gravity"}],
            fill_sites=FAR,
        )
        expected = 5 + 4000 * (0.475 - r2 * r2) / 500 + whole * r2
        self.assertAlmostEqual(when(result, "T 1", "empty")[0], expected, 9)
        self.assertAlmostEqual(when(result, "T 2", "empty")[0], expected, 9)

    def test_cover_of_two_drop_tanks(self):
        # 2 x (2,500 - 250) gal at 500 gpm cover 9 min (arithmetic from the levels). Both are filled before the pump is hooked
        # up; the engine's 1,000 gal last 2 min (0 to 2), hooked up at 2, so short from 2 + 9 = 11 with no refill.
        result = run(
            attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0},
            supply={"setup": 2, "nurse": False, "low_water": "lose_prime"},
            drop_tanks=[{"capacity": 2500, "unusable": 250}, {"capacity": 2500, "unusable": 250}],
            tankers=[{"name": "T", "count": 2, "capacity": 2500, "waste": 0, "dump_rate": 2500}],
            fill_sites=FAR,
        )
        # Tank 2 gives 500 gpm from minute 0 but the first is full from minute 1 on; up to then it takes 500 gpm away
        # from the room, so the loads are 2,500 + 2,500 in all whichever tank holds them.
        self.assertEqual(len(result["interruptions"]), 1)
        self.assertAlmostEqual(result["interruptions"][0]["start"], 11, 9)
        self.assertAlmostEqual(when(result, "pump", "prime lost")[0], 11, 9)

    def test_dumping_into_the_first_comes_before_transfer(self):
        # A dumps 1,000 gpm into the first tank (1,000 gal) and C at once 1,000 gal into the second, which gives 500 gpm: the
        # first is full at 2/3 min, where the pump (restart 1,000) begins to draw 600. A's last 1,000 / 3 gal only follow
        # the draw, 5/9 min, and nothing is transferred. B takes A's place at 11/9 and needs 1/2 min to position: transfer
        # alone, 500 for 600, leaves 950 gal at 31/18. B brings 400, transfer 500: full again 1/6 min later, at 17/9, when
        # the second has given 500 (2/3 + 1/2 + 1/6) = 2,000 / 3 gal. From then on it gives only 600 - 400 = 200 gpm:
        # a minute later, at 26/9, it holds 1,000 - 2,000 / 3 - 200 = 400 / 3 gal, and the first is still full.
        table = {
            "incident": {"duration": 26 / 9, "attack_flow": 600},
            "attack_engine": {"name": "Engine 3", "tank": 3000, "tank_refill": 0},
            "supply": {"restart_level": 1000, "nurse": False},
            "drop_tanks": [{"capacity": 1000}, {"capacity": 4000}],
            "tankers": [
                {"name": "A", "capacity": 1000, "waste": 0},
                {"name": "C", "capacity": 1000, "waste": 0, "dump_rate": 1e6, "handling": {"dump_clear": 100}},
                {"name": "B", "capacity": 1000, "waste": 0, "dump_rate": 400, "handling": {"dump_position": 0.5}},
            ],
            "fill_sites": FAR,
        }
        state = Run(read(**table)).run()
        self.assertAlmostEqual(when(state.result(), "A", "empty")[0], 11 / 9, 9)
        self.assertAlmostEqual(state.drop_tanks[0].level, 1000, 6)
        self.assertAlmostEqual(state.drop_tanks[1].level, 400 / 3, 6)

    def test_reprime(self):
        # Restart 400 over unusable 100, draw 500 from 400 on, dumping 400 gpm: prime is lost when 300 gal have gone at 100
        # gpm net: 1 + 3 = 4 min; back at 400 after 0.75 min of dumping with no draw, primed 2 min later, at 6.75.
        result = run(
            incident={"duration": 7, "attack_flow": 500},
            attack_engine={"name": "Engine 3", "tank": 3000, "tank_refill": 0},
            supply={"restart_level": 400, "reprime": 2, "nurse": False, "low_water": "lose_prime"},
            drop_tanks=[{"capacity": 3000, "unusable": 100}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0, "dump_rate": 400}],
        )
        self.assertEqual(result["established"], 1)
        self.assertAlmostEqual(when(result, "pump", "prime lost")[0], 4, 9)
        self.assertAlmostEqual(when(result, "pump", "repriming")[0], 4.75, 9)
        self.assertAlmostEqual(when(result, "pump", "primed again")[0], 6.75, 9)
        # No draw from 0 to 1 and from 4 to 6.75: 3.75 min at 500 gpm out of 3,000 gal.
        self.assertAlmostEqual(result["lowest_engine_tank"], 1125, 6)

    def test_dry_lay_swallows_its_volume(self):
        # Drawing from 0.3 min at the limit of 500 gpm, 200 gal of lay take 0.4 min; the engine's 150 gal end at 0.3.
        result = run(
            attack_engine={"name": "Engine 3", "tank": 150, "tank_refill": 0},
            supply={"draft_limit": 500, "lay_volume": 200, "nurse": False},
            drop_tanks=[{"capacity": 3000}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0}],
            fill_sites=FAR,
        )
        first = result["interruptions"][0]
        self.assertAlmostEqual(first["start"], 0.3, 9)
        self.assertAlmostEqual(first["end"], 0.7, 9)
        self.assertEqual(first["cause"], "draft_or_lay_too_small")

    def test_throttle_delivers_what_comes_in(self):
        # 400 gpm is dumped for 5 min into a tank that starts drawing at 300 gal (0.75 min); draw 500: 100 gpm less comes
        # in; 300 gal would last 3 min, to 3.75; from there 400 gpm are delivered until the load ends at 5.
        result = run(
            incident={"duration": 5, "attack_flow": 500, "tolerance": 0},
            attack_engine={"name": "Engine 3", "tank": 375, "tank_refill": 0},
            supply={"nurse": False},
            drop_tanks=[{"capacity": 3000}],
            tankers=[{"name": "T", "capacity": 2000, "waste": 0, "dump_rate": 400}],
        )
        self.assertAlmostEqual(result["interruptions"][0]["start"], 3.75, 9)
        self.assertAlmostEqual(result["unmet_gal"], 100 * 1.25, 6)


class Causes(unittest.TestCase):
    """Each cause in the place the page's order gives it, read when the interruption begins."""

    TANK = [{"capacity": 3000, "response": 0}]

    def cause(self, **parts):
        table = {"attack_engine": {"name": "Engine 3", "tank": 1000, "tank_refill": 0}}
        return run(**{**table, **parts})["interruptions"][0]["cause"]

    def test_not_come(self):
        self.assertEqual(self.cause(drop_tanks=self.TANK, tankers=[tanker("T", 1000, response=9)]), "not_come")

    def test_draft_not_up(self):
        # 1,000 gal dumped by 1, the engine dry at 2, the pump hooked up at 5; that another tanker is to come is no matter.
        tankers = [tanker("T", 1000), tanker("U", 1000, response=50)]
        supply = {"setup": 5, "nurse": False}
        self.assertEqual(self.cause(supply=supply, drop_tanks=self.TANK, tankers=tankers), "draft_not_up")

    def test_draft_too_small(self):
        # 400 of 500 gpm: 100 a minute out of the engine's 300 gal, while 3,000 gal last.
        parts = {"supply": {"draft_limit": 400, "nurse": False}, "drop_tanks": self.TANK}
        parts["attack_engine"] = {"name": "Engine 3", "tank": 300, "tank_refill": 0}
        self.assertEqual(self.cause(tankers=[tanker("T", 3000)], **parts), "draft_or_lay_too_small")

    def test_prime_lost(self):
        parts = {"supply": {"low_water": "lose_prime", "nurse": False}, "drop_tanks": self.TANK}
        self.assertEqual(self.cause(tankers=[tanker("T", 1000)], **parts), "prime_lost")

    def throttled(self, tankers, site):
        # Drawn down to nothing at 2 or so, the engine dry two minutes later; who is where then tells the cause.
        return self.cause(supply={"nurse": False}, drop_tanks=self.TANK, tankers=tankers, fill_sites=[site])

    def test_source_not_ready(self):
        pond = {"name": "P", "flow": 1000, "out": {"minutes": 1}, "back": {"minutes": 1}}
        self.assertEqual(self.throttled([tanker("T", 1000)], {**pond, "ready": 30}), "source_not_ready")

    def test_fill_site_queue_and_haul(self):
        # One, of 1,000 gal: dumps 0 to 1, fills from 2 at 100 gpm; the last of its water goes at 4. Alone it is the haul; a
        # second that comes at 0 and dumps 1 to 2 waits for the place when its water ends, at 6.
        pond = {"name": "P", "flow": 100, "out": {"minutes": 1}, "back": {"minutes": 1}}
        self.assertEqual(self.throttled([tanker("T", 1000)], pond), "haul_too_long")
        self.assertEqual(self.throttled([tanker("T", 1000, count=2)], pond), "fill_site_queue")

    def test_out_of_service(self):
        broken = run(
            planned=False,
            attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0},
            supply={"nurse": False},
            drop_tanks=self.TANK,
            tankers=[tanker("T", 1000, breakdown_per_trip=1)],
        )
        self.assertEqual(broken["interruptions"][0]["cause"], "out_of_service")


class Everywhere(unittest.TestCase):
    def test_what_must_hold_holds(self):
        for n in range(150):
            table = random_scenario(f"balance/{n}")
            for plan, planned in ((table, True), (with_misfortune(table, n), False)):
                with self.subTest(plan=n, planned=planned):
                    check(read_scenario(plan), n, planned)

    def test_the_plans_reach_the_rules(self):
        # A random plan that never meets a rule tells nothing about it.
        seen = Counter()
        for n in range(150):
            result = Run(read_scenario(random_scenario(f"balance/{n}")), planned=True).run().result()
            what = {event for _, _, event in result["events"]}
            seen.update(rule for rule in RULES if any(event.startswith(rule) for event in what))
        for rule in RULES:
            self.assertGreaterEqual(seen[rule], 5, rule)


if __name__ == "__main__":
    unittest.main()
