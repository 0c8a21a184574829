"""The scenario file, read into plain records. US units and bare numbers only; every unknown key is an error."""

import json
import math
from dataclasses import dataclass, field

from luck import Duration, known_keys, need


def read_leg(where, leg):
    """A leg's minutes: given, by miles and speed, 0.65 + 1.70 x miles, or those of its stretches added up."""
    known_keys(where, leg, {"miles", "mph", "cv", "minutes", "stretches"})
    if "stretches" in leg:
        need("miles" not in leg and "minutes" not in leg, f"{where}: stretches, or miles or minutes, not both")
        minutes = [part["miles"] / part["mph"] * 60 for part in leg["stretches"]]
        return Duration(where, {"mean": sum(minutes), "cv": leg.get("cv", 0)})
    if "minutes" in leg:
        need("miles" not in leg and "cv" not in leg, f"{where}: minutes, or miles, not both")
        return Duration(where, leg["minutes"])
    need("miles" in leg, f"{where}: miles or minutes wanted")
    mean = leg["miles"] / leg["mph"] * 60 if leg.get("mph") is not None else 0.65 + 1.70 * leg["miles"]
    return Duration(where, {"mean": mean, "cv": leg.get("cv", 0)})


HANDLING = ("nurse_connect", "nurse_disconnect", "dump_position", "dump_clear", "fill_connect", "fill_disconnect")


@dataclass
class Failure:
    """With this chance it gives nothing from a moment of the watch until the repair is done (None: for good)."""

    chance: float
    repair: Duration | None


@dataclass
class Unit:
    """An engine, or a drop tank that comes by itself."""

    name: str
    requested_at: float
    response: Duration
    setup: Duration
    turnout: float


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
    turnout: float
    crew_cv: float
    comes_with: str | None  # the department of which all come or none
    drive_factor: float  # its minutes on the open road out and back, times this
    self_fill: float | None  # gpm by which it fills itself, where the site allows

    def fill_gal(self):
        """What an empty tanker's fill takes: all but what never leaves the tanker."""
        return self.capacity * (1 - self.residual)

    def full_load(self):
        """Capacity x (1 - residual) x (1 - waste)."""
        return self.fill_gal() * (1 - self.waste)

    def fill_with_rest(self, rest):
        """With a rest r aboard a fill takes the share 1 - r / full load of an empty tanker's fill."""
        return self.fill_gal() * (1 - rest / self.full_load())


@dataclass
class DropTank:
    name: str
    capacity: float
    unusable: float
    brought_by: str | None
    comes: Unit
    dump_positions: int
    transfer: float

    def holds_water_at(self):
        """The default restart level: "unusable + 300 gal, never above the capacity"."""
        return min(self.unusable + 300, self.capacity)


@dataclass
class SourcePump:
    """What must come to a source and be set up there before it serves anybody."""

    brought_by: str | None  # None: it drives to the source itself
    comes: Unit


@dataclass
class FillSite:
    name: str
    flow: float
    positions: int
    ready: Duration
    shared: bool
    volume: float | None
    recharge: float
    failure: Failure | None
    out: Duration
    back: Duration
    source_pump: SourcePump | None
    self_fill: bool


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
    restart_level: float | None  # None: the default of whichever drop tank is the first
    reprime: Duration
    throttle: bool
    lay_volume: float
    pump_failure: Failure | None
    drop_tanks: list
    tankers: list
    fill_sites: list
    driving_cv: float = 0.0
    handling_cv: float = 0.0
    response_cv: float = 0.0
    one_lane: list = field(default_factory=list)  # of (near, crossing)


def read_chance(where, value):
    need(0 <= value <= 1, f"{where}: from 0 to 1")
    return value


def read_failure(where, table):
    if table is None:
        return None
    known_keys(where, table, {"chance", "repair"})
    repair = table.get("repair")
    chance = read_chance(f"{where}.chance", table["chance"])
    return Failure(chance, None if repair is None else Duration(f"{where}.repair", repair))


def read_unit(where, table, name, setup=0):
    return Unit(
        name,
        table.get("requested_at", 0),
        Duration(f"{where}.response", table.get("response", 0)),
        Duration(f"{where}.setup", table.get("setup", setup)),
        read_chance(f"{where}.turnout", table.get("turnout", 1)),
    )


def read_tankers(tables, handling):
    keys = {"name", "count", "capacity", "requested_at", "response", "dump_rate", "dump_curve", "pump_off"}
    keys |= {"fill_limit"}
    keys |= {"waste", "residual", "breakdown_per_trip", "repair", "fill_site", "handling", "turnout", "crew_cv"}
    keys |= {"drive_factor", "self_fill", "vacuum", "department", "comes_whole"}
    whole = {table.get("department") for table in tables if table.get("comes_whole")}
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
            turnout=read_chance(f"{where}.turnout", table.get("turnout", 1)),
            crew_cv=table.get("crew_cv", 0),
            comes_with=table["department"] if table.get("department") in whole - {None} else None,
            drive_factor=table.get("drive_factor", 1),
            self_fill=table.get("self_fill"),
        )
        need(tanker.self_fill is None or table.get("vacuum"), f"{where}.self_fill: only with vacuum")
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
    keys = {"name", "capacity", "unusable", "brought_by", "requested_at", "response", "setup", "dump_positions"}
    keys |= {"transfer", "turnout"}
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
    keys = {"name", "flow", "positions", "ready", "fill_order", "volume", "recharge", "out", "back", "failure"}
    keys |= {"source_pump", "self_fill"}
    sites = []
    for n, table in enumerate(tables):
        where = f"fill_sites[{n}]"
        known_keys(where, table, keys)
        need(table.get("fill_order") in (None, "one-by-one", "shared"), f"{where}.fill_order: one-by-one or shared")
        need(table["flow"] > 0, f"{where}.flow: must be above 0")
        sites.append(
            FillSite(
                name=table["name"],
                flow=table["flow"],
                positions=table.get("positions", 1),
                ready=Duration(f"{where}.ready", table.get("ready", 0)),
                shared=table.get("fill_order") == "shared",
                volume=table.get("volume"),
                recharge=table.get("recharge") or 0,
                failure=read_failure(f"{where}.failure", table.get("failure")),
                out=read_leg(f"{where}.out", table["out"]),
                back=read_leg(f"{where}.back", table["back"]),
                source_pump=read_source_pump(f"{where}.source_pump", table),
                self_fill=table.get("self_fill", False),
            )
        )
    return sites


def read_source_pump(where, site):
    table = site.get("source_pump")
    if table is None:
        return None
    known_keys(where, table, {"name", "brought_by", "requested_at", "response", "turnout", "setup"})
    need("ready" not in site, f"{where}: ready is then not stated")
    name = table.get("name", f"Pump at {site['name']}")
    return SourcePump(table.get("brought_by"), read_unit(where, table, name))


def read_scenario(table):
    top = {"title", "notes", "units", "incident", "attack_engine", "supply", "drop_tanks", "tankers", "fill_sites"}
    known_keys("scenario", table, top | {"handling", "one_lane", "whole_fire"})
    need(table.get("units", "us") == "us", "units: only us is read here")
    incident = table["incident"]
    known_keys("incident", incident, {"duration", "attack_flow", "reserve", "tolerance"})
    engine = table["attack_engine"]
    known_keys(
        "attack_engine", engine, {"name", "tank", "requested_at", "response", "water_on", "intakes", "tank_refill"}
    )
    supply = table.get("supply", {})
    supply_keys = {"nurse", "engine", "setup", "draft_limit", "restart_level", "reprime", "low_water", "lay_volume"}
    supply_keys |= {"failure"}
    known_keys("supply", supply, supply_keys)
    handling = table.get("handling", {})
    known_keys("handling", handling, HANDLING)

    supply_engine = None
    pump_setup = Duration("supply.setup", supply.get("setup", 0))
    if supply.get("engine") is not None:
        known_keys("supply.engine", supply["engine"], {"name", "requested_at", "response", "setup", "turnout"})
        need("setup" not in supply, "supply.setup: with a supply engine its own setup counts; give it there")
        supply_engine = read_unit("supply.engine", supply["engine"], supply["engine"].get("name", "supply engine"))
        pump_setup = supply_engine.setup

    drop_tanks = read_drop_tanks(table.get("drop_tanks", []))
    restart_level = supply.get("restart_level")
    if drop_tanks and restart_level is not None:
        first = drop_tanks[0]
        fits = first.unusable < restart_level <= first.capacity
        need(fits, "supply.restart_level: above unusable, at most the capacity")
    need(supply.get("low_water", "throttle") in ("lose_prime", "throttle"), "supply.low_water: lose_prime or throttle")
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
        nurse=supply.get("nurse", True),
        supply_engine=supply_engine,
        pump_setup=pump_setup,
        draft_limit=math.inf if draft_limit is None else draft_limit,
        restart_level=restart_level,
        reprime=Duration("supply.reprime", supply.get("reprime", 0)),
        throttle=supply.get("low_water", "throttle") == "throttle",
        lay_volume=supply.get("lay_volume", 0),
        pump_failure=read_failure("supply.failure", supply.get("failure")),
        drop_tanks=drop_tanks,
        tankers=read_tankers(table.get("tankers", []), handling),
        fill_sites=read_fill_sites(table.get("fill_sites", [])),
    )
    fire = table.get("whole_fire", {})
    known_keys("whole_fire", fire, {"driving_cv", "handling_cv", "response_cv"})
    for key, cv in fire.items():
        need(cv >= 0, f"whole_fire.{key}: 0 or more")
        setattr(scenario, key, cv)
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
        known = tank.brought_by is None or tank.brought_by in bringers
        need(known, f"{tank.name}: nobody is called {tank.brought_by!r}")
    for site in scenario.fill_sites:
        known = site.source_pump is None or site.source_pump.brought_by in (None, *bringers)
        need(known, f"{site.name}: nobody is called {site.source_pump and site.source_pump.brought_by!r}")


def as_stated(value):
    """The value without what it rests on: an answer's doubt is not part of a run."""
    if isinstance(value, dict):
        if "value" in value:
            return value["value"]
        return {key: as_stated(inner) for key, inner in value.items() if key not in ("guess", "timed")}
    return [as_stated(inner) for inner in value] if isinstance(value, list) else value


def load(path):
    with open(path, encoding="utf-8") as file:
        return read_scenario(as_stated(json.load(file)))
