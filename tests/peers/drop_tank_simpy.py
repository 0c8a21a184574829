"""Drop tank, drafting pump and attack engine on a clock of simpy, with exact levels.

Between two changes every flow is constant, so levels are straight lines: at each change they are
brought up to date, the flows are decided anew and the next crossing of a mark is waited for.
Covers one drop tank, steady dumps, a pump that loses prime; no nursing, throttle or transfer.
"""

import math

import simpy

import shuttle_simpy

GALLON = 1e-6
GPM = 1e-9


def snap(level, *marks):
    """The mark that the level has reached, if it has."""
    for mark in marks:
        if abs(level - mark) < GALLON:
            return mark
    return level


class Water:
    def __init__(self, env, scenario):
        tank, supply = scenario["drop_tanks"][0], scenario["supply"]
        engine, incident = scenario["attack_engine"], scenario["incident"]
        self.env = env
        self.capacity, self.unusable = tank["capacity"], tank["unusable"]
        self.restart_level, self.reprime = supply["restart_level"], supply["reprime"]
        self.draft_limit = supply["draft_limit"]
        self.engine_tank, self.tank_refill = engine["tank"], engine["tank_refill"]
        self.dump_rate = scenario["tankers"][0]["dump_rate"]
        self.tolerance = incident["tolerance"]
        self.level, self.engine_level = 0.0, float(self.engine_tank)
        self.dumping = []  # [gallons to go, event of its end]
        self.hooked_up = self.primed = self.repriming = False
        self.attack_flow = self.inflow = self.draw = self.delivered = 0.0
        self.since, self.plans, self.short_since = 0.0, 0, None
        self.established = None
        self.lowest_engine = self.engine_level
        self.shortfalls, self.minutes_short, self.unmet = [], 0.0, 0.0
        self.prime_lost = 0

    def dump(self, gallons):
        """The event that ends a dump that begins now."""
        empty = self.env.event()
        self.change(lambda: self.dumping.append([gallons, empty]))
        return empty

    def change(self, what=None):
        """Brings levels up to date, applies a change and decides the flows anew."""
        self.settle()
        if what:
            what()
        self.judge()
        self.wait_for_next()

    def settle(self):
        minutes = self.env.now - self.since
        self.since = self.env.now
        self.level = snap(self.level + (self.inflow - self.draw) * minutes,
                          self.unusable, self.restart_level, self.capacity)
        self.engine_level = snap(self.engine_level + (self.draw - self.delivered) * minutes,
                                 0.0, self.engine_tank)
        self.lowest_engine = min(self.lowest_engine, self.engine_level)
        if self.attack_flow - self.delivered > GPM:
            self.minutes_short += minutes
            self.unmet += (self.attack_flow - self.delivered) * minutes
        if self.dumping:
            moved = self.inflow / len(self.dumping) * minutes
            for one in self.dumping:
                one[0] -= moved
                if one[0] < GALLON:
                    one[1].succeed()
            self.dumping = [one for one in self.dumping if one[0] >= GALLON]

    def judge(self):
        if self.hooked_up and not self.primed and self.level >= self.restart_level:
            if self.established is None:
                self.primed, self.established = True, self.env.now
            elif not self.repriming:
                self.repriming = True
                self.env.timeout(self.reprime).callbacks.append(
                    lambda _: self.change(self.prime_back))
        self.decide_flows()
        if self.primed and self.level <= self.unusable and self.draw - self.inflow > GPM:
            self.primed = False
            self.prime_lost += 1
            self.decide_flows()
        if self.attack_flow - self.delivered <= GPM:
            self.close_shortfall()
        elif self.short_since is None:
            self.short_since = self.env.now

    def prime_back(self):
        self.primed, self.repriming = True, False

    def decide_flows(self):
        wanted = self.attack_flow
        if self.engine_level < self.engine_tank:
            wanted += self.tank_refill
        self.draw = min(self.draft_limit, wanted) if self.primed else 0.0
        self.inflow = len(self.dumping) * self.dump_rate
        if self.level >= self.capacity:
            self.inflow = min(self.inflow, self.draw)
        self.delivered = self.attack_flow
        if self.engine_level <= 0:
            self.delivered = min(self.attack_flow, self.draw)

    def wait_for_next(self):
        soonest = math.inf
        drop, engine = self.inflow - self.draw, self.draw - self.delivered
        for level, marks, slope in (
                (self.level, (self.unusable, self.restart_level, self.capacity), drop),
                (self.engine_level, (0.0, self.engine_tank), engine)):
            if abs(slope) > GPM:
                ahead = [(mark - level) / slope for mark in marks if mark != level]
                soonest = min([soonest, *(wait for wait in ahead if wait > 0)])
        if self.dumping and self.inflow > 0:
            share = self.inflow / len(self.dumping)
            soonest = min([soonest, *(one[0] / share for one in self.dumping)])
        self.plans += 1
        if soonest < math.inf:
            mine = self.plans
            self.env.timeout(soonest).callbacks.append(
                lambda _: self.change() if mine == self.plans else None)

    def close_shortfall(self):
        if self.short_since is not None and self.env.now > self.short_since:
            if self.env.now - self.short_since >= self.tolerance:
                self.shortfalls.append(self.short_since)
        self.short_since = None

    def hook_up(self):
        self.hooked_up = True


def replication(scenario, times):
    """One run, from the alarm to the end of the watch. Arrivals other than the tankers' are fixed."""
    env = simpy.Environment()
    water = Water(env, scenario)
    tank, engine = scenario["drop_tanks"][0], scenario["attack_engine"]
    supply_engine, incident = scenario["supply"]["engine"], scenario["incident"]
    first_water = engine["response"] + engine["water_on"]
    tank_ready = tank["response"] + tank["setup"]
    hook_up = max(supply_engine["response"], tank_ready) + supply_engine["setup"]
    scene = simpy.Resource(env, capacity=tank["dump_positions"])

    def set_up():
        # Until the tank is set up its dump positions are taken, and tankers queue.
        held = [scene.request() for _ in range(tank["dump_positions"])]
        yield env.timeout(tank_ready)
        for one in held:
            scene.release(one)

    def demand():
        yield env.timeout(first_water)
        for step in incident["attack_flow"]:
            yield env.timeout(first_water + step["from"] - env.now)
            water.change(lambda: setattr(water, "attack_flow", step["flow"]))

    def pump():
        yield env.timeout(hook_up)
        water.change(water.hook_up)

    env.process(set_up())
    env.process(demand())
    env.process(pump())
    log = shuttle_simpy.start(env, scenario, times, scene, water.dump)
    env.run(until=first_water + incident["duration"])
    water.settle()
    water.close_shortfall()
    established = math.inf if water.established is None else water.established
    before = [one for one in water.shortfalls if one < established]
    return {
        "trips": log.trips, "cycles": log.cycles, **log.sums,
        "interrupted": bool(water.shortfalls), "before": bool(before),
        "after": len(before) < len(water.shortfalls),
        "reserve": water.lowest_engine < incident["reserve"] - GALLON,
        "minutes_short": water.minutes_short, "unmet": water.unmet,
        "established": water.established or 0.0, "supplied": water.established is not None,
        "lowest_engine": water.lowest_engine, "prime_lost": water.prime_lost > 0,
    }
