"""The scenario file, read into plain records. US units and bare numbers only; every unknown key is an error."""

import hashlib
import json
import math
import random
from dataclasses import dataclass, field


class ScenarioError(Exception):
    """A scenario that cannot be run; the text names the field and the limit."""


def need(condition, message):
    if not condition:
        raise ScenarioError(message)


def known_keys(where, table, keys):
    need(isinstance(table, dict), f"{where}: an object is wanted, found {table!r}")
    for key in table:
        need(key in keys, f"{where}: unknown key {key!r}; known: {', '.join(sorted(keys))}")


class Luck:
    """Every draw is keyed by seed, replication, who, what for and which trip, and depends on nothing else."""

    def __init__(self, seed, replication, planned=False):
        self.seed, self.replication, self.planned = seed, replication, planned

    def source(self, who, what, trip):
        key = json.dumps([self.seed, self.replication, who, what, trip])
        return random.Random(int.from_bytes(hashlib.sha256(key.encode()).digest()[:16], "big"))

    def minutes(self, duration, who, what, trip=0):
        if self.planned or duration.fixed is not None:
            return duration.mean()
        return duration.draw(self.source(who, what, trip))

    def happens(self, chance, who, what, trip):
        if self.planned or chance <= 0:
            return False
        return self.source(who, what, trip).random() < chance


class Duration:
    """Minutes: fixed, lognormal, exponential, triangular, uniform or sampled."""

    def __init__(self, where, value):
        self.fixed = None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            need(value >= 0 and math.isfinite(value), f"{where}: {value} is not a length of time")
            self.fixed = float(value)
            return
        known_keys(where, value, {"mean", "cv", "shape", "low", "likely", "high", "samples"})
        self.value = value
        if "samples" in value:
            need(len(value["samples"]) > 0 and min(value["samples"]) >= 0, f"{where}: samples must be 0 or more")
        elif "low" in value:
            marks = [value["low"], value.get("likely", value["low"]), value["high"]]
            need(0 <= marks[0] <= marks[1] <= marks[2], f"{where}: wanted 0 <= low <= likely <= high")
        else:
            need("mean" in value and value["mean"] >= 0, f"{where}: a mean of 0 or more is wanted")
            need(value.get("shape", "exponential") == "exponential", f"{where}: unknown shape")
            need(value.get("cv", 0) >= 0, f"{where}: cv must be 0 or more")
            if value["mean"] == 0 or ("shape" not in value and value.get("cv", 0) == 0):
                self.fixed = float(value["mean"])

    def mean(self):
        if self.fixed is not None:
            return self.fixed
        v = self.value
        if "samples" in v:
            return sum(v["samples"]) / len(v["samples"])
        if "likely" in v:
            return (v["low"] + v["likely"] + v["high"]) / 3
        if "low" in v:
            return (v["low"] + v["high"]) / 2
        return v["mean"]

    def draw(self, source):
        v = self.value
        if "samples" in v:
            return source.choice(v["samples"])
        if "likely" in v:
            return source.triangular(v["low"], v["high"], v["likely"])
        if "low" in v:
            return source.uniform(v["low"], v["high"])
        if "shape" in v:
            return source.expovariate(1 / v["mean"])
        spread = math.log(1 + v["cv"] ** 2)
        return source.lognormvariate(math.log(v["mean"]) - spread / 2, math.sqrt(spread))


def read_leg(where, leg):
    """A leg's minutes: given, by miles and speed, or 0.65 + 1.70 x miles."""
    known_keys(where, leg, {"miles", "mph", "cv", "minutes"})
    if "minutes" in leg:
        need("miles" not in leg and "cv" not in leg, f"{where}: minutes, or miles, not both")
        return Duration(where, leg["minutes"])
    need("miles" in leg, f"{where}: miles or minutes wanted")
    mean = leg["miles"] / leg["mph"] * 60 if leg.get("mph") is not None else 0.65 + 1.70 * leg["miles"]
    return Duration(where, {"mean": mean, "cv": leg.get("cv", 0)})


HANDLING = ("nurse_connect", "nurse_disconnect", "dump_position", "dump_clear", "fill_connect", "fill_disconnect")


@dataclass
class Unit:
    """An engine, or a drop tank that comes by itself."""

    name: str
    requested_at: float
    response: Duration
    setup: Duration


@dataclass
class Tanker:
    name: str
    capacity: float
    requested_at: float
    response: Duration
    dump_rate: float
    gravity: bool
    pump_off: float
    fill_limit: float
    waste: float
    residual: float
    breakdown_per_trip: float
    repair: Duration | None
    fill_site: str | None
    handling: dict

    def fill_gal(self):
        """What a whole fill takes: all but what never leaves the tanker."""
        return self.capacity * (1 - self.residual)


@dataclass
class DropTank:
    name: str
    capacity: float
    unusable: float
    brought_by: str | None
    comes: Unit
    dump_positions: int
    transfer: float


@dataclass
class FillSite:
    name: str
    flow: float
    positions: int
    ready: Duration
    one_by_one: bool
    volume: float | None
    recharge: float
    out: Duration
    back: Duration


@dataclass
class Scenario:
    duration: float
    attack_flow: list  # of (minute after attack start, gpm)
    reserve: float
    tolerance: float
    engine: Unit
    engine_tank: float
    water_on: Duration
    intakes: int
    tank_refill: float
    nurse: bool
    supply_engine: Unit | None
    pump_setup: Duration
    draft_limit: float
    restart_level: float
    reprime: Duration
    throttle: bool
    lay_volume: float
    drop_tanks: list
    tankers: list
    fill_sites: list
    one_lane: list = field(default_factory=list)  # of (near, crossing)


def read_unit(where, table, name, setup=0):
    return Unit(
        name,
        table.get("requested_at", 0),
        Duration(f"{where}.response", table.get("response", 0)),
        Duration(f"{where}.setup", table.get("setup", setup)),
    )


def read_tankers(tables, handling):
    keys = {"name", "count", "capacity", "requested_at", "response", "dump_rate", "dump_curve", "pump_off", "fill_limit"}
    keys |= {"waste", "residual", "breakdown_per_trip", "repair", "fill_site", "handling"}
    tankers = []
    for n, table in enumerate(tables):
        where = f"tankers[{n}]"
        known_keys(where, table, keys)
        own = table.get("handling", {})
        known_keys(f"{where}.handling", own, HANDLING)
        need(table.get("dump_curve", "constant") in ("constant", "gravity"), f"{where}.dump_curve: constant or gravity")
        tanker = Tanker(
            name=table["name"],
            capacity=table["capacity"],
            requested_at=table.get("requested_at", 0),
            response=Duration(f"{where}.response", table.get("response", 0)),
            dump_rate=table.get("dump_rate", 1000),
            gravity=table.get("dump_curve") == "gravity",
            pump_off=table.get("pump_off", 500),
            fill_limit=table.get("fill_limit", 1000),
            waste=table.get("waste", 0.10),
            residual=table.get("residual", 0),
            breakdown_per_trip=table.get("breakdown_per_trip", 0),
            repair=Duration(f"{where}.repair", table["repair"]) if table.get("repair") is not None else None,
            fill_site=table.get("fill_site"),
            handling={k: Duration(f"handling.{k}", own.get(k, handling.get(k, 0))) for k in HANDLING},
        )
        need(tanker.capacity > 0, f"{where}.capacity: must be above 0")
        need(min(tanker.dump_rate, tanker.pump_off, tanker.fill_limit) > 0, f"{where}: rates must be above 0")
        need(0 <= tanker.waste < 1 and 0 <= tanker.residual < 1, f"{where}: waste and residual are from 0 to below 1")
        if "count" in table:
            for i in range(1, table["count"] + 1):
                tankers.append(Tanker(**{**tanker.__dict__, "name": f"{tanker.name} {i}"}))
        else:
            tankers.append(tanker)
    return tankers


def read_drop_tanks(tables):
    keys = {"name", "capacity", "unusable", "brought_by", "requested_at", "response", "setup", "dump_positions", "transfer"}
    tanks = []
    for n, table in enumerate(tables):
        where = f"drop_tanks[{n}]"
        known_keys(where, table, keys)
        name = table.get("name", f"drop tank {n + 1}")
        tank = DropTank(
            name=name,
            capacity=table["capacity"],
            unusable=table.get("unusable", 0),
            brought_by=table.get("brought_by"),
            comes=read_unit(where, table, name),
            dump_positions=table.get("dump_positions", 1),
            transfer=table.get("transfer", 500),
        )
        need(0 <= tank.unusable < tank.capacity, f"{where}.unusable: must be below the capacity")
        tanks.append(tank)
    return tanks


def read_fill_sites(tables):
    keys = {"name", "flow", "positions", "ready", "fill_order", "volume", "recharge", "out", "back"}
    sites = []
    for n, table in enumerate(tables):
        where = f"fill_sites[{n}]"
        known_keys(where, table, keys)
        need(table.get("fill_order", "together") in ("together", "one-by-one"), f"{where}.fill_order: one-by-one or none")
        need(table["flow"] > 0, f"{where}.flow: must be above 0")
        sites.append(
            FillSite(
                name=table["name"],
                flow=table["flow"],
                positions=table.get("positions", 1),
                ready=Duration(f"{where}.ready", table.get("ready", 0)),
                one_by_one=table.get("fill_order") == "one-by-one",
                volume=table.get("volume"),
                recharge=table.get("recharge") or 0,
                out=read_leg(f"{where}.out", table["out"]),
                back=read_leg(f"{where}.back", table["back"]),
            )
        )
    return sites


def read_scenario(table):
    top = {"title", "notes", "units", "incident", "attack_engine", "supply", "drop_tanks", "tankers", "fill_sites", "handling"}
    known_keys("scenario", table, top | {"one_lane"})
    need(table.get("units", "us") == "us", "units: only us is read here")
    incident = table["incident"]
    known_keys("incident", incident, {"duration", "attack_flow", "reserve", "tolerance"})
    engine = table["attack_engine"]
    known_keys(
        "attack_engine", engine, {"name", "tank", "requested_at", "response", "water_on", "intakes", "tank_refill"}
    )
    supply = table.get("supply", {})
    supply_keys = {"nurse", "engine", "setup", "draft_limit", "restart_level", "reprime", "low_water", "lay_volume"}
    known_keys("supply", supply, supply_keys)
    handling = table.get("handling", {})
    known_keys("handling", handling, HANDLING)

    supply_engine = None
    pump_setup = Duration("supply.setup", supply.get("setup", 0))
    if supply.get("engine") is not None:
        known_keys("supply.engine", supply["engine"], {"name", "requested_at", "response", "setup"})
        need("setup" not in supply, "supply.setup: with a supply engine its own setup counts; give it there")
        supply_engine = read_unit("supply.engine", supply["engine"], supply["engine"].get("name", "supply engine"))
        pump_setup = supply_engine.setup

    drop_tanks = read_drop_tanks(table.get("drop_tanks", []))
    restart_level = 0
    if drop_tanks:
        first = drop_tanks[0]
        restart_level = supply.get("restart_level")
        if restart_level is None:
            restart_level = min(first.unusable + 300, first.capacity)
        need(first.unusable < restart_level <= first.capacity, "supply.restart_level: above unusable, at most the capacity")
    need(supply.get("low_water", "lose_prime") in ("lose_prime", "throttle"), "supply.low_water: lose_prime or throttle")
    draft_limit = supply.get("draft_limit")

    flow = incident["attack_flow"]
    steps = [(0, flow)] if isinstance(flow, (int, float)) else [(step["from"], step["flow"]) for step in flow]
    need(steps == sorted(steps, key=lambda step: step[0]), "incident.attack_flow: steps in order of time")

    scenario = Scenario(
        duration=incident["duration"],
        attack_flow=steps,
        reserve=incident.get("reserve", 0),
        tolerance=incident.get("tolerance", 0.1),
        engine=read_unit("attack_engine", engine, engine.get("name", "attack engine")),
        engine_tank=engine["tank"],
        water_on=Duration("attack_engine.water_on", engine.get("water_on", 0)),
        intakes=engine.get("intakes", 1),
        tank_refill=engine.get("tank_refill", 500),
        nurse=supply.get("nurse", not drop_tanks),
        supply_engine=supply_engine,
        pump_setup=pump_setup,
        draft_limit=math.inf if draft_limit is None else draft_limit,
        restart_level=restart_level,
        reprime=Duration("supply.reprime", supply.get("reprime", 0)),
        throttle=supply.get("low_water") == "throttle",
        lay_volume=supply.get("lay_volume", 0),
        drop_tanks=drop_tanks,
        tankers=read_tankers(table.get("tankers", []), handling),
        fill_sites=read_fill_sites(table.get("fill_sites", [])),
    )
    sites = [site.name for site in scenario.fill_sites]
    for n, lane in enumerate(table.get("one_lane", [])):
        known_keys(f"one_lane[{n}]", lane, {"near", "crossing"})
        need(lane["near"] == "scene" or lane["near"] in sites, f"one_lane[{n}].near: scene or a fill site's name")
        scenario.one_lane.append((lane["near"], Duration(f"one_lane[{n}].crossing", lane["crossing"])))
    check_names(scenario, sites)
    return scenario


def check_names(scenario, sites):
    bringers = [tanker.name for tanker in scenario.tankers] + [scenario.engine.name]
    if scenario.supply_engine:
        bringers.append(scenario.supply_engine.name)
    need(len(set(bringers)) == len(bringers), "two units have the same name")
    need(len(set(sites)) == len(sites), "two fill sites have the same name")
    for tanker in scenario.tankers:
        need(tanker.fill_site is None or tanker.fill_site in sites, f"{tanker.name}: no fill site {tanker.fill_site!r}")
    for tank in scenario.drop_tanks:
        need(tank.brought_by is None or tank.brought_by in bringers, f"{tank.name}: nobody is called {tank.brought_by!r}")


def load(path):
    with open(path, encoding="utf-8") as file:
        return read_scenario(json.load(file))
