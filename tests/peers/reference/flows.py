"""Where water flows just after an instant, and for how long those flows keep their form.

Dumping is told by the minutes of free dumping a tanker has left. In a full drop tank that clock runs slow, and slow by
the same factor for everyone dumping there, which is what "shared in proportion to their rates" says. With G(w) the sum
of the free rates after w minutes of that clock and x(t) what leaves the tank, w' = x(t) / G(w): G falls in a straight
line (gravity) or is constant, so both sides integrate and w(t) is a root of a quadratic.
"""

import math
from dataclasses import dataclass, field

from ramps import (
    INSTANT,
    NEVER,
    TINY_GAL,
    ZERO,
    Ramp,
    first_down,
    first_up,
    lesser,
    max_min_shares,
    proportional_shares,
    shares_in_turn,
    total,
)


class DumpCurve:
    """A load by the minutes of free dumping left: its gallons, its rate, and the slope of that rate."""

    def __init__(self, tanker):
        self.gravity = tanker.gravity
        self.rate_gpm = tanker.dump_rate
        if self.gravity:
            self.stays = tanker.capacity * tanker.residual
            self.full = tanker.fill_gal() * (1 - tanker.waste) + self.stays
            self.whole = 0.9 * self.full / (tanker.dump_rate * (1 - math.sqrt(0.1)))  # T: until nothing at all is left
            self.end = math.sqrt(self.stays / self.full)

    def depth_root(self, left):
        """sqrt(v / v0), which gravity runs down in a straight line."""
        return self.end + left / self.whole

    def gallons(self, left):
        if not self.gravity:
            return self.rate_gpm * left
        return self.full * self.depth_root(left) ** 2 - self.stays

    def minutes(self, gallons):
        if not self.gravity:
            return gallons / self.rate_gpm
        return max(0.0, self.whole * (math.sqrt((gallons + self.stays) / self.full) - self.end))

    def rate(self, left):
        if not self.gravity:
            return Ramp(self.rate_gpm)
        fastest = 2 * self.full / self.whole
        return Ramp(fastest * self.depth_root(left), -fastest / self.whole)


@dataclass
class DropTankFlows:
    dumpers: list
    free: Ramp  # what would be dumped were there room
    dumped: Ramp = ZERO  # what is dumped
    into: Ramp = ZERO  # that, and into the first tank what is transferred
    out: Ramp = ZERO
    blocked: bool = False

    def clock_after(self, minutes):
        """How far the dumpers' clock runs in `minutes`."""
        if not self.blocked:
            return minutes
        dumped = self.out.gallons(minutes)
        start, fall = self.free.at, -self.free.slope
        inside = start * start - 2 * fall * dumped
        return 2 * dumped / (start + math.sqrt(max(inside, 0.0)))

    def minutes_until_clock(self, left):
        """When the dumpers' clock will have run `left` minutes."""
        if not self.blocked:
            return left
        wanted = self.free.gallons(left)
        return first_up(wanted, self.out.at, self.out.slope)

    def minutes_until_unblocked(self):
        """When the free rate, on the slowed clock, comes down to what leaves the tank: G^2 = A^2 - 2 B X = x^2."""
        start, fall = self.free.at, -self.free.slope
        x0, x1 = self.out.at, self.out.slope
        return first_up(start * start - x0 * x0, 2 * x0 * (x1 + fall), 2 * x1 * (x1 + fall))


@dataclass
class Flows:
    nurses: dict = field(default_factory=dict)  # tanker -> gpm
    draw: Ramp = ZERO  # out of the first drop tank by the pump
    into_lay: Ramp = ZERO
    supply: Ramp = ZERO  # into the attack engine
    delivered: Ramp = ZERO  # out of the attack lines
    short: bool = False
    prime_fails: bool = False
    drop_tanks: list = field(default_factory=list)
    fills: dict = field(default_factory=dict)  # tanker -> gpm
    site_out: list = field(default_factory=list)  # gpm leaving each fill site
    flips: list = field(default_factory=list)  # minutes until a flow takes another form


def flows_now(state):
    """The flows just after now, with all events of this instant applied."""
    flows = Flows()
    wanted = engine_side(state, flows)
    drop_tank_side(state, flows, wanted)
    supply = Ramp(sum(flows.nurses.values()))
    if state.lay_left > TINY_GAL:
        flows.into_lay = flows.draw
    else:
        supply = supply + flows.draw
    flows.supply = supply
    demand = Ramp(state.demand)
    flows.delivered = demand
    if state.engine_here and state.engine_level <= TINY_GAL:
        flows.delivered = lesser(demand, supply, flows.flips)
        flows.short = flows.delivered is supply
    fill_side(state, flows)
    return flows


def in_turn(tankers):
    """Who began first stands first."""
    return sorted(tankers, key=lambda tanker: tanker.began)


def engine_side(state, flows):
    """Nurse flow, which the engine takes first; returns what is then wanted of the drafting pump, gpm."""
    plan = state.plan
    if not state.engine_here:
        return 0.0
    full = state.engine_level >= plan.engine_tank - TINY_GAL
    takes = state.demand + (0 if full else plan.tank_refill)
    nursing = in_turn(tanker for tanker in state.tankers if tanker.phase == "nursing")
    rates = shares_in_turn(takes, [tanker.spec.pump_off for tanker in nursing])
    flows.nurses.update(zip(nursing, rates))
    nursed = sum(rates)
    if state.pump != "primed":
        return 0.0
    if state.lay_left > TINY_GAL:
        return min(state.demand + plan.tank_refill, plan.draft_limit)
    return min(takes - nursed, plan.draft_limit)


def drop_tank_side(state, flows, wanted):
    """Dumping, transfer and draw."""
    tanks, flips = state.drop_tanks, flows.flips
    if not tanks:
        return
    for tank in tanks:
        dumpers = [t for t in state.tankers if t.phase == "dumping" and t.drop_tank is tank]
        flows.drop_tanks.append(DropTankFlows(dumpers, total([t.curve.rate(t.dump_left) for t in dumpers])))
    first, first_flows = tanks[0], flows.drop_tanks[0]

    limits = []  # what each of tanks 2..n can give the first
    for tank, tank_flows in zip(tanks[1:], flows.drop_tanks[1:]):
        transfer = Ramp(tank.spec.transfer)
        if not (first.ready and tank.ready) or tank.level < tank.spec.unusable - TINY_GAL:
            limits.append(ZERO)
        elif tank.level <= tank.spec.unusable + TINY_GAL:
            limits.append(lesser(transfer, tank_flows.free, flips))
        else:
            limits.append(transfer)

    if first.is_full():
        flows.draw = Ramp(wanted)
        give_room(first_flows, flows.draw, flips)
        room = flows.draw - first_flows.dumped
        transfers = proportional_shares(room, [tank.spec.transfer for tank in tanks[1:]], limits, flips)
    else:
        first_flows.dumped = first_flows.free
        transfers = limits
        flows.draw = Ramp(wanted)
        if wanted > 0 and first.level <= first.spec.unusable + TINY_GAL:
            comes_in = first_flows.dumped + total(transfers)
            least = lesser(flows.draw, comes_in, flips)
            if state.plan.throttle:
                flows.draw = least
            else:
                flows.prime_fails = least is comes_in
    first_flows.into = first_flows.dumped + total(transfers)
    first_flows.out = flows.draw

    for tank, tank_flows, transfer in zip(tanks[1:], flows.drop_tanks[1:], transfers):
        tank_flows.out = transfer
        tank_flows.dumped = tank_flows.free
        if tank.is_full():
            give_room(tank_flows, transfer, flips)
        tank_flows.into = tank_flows.dumped


def give_room(tank_flows, leaves, flips):
    """Dumping into a full drop tank only follows what leaves it."""
    into = lesser(tank_flows.free, leaves, [] if tank_flows.free.at > leaves.at else flips)
    tank_flows.dumped = into
    tank_flows.out = leaves
    tank_flows.blocked = into is leaves
    if tank_flows.blocked:
        flips.append(tank_flows.minutes_until_unblocked())


def fill_side(state, flows):
    for site in state.sites:
        share = max_min_shares if site.spec.shared else shares_in_turn
        alone = [tanker for tanker in site.filling if site.fills_itself(tanker)]
        served = [tanker for tanker in site.filling if not site.fills_itself(tanker)]
        # Who fills himself takes beside what the site gives; of what runs into a pond run down, first.
        runs_in = site.spec.recharge if site.dry() else math.inf
        rates = share(runs_in, [tanker.spec.self_fill for tanker in alone])
        left = min(site.flow(), runs_in - sum(rates))
        rates += share(left, [tanker.spec.fill_limit for tanker in served])
        flows.fills.update(zip(alone + served, rates))
        flows.site_out.append(sum(rates))


def minutes_to_next_change(state, flows):
    """Minutes until a level reaches a mark, a load or a fill ends, or a flow takes another form."""
    moments = list(flows.flips)
    plan = state.plan
    if state.engine_here:
        net = flows.supply - flows.delivered
        if state.engine_level < plan.engine_tank - TINY_GAL:
            moments.append(first_up(plan.engine_tank - state.engine_level, net.at, net.slope))
        moments.append(first_down(state.engine_level, net.at, net.slope))
    for tanker, rate in flows.nurses.items():
        if rate > 0:
            moments.append(tanker.load / rate)
    if flows.into_lay.at > 0:
        moments.append(first_up(state.lay_left, flows.into_lay.at, flows.into_lay.slope))
    for tank, tank_flows in zip(state.drop_tanks, flows.drop_tanks):
        net = tank_flows.into - tank_flows.out
        marks_up = [tank.spec.capacity, tank.spec.unusable]
        if tank is state.drop_tanks[0] and state.pump in ("waits for water", "lost"):
            marks_up.append(state.restart_level)
        for mark in marks_up:
            if tank.level < mark - TINY_GAL:
                moments.append(first_up(mark - tank.level, net.at, net.slope))
        moments.append(first_down(tank.level - tank.spec.unusable, net.at, net.slope))
        for tanker in tank_flows.dumpers:
            moments.append(tank_flows.minutes_until_clock(tanker.dump_left))
    for tanker, rate in flows.fills.items():
        if rate > 0:
            moments.append(tanker.fill_left / rate)
    for site, out in zip(state.sites, flows.site_out):
        if site.volume is None:
            continue
        net = site.spec.recharge - out
        if net < 0 and not site.dry():
            moments.append(site.volume / -net)
        if net > 0 and site.volume < site.spec.volume - TINY_GAL:
            moments.append((site.spec.volume - site.volume) / net)
    return max(0.0, min(moments, default=NEVER))


def advance(state, flows, minutes):
    """Moves every level and load on by `minutes`, during which the flows keep their form."""
    if state.engine_here:
        state.engine_level += flows.supply.gallons(minutes) - flows.delivered.gallons(minutes)
        state.delivered += flows.delivered.gallons(minutes)
    state.lay_left -= flows.into_lay.gallons(minutes)
    for tanker, rate in flows.nurses.items():
        unload(state, tanker, tanker.load - rate * minutes)
    for tank, tank_flows in zip(state.drop_tanks, flows.drop_tanks):
        clock = tank_flows.clock_after(minutes)
        dumped = 0.0
        for tanker in tank_flows.dumpers:
            tanker.dump_left = max(0.0, tanker.dump_left - clock)
            before = tanker.load
            unload(state, tanker, tanker.curve.gallons(tanker.dump_left))
            dumped += before - tanker.load
        tank.level += dumped - tank_flows.out.gallons(minutes)
    for tank, tank_flows in zip(state.drop_tanks[1:], flows.drop_tanks[1:]):
        state.drop_tanks[0].level += tank_flows.out.gallons(minutes)
    for tanker, rate in flows.fills.items():
        tanker.fill_left = max(0.0, tanker.fill_left - rate * minutes)
    for site, out in zip(state.sites, flows.site_out):
        if site.volume is not None:
            site.volume = min(site.spec.volume, max(0.0, site.volume + (site.spec.recharge - out) * minutes))


def unload(state, tanker, load):
    """Brings a tanker's load down to `load`; the waste that goes with it is spilled on the way."""
    waste = tanker.spec.waste
    state.spilled += (tanker.load - load) * waste / (1 - waste)
    tanker.load = load


def dumped_out(tanker):
    return tanker.dump_left <= INSTANT
