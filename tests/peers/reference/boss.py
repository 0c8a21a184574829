"""What the tanker boss judges by: each measure of the tanker rules in one small function.

Nothing here changes anything. `run` is the run as it stands; times in minutes after the alarm, water in gallons.
"""

import math

from ramps import NEVER, TINY_GAL, TINY_GPM, first_up
from state import AT_A_DROP_TANK, ON_AN_INTAKE, UNTIL_FILLING

# The drop tanks


def at_tank(run, tank):
    """At a drop tank: positioning or dumping there (clearing is not)."""
    return [tanker for tanker in run.tankers if tanker.drop_tank is tank and tanker.phase in AT_A_DROP_TANK]


def rests_at(run, tank):
    return sum(tanker.load for tanker in at_tank(run, tank))


def restart_held(run):
    """Rule 2a: the first tank has its `restart_level`, level + rest of those at it."""
    first = run.drop_tanks[0]
    return first.level + rests_at(run, first) >= run.restart_level - TINY_GAL


def room_for(run, tank, tanker):
    """Its room, less the rest of those at it, plus (first tank, while the pump is primed) min(attack flow now, draft
    limit) x load / `dump_rate`."""
    room = tank.room() - rests_at(run, tank)
    if tank is run.drop_tanks[0] and run.pump == "primed":
        room += min(run.demand, run.plan.draft_limit) * tanker.load / tanker.spec.dump_rate
    return room


def takes_whole_load(run, tank, tanker):
    """That room is at least the load; a tank 2..n with nobody at it and no more than its `unusable` also counts."""
    if room_for(run, tank, tanker) >= tanker.load - TINY_GAL:
        return True
    if tank is run.drop_tanks[0]:
        return False
    return not at_tank(run, tank) and tank.level <= tank.spec.unusable + TINY_GAL


def tank_for_whole_load(run, tanker):
    """The first drop tank in order that has a free position and takes its whole load."""
    for tank in run.drop_tanks:
        if tank.has_free_position() and takes_whole_load(run, tank, tanker):
            return tank
    return None


# The lines first


def lines_first(run):
    """Rule 2 holds until the pump first draws (nursing allowed, drop tanks in the plan), and while it has failed."""
    return run.plan.nurse and bool(run.plan.drop_tanks) and (not run.first_drawn or run.pump_failed_at is not None)


def on_an_intake(run):
    """Those nursing or connecting."""
    return [tanker for tanker in run.tankers if tanker.phase in ON_AN_INTAKE]


def intake_free(run):
    return run.engine_here and run.intakes_held < run.plan.intakes


def expected_arrival(run, unit):
    """By means; an arrival that is overdue counts as now."""
    if unit.name in run.came_at:
        return run.came_at[unit.name]
    return max(run.now, unit.requested_at + unit.response.mean())


def first_water_expected(run):
    if run.now >= run.start:
        return run.start
    return max(run.now, expected_arrival(run, run.plan.engine) + run.plan.water_on.mean())


def drafting_unit(run):
    """The supply engine, as long as it is believed to come; else the attack engine, unless a lay lies between."""
    if run.plan.supply_engine is not None and not run.supply_engine_given_up:
        return run.plan.supply_engine
    if run.plan.supply_engine is not None and run.plan.lay_volume > 0:
        return None
    return run.plan.engine


def pump_comes(run):
    unit = drafting_unit(run)
    return NEVER if unit is None else expected_arrival(run, unit)


def first_tank_ready(run):
    """The first tank in order that is not known to stay away: its arrival, then its set-up."""
    tank = next((tank for tank in run.all_drop_tanks if not tank.given_up), None)
    if tank is None:
        return NEVER
    if tank.ready:
        return run.now
    comes = tank.came_at if tank.came_at is not None else expected_arrival(run, run.bringer(tank))
    return max(run.now, comes + tank.spec.comes.setup.mean())


def repair_expected(run, failed_at, repair):
    return NEVER if repair is None else failed_at + repair.mean()


def hook_up_expected(run):
    """When the pump should be hooked up: at the start of its set-up + mean set-up if that has begun, else at max(when
    the pump comes, when the first tank is ready) + mean set-up; while it has failed, failure + mean repair."""
    if run.pump != "not hooked up":
        expected = run.now
    elif run.set_up_began is not None:
        expected = run.set_up_began + run.plan.pump_setup.mean()
    else:
        expected = max(pump_comes(run), first_tank_ready(run)) + run.plan.pump_setup.mean()
    if run.pump_failed_at is not None:
        expected = max(expected, repair_expected(run, run.pump_failed_at, run.plan.pump_failure.repair))
    return expected


def planned_gallons(run, begin, end):
    """The attack flow of the plan from `begin` to `end`: none before first water, none after the watch."""
    water = first_water_expected(run)
    gallons = 0.0
    steps = [*run.plan.attack_flow, (run.plan.duration, 0)]
    for (step, flow), (following, _) in zip(steps, steps[1:]):
        last = min(following, run.plan.duration)
        gallons += flow * max(0.0, min(end, water + last) - max(begin, water + step))
    return gallons


def water_needed(run):
    """The planned attack flow from now until the pump should be hooked up; 0 once it is."""
    return planned_gallons(run, run.now, hook_up_expected(run))


def water_on_hand(run, kept):
    """Rest of those nursing and connecting + loads kept ahead in this pass + the engine's water above `reserve`."""
    nursing = sum(tanker.load for tanker in on_an_intake(run))
    return nursing + sum(tanker.load for tanker in kept) + max(0.0, run.engine_level - run.plan.reserve)


# Fill sites


def fill_minutes(gallons, tanker, site):
    return gallons / site.rate_for(tanker)


def fills_ahead(run, tanker, site):
    """Others on the way to the site, or at it until they leave `fill_disconnect`, and their gallons still to fill."""
    there = UNTIL_FILLING + ("filling",)
    for other in run.tankers:
        if other is tanker or other.site is not site:
            continue
        if other.phase in there:
            yield other, other.fill_left
        elif other.phase == "fill_disconnect":
            yield other, 0.0


def work_ahead(run, tanker, site):
    """Gallons still to fill / min(`fill_limit`, flow), and where the site has one position their mean connect (until
    they fill) and mean disconnect."""
    minutes = 0.0
    for other, gallons in fills_ahead(run, tanker, site):
        minutes += fill_minutes(gallons, other, site)
        if site.spec.positions == 1:
            if other.phase in UNTIL_FILLING:
                minutes += other.spec.handling["fill_connect"].mean()
            minutes += other.spec.handling["fill_disconnect"].mean()
    return minutes


def pump_at_source_expected(run, site):
    """When its pump should be set up: expected arrival + mean set-up; overdue counts as now."""
    pump = site.spec.source_pump
    if site.pump_came_at is not None:
        comes = site.pump_came_at
    elif pump.brought_by is not None:
        comes = expected_arrival(run, run.unit_called(pump.brought_by))
    else:
        comes = max(run.now, pump.comes.requested_at + pump.comes.response.mean())
    return comes + pump.comes.setup.mean()


def opens(run, tanker, site):
    """Now, or max(now, mean `ready`) while the site is not ready; failed for a time, from failure + mean repair. For who
    fills himself it is open now."""
    minute = run.now
    if site.fills_itself(tanker):
        return minute
    if not site.ready:
        pump = site.spec.source_pump
        minute = max(minute, site.spec.ready.mean() if pump is None else pump_at_source_expected(run, site))
    if site.failed_at is not None:
        minute = max(minute, repair_expected(run, site.failed_at, site.spec.failure.repair))
    return minute


def expected_back(run, tanker, site):
    """max(now + mean out, open + work ahead) + service + mean back."""
    handling = tanker.spec.handling
    gallons = tanker.spec.fill_with_rest(tanker.load)
    service = handling["fill_connect"].mean() + fill_minutes(gallons, tanker, site) + handling["fill_disconnect"].mean()
    slower = tanker.spec.drive_factor
    arrives = run.now + site.spec.out.mean() * slower
    there = max(arrives, opens(run, tanker, site) + work_ahead(run, tanker, site))
    return there + service + site.spec.back.mean() * slower


def spare_volume(run, tanker, site):
    """Its volume less what those ahead still take."""
    if site.volume is None:
        return math.inf
    return site.volume - sum(gallons for _, gallons in fills_ahead(run, tanker, site))


def can_choose(run, tanker, site):
    """Not a site whose volume, less what those ahead still take, is below half the tanker's capacity, nor one that is
    failed for good or whose pump is known not to come."""
    return not site.is_closed_to(tanker) and spare_volume(run, tanker, site) >= tanker.spec.capacity / 2 - TINY_GAL


# The moments at which a judgement changes although nothing else happens


def moments(run, flows):
    """Minutes until a tank comes to take a waiting load, until a site can again be chosen by a tanker that stands by."""
    found = []
    for tank in run.drop_tanks:
        tank_flows = flows.drop_tanks[tank.index]
        opening = tank_flows.out - (tank_flows.into - tank_flows.dumped)
        for tanker in run.line:
            lacking = tanker.load - room_for(run, tank, tanker)
            if lacking > TINY_GAL:
                found.append(first_up(lacking, opening.at, opening.slope))
    for tanker in run.tankers:
        if tanker.phase == "stands by":
            for site in run.sites:
                found.append(until_can_choose(run, flows, tanker, site))
    return found


def until_can_choose(run, flows, tanker, site):
    """The spare volume rises as it recharges (what is filled comes off the volume and off what is still to take alike);
    at a full volume, as what those ahead take recharges at once."""
    lacking = tanker.spec.capacity / 2 - spare_volume(run, tanker, site)
    if site.volume is None or lacking <= TINY_GAL:
        return NEVER
    full = site.volume >= site.spec.volume - TINY_GAL
    pace = min(site.spec.recharge, flows.site_out[run.sites.index(site)]) if full else site.spec.recharge
    return lacking / pace if pace > 0 else NEVER
