"""What one run gives: shortfalls and their causes, lowest levels, the water balance."""

from ramps import INSTANT, TINY_GAL


def judge_shortfall(run, flows):
    if flows.short and run.open_shortfall is None:
        run.open_shortfall = (run.now, cause(run), run.established is not None)
        run.log("attack lines", "short")
    elif not flows.short and run.open_shortfall is not None:
        close_shortfall(run, run.now)
        run.log("attack lines", "whole")


def close_shortfall(run, end):
    start, why, after = run.open_shortfall
    run.open_shortfall = None
    if end - start > INSTANT and end - start >= run.plan.tolerance - INSTANT:
        when = "after" if after else "before"
        run.interruptions.append({"start": start, "end": end, "cause": why, "when": when})


def cause(run):
    """Read from where the water was when it began; the first that holds."""
    loaded = any(tanker.load > TINY_GAL for tanker in run.tankers if tanker.still_on_scene())
    water_on_scene = loaded or any(tank.level > tank.spec.unusable + TINY_GAL for tank in run.drop_tanks)
    if not water_on_scene and somebody_to_come(run):
        return "not_come"
    if run.plan.drop_tanks and water_on_scene and run.pump in ("not hooked up", "waits for water"):
        return "draft_not_up"
    if run.pump_failed_at is not None:
        return "pump_failed"
    if run.pump == "primed" and run.drop_tanks[0].level > run.drop_tanks[0].spec.unusable + TINY_GAL:
        return "draft_or_lay_too_small"
    if run.pump in ("lost", "repriming"):
        return "prime_lost"
    if waits_for_a_source(run):
        return "source_not_ready"
    if any(site.queue for site in run.sites):
        return "fill_site_queue"
    if any(tanker.load > TINY_GAL for tanker in run.line) or waits_for_room(run):
        return "dump_site_queue"
    if any(tanker.phase == "out of service" for tanker in run.tankers):
        return "out_of_service"
    return "haul_too_long"


def waits_for_room(run):
    """A tanker stands at a full drop tank and can only follow what leaves it."""
    dumping = [tanker for tanker in run.tankers if tanker.phase == "dumping"]
    return any(t.drop_tank.level >= t.drop_tank.spec.capacity - TINY_GAL for t in dumping)


def somebody_to_come(run):
    units = [run.plan.engine.name] + ([run.plan.supply_engine.name] if run.plan.supply_engine else [])
    engines = any(name not in run.came_at for name in units)
    tanks = any(tank.came_at is None for tank in run.all_drop_tanks)
    return engines or tanks or any(not tanker.arrived for tanker in run.tankers)


def waits_for_a_source(run):
    """Source not ready, dry or failed: a tanker waits for it."""
    if any(tanker.phase == "stands by" for tanker in run.tankers):
        return True
    for site in run.sites:
        for tanker in site.queue + site.filling:
            held_up = not site.fills_itself(tanker) and (not site.ready or site.failed_at is not None)
            if held_up or site.dry():
                return True
    return False


def keep_lowest(run):
    if run.now >= run.start - INSTANT:
        run.lowest_engine_tank = min(run.lowest_engine_tank, run.engine_level)
    for tank in run.drop_tanks:
        if tank.lowest is not None:
            tank.lowest = min(tank.lowest, tank.level)
        elif tank.level >= tank.counts_from - TINY_GAL:
            tank.lowest = tank.counts_from  # it came up through this, if not in this instant


def count_shortfall(run, flows, minutes):
    if flows.short:
        run.minutes_short += minutes
        run.unmet += run.demand * minutes - flows.delivered.gallons(minutes)


def still_there(run):
    """Water on scene at the end: engine tank, drop tanks, lay, and what tankers at the scene have aboard."""
    aboard = sum(tanker.aboard() for tanker in run.tankers if tanker.still_on_scene())
    engine = run.engine_level if run.engine_here else 0
    lay = run.plan.lay_volume - run.lay_left
    return engine + lay + aboard + sum(tank.level for tank in run.drop_tanks)


def result(run):
    return {
        "established": run.established,
        "first_water": run.start,
        "interruptions": run.interruptions,
        "minutes_short": run.minutes_short,
        "unmet_gal": run.unmet,
        "delivered_gal": run.delivered,
        "spilled_gal": run.spilled,
        "arrived_gal": run.arrived,
        "still_there_gal": still_there(run),
        "carried_away_gal": run.carried_away,
        "reserve_touched": run.lowest_engine_tank < run.plan.reserve - TINY_GAL,
        "lowest_engine_tank": run.lowest_engine_tank,
        "lowest_drop_tanks": [tank.lowest for tank in run.all_drop_tanks],
        "tankers": [{"name": t.spec.name, "trips": t.trips} for t in run.tankers],
        "events": run.events,
    }
