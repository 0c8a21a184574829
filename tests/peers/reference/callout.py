"""The beginning of a run: who comes and when, what fails and when, and the factors a whole fire shares."""

from state import OPENINGS, TANKERS

FIRE = "the fire"


def begin(run):
    plan, luck = run.plan, run.luck
    run.driving_factor = luck.factor(plan.driving_cv, FIRE, "driving")
    run.crew_factor = luck.factor(plan.handling_cv, FIRE, "handling")
    run.response_factor = luck.factor(plan.response_cv, FIRE, "response")
    engine_comes = run.arrival(plan.engine)
    run.start = engine_comes + run.crew_minutes(plan.water_on, plan.engine.name, "water_on")
    run.end = run.start + plan.duration
    run.after(engine_comes, OPENINGS, 0, run.engine_arrives)
    for minute, flow in plan.attack_flow:
        run.after(run.start + minute, OPENINGS, 1, run.set_demand, flow)
    missing = call_units(run)
    run.drop_tanks = [tank for tank in run.all_drop_tanks if run.bringer(tank).name not in missing]
    for n, tank in enumerate(run.drop_tanks):
        tank.index = n
    choose_restart_level(run)
    for site in run.sites:
        if site.spec.source_pump is None:
            ready = luck.minutes(site.spec.ready, site.spec.name, "ready")
            run.after(ready, OPENINGS, 4, run.site_ready, site)
    plan_failures(run)


def call_units(run):
    """Puts every arrival on the agenda; returns the names of those that do not come at all."""
    missing = set()

    def how_often(unit):
        """Of a department that comes whole the least of any, drawn once for all; else the unit's own."""
        department = getattr(unit, "comes_with", None)
        if department is None:
            return unit.turnout, unit.name
        together = [tanker.spec for tanker in run.tankers if tanker.spec.comes_with == department]
        return min(other.turnout for other in together), f"department {department}"

    def call(unit, order, index, arrives, *details):
        if run.luck.comes(*how_often(unit), unit.name):
            run.after(run.arrival(unit), order, index, arrives, *details)
        else:
            missing.add(unit.name)
            run.after(unit.requested_at + unit.response.mean(), OPENINGS, 7, run.give_up, unit)

    if run.plan.supply_engine:
        call(run.plan.supply_engine, OPENINGS, 2, run.supply_engine_arrives)
    for tank in run.all_drop_tanks:
        if tank.spec.brought_by is None:
            call(tank.spec.comes, OPENINGS, 3, run.drop_tank_arrives, tank)
    for tanker in run.tankers:
        tanker.handling_factor = run.crew_factor * run.luck.factor(tanker.spec.crew_cv, tanker.spec.name, "crew")
        call(tanker.spec, TANKERS, tanker.index, run.first_arrival, tanker)
    for site in run.sites:
        if site.spec.source_pump is not None and site.spec.source_pump.brought_by is None:
            call(site.spec.source_pump.comes, OPENINGS, 4, run.source_pump_arrives, site)
    return missing


def choose_restart_level(run):
    """The level given, where the first drop tank that comes can hold it; else that tank's default."""
    run.restart_level = 0.0
    if run.drop_tanks:
        first, given = run.drop_tanks[0], run.plan.restart_level
        fits = given is not None and first.spec.unusable < given <= first.spec.capacity
        run.restart_level = first.counts_from = given if fits else first.spec.holds_water_at()


def plan_failures(run):
    if run.plan.drop_tanks:
        plan_failure(run, "draft pump", run.plan.pump_failure, run.pump_fails)
    for site in run.sites:
        plan_failure(run, site.spec.name, site.spec.failure, run.site_fails, site)


def plan_failure(run, who, failure, fails, *details):
    if failure is not None and run.luck.happens(failure.chance, who, "failure"):
        moment = run.start + run.luck.share(who, "failure moment") * run.plan.duration
        run.after(moment, OPENINGS, 8, fails, *details)
