"""Hand-worked checks of the reference. Each comment is the sum worked by hand from the model's words.

python -m unittest discover -s tests/peers/reference
"""

import math
import sys
import pathlib
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))

from random_scenarios import scenario as random_scenario
from scenario import Duration, Luck, read_scenario
from simulation import Run


def run(**parts):
    table = {
        "incident": {"duration": 120, "attack_flow": 500},
        "attack_engine": {"name": "Engine 3", "tank": 1000},
        "tankers": [],
        "fill_sites": [],
    }
    table.update(parts)
    return Run(read_scenario(table)).run().result()


def when(result, who, what):
    return [minute for minute, unit, event in result["events"] if unit == who and event == what]


FAR = [{"name": "Pond", "flow": 1000, "out": {"minutes": 1000}, "back": {"minutes": 1000}}]


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
            supply={"setup": 500},
            drop_tanks=[{"capacity": 4000}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0, "dump_curve": "gravity"}],
            fill_sites=FAR,
        )
        self.assertAlmostEqual(when(result, "T", "empty")[0], 2.7 / (1 - math.sqrt(0.1)), 9)
        # So a pump that draws from 2,700 gal on draws first at 2.7 min.
        drawn = run(
            incident={"duration": 10, "attack_flow": 0},
            supply={"restart_level": 2700},
            drop_tanks=[{"capacity": 4000}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0, "dump_curve": "gravity"}],
            fill_sites=FAR,
        )
        self.assertAlmostEqual(drawn["established"], 2.7, 9)

    def test_gravity_stops_at_the_residual(self):
        # 4% of 2,500 gal stays: v ends at 0.04 v0, sqrt 0.2, so the driver leaves at 0.8 T.
        result = run(
            incident={"duration": 10, "attack_flow": 0},
            supply={"setup": 500},
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
        # what leaves, until the free rate is down to 500 gpm. One tanker: v0 2,000, T 1.8 / (1 - sqrt 0.1).
        # With r = sqrt(v / v0) and free rate 4,000 r / T each: both free until the tank (1,000 gal, nothing drawn yet) is
        # full: 2 x 2,000 (1 - r^2) = 1,000, r = sqrt(3 / 4), at t1 = T (1 - r). From minute 5 the pump, with 500 gpm:
        # 8,000 r / T = 500 at r2 = T / 16; 4,000 (3/4 - r2^2) gal take that / 500 min; the rest runs free for T r2 min.
        whole = 1.8 / (1 - math.sqrt(0.1))
        r2 = whole / 16
        result = run(
            attack_engine={"name": "Engine 3", "tank": 5000, "tank_refill": 0},
            supply={"setup": 5, "restart_level": 500},
            drop_tanks=[{"capacity": 1000, "dump_positions": 2}],
            tankers=[{"name": "T", "count": 2, "capacity": 2000, "waste": 0, "dump_curve": "gravity"}],
            fill_sites=FAR,
        )
        expected = 5 + 4000 * (0.75 - r2 * r2) / 500 + whole * r2
        self.assertAlmostEqual(when(result, "T 1", "empty")[0], expected, 9)
        self.assertAlmostEqual(when(result, "T 2", "empty")[0], expected, 9)

    def test_cover_of_two_drop_tanks(self):
        # 2 x (2,500 - 250) gal at 500 gpm cover 9 min (arithmetic from the levels). Both are filled before the pump is hooked
        # up; the engine's 1,000 gal last 2 min (0 to 2), hooked up at 2, so short from 2 + 9 = 11 with no refill.
        result = run(
            attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0},
            supply={"setup": 2},
            drop_tanks=[{"capacity": 2500, "unusable": 250}, {"capacity": 2500, "unusable": 250}],
            tankers=[{"name": "T", "count": 2, "capacity": 2500, "waste": 0, "dump_rate": 2500}],
            fill_sites=FAR,
        )
        # Tank 2 gives 500 gpm from minute 0 but the first is full from minute 1 on; up to then it takes 500 gpm away
        # from the room, so the loads are 2,500 + 2,500 in all whichever tank holds them.
        self.assertEqual(len(result["interruptions"]), 1)
        self.assertAlmostEqual(result["interruptions"][0]["start"], 11, 9)
        self.assertAlmostEqual(when(result, "pump", "prime lost")[0], 11, 9)

    def test_fill_site_is_the_bottleneck(self):
        # Fixed times, one fill position: throughput min(n / cycle, 1 / service) (operational laws of queueing). Cycle:
        # dump 1, out 2, fill 1 + 2 + 1, back 3 = 10 min; service 4 min. 2 tankers: 2 loads in 10 min; 4: one in 4 min.
        def trips(count):
            result = run(
                incident={"duration": 400, "attack_flow": 0},
                supply={"setup": 1000},
                drop_tanks=[{"capacity": 10**7, "dump_positions": 9}],
                tankers=[{"name": "T", "count": count, "capacity": 2000, "waste": 0, "dump_rate": 2000}],
                fill_sites=[{"name": "P", "flow": 1000, "out": {"minutes": 2}, "back": {"minutes": 3}}],
                handling={"fill_connect": 1, "fill_disconnect": 1},
            )
            return sum(tanker["trips"] for tanker in result["tankers"])

        # Dumps of tanker 1 end at 1, 11, 21, ... 391: 40 trips; of tanker 2, held 4 min at its first fill, at 1, 15, ... 395.
        self.assertEqual(trips(2), 40 + 40)
        # Four: first dumps all at 1; the others come off the fill position at 7, 11, 15, ... and dump 4 min later: 11, 15, ...
        # 399 are 98 trips more.
        self.assertEqual(trips(4), 4 + 98)

    def test_max_min_and_one_by_one(self):
        # 900 gpm, limits 300 and 1,000, 1,500 gal each. Max-min: 300 and 600: the second is full at 2.5, the first at 5.
        # One by one: the first to begin (300) takes 300, the second 600: the same. With limits 1,000 and 300 in turn:
        # the first takes 900 until 1.6667; the second 0, then 300 gpm: full at 6.6667.
        def full(first, second, order):
            result = run(
                supply={"setup": 500},
                drop_tanks=[{"capacity": 9000, "dump_positions": 2}],
                tankers=[
                    {"name": "A", "capacity": 1500, "waste": 0, "dump_rate": 1500, "fill_limit": first},
                    {"name": "B", "capacity": 1500, "waste": 0, "dump_rate": 1500, "fill_limit": second},
                ],
                fill_sites=[
                    {"name": "P", "flow": 900, "positions": 2, "out": {"minutes": 1}, "back": {"minutes": 1}, **order}
                ],
            )
            return when(result, "A", "full")[0] - 2, when(result, "B", "full")[0] - 2

        self.assertAlmostEqual(full(300, 1000, {})[0], 5, 9)
        self.assertAlmostEqual(full(300, 1000, {})[1], 2.5, 9)
        # Both unlimited: 450 each, 1,500 / 450.
        self.assertAlmostEqual(full(1000, 1000, {})[0], 10 / 3, 9)
        self.assertAlmostEqual(full(1000, 1000, {})[1], 10 / 3, 9)
        self.assertAlmostEqual(full(1000, 300, {"fill_order": "one-by-one"})[0], 5 / 3, 9)
        self.assertAlmostEqual(full(1000, 300, {"fill_order": "one-by-one"})[1], 5 / 3 + 5, 9)

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
            "supply": {"restart_level": 1000},
            "drop_tanks": [{"capacity": 1000}, {"capacity": 4000}],
            "tankers": [
                {"name": "A", "capacity": 1000, "waste": 0},
                {"name": "C", "capacity": 1000, "waste": 0, "dump_rate": 1e6, "handling": {"dump_clear": 100}},
                {"name": "B", "capacity": 1000, "waste": 0, "dump_rate": 400, "handling": {"dump_position": 0.5}},
            ],
            "fill_sites": FAR,
        }
        state = Run(read_scenario(table)).run()
        self.assertAlmostEqual(when(state.result(), "A", "empty")[0], 11 / 9, 9)
        self.assertAlmostEqual(state.drop_tanks[0].level, 1000, 6)
        self.assertAlmostEqual(state.drop_tanks[1].level, 400 / 3, 6)

    def test_nursing_closes_at_hook_up(self):
        # The drop tank is ready at 2, its pump hooked up at 5. A takes the intake at 1, though it is still connecting at 5;
        # B, there at 3, waits for the intake no longer than for the drop tank's position: it dumps. C, at 6, finds the pump
        # hooked up and the position held by B (dump 2 + clear 20) and waits.
        result = run(
            supply={"nurse": True, "setup": 3},
            drop_tanks=[{"capacity": 3000, "setup": 2}],
            tankers=[
                {"name": name, "capacity": 2000, "waste": 0, "response": response}
                for name, response in (("A", 1), ("B", 3), ("C", 6))
            ],
            fill_sites=FAR,
            handling={"nurse_connect": 4.5, "nurse_disconnect": 0.5, "dump_clear": 20},
        )
        self.assertEqual(when(result, "A", "nurses"), [5.5])
        self.assertEqual(when(result, "B", "dumps into drop tank 1"), [3])
        self.assertEqual(when(result, "C", "nurses"), [])
        self.assertEqual(when(result, "C", "dumps into drop tank 1"), [25])

    def test_choice_of_drop_tank(self):
        # A and B come together: A takes the first tank with room for all of it, the second (the first holds 1,500 gal
        # only), B (1,200 gal) the first; C, with no room for its 3,000 gal anywhere, the one with most room: at 2 the
        # first has 300, the second 500.
        result = run(
            incident={"duration": 10, "attack_flow": 0},
            supply={"setup": 500},
            drop_tanks=[{"capacity": 1500, "transfer": 0}, {"capacity": 2500, "transfer": 0}],
            tankers=[
                {"name": "A", "capacity": 2000, "waste": 0, "dump_rate": 2000},
                {"name": "B", "capacity": 1200, "waste": 0, "dump_rate": 2000},
                {"name": "C", "capacity": 3000, "waste": 0, "response": 2},
            ],
            fill_sites=FAR,
        )
        self.assertEqual(when(result, "A", "dumps into drop tank 2"), [0])
        self.assertEqual(when(result, "B", "dumps into drop tank 1"), [0])
        self.assertEqual(when(result, "C", "dumps into drop tank 2"), [2])

    def test_choice_of_fill_site(self):
        # Near: 4 + 4 min on the road, s = 1,000 gal / 200 gpm + 1 + 1 = 7; far: 8 + 8 and s = 1 + 1 + 1 = 3. Alone: 15 to
        # 19: near. One ahead: 22 to 19: far. One ahead at each: 22 to 22: the first, near.
        result = run(
            incident={"duration": 3, "attack_flow": 0},
            supply={"setup": 500},
            drop_tanks=[{"capacity": 9000, "dump_positions": 3}],
            tankers=[{"name": "T", "count": 3, "capacity": 1000, "waste": 0}],
            fill_sites=[
                {"name": "near", "flow": 200, "out": {"minutes": 4}, "back": {"minutes": 4}},
                {"name": "far", "flow": 1000, "out": {"minutes": 8}, "back": {"minutes": 8}},
            ],
            handling={"fill_connect": 1, "fill_disconnect": 1},
        )
        self.assertEqual(when(result, "T 1", "leaves for near"), [1])
        self.assertEqual(when(result, "T 2", "leaves for far"), [1])
        self.assertEqual(when(result, "T 3", "leaves for near"), [1])

    def test_limited_volume_runs_out(self):
        # 1,500 gal at 500 gpm: A (1,000 gal) is full at 2 + 2, B begins then and gets 500 gal by 5; dry, it leaves with
        # those. A, back for more, is assigned there and leaves at once.
        result = run(
            incident={"duration": 12, "attack_flow": 0},
            supply={"setup": 500},
            drop_tanks=[{"capacity": 9000, "dump_positions": 2}],
            tankers=[{"name": "T", "count": 2, "capacity": 1000, "waste": 0, "fill_site": "P"}],
            fill_sites=[{"name": "P", "flow": 500, "volume": 1500, "out": {"minutes": 1}, "back": {"minutes": 1}}],
        )
        self.assertEqual(when(result, "T 1", "full"), [4])
        self.assertEqual(when(result, "T 2", "site dry"), [5])
        self.assertEqual(when(result, "T 2", "at the scene with 500.000 gal"), [6])
        # T 1 dumps 5 to 6, is at the pond at 7 and back at 8 with nothing.
        self.assertEqual(when(result, "T 1", "at the scene with 0.000 gal")[0], 8)

    def test_reprime(self):
        # Restart 400 over unusable 100, draw 500 from 400 on, dumping 400 gpm: prime is lost when 300 gal have gone at 100
        # gpm net: 1 + 3 = 4 min; back at 400 after 0.75 min of dumping with no draw, primed 2 min later, at 6.75.
        result = run(
            incident={"duration": 7, "attack_flow": 500},
            attack_engine={"name": "Engine 3", "tank": 3000, "tank_refill": 0},
            supply={"restart_level": 400, "reprime": 2},
            drop_tanks=[{"capacity": 3000, "unusable": 100}],
            tankers=[{"name": "T", "capacity": 3000, "waste": 0, "dump_rate": 400}],
        )
        self.assertEqual(result["established"], 1)
        self.assertAlmostEqual(when(result, "pump", "prime lost")[0], 4, 9)
        self.assertAlmostEqual(when(result, "pump", "repriming")[0], 4.75, 9)
        self.assertAlmostEqual(when(result, "pump", "primed again")[0], 6.75, 9)
        # No draw from 0 to 1 and from 4 to 6.75: 3.75 min at 500 gpm out of 3,000 gal.
        self.assertAlmostEqual(result["lowest_engine_tank"], 1125, 6)

    def test_one_lane_makes_the_other_way_wait(self):
        # A dumps 0 to 1 and enters the lane (3 min) at 1, out at 4, at the pond at 5. B (arrives at 2) dumps 2 to 3 and
        # follows at 3, off the lane at 6. A fills 5 to 6.5, is back at the lane at 7.5, crosses to 10.5. First arrivals do
        # not cross.
        result = run(
            supply={"setup": 500},
            drop_tanks=[{"capacity": 90000, "dump_positions": 2}],
            tankers=[
                {"name": "A", "capacity": 1500, "waste": 0, "dump_rate": 1500},
                {"name": "B", "capacity": 1500, "waste": 0, "dump_rate": 1500, "response": 2},
            ],
            fill_sites=[{"name": "P", "flow": 1000, "out": {"minutes": 1}, "back": {"minutes": 1}}],
            one_lane=[{"near": "scene", "crossing": 3}],
        )
        arrivals = when(result, "A", "at the scene with 1500.000 gal")
        self.assertAlmostEqual(arrivals[0], 0, 9)
        self.assertAlmostEqual(arrivals[1], 10.5, 9)
        # B at the pond at 7, full at 8.5, at the lane at 9.5, follows A: off at 12.5. A dumps 10.5 to 11.5 and waits for B:
        # enters at 12.5.
        self.assertAlmostEqual(when(result, "A", "enters lane 1 out")[1], 12.5, 9)

    def test_dry_lay_swallows_its_volume(self):
        # Drawing from 0.3 min at the limit of 500 gpm, 200 gal of lay take 0.4 min; the engine's 150 gal end at 0.3.
        result = run(
            attack_engine={"name": "Engine 3", "tank": 150, "tank_refill": 0},
            supply={"draft_limit": 500, "lay_volume": 200},
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
            supply={"low_water": "throttle"},
            drop_tanks=[{"capacity": 3000}],
            tankers=[{"name": "T", "capacity": 2000, "waste": 0, "dump_rate": 400}],
        )
        self.assertAlmostEqual(result["interruptions"][0]["start"], 3.75, 9)
        self.assertAlmostEqual(result["unmet_gal"], 100 * 1.25, 6)


class Everywhere(unittest.TestCase):
    def test_water_balances(self):
        for n in range(300):
            state = Run(read_scenario(random_scenario(f"balance/{n}"))).run()
            result = state.result()
            self.assertLessEqual(state.engine_level, state.plan.engine_tank + 1e-6, f"scenario {n}")
            for tank in state.drop_tanks:
                self.assertLessEqual(tank.level, tank.spec.capacity + 1e-6, f"scenario {n}")
                self.assertGreaterEqual(tank.level, -1e-6, f"scenario {n}")
            gone = result["delivered_gal"] + result["spilled_gal"] + result["still_there_gal"]
            self.assertAlmostEqual(result["arrived_gal"], gone, delta=1e-6, msg=f"scenario {n}")

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
            draws = [Luck(1, k).minutes(duration, "T", "x") for k in range(20_000)]
            mean = sum(draws) / len(draws)
            spread = math.sqrt(sum((draw - mean) ** 2 for draw in draws) / len(draws) / len(draws))
            self.assertLess(abs(mean - duration.mean()), 5 * spread, shape)


if __name__ == "__main__":
    unittest.main()
