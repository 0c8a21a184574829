"""Holds the program against the same closed network written with general-purpose libraries.

simpy and ciw know nothing of water supply; what they simulate here follows the words of the
model's description. Chance is on both sides, so means over many replications are compared: they
must agree within LIMIT standard errors of their difference. Two peers are wrong on purpose, one
with fills that take a tenth longer, one that spills 12% of a load instead of 10%; they must be
found to differ.

    python networks.py PROGRAM
"""

import copy
import json
import math
import pathlib
import statistics
import subprocess
import sys
import tempfile

import numpy

import drop_tank_simpy
import shuttle_ciw
import shuttle_simpy
from durations import Times

LIMIT = 4.0
# The program gives means without their errors, so it runs in batches, each with its own seed.
BATCHES = 20


def exponential(mean):
    return {"mean": mean, "shape": "exponential"}


def lognormal(mean, cv):
    return {"mean": mean, "cv": cv}


def queue_scenario(title, count, positions, flow, road):
    """A shuttle alone: the lines take more than can come, so the drop tank never fills and a dump
    takes the load over the dump rate."""
    return {
        "title": title,
        "incident": {"duration": 600, "attack_flow": 3000, "reserve": 0},
        "attack_engine": {"tank": 500, "response": 0, "water_on": 0},
        "supply": {"nurse": False, "low_water": "lose_prime"},
        "drop_tanks": [{"capacity": 20000, "unusable": 0, "response": 0, "setup": 0,
                        "dump_positions": 1}],
        "tankers": [{"name": "Tanker", "count": count, "capacity": 2000,
                     "response": exponential(10), "dump_rate": 800, "fill_limit": 500,
                     "waste": 0.1}],
        "fill_sites": [{"flow": flow, "positions": positions, "fill_order": "shared",
                        "out": {"minutes": road}, "back": {"minutes": road}}],
        "handling": {"dump_position": exponential(1.0), "dump_clear": exponential(0.5),
                     "fill_connect": exponential(1.2), "fill_disconnect": exponential(0.8)},
    }


def water_scenario(title, tank, reserve, tolerance):
    """A drop tank, a supply engine and an attack engine that all start with the alarm."""
    return {
        "title": title,
        "incident": {"duration": 90, "reserve": reserve, "tolerance": tolerance,
                     "attack_flow": [{"from": 0, "flow": 70}, {"from": 10, "flow": 310}]},
        "attack_engine": {"tank": tank, "response": 6, "water_on": 1.5, "tank_refill": 300},
        "supply": {"nurse": False, "engine": {"response": 9, "setup": 4}, "draft_limit": 450,
                   "restart_level": 700, "reprime": 1, "low_water": "lose_prime"},
        "drop_tanks": [{"capacity": 2500, "unusable": 200, "response": 8, "setup": 3.5,
                        "dump_positions": 1}],
        "tankers": [{"name": "Tanker", "count": 4, "capacity": 2000,
                     "response": lognormal(13, 0.25), "dump_rate": 900, "fill_limit": 600,
                     "waste": 0.1}],
        "fill_sites": [{"flow": 900, "positions": 2, "fill_order": "shared",
                        "out": {"minutes": lognormal(6, 0.3)},
                        "back": {"minutes": lognormal(7, 0.3)}}],
        "handling": {"dump_position": exponential(0.9), "dump_clear": 0.4,
                     "fill_connect": lognormal(1.3, 0.4), "fill_disconnect": exponential(0.7)},
    }


class Program:
    def __init__(self, binary, folder):
        self.binary, self.folder = binary, pathlib.Path(folder)

    def batches(self, scenario, runs):
        path = self.folder / "scenario.json"
        path.write_text(json.dumps(scenario), encoding="utf-8")
        got = []
        for seed in range(1, BATCHES + 1):
            command = [self.binary, "risk", path, "--json", "--no-help", "--threads", "1",
                       "--runs", str(runs), "--seed", str(seed)]
            done = subprocess.run(command, capture_output=True, text=True, check=False)
            if done.returncode != 0:
                raise SystemExit(f"{' '.join(map(str, command))}\n{done.stderr}")
            got.append(json.loads(done.stdout))
        return got


# Each quantity: how the program's result gives it, and what the peer divides by what (1: a run).
QUEUE = {
    "trips per tanker": (lambda got: statistics.fmean(one["trips_mean"] for one in got["tankers"]),
                         "trips", "tankers"),
    "whole cycle, min": (lambda got: math.fsum(got["cycle_min"].values()), "cycle", "cycles"),
    "wait to fill, min": (lambda got: got["cycle_min"]["fill_wait"], "fill_wait", "cycles"),
    "wait at the scene, min": (lambda got: got["cycle_min"]["scene_wait"], "scene_wait", "cycles"),
}
FILL = {"fill, min": (lambda got: got["cycle_min"]["fill"], "fill", "cycles")}
WATER = {
    "lines short": (lambda got: got["interruption_probability"], "interrupted", "run"),
    "lines short before supply": (lambda got: got["before_supply"]["probability"], "before", "run"),
    "lines short after supply": (lambda got: got["after_supply"]["probability"], "after", "run"),
    "reserve touched": (lambda got: got["reserve_touched"]["probability"], "reserve", "run"),
    "minutes short": (lambda got: got["interrupted_minutes_mean"], "minutes_short", "run"),
    "unmet, gal": (lambda got: got["unmet_gal_mean"], "unmet", "run"),
    "lowest engine tank, gal": (lambda got: got["lowest_engine_gal"]["mean"], "lowest_engine",
                                "run"),
    "supply established, min": (lambda got: got["established_min_mean"], "established",
                                "supplied"),
}
DRY = {
    "drop tank runs empty": (lambda got: got["after_supply"]["probability"], "prime_lost", "run"),
    "minutes short": WATER["minutes short"],
    "unmet, gal": WATER["unmet, gal"],
}


def ratio(replications, above, below):
    """Sum over sum, and its standard error by the linearised ratio over replications."""
    tops = numpy.array([float(one[above]) for one in replications])
    bottoms = numpy.array([float(one[below]) for one in replications])
    value = tops.sum() / bottoms.sum()
    spread = numpy.std(tops - value * bottoms, ddof=1)
    return value, spread / math.sqrt(len(tops)) / bottoms.mean()


class Tally:
    def __init__(self):
        self.passed = self.failed = 0

    def hold(self, title, peer, quantities, ours, theirs, must_differ=False):
        for name, (read, above, below) in quantities.items():
            values = [read(one) for one in ours]
            mine = statistics.fmean(values)
            my_error = statistics.stdev(values) / math.sqrt(len(values))
            yours, your_error = ratio(theirs, above, below)
            error = math.hypot(my_error, your_error)
            apart = abs(mine - yours)
            # Chances of exactly 0 or 1 have no error, and then must be equal.
            apart = apart / error if error > 0 else (0.0 if apart < 1e-12 else math.inf)
            good = (apart > LIMIT) == must_differ
            self.passed += good
            self.failed += not good
            share = f"{100 * error / mine:.2f}%" if mine else "-"
            print(f"{'ok  ' if good else 'FAIL'} {title}: {name}: program {mine:.4f}, "
                  f"{peer} {yours:.4f}, {apart:.1f} standard errors"
                  f"{' (must differ)' if must_differ else ''}, one is {share}", flush=True)


def replications(model, scenario, count, seed):
    times = Times(scenario, numpy.random.default_rng(seed))
    extra = {"run": 1, "tankers": scenario["tankers"][0]["count"]}
    return [{**model(scenario, times), **extra} for _ in range(count)]


def ciw_replications(scenario, count):
    plan = shuttle_ciw.network(scenario)
    extra = {"run": 1, "tankers": scenario["tankers"][0]["count"]}
    return [{**shuttle_ciw.replication(scenario, plan, seed), **extra} for seed in range(count)]


def main():
    if len(sys.argv) != 2:
        raise SystemExit("usage: networks.py PROGRAM")
    tally = Tally()
    with tempfile.TemporaryDirectory() as folder:
        program = Program(sys.argv[1], folder)

        one = queue_scenario("one fill position", 5, 1, 500, exponential(6))
        ours = program.batches(one, 200)
        tally.hold(one["title"], "simpy", QUEUE, ours,
                   replications(shuttle_simpy.replication, one, 900, 11))
        tally.hold(one["title"], "ciw", QUEUE, ours, ciw_replications(one, 300))
        slow = copy.deepcopy(one)
        slow["fill_sites"][0]["flow"] /= 1.1
        tally.hold(one["title"], "simpy with slow fills", QUEUE, ours,
                   replications(shuttle_simpy.replication, slow, 300, 12), must_differ=True)

        two = queue_scenario("two fill positions", 6, 2, 1000, lognormal(5, 0.3))
        ours = program.batches(two, 200)
        tally.hold(two["title"], "simpy", QUEUE, ours,
                   replications(shuttle_simpy.replication, two, 700, 13))
        tally.hold(two["title"], "ciw", QUEUE, ours, ciw_replications(two, 200))

        shared = queue_scenario("two that share a flow", 6, 2, 600, lognormal(5, 0.3))
        tally.hold(shared["title"], "simpy", QUEUE | FILL, program.batches(shared, 200),
                   replications(shuttle_simpy.replication, shared, 700, 14))

        water = water_scenario("drop tank", 750, 150, 0.1)
        ours = program.batches(water, 1000)
        trips = {name: QUEUE[name] for name in ("trips per tanker", "wait at the scene, min")}
        tally.hold(water["title"], "simpy", WATER | trips, ours,
                   replications(drop_tank_simpy.replication, water, 4000, 15))

        spilling = copy.deepcopy(water)
        spilling["tankers"][0]["waste"] = 0.12
        risks = {name: WATER[name] for name in ("lines short", "reserve touched")}
        tally.hold(water["title"], "simpy that spills more", risks, ours,
                   replications(drop_tank_simpy.replication, spilling, 1500, 17), must_differ=True)

        # With hardly a tank on the engine and no tolerance the lines run short the moment prime is
        # lost, so the chance of it shows in the program's result.
        bare = water_scenario("drop tank alone", 1, 0, 0)
        tally.hold(bare["title"], "simpy", DRY, program.batches(bare, 1000),
                   replications(drop_tank_simpy.replication, bare, 4000, 16))
    print(f"{tally.passed} passed, {tally.failed} failed")
    raise SystemExit(1 if tally.failed else 0)


if __name__ == "__main__":
    main()
