"""Writes random valid scenarios with fixed times, over all features of the model.

python random_scenarios.py SEED N DIR

Times have no spread and nothing breaks down, so but for what a whole fire shares one run says all. About a third of the scenarios use times and rates in
round numbers, so that things happen at exactly the same moment.
"""

import json
import pathlib
import random
import sys


class Pick:
    def __init__(self, seed):
        self.random = random.Random(seed)
        self.round = self.random.random() < 0.35

    def chance(self, share):
        return self.random.random() < share

    def one(self, *choices):
        return self.random.choice(choices)

    def minutes(self, low, high):
        if self.round:
            step = self.one(0.5, 1, 1)
            return min(high, max(low, round(self.random.uniform(low, high) / step) * step))
        return round(self.random.uniform(low, high), 3)

    def amount(self, low, high, step):
        """Gallons or gpm: multiples of `step` in a round scenario, else to a tenth."""
        if self.round:
            return self.random.randrange(int(low // step), int(high // step) + 1) * step
        return round(self.random.uniform(low, high), 1)


def handling(pick, keys):
    spans = {
        "nurse_connect": (0, 1.5),
        "nurse_disconnect": (0, 1),
        "dump_position": (0, 1.5),
        "dump_clear": (0, 1),
        "fill_connect": (0, 2),
        "fill_disconnect": (0, 1.5),
    }
    return {key: pick.minutes(*spans[key]) for key in keys}


ALL_HANDLING = ("nurse_connect", "nurse_disconnect", "dump_position", "dump_clear", "fill_connect", "fill_disconnect")


def tanker(pick, name, sites):
    table = {"name": name, "capacity": pick.amount(1000, 3500, 500)}
    table["response"] = pick.minutes(3, 25)
    if pick.chance(0.25):
        table["requested_at"] = pick.minutes(1, 8)
    if pick.chance(0.5):
        table["dump_rate"] = pick.amount(300, 1500, 100)
    if pick.chance(0.35):
        table["dump_curve"] = "gravity"
    if pick.chance(0.5):
        table["pump_off"] = pick.amount(150, 800, 50)
    if pick.chance(0.4):
        table["fill_limit"] = pick.amount(300, 1200, 100)
    if pick.chance(0.6):
        table["waste"] = pick.one(0, 0, 0.05, 0.1, 0.2)
    if pick.chance(0.6 if "dump_curve" in table else 0.3):
        table["residual"] = pick.one(0.01, 0.02, 0.05, 0.1)
    if sites and pick.chance(0.25):
        table["fill_site"] = pick.one(*sites)
    if pick.chance(0.2):
        table["handling"] = handling(pick, pick.random.sample(ALL_HANDLING, pick.one(1, 2, 3)))
    if pick.chance(0.25):
        table["count"] = pick.one(1, 2, 3)
    return table


def beside_the_roads(pick, table):
    """Pumps that come to the sources, tankers that fill themselves or drive slower, legs of several stretches."""
    bringers = [unit["name"] for unit in table["tankers"] if "count" not in unit] + ["Engine 3"]
    if "engine" in table["supply"]:
        bringers.append("Engine 8")
    for site in table["fill_sites"]:
        if pick.chance(0.6):
            site.pop("ready", None)
            pump = {"setup": pick.minutes(0, pick.one(8, 30))}
            if pick.chance(0.5):
                pump["brought_by"] = pick.one(*bringers)
            else:
                pump["response"] = pick.minutes(3, pick.one(15, 40))
                if pick.chance(0.3):
                    pump["requested_at"] = pick.minutes(1, 8)
                if pick.chance(0.5):
                    pump["turnout"] = pick.one(0, 0.3, 0.6)
            site["source_pump"] = pump
        if pick.chance(0.6):
            site["self_fill"] = True
            if pick.chance(0.3):  # a pond that is soon run down
                site["volume"], site["recharge"] = pick.amount(1000, 3000, 500), pick.amount(100, 500, 50)
        for way in ("out", "back"):
            if pick.chance(0.3):
                parts = [{"miles": pick.one(0.5, 1, 1.5), "mph": pick.one(15, 20, 30)} for _ in range(pick.one(1, 2, 3))]
                site[way] = {"stretches": parts}
    for unit in table["tankers"]:
        if pick.chance(0.5):
            unit["vacuum"] = True
            unit["self_fill"] = pick.amount(200, 900, 50)
        if pick.chance(0.3):
            unit["drive_factor"] = pick.one(0.8, 1.1, 1.25, 1.5)


def leg(pick):
    kind = pick.one("minutes", "mph", "rule")
    if kind == "minutes":
        return {"minutes": pick.minutes(1, 9)}
    miles = pick.one(1, 1.5, 2, 3) if pick.round else round(pick.random.uniform(0.5, 4), 2)
    return {"miles": miles, "mph": pick.one(20, 30, 40)} if kind == "mph" else {"miles": miles}


def fill_site(pick, name):
    table = {"name": name, "flow": pick.amount(250, 1500, 50), "out": leg(pick), "back": leg(pick)}
    if pick.chance(0.7):
        table["positions"] = pick.one(1, 1, 2, 3)
    if pick.chance(0.5):
        table["ready"] = pick.minutes(0, pick.one(10, 30, 60))
    if pick.chance(0.3):
        table["fill_order"] = "shared"
    if pick.chance(0.4):
        table["volume"] = pick.amount(1000, pick.one(5000, 12000, 30000), 1000)
        if pick.chance(0.6):
            table["recharge"] = pick.amount(10, pick.one(100, 400), 10)
    return table


def drop_tank(pick, bringers, own_way):
    capacity = pick.amount(500, 1500, 250) if pick.chance(0.4) else pick.amount(1500, 4000, 500)
    table = {"capacity": capacity, "setup": pick.minutes(0, 5)}
    if own_way or not bringers:
        table["response"] = pick.minutes(4, 18)
        if pick.chance(0.2):
            table["requested_at"] = pick.minutes(1, 5)
    else:
        table["brought_by"] = pick.one(*bringers)
    if pick.chance(0.8):
        table["unusable"] = pick.one(0, 100, 200, 250, 400)
    if pick.chance(0.5):
        table["dump_positions"] = pick.one(1, 2, 2, 3)
    if pick.chance(0.5):
        table["transfer"] = pick.amount(100, 900, 50)
    return table


def supply(pick, tanks):
    table = {}
    if pick.chance(0.25):
        table["nurse"] = pick.chance(0.4) or not tanks
    if tanks:
        late = pick.minutes(4, pick.one(15, 30, 60))
        if pick.chance(0.6):
            table["engine"] = {"name": "Engine 8", "response": late, "setup": pick.minutes(0, 8)}
        elif pick.chance(0.7):
            table["setup"] = pick.minutes(0, pick.one(6, 20))
        if pick.chance(0.5):
            table["draft_limit"] = pick.amount(200, 1200, 50)
        if pick.chance(0.5):
            first = tanks[0]
            table["restart_level"] = min(first["capacity"], first.get("unusable", 0) + pick.amount(50, 1200, 50))
        if pick.chance(0.7):
            table["reprime"] = pick.minutes(0, 3)
        if pick.chance(0.4):
            table["low_water"] = pick.one("throttle", "lose_prime", "lose_prime")
    return table


def slow_draft(pick, table):
    """A small first drop tank stands full long before the pump is up: who dumps there may have to break off."""
    first = table["drop_tanks"][0]
    first["capacity"] = pick.amount(500, 1200, 100)
    first["unusable"] = 100
    table["supply"] |= {
        "nurse": True,
        "engine": {"name": "Engine 8", "response": pick.minutes(20, 45), "setup": pick.minutes(1, 6)},
        "restart_level": first["capacity"],
    }
    table["supply"].pop("setup", None)
    table["attack_engine"]["response"] = pick.minutes(1, 4)
    table["incident"]["attack_flow"][0]["flow"] = pick.amount(50, 250, 50)


def failure(pick):
    table = {"chance": pick.one(1, 1, 0.5)}
    if pick.chance(0.7):
        table["repair"] = pick.minutes(0.5, pick.one(5, 15, 60))
    return table


def shared_luck(pick, table):
    """What a whole fire shares: factors, who comes at all, what fails."""
    fire = {key: pick.one(0.1, 0.2, 0.5) for key in ("driving_cv", "handling_cv", "response_cv") if pick.chance(0.4)}
    if fire:
        table["whole_fire"] = fire
    for unit in table["tankers"]:
        if pick.chance(0.25):
            unit["crew_cv"] = pick.one(0.1, 0.3)
    own = [tank for tank in table["drop_tanks"] if "response" in tank]
    engine = [table["supply"]["engine"]] if "engine" in table["supply"] else []
    for unit in [*table["tankers"], *own, *own, *engine, *engine]:
        if pick.chance(0.2):
            unit["turnout"] = pick.one(0, 0.3, 0.6, 0.9)
    if len(table["tankers"]) > 1 and pick.round and pick.chance(0.3):
        for unit in table["tankers"][-2:]:  # all of a department or none
            unit["department"] = "Creek"
        table["tankers"][-1]["comes_whole"] = True
        table["tankers"][-1]["turnout"] = 0.6
    if table["drop_tanks"] and pick.chance(0.4):
        table["supply"]["failure"] = failure(pick)
    for site in table["fill_sites"]:
        if pick.chance(0.3):
            site["failure"] = failure(pick)


def scenario(seed):
    pick = Pick(seed)
    sites = [f"Pond {letter}" for letter in "ABC"[: pick.one(1, 1, 1, 2, 2, 3)]]
    tankers = [tanker(pick, f"Tanker {n + 1}", sites) for n in range(pick.one(1, 2, 2, 3, 3, 4, 5, 6))]
    if pick.round and pick.chance(0.3):
        for other in tankers[1:]:  # twins arrive together
            other["response"] = tankers[0]["response"]
    bringers = [table["name"] for table in tankers if "count" not in table] + ["Engine 3"]
    tanks = [drop_tank(pick, bringers, pick.chance(0.3)) for _ in range(pick.one(0, 1, 1, 1, 2, 2, 2, 3, 3))]

    steps = [{"from": 0, "flow": pick.amount(100, 500, 50)}]
    for _ in range(pick.one(0, 0, 1, 2, 3)):
        flow = pick.one(0, 1, 1) * pick.amount(100, 900, 50)
        steps.append({"from": round(steps[-1]["from"] + pick.minutes(2, 25), 3), "flow": flow})
    steps = [step for n, step in enumerate(steps) if n == len(steps) - 1 or steps[n + 1]["from"] > step["from"]]
    incident = {"duration": pick.minutes(60, 150), "attack_flow": steps}
    engine = {"name": "Engine 3", "tank": pick.amount(250, 1500, 250), "response": pick.minutes(2, 12)}
    if pick.chance(0.6):
        incident["reserve"] = pick.one(0, 100, 250, engine["tank"] / 2)
    if pick.chance(0.5):
        incident["tolerance"] = pick.one(0, 0.1, 0.5, 1)
    if pick.chance(0.7):
        engine["water_on"] = pick.minutes(0, 3)
    if pick.chance(0.5):
        engine["intakes"] = pick.one(1, 2, 3)
    if pick.chance(0.4):
        engine["tank_refill"] = pick.amount(0, 600, 100)
    if pick.chance(0.2):
        engine["requested_at"] = pick.minutes(0, 2)

    table = {
        "title": f"Invented county, exercise {seed}",
        "units": "us",
        "incident": incident,
        "attack_engine": engine,
        "supply": supply(pick, tanks),
        "drop_tanks": tanks,
        "tankers": tankers,
        "fill_sites": [fill_site(pick, name) for name in sites],
        "handling": handling(pick, [key for key in ALL_HANDLING if pick.chance(0.85)]),
    }
    if tanks and pick.chance(0.2):
        slow_draft(pick, table)
    if pick.chance(0.25):
        lanes = pick.random.sample(["scene"] + sites, pick.one(1, 1, 2))
        table["one_lane"] = [{"near": near, "crossing": pick.minutes(0.5, 3)} for near in lanes]
    if pick.chance(0.7):
        shared_luck(pick, table)
    if pick.chance(0.5):
        beside_the_roads(pick, table)
    return table


def main():
    seed, count, folder = int(sys.argv[1]), int(sys.argv[2]), pathlib.Path(sys.argv[3])
    folder.mkdir(parents=True, exist_ok=True)
    for n in range(count):
        path = folder / f"scenario_{n:05}.json"
        path.write_text(json.dumps(scenario(f"{seed}/{n}"), indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
