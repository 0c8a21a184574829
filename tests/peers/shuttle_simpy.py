"""The tankers' round as a process of simpy, with a fill site whose flow is shared.

What happens at the drop tank is left to the caller: `steady_dump` for a tank that is never full,
`drop_tank_simpy.Water` for one with a level.
"""

import simpy

GALLON = 1e-6


class FillSite:
    """Fill positions, and one flow shared equally by those who fill (all have one fill limit)."""

    def __init__(self, env, site, fill_limit):
        self.env = env
        self.positions = simpy.Resource(env, capacity=site["positions"])
        self.flow = site["flow"]
        self.fill_limit = fill_limit
        self.filling = []  # [gallons to go, event of its end]
        self.since = 0.0
        self.plans = 0

    def fill(self, gallons):
        """The event that ends a fill that begins now."""
        self.settle()
        full = self.env.event()
        self.filling.append([gallons, full])
        self.plan()
        return full

    def rate(self):
        return min(self.fill_limit, self.flow / len(self.filling))

    def settle(self):
        if self.filling:
            moved = self.rate() * (self.env.now - self.since)
            for one in self.filling:
                one[0] -= moved
        self.since = self.env.now

    def plan(self):
        self.plans += 1
        if self.filling:
            soonest = min(one[0] for one in self.filling) / self.rate()
            mine = self.plans
            self.env.timeout(soonest).callbacks.append(lambda _: self.end(mine))

    def end(self, plan):
        if plan != self.plans:  # somebody began meanwhile, and another end was planned
            return
        self.settle()
        for one in self.filling:
            if one[0] < GALLON:
                one[1].succeed()
        self.filling = [one for one in self.filling if one[0] >= GALLON]
        self.plan()


class Log:
    """What the tankers of one replication did; parts of the cycle are summed over whole cycles."""

    def __init__(self):
        self.trips = 0
        self.cycles = 0
        self.sums = {"cycle": 0.0, "fill_wait": 0.0, "fill": 0.0, "scene_wait": 0.0}

    def whole_cycle(self, **parts):
        self.cycles += 1
        for name, minutes in parts.items():
            self.sums[name] += minutes


def steady_dump(env, tanker):
    """A dump that always finds room."""
    return lambda gallons: env.timeout(gallons / tanker["dump_rate"])


def drive(env, tanker, times, scene, site, dump, log):
    """One tanker, from its arrival with a full load on. A cycle runs from leaving the dump site to
    leaving it again, so the load it came with is a trip but no whole cycle."""
    fill = tanker["capacity"]
    load = fill * (1 - tanker["waste"])
    left = None
    yield env.timeout(times.response())
    while True:
        came = env.now
        with scene.request() as position:
            yield position
            scene_wait = env.now - came
            yield env.timeout(times.dump_position())
            yield dump(load)
            yield env.timeout(times.dump_clear())
        log.trips += 1
        if left is not None:
            log.whole_cycle(cycle=env.now - left, fill_wait=fill_wait, fill=filled,
                            scene_wait=scene_wait)
        left = env.now
        yield env.timeout(times.out())
        came = env.now
        with site.positions.request() as position:
            yield position
            fill_wait = env.now - came
            yield env.timeout(times.fill_connect())
            began = env.now
            yield site.fill(fill)
            filled = env.now - began
            yield env.timeout(times.fill_disconnect())
        yield env.timeout(times.back())


def start(env, scenario, times, scene, dump):
    """Sets all tankers of the scenario going; the log fills as the environment runs."""
    tanker = scenario["tankers"][0]
    site = FillSite(env, scenario["fill_sites"][0], tanker["fill_limit"])
    log = Log()
    for _ in range(tanker["count"]):
        env.process(drive(env, tanker, times, scene, site, dump, log))
    return log


def replication(scenario, times):
    """One run of a scenario whose drop tank stands ready at minute 0 and never is full."""
    env = simpy.Environment()
    scene = simpy.Resource(env, capacity=scenario["drop_tanks"][0]["dump_positions"])
    dump = steady_dump(env, scenario["tankers"][0])
    log = start(env, scenario, times, scene, dump)
    env.run(until=scenario["incident"]["duration"])
    return {"trips": log.trips, "cycles": log.cycles, **log.sums}
