"""The fill site chosen, the queue, the fill and the way back, rules 6 to 8, by hand from the model's page."""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))

from by_hand import run, stand_at, tanker, when

NO_FIRE = {"duration": 100, "attack_flow": 0}
HUGE = [{"capacity": 90_000, "dump_positions": 9}]
NEAR = {"name": "near", "flow": 200, "out": {"minutes": 4}, "back": {"minutes": 4}}
AWAY = {"name": "away", "flow": 1000, "out": {"minutes": 8}, "back": {"minutes": 8}}
HANDS = {"fill_connect": 1, "fill_disconnect": 1}


def haul(tankers, sites, **parts):
    """Everybody dumps 1,000 gal from 0 to 1 and leaves at 1 (in the order of the scenario)."""
    table = {"incident": NO_FIRE, "supply": {"setup": 500, "nurse": False}, "drop_tanks": HUGE}
    return run(**{**table, "tankers": tankers, "fill_sites": sites, **parts})


def leaves_for(result):
    return {who: event[11:] for _, who, event in reversed(result["events"]) if event.startswith("leaves for")}


class TheSiteChosen(unittest.TestCase):
    def test_back_first(self):
        # Near: connect 1 + 1,000 / 200 + disconnect 1 = 7. Alone 1 + 4 + 7 + 4: back at 16; with n ahead, each 5 + 1 + 1 of
        # work for the one position, at 1 + max(4, 7 n) + 11: 16, 19, 26. Away: 1 + 8 + 3 + 8 = 20, and one ahead (1 + 1
        # + 1) is gone by then: 20 again. So near, near, away, away.
        result = haul([tanker("T", 1000, count=4)], [NEAR, AWAY], handling=HANDS)
        self.assertEqual(leaves_for(result), {"T 1": "near", "T 2": "near", "T 3": "away", "T 4": "away"})

    def test_hands_count_only_at_a_single_position(self):
        # Two positions: the fill alone is work ahead: 16, 1 + 5 + 11 = 17, 1 + 10 + 11 = 22.
        result = haul([tanker("T", 1000, count=3)], [{**NEAR, "positions": 2}, AWAY], handling=HANDS)
        self.assertEqual(leaves_for(result), {"T 1": "near", "T 2": "near", "T 3": "away"})
        # 4.9 min more for connecting (T 2's own too) would, at one position, make it 1 + max(4, 11.9) + 15.9 > 24.9.
        late = {"fill_connect": 5.9, "fill_disconnect": 1}
        one = haul([tanker("T", 1000, count=2)], [NEAR, AWAY], handling=late)
        two = haul([tanker("T", 1000, count=2)], [{**NEAR, "positions": 2}, AWAY], handling=late)
        self.assertEqual((leaves_for(one)["T 2"], leaves_for(two)["T 2"]), ("away", "near"))

    def test_work_ahead_until_disconnected(self):
        # T 1 is at the near site at 5, connects to 6, fills to 11, disconnects to 12. T 2 asks at 11.5: ahead of it one
        # disconnect, 1 min, over before it is there: near (11.5 + 4 + 7 + 4 = 26.5, away 30.5).
        tankers = [tanker("T 1", 1000), tanker("T 2", 1000, response=10.5)]
        self.assertEqual(leaves_for(haul(tankers, [NEAR, AWAY], handling=HANDS))["T 2"], "near")

    def test_ties_go_to_the_first(self):
        result = haul([tanker("T", 1000)], [{**NEAR, "name": "one"}, {**NEAR, "name": "two"}])
        self.assertEqual(leaves_for(result), {"T": "one"})

    def test_a_site_that_is_not_ready(self):
        # Ready at 10: 10 + 7 + 4 = 21 against 20. At 8: 19.
        for ready, expected in ((10, "away"), (8, "near")):
            result = haul([tanker("T", 1000)], [{**NEAR, "ready": ready}, AWAY], handling=HANDS)
            self.assertEqual(leaves_for(result), {"T": expected})

    def test_who_is_there_waits_for_ready(self):
        result = haul([tanker("T", 1000)], [{**NEAR, "ready": 10}])
        self.assertEqual(when(result, "T", "at near")[0], 5)
        self.assertEqual(when(result, "T", "fills")[0], 10)

    def test_volume_less_what_those_ahead_take(self):
        # 1,499 less T 1's 1,000 is less than half of T 2's 1,000; of 1,500 it is half.
        for volume, expected in ((1499, "away"), (1500, "near")):
            result = haul([tanker("T", 1000, count=2)], [{**NEAR, "volume": volume}, AWAY])
            self.assertEqual(leaves_for(result), {"T 1": "near", "T 2": expected})

    def test_stands_by_until_it_has_recharged(self):
        # 600 gal (+ 50 gpm, from a full pond on nothing). T 1 takes all 600 from 2 on at 1,000 gpm, by 2 + 600 / 950 with
        # 31.58 recharged, and the last 368.42 at 50 gpm: full at 10. T 2 (assigned, like T 1) finds 600 - 1,000 at 1; from 2
        # on that rises by 50 a minute, and is 500 at 20. T 1, back at 11 and empty at 12, stands by behind T 2.
        pond = {"name": "P", "flow": 1000, "volume": 600, "recharge": 50, "out": {"minutes": 1}, "back": {"minutes": 1}}
        result = haul([tanker("T", 1000, count=2, fill_site="P")], [pond])
        self.assertAlmostEqual(when(result, "T 1", "full")[0], 10, 9)
        self.assertEqual(when(result, "T 2", "stands by")[0], 1)
        self.assertAlmostEqual(when(result, "T 2", "leaves for P")[0], 20, 9)

    def test_dry_for_good(self):
        # 1,500 gal at 500 gpm: T 1 is full at 4, T 2 gets 500 by 5, leaves with those and is back at 6. T 1, at 6 done
        # dumping, stands by; so does T 2 at 6.5.
        pond = {"name": "P", "flow": 500, "volume": 1500, "out": {"minutes": 1}, "back": {"minutes": 1}}
        result = haul([tanker("T", 1000, count=2)], [pond])
        self.assertEqual(when(result, "T 1", "full"), [4])
        self.assertEqual(when(result, "T 2", "site dry"), [5])
        self.assertEqual(when(result, "T 2", "at the scene with 500.000 gal"), [6])
        self.assertEqual(when(result, "T 1", "stands by"), [6])
        self.assertEqual(when(result, "T 2", "stands by"), [6.5])


class TheFill(unittest.TestCase):
    def full(self, first, second, order):
        result = haul(
            [tanker("A", 1500, dump_rate=1500, fill_limit=first), tanker("B", 1500, dump_rate=1500, fill_limit=second)],
            [{"name": "P", "flow": 900, "positions": 2, "out": {"minutes": 1}, "back": {"minutes": 1}, **order}],
        )
        return when(result, "A", "full")[0] - 2, when(result, "B", "full")[0] - 2

    def test_who_began_first_takes_all_it_can(self):
        # 900 gpm: A takes it all, 1,500 gal by 5/3; B then, at 300 gpm, 5 min.
        a, b = self.full(1000, 300, {})
        self.assertAlmostEqual(a, 5 / 3, 9)
        self.assertAlmostEqual(b, 5 / 3 + 5, 9)

    def test_shared(self):
        # Max-min: limits of 300 and 1,000 take 300 and 600; two without limit 450 each.
        a, b = self.full(300, 1000, {"fill_order": "shared"})
        self.assertAlmostEqual(a, 5, 9)
        self.assertAlmostEqual(b, 2.5, 9)
        a, b = self.full(1000, 1000, {"fill_order": "shared"})
        self.assertAlmostEqual(a, 10 / 3, 9)
        self.assertAlmostEqual(b, 10 / 3, 9)

    def test_residual_and_waste(self):
        # 2,000 gal, a tenth never leaves, a fifth is wasted: a fill takes 1,800, its load is 1,440, dumped in 1.44 min.
        result = haul(
            [{"name": "T", "capacity": 2000, "residual": 0.1, "waste": 0.2}],
            [{"name": "P", "flow": 1000, "out": {"minutes": 1}, "back": {"minutes": 1}}],
        )
        self.assertAlmostEqual(when(result, "T", "leaves for P")[0], 1.44, 9)
        self.assertAlmostEqual(when(result, "T", "full")[0], 1.44 + 1 + 1.8, 9)

    def test_a_rest_shortens_the_fill(self):
        # Full load 1,440: 1,300 gal fit, 140 stay aboard: the fill takes the share 1 - 140 / 1,440 of 1,800, and with it
        # comes what makes the load whole.
        result = haul(
            [{"name": "T", "capacity": 2000, "residual": 0.1, "waste": 0.2}],
            [{"name": "P", "flow": 1000, "out": {"minutes": 1}, "back": {"minutes": 1}}],
            drop_tanks=[{"capacity": 1300}],
        )
        fill = when(result, "T", "full")[0] - when(result, "T", "fills")[0]
        self.assertAlmostEqual(fill, 1.8 * (1 - 140 / 1440), 9)
        self.assertEqual(len(when(result, "T", "at the scene with 1800.000 gal")), 2)

    def test_the_fill_site_is_the_bottleneck(self):
        # Fixed times, one fill position: throughput min(n / cycle, 1 / service) (operational laws of queueing). Cycle:
        # dump 1, out 2, fill 1 + 2 + 1, back 3 = 10 min; service 4 min. 2 tankers: 2 loads in 10 min; 4: one in 4 min.
        def trips(count):
            result = haul(
                [tanker("T", 2000, count=count, dump_rate=2000)],
                [{"name": "P", "flow": 1000, "out": {"minutes": 2}, "back": {"minutes": 3}}],
                incident={"duration": 400, "attack_flow": 0},
                supply={"setup": 1000, "nurse": False},
                drop_tanks=[{"capacity": 10**7, "dump_positions": 9}],
                handling=HANDS,
            )
            return sum(one["trips"] for one in result["tankers"])

        # Dumps of tanker 1 end at 1, 11, ... 391: 40 trips; of tanker 2, held 4 min at its first fill, at 1, 15, ... 395.
        self.assertEqual(trips(2), 40 + 40)
        # Four: first dumps all at 1; the others come off the fill position at 7, 11, 15, ... and dump 4 min later: 11,
        # 15, ... 399 are 98 trips more.
        self.assertEqual(trips(4), 4 + 98)

    def test_one_lane_makes_the_other_way_wait(self):
        # A dumps 0 to 1 and enters the lane (3 min) at 1, out at 4, at the pond at 5. B (arrives at 2) dumps 2 to 3 and
        # follows at 3, off the lane at 6. A fills 5 to 6.5, is back at the lane at 7.5, crosses to 10.5. First arrivals
        # do not cross. B: at the pond at 7, full at 8.5, at the lane at 9.5, follows A: off at 12.5. A dumps 10.5 to 11.5
        # and waits for B: enters at 12.5.
        result = haul(
            [tanker("A", 1500, dump_rate=1500), tanker("B", 1500, dump_rate=1500, response=2)],
            [{"name": "P", "flow": 1000, "out": {"minutes": 1}, "back": {"minutes": 1}}],
            one_lane=[{"near": "scene", "crossing": 3}],
        )
        arrivals = when(result, "A", "at the scene with 1500.000 gal")
        self.assertAlmostEqual(arrivals[1], 10.5, 9)
        self.assertAlmostEqual(when(result, "A", "enters lane 1 out")[1], 12.5, 9)

    def test_a_lane_is_left_out_of_the_means(self):
        # With the lane's 30 min counted the near site would lose.
        lanes = [{"near": "near", "crossing": 30}]
        self.assertEqual(leaves_for(haul([tanker("T", 1000)], [NEAR, AWAY], one_lane=lanes)), {"T": "near"})

    def test_out_at_the_site(self):
        table = {"incident": NO_FIRE, "supply": {"setup": 500, "nurse": False}, "drop_tanks": HUGE}
        state = stand_at(7, **table, tankers=[tanker("T", 1000)], fill_sites=[NEAR])
        self.assertAlmostEqual(state.tankers[0].fill_left, 1000 - 2 * 200, 6)


class SourcesAndRoads(unittest.TestCase):
    """Everybody leaves at 1; near is 4 out and 4 back and gives 200 gpm, so 1,000 gal take 5."""

    def fills(self, site, **parts):
        result = haul([tanker("T", 1000, **parts)], [{**NEAR, **site}])
        return when(result, "T", "fills")[0], when(result, "T", "at the scene with 1000.000 gal")[1:2]

    def test_a_pump_must_come_and_be_set_up(self):
        # There at 5; the pump is there at 6 and set up at 9: 9 + 5 + 4.
        self.assertEqual(self.fills({"source_pump": {"response": 6, "setup": 3}}), (9, [18]))
        # Brought by T itself, which is at the scene at 0: set up at 12.
        self.assertEqual(self.fills({"source_pump": {"brought_by": "T", "setup": 12}}), (12, [21]))

    def test_who_fills_himself_needs_no_pump(self):
        # At 5, 1,000 gal at 250 gpm, 4 back.
        own = {"vacuum": True, "self_fill": 250}
        site = {"self_fill": True, "source_pump": {"response": 60}}
        self.assertEqual(self.fills(site, **own), (5, [13]))
        # Where no hose reaches the water he waits as others do.
        self.assertEqual(self.fills({"source_pump": {"response": 60}}, **own), (60, [69]))

    def test_who_fills_himself_takes_beside_the_others(self):
        both = [tanker("T", 1000), tanker("V", 1000, vacuum=True, self_fill=250)]
        result = haul(both, [{**NEAR, "positions": 2, "self_fill": True}])
        self.assertEqual((when(result, "T", "full")[0], when(result, "V", "full")[0]), (10, 9))

    def test_a_slow_tanker_and_a_road_of_stretches(self):
        # 1 + 1.5 x 4, 5 to fill, 6 back.
        self.assertEqual(self.fills({}, drive_factor=1.5), (7, [18]))
        # A mile at 30 mph and one at 60: 2 + 1.
        road = {"stretches": [{"miles": 1, "mph": 30}, {"miles": 1, "mph": 60}]}
        self.assertEqual(self.fills({"out": road}), (4, [13]))


if __name__ == "__main__":
    unittest.main()
