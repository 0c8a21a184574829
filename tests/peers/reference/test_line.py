"""The line at the scene, rules 2 to 5, by hand: fixed times, each sum worked from the model's page.

python -m unittest discover -s tests/peers/reference
"""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))

import boss
import line
from by_hand import run, stand_at, tanker, when

SLOW = {"duration": 120, "attack_flow": 100}
TWO_INTAKES = {"name": "Engine 3", "tank": 500, "tank_refill": 0, "intakes": 2}
LATE_PUMP = {"engine": {"name": "Engine 8", "response": 20}}


class TheLinesFirst(unittest.TestCase):
    def test_a_a_pump_that_waits_for_water_comes_first(self):
        # Hooked up at 0. A, at 1, finds an intake free but the pump waiting: it dumps. B, with it, finds 1,800 gal at the
        # tank (restart 300): it nurses.
        result = run(
            drop_tanks=[{"capacity": 4000, "dump_positions": 2}],
            tankers=[tanker("A", 1800, response=1), tanker("B", 1800, response=1)],
        )
        self.assertEqual(when(result, "A", "dumps into drop tank 1"), [1])
        self.assertEqual(when(result, "B", "nurses"), [1])

    def deck(self, **parts):
        # 100 gpm, the pump due at 20; 500 gal in the engine, 100 of them reserve. A nurses from 1 with 1,000 gal. B, at
        # 1.5: needed 18.5 x 100 = 1,850, on hand 400 + 1,000 - 150 = 1,250: kept. C, at 2: needed 1,800, on hand 1,200
        # + B's 1,000.
        table = {
            "incident": {**SLOW, "reserve": 100},
            "attack_engine": TWO_INTAKES,
            "supply": LATE_PUMP,
            "drop_tanks": [{"capacity": 4000}],
            "tankers": [
                tanker("A", 1000, response=1),
                tanker("B", 1000, response=1.5),
                tanker("C", 1000, response=2),
            ],
        }
        table.update(parts)
        return table

    def test_b_nobody_nurses_so_the_first_does(self):
        result = run(**self.deck())
        self.assertEqual(when(result, "A", "nurses"), [1])

    def test_b_disconnecting_does_not_count(self):
        # A, alone and with 100 gal, is empty at 2 and takes 9 min to disconnect. B is kept at 1.5, and nurses at 2.
        tankers = [tanker("A", 100, response=1, handling={"nurse_disconnect": 9}), tanker("B", 1000, response=1.5)]
        result = run(**self.deck(tankers=tankers))
        self.assertEqual(when(result, "B", "on deck"), [1.5])
        self.assertEqual(when(result, "B", "nurses"), [2])

    def test_c_kept_on_deck_and_d_behind_it_dumps(self):
        # A pumps up to 500 gpm, no less than the 100 of the lines: B stays on deck though an intake is free. C is not
        # needed and passes it to the tank that lacks its restart level.
        result = run(**self.deck())
        self.assertEqual(when(result, "B", "on deck"), [1.5])
        self.assertEqual(when(result, "C", "dumps into drop tank 1"), [2])
        # A's load lasts the lines from 1 to 11, B follows.
        self.assertAlmostEqual(when(result, "B", "nurses")[0], 11, 9)

    def test_c_takes_a_free_intake_while_pump_off_is_short_of_the_flow(self):
        tankers = self.deck()["tankers"]
        tankers[0]["pump_off"] = 50
        result = run(**self.deck(tankers=tankers))
        self.assertEqual(when(result, "B", "nurses"), [1.5])

    def test_c_kept_until_the_line_is_gone_through_again(self):
        # No engine water above the reserve (500 of 500), so with A's 1,600 gal from 0 (pump_off 50, intake taken) needed
        # falls by 100 a minute and on hand by 50: 2,000 - 100 t = 1,600 - 50 t at 8. B, kept from 1, is looked at again
        # when C comes at 10, and is then free to dump.
        result = run(
            incident={**SLOW, "reserve": 500},
            attack_engine={**TWO_INTAKES, "intakes": 1},
            supply=LATE_PUMP,
            drop_tanks=[{"capacity": 4000}],
            tankers=[tanker("A", 1600, pump_off=50), tanker("B", 1000, response=1), tanker("C", 1000, response=10)],
        )
        self.assertEqual(when(result, "B", "on deck"), [1])
        self.assertAlmostEqual(when(result, "B", "dumps into drop tank 1")[0], 10, 9)

    def small(self, drop_tanks, *behind):
        # A nurses from 0 with 5,000 gal: nobody else is needed before 20.
        table = {"incident": SLOW, "attack_engine": TWO_INTAKES, "drop_tanks": drop_tanks}
        table["supply"] = {**LATE_PUMP, "restart_level": 600}
        table["tankers"] = [tanker("A", 5000)]
        table["tankers"] += [tanker(name, load, response=minute) for name, load, minute in behind]
        return table

    def test_d_whatever_the_room(self):
        # 1,000 gal for a tank of 700 that lacks its 600.
        result = run(**self.small([{"capacity": 700}], ("B", 1000, 2)))
        self.assertEqual(when(result, "B", "dumps into drop tank 1"), [2])

    def test_d_counts_the_rest_of_those_at_the_tank(self):
        # B at the tank with 1,000 (of 600 wanted): the tank has it, C has no room anywhere and waits. From 20 on rule 4 holds,
        # but the pump draws nothing before A's 5,000 gal are gone at 50; B's last 300 follow 100 gpm, then nobody is at it.
        tanks = [{"capacity": 700, "dump_positions": 2}]
        result = run(**self.small(tanks, ("B", 1000, 2), ("C", 1000, 2.1)))
        self.assertAlmostEqual(when(result, "C", "dumps into drop tank 1")[0], 53, 9)

    def test_e_a_tank_smaller_than_a_load_is_used(self):
        # C takes the second tank (400 gal) because it is empty and nobody is at it; D finds C there and waits.
        tanks = [{"capacity": 700, "dump_positions": 2}, {"capacity": 400, "unusable": 100, "dump_positions": 2}]
        result = run(**self.small(tanks, ("B", 1000, 2), ("C", 1000, 2.1), ("D", 1000, 2.2)))
        self.assertEqual(when(result, "C", "dumps into drop tank 2"), [2.1])
        state = stand_at(3, **self.small(tanks, ("B", 1000, 2), ("C", 1000, 2.1), ("D", 1000, 2.2)))
        self.assertEqual([t.spec.name for t in state.line], ["D"])

    def test_f_who_waits_is_passed(self):
        # 3,000 less B's 1,000: C's 2,500 must wait, D's 1,500 fit. At 20 the pump draws, nobody is at the tank: rule 4.
        behind = [("B", 1000, 2), ("C", 2500, 2.1), ("D", 1500, 2.2)]
        result = run(**self.small([{"capacity": 3000, "dump_positions": 2}], *behind))
        self.assertEqual(when(result, "D", "dumps into drop tank 1"), [2.2])
        self.assertEqual(when(result, "C", "dumps into drop tank 1"), [20])

    def test_break_off(self):
        # 100 gpm, the pump due at 30: 3,000 gal. A nurses with 2,000, the engine has 1,000: enough, so B, at 1, dumps: 500
        # into a tank of 500, full at 1.5. A is empty at 20 and gone from the (one) intake at 21: B breaks off and nurses
        # after 0.3 + 0.7. With a second intake at once, at 20: disconnecting is not nursing.
        def events(intakes):
            return run(
                incident=SLOW,
                attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0, "intakes": intakes},
                supply={"engine": {"name": "Engine 8", "response": 30}, "restart_level": 400},
                drop_tanks=[{"capacity": 500}],
                tankers=[tanker("A", 2000), tanker("B", 1000, response=1)],
                handling={"nurse_disconnect": 1, "dump_clear": 0.3, "nurse_connect": 0.7},
            )

        # A connects from 0 to 0.7, the lines living on the engine's own: its 2,000 gal last from 0.7 to 20.7.
        one = events(1)
        self.assertEqual(when(one, "B", "dumps into drop tank 1"), [1])
        self.assertAlmostEqual(when(one, "A", "empty")[0], 20.7, 9)
        self.assertAlmostEqual(when(one, "B", "breaks off")[0], 21.7, 9)
        self.assertAlmostEqual(when(one, "B", "nurses")[0], 22.7, 9)
        two = events(2)
        self.assertAlmostEqual(when(two, "B", "breaks off")[0], 20.7, 9)

    def test_end_of_nursing(self):
        # Hooked up at 5, B's water there since 4.6 + 0.3: the pump draws at 5. A, connecting from 4.5 to 5.5, goes on until
        # empty; C, at 15, finds the intake free, but nursing is over.
        result = run(
            incident=SLOW,
            attack_engine=TWO_INTAKES,
            supply={"engine": {"name": "Engine 8", "response": 5}},
            drop_tanks=[{"capacity": 4000}],
            tankers=[
                tanker("A", 500, response=4.5, handling={"nurse_connect": 1}),
                tanker("B", 1000, response=4.6),
                tanker("C", 1000, response=15),
            ],
        )
        self.assertEqual(result["established"], 5)
        self.assertEqual(when(result, "A", "nurses"), [5.5])
        self.assertAlmostEqual(when(result, "A", "empty")[0], 10.5, 9)
        self.assertEqual(when(result, "C", "nurses"), [])
        self.assertEqual(when(result, "C", "dumps into drop tank 1"), [15])

    def test_who_began_first_pumps_all_it_can(self):
        # No drop tanks: any free intake. 500 gpm: A (300) gives 300, B the other 200 until A's 900 gal end at 3; then B up
        # to 400: 1,000 - 600 = 400 gal last another minute.
        result = run(
            attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0, "intakes": 2},
            tankers=[tanker("A", 900, pump_off=300), tanker("B", 1000, pump_off=400)],
        )
        self.assertAlmostEqual(when(result, "A", "empty")[0], 3, 9)
        self.assertAlmostEqual(when(result, "B", "empty")[0], 4, 9)


class WhatTheBossCounts(unittest.TestCase):
    PLAN = {
        "incident": {
            "duration": 60,
            "attack_flow": [{"from": 0, "flow": 100}, {"from": 6, "flow": 500}],
            "reserve": 300,
        },
        "attack_engine": {
            "name": "Engine 3",
            "tank": 1000,
            "tank_refill": 0,
            "response": 1,
            "water_on": 1,
            "intakes": 2,
        },
        "supply": {"engine": {"name": "Engine 8", "response": 10, "setup": 5}},
        "drop_tanks": [{"capacity": 3000, "response": 4, "setup": 3}],
    }

    def test_water_needed(self):
        # First water at 2, the step to 500 at 8, hook-up at max(10, 4 + 3) + 5 = 15: 6 x 100 + 7 x 500 = 4,100.
        self.assertAlmostEqual(boss.water_needed(stand_at(0, **self.PLAN)), 4100, 6)
        # At 12, the set-up begun at 10: 3 x 500. Hooked up: none.
        self.assertAlmostEqual(boss.water_needed(stand_at(12, **self.PLAN)), 1500, 6)
        self.assertEqual(boss.water_needed(stand_at(15, **self.PLAN)), 0)
        # A watch of 10 min ends at 12: 6 x 100 + 4 x 500.
        short = {**self.PLAN, "incident": {**self.PLAN["incident"], "duration": 10}}
        self.assertAlmostEqual(boss.water_needed(stand_at(0, **short)), 2600, 6)

    def test_an_overdue_arrival_counts_as_now(self):
        # At 9.9 with the engine, due at 10, not there, and looked at again as if it were 13: 13 + 5, 5 x 500.
        state = stand_at(9.9, **self.PLAN)
        state.now = 13
        self.assertAlmostEqual(boss.hook_up_expected(state), 18, 9)
        self.assertAlmostEqual(boss.water_needed(state), 2500, 6)

    def test_water_on_hand(self):
        # A nurses from 2 with 800 gal, B connects from 3 to 5 (pump_off 50 of A is less than the flow) with 600. At 4 the
        # lines have had 200, 100 of them from A: 700 + 600, and 900 - 300 in the engine; with C's 400 kept ahead 2,300.
        tankers = [tanker("A", 800, response=2, pump_off=50)]
        tankers += [tanker("B", 600, response=3, handling={"nurse_connect": 2}), tanker("C", 400, response=3.5)]
        state = stand_at(4, **self.PLAN, tankers=tankers)
        self.assertEqual([t.phase for t in state.tankers], ["nursing", "nurse_connect", "line"])
        self.assertAlmostEqual(boss.water_on_hand(state, []), 1900, 6)
        self.assertAlmostEqual(boss.water_on_hand(state, state.tankers[2:]), 2300, 6)

    def test_takes_the_whole_load(self):
        # 3,000 gal, A at it with 2,000 still to pour at minute 0: 1,000 of room.
        tankers = [tanker("A", 2000), tanker("B", 1000, response=50), tanker("C", 1001, response=50)]
        state = stand_at(0, supply={"nurse": False, "setup": 90}, drop_tanks=[{"capacity": 3000}], tankers=tankers)
        tank, (_, b, c) = state.drop_tanks[0], state.tankers
        b.load, c.load = 1000, 1001
        self.assertTrue(boss.takes_whole_load(state, tank, b))
        self.assertFalse(boss.takes_whole_load(state, tank, c))
        # Primed, 500 gpm for the minute C takes to dump are room too.
        state.pump = "primed"
        self.assertAlmostEqual(boss.room_for(state, tank, c), 1000 + 500 * 1.001, 6)


class FromTheFirstDrawOn(unittest.TestCase):
    def test_three_branches(self):
        # A (2,000) takes the first tank that takes all of it, the second; B (1,200) the first. C (3,000), at 2, fits
        # nowhere: the first, where nobody is. D (400) fits the second's 500. E (1,000) finds C at the first and waits, and
        # F (50), for which the second has room, behind it.
        table = {
            "incident": {"duration": 10, "attack_flow": 0},
            "supply": {"setup": 500, "nurse": False},
            "drop_tanks": [{"capacity": 1500, "transfer": 0, "dump_positions": 2}, {"capacity": 2500, "transfer": 0}],
            "tankers": [tanker("A", 2000, dump_rate=2000), tanker("B", 1200, dump_rate=2000)]
            + [tanker("C", 3000, response=2), tanker("D", 400, response=2.1)]
            + [tanker("E", 1000, response=3), tanker("F", 50, response=3)],
        }
        result = run(**table)
        self.assertEqual(when(result, "A", "dumps into drop tank 2"), [0])
        self.assertEqual(when(result, "B", "dumps into drop tank 1"), [0])
        self.assertEqual(when(result, "C", "dumps into drop tank 1"), [2])
        self.assertEqual(when(result, "D", "dumps into drop tank 2"), [2.1])
        self.assertEqual([t.spec.name for t in stand_at(9, **table).line], ["E", "F"])

    def test_clearing_is_not_at_the_tank(self):
        # B, not fitting, takes the other position as soon as A is empty at 1, while A clears.
        result = run(
            supply={"setup": 500, "nurse": False},
            drop_tanks=[{"capacity": 1500, "dump_positions": 2}],
            tankers=[tanker("A", 1000), tanker("B", 1000)],
            handling={"dump_clear": 5},
        )
        self.assertEqual(when(result, "B", "dumps into drop tank 1"), [1])

    def test_the_moment_a_tank_comes_to_take_a_load(self):
        # A pours 1,000 gal at 250 gpm into 1,400: 400 to spare. The pump draws 500 from 300 gal on, at 1.2; B's 1,000 gal at
        # 1,000 gpm then count 500 more, and the last 100 are drawn by 1.4.
        result = run(
            supply={"nurse": False},
            drop_tanks=[{"capacity": 1400, "dump_positions": 2}],
            attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0},
            tankers=[tanker("A", 1000, dump_rate=250), tanker("B", 1000)],
        )
        self.assertAlmostEqual(when(result, "B", "dumps into drop tank 1")[0], 1.4, 9)


class PullingClear(unittest.TestCase):
    def at_a_full_tank(self, capacity):
        return run(
            incident={"duration": 30, "attack_flow": 0},
            supply={"setup": 500, "nurse": False},
            drop_tanks=[{"capacity": capacity}],
            tankers=[tanker("A", 2000)],
            fill_sites=[{"name": "P", "flow": 1000, "out": {"minutes": 1}, "back": {"minutes": 1}}],
        )

    def test_with_a_tenth_left(self):
        # 1,800 of 2,000 poured at 1.8; out 1, a fill of 1,800 gal 1.8, back 1: a full load again at 5.6.
        result = self.at_a_full_tank(1800)
        self.assertAlmostEqual(when(result, "A", "pulls clear with a rest of 200.0 gal")[0], 1.8, 9)
        self.assertAlmostEqual(when(result, "A", "trip 1 done")[0], 1.8, 9)
        self.assertAlmostEqual(when(result, "A", "full")[0], 4.6, 9)
        self.assertAlmostEqual(when(result, "A", "at the scene with 2000.000 gal")[1], 5.6, 9)
        self.assertAlmostEqual(result["carried_away_gal"], 200, 6)
        self.assertAlmostEqual(result["arrived_gal"], 1000 + 2000 + 2000, 6)

    def test_not_with_more(self):
        self.assertEqual([e for e in self.at_a_full_tank(1799)["events"] if "pulls clear" in e[2]], [])

    def test_only_of_a_load_that_was_more(self):
        state = stand_at(0, tankers=[tanker("A", 2000)])
        a = state.tankers[0]
        a.load, a.brought = 150, 150
        self.assertFalse(line.little_left(a))
        a.brought = 201
        self.assertTrue(line.little_left(a))

    def beside_a_nurse(self, *nurses):
        # Hooked up at 2. B, at 3, dumps 1,000 gal into 900, from 300 gal (3.3) on with the pump drawing what the lines
        # take beyond the nurse.
        return run(
            incident=SLOW,
            attack_engine={"name": "Engine 3", "tank": 1000, "tank_refill": 0},
            supply={"engine": {"name": "Engine 8", "response": 2}},
            drop_tanks=[{"capacity": 900}],
            tankers=[*nurses, tanker("B", 1000, response=3)],
        )

    def test_when_nurses_give_all(self):
        # Nothing is drawn: full at 3.9 with a tenth left.
        result = self.beside_a_nurse(tanker("A", 2000))
        self.assertAlmostEqual(when(result, "B", "pulls clear with a rest of 100.0 gal")[0], 3.9, 9)

    def test_not_while_anything_can_be_poured(self):
        # 100 gpm drawn: full 600 / 900 min after 3.3 with 1,000 - 966.67 left, which follow the draw for 1/3 min.
        result = self.beside_a_nurse()
        self.assertAlmostEqual(when(result, "B", "empty")[0], 3.3 + 2 / 3 + 1 / 3, 9)
        self.assertEqual([e for e in result["events"] if "pulls clear" in e[2]], [])


if __name__ == "__main__":
    unittest.main()
