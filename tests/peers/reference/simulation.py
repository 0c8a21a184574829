"""One run of the shuttle, event by event.

An instant goes like this:
1. Everything due by the clock is applied: first what opens (units, drop tanks, the pump's hook-up, steps of the attack
   flow, fill sites, failures), then the tankers in the order of the scenario; and again while anything due is left.
2. What the levels decide and what waits is served, in the order of `serve`; if that made anything happen, back to 1.
3. Then prime and shortfall are judged, and the clock goes to whatever comes next.
"""

import heapq

import boss
import callout
import haul
import line
import outcome
from flows import advance, dumped_out, flows_now, minutes_to_next_change
from luck import Luck
from ramps import INSTANT, TINY_GAL
from state import OPENINGS, TANKERS, DropTankState, Lane, SiteState, TankerState

STEPS_WITHOUT_PROGRESS = 100_000


class Run:
    def __init__(self, plan, seed=1, replication=0, planned=False):
        self.plan = plan
        self.luck = Luck(seed, replication, planned)
        self.now = 0.0
        self.agenda = []
        self.entries = 0
        self.acts = 0  # counts whatever happens, so that an instant ends when nothing more does
        self.events = []
        self.came_at = {}  # who is on scene, and since when
        self.engine_here = False
        self.engine_level = float(plan.engine_tank)
        self.demand = 0.0
        self.pump = "not hooked up"  # then "waits for water", "primed", "lost", "repriming"
        self.set_up_began = None
        self.first_drawn = False
        self.pump_failed_at = None  # while it has failed
        self.supply_engine_given_up = False
        self.primes_lost = 0
        self.lay_left = float(plan.lay_volume)
        self.intakes_held = 0
        self.turns = 0  # counts those who begin to nurse or dump
        self.tankers = [TankerState(spec, n) for n, spec in enumerate(plan.tankers)]
        self.all_drop_tanks = [DropTankState(spec, n) for n, spec in enumerate(plan.drop_tanks)]
        self.drop_tanks = []  # those that come
        self.sites = [SiteState(spec) for spec in plan.fill_sites]
        self.lanes = [Lane(near, crossing, f"lane {n + 1}") for n, (near, crossing) in enumerate(plan.one_lane)]
        self.line = []
        self.kept = []  # kept for the lines in the last pass
        self.established = None
        self.delivered = self.spilled = self.arrived = self.carried_away = self.unmet = self.minutes_short = 0.0
        self.lowest_engine_tank = self.engine_level
        self.open_shortfall = None
        self.interruptions = []

    # The clock

    def after(self, minutes, order, index, action, *details):
        self.entries += 1
        self.acts += 1
        heapq.heappush(self.agenda, (self.now + minutes, order, index, self.entries, action, details))

    def tanker_after(self, tanker, minutes, action):
        self.after(minutes, TANKERS, tanker.index, action, tanker)

    def log(self, who, what):
        self.acts += 1
        self.events.append([self.now, who, what])

    def run(self):
        callout.begin(self)
        still, last = 0, -1.0
        while self.now < self.end - INSTANT:
            self.apply_events()
            flows = flows_now(self)
            if flows.prime_fails:
                self.lose_prime()
                flows = flows_now(self)
            minutes = min([minutes_to_next_change(self, flows), *boss.moments(self, flows)])
            if self.agenda:
                minutes = min(minutes, self.agenda[0][0] - self.now)
            minutes = max(0.0, min(minutes, self.end - self.now))
            if minutes > INSTANT:
                outcome.judge_shortfall(self, flows)
            outcome.count_shortfall(self, flows, minutes)
            advance(self, flows, minutes)
            self.now += minutes
            outcome.keep_lowest(self)
            still = 0 if self.now > last + INSTANT else still + 1
            last = self.now if still == 0 else last
            if still > STEPS_WITHOUT_PROGRESS:
                raise RuntimeError(f"no time passes at minute {self.now}")
        if self.open_shortfall:
            outcome.close_shortfall(self, self.end)
        return self

    def result(self):
        return outcome.result(self)

    def apply_events(self):
        while True:
            while self.agenda and self.agenda[0][0] <= self.now + INSTANT:
                due = []
                while self.agenda and self.agenda[0][0] <= self.now + INSTANT:
                    due.append(heapq.heappop(self.agenda))
                for _, _, _, _, action, details in sorted(due, key=lambda entry: entry[1:4]):
                    action(*details)
            if not self.serve():
                return

    def serve(self):
        """Serves everything that can be served now; true if anything happened."""
        before = self.acts
        self.end_loads()
        haul.end_fills(self)
        haul.serve_leaving(self)
        haul.serve_lanes(self)
        haul.serve_sites(self)
        line.serve_line(self)
        self.gain_prime()
        if self.acts == before:  # judged last in an instant
            line.pull_clear(self)
        return self.acts != before

    # Arrivals and times

    def arrival(self, unit):
        response = self.luck.minutes(unit.response, unit.name, "response")
        return unit.requested_at + response * self.response_factor

    def unit_called(self, name):
        """The tanker or engine of this name, or none."""
        units = [self.plan.engine, *self.plan.tankers]
        if self.plan.supply_engine:
            units.append(self.plan.supply_engine)
        return next((unit for unit in units if unit.name == name), None)

    def bringer(self, tank):
        """The tanker or engine that brings the drop tank, or the drop tank itself."""
        return self.unit_called(tank.spec.brought_by) or tank.spec.comes

    def source_pump_unit(self, site):
        """Who brings the site's pump, or the pump itself; none where the site needs none."""
        pump = site.spec.source_pump
        return None if pump is None else self.unit_called(pump.brought_by) or pump.comes

    def crew_minutes(self, duration, who, what, trip=0):
        return self.luck.minutes(duration, who, what, trip) * self.crew_factor

    def handling_minutes(self, tanker, what):
        minutes = self.luck.minutes(tanker.spec.handling[what], tanker.spec.name, what, tanker.trips)
        return minutes * tanker.handling_factor

    # What opens, and what fails

    def engine_arrives(self):
        self.engine_here = True
        self.arrived += self.plan.engine_tank
        self.log(self.plan.engine.name, "arrives")
        self.has_arrived(self.plan.engine.name)

    def supply_engine_arrives(self):
        self.log(self.plan.supply_engine.name, "arrives")
        self.has_arrived(self.plan.supply_engine.name)

    def has_arrived(self, name):
        self.came_at[name] = self.now
        for tank in self.drop_tanks:
            if tank.spec.brought_by == name:
                self.drop_tank_arrives(tank)
        for site in self.sites:
            if site.spec.source_pump is not None and site.spec.source_pump.brought_by == name:
                self.source_pump_arrives(site)
        self.begin_set_up()

    def source_pump_arrives(self, site):
        site.pump_came_at = self.now
        pump = site.spec.source_pump.comes
        self.log(pump.name, "arrives")
        self.after(self.crew_minutes(pump.setup, pump.name, "setup"), OPENINGS, 4, self.site_ready, site)

    def drop_tank_arrives(self, tank):
        tank.came_at = self.now
        setup = self.crew_minutes(tank.spec.comes.setup, tank.spec.name, "setup")
        self.after(setup, OPENINGS, 3, self.drop_tank_ready, tank)

    def drop_tank_ready(self, tank):
        tank.ready = True
        self.log(tank.spec.name, "ready")
        self.begin_set_up()

    def give_up(self, unit):
        """`requested_at` + mean response has passed: that it does not come, nor what it brings, is known now."""
        self.log(unit.name, "does not come")
        if unit is self.plan.supply_engine:
            self.supply_engine_given_up = True
        for tank in self.all_drop_tanks:
            if self.bringer(tank) is unit:
                tank.given_up = True
        for site in self.sites:
            if self.source_pump_unit(site) is unit:
                site.pump_given_up = True
        self.begin_set_up()

    def begin_set_up(self):
        """The pump is set up once it and the first drop tank are there and ready, and none before that is believed to come."""
        pump = boss.drafting_unit(self)
        if self.set_up_began is not None or not self.drop_tanks or pump is None or pump.name not in self.came_at:
            return
        first = self.drop_tanks[0]
        before = self.all_drop_tanks[: self.all_drop_tanks.index(first)]
        if first.ready and all(tank.given_up for tank in before):
            self.set_up_began = self.now
            self.after(self.crew_minutes(self.plan.pump_setup, pump.name, "pump setup"), OPENINGS, 5, self.hook_up)

    def hook_up(self):
        self.pump = "waits for water"
        self.log("pump", "hooked up")

    def set_demand(self, flow):
        self.demand = flow
        self.log("attack lines", f"{flow} gpm")

    def site_ready(self, site):
        site.ready = True
        self.log(site.spec.name, "ready")

    def pump_fails(self):
        self.log("pump", "fails")
        self.pump_failed_at = self.now
        if self.pump in ("primed", "repriming"):
            self.lose_prime()
        repair = self.plan.pump_failure.repair
        if repair is not None:
            self.after(self.luck.minutes(repair, "draft pump", "repair"), OPENINGS, 8, self.pump_repaired)

    def pump_repaired(self):
        self.pump_failed_at = None
        self.log("pump", "repaired")

    def site_fails(self, site):
        site.failed_at = self.now
        self.log(site.spec.name, "fails")
        repair = site.spec.failure.repair
        if repair is not None:
            self.after(self.luck.minutes(repair, site.spec.name, "repair"), OPENINGS, 8, self.site_repaired, site)

    def site_repaired(self, site):
        site.failed_at = None
        self.log(site.spec.name, "repaired")

    # The tanker at the scene

    def first_arrival(self, tanker):
        tanker.arrived = True
        self.has_arrived(tanker.spec.name)
        self.join_line(tanker, tanker.spec.full_load())

    def join_line(self, tanker, load):
        tanker.load = tanker.brought = load
        self.arrived += tanker.aboard()
        tanker.phase = "line"
        tanker.site = None
        self.line.append(tanker)
        self.log(tanker.spec.name, f"at the scene with {tanker.aboard():.3f} gal")

    def next_turn(self):
        self.turns += 1
        return self.turns

    def start_nursing(self, tanker):
        tanker.phase = "nursing"
        tanker.began = self.next_turn()
        self.log(tanker.spec.name, "nurses")
        if not self.plan.drop_tanks and self.established is None:
            self.establish()

    def start_dumping(self, tanker):
        tanker.phase = "dumping"
        tanker.began = self.next_turn()
        tanker.dump_left = tanker.curve.minutes(tanker.load)
        self.log(tanker.spec.name, f"dumps into {tanker.drop_tank.spec.name}")

    def end_loads(self):
        for tanker in self.tankers:
            if tanker.phase == "nursing" and tanker.load <= TINY_GAL:
                self.engine_level += tanker.load
                self.last_drop(tanker)
                tanker.phase = "nurse_disconnect"
                self.tanker_after(tanker, self.handling_minutes(tanker, "nurse_disconnect"), self.nurse_done)
            elif tanker.phase == "dumping" and dumped_out(tanker):
                tanker.drop_tank.level += tanker.load
                self.last_drop(tanker)
                line.clear(self, tanker)

    def last_drop(self, tanker):
        """What rounding left of a load goes where the rest went."""
        self.spilled += tanker.aboard() - tanker.load
        tanker.load = 0.0
        self.log(tanker.spec.name, "empty")

    def nurse_done(self, tanker):
        self.intakes_held -= 1
        self.trip_done(tanker)

    def dump_done(self, tanker):
        line.leave_position(self, tanker)
        self.trip_done(tanker)

    def trip_done(self, tanker):
        tanker.phase = "leaving"
        spec = tanker.spec
        trip = tanker.trips
        tanker.trips += 1
        self.log(spec.name, f"trip {tanker.trips} done")
        if self.luck.happens(spec.breakdown_per_trip, spec.name, "breakdown", trip):
            tanker.phase = "out of service"
            self.log(spec.name, "breaks down")
            if spec.repair is not None:
                self.tanker_after(tanker, self.luck.minutes(spec.repair, spec.name, "repair", trip), self.repaired)

    def repaired(self, tanker):
        tanker.phase = "leaving"
        self.log(tanker.spec.name, "repaired")

    # Prime

    def gain_prime(self):
        if self.pump not in ("waits for water", "lost") or self.pump_failed_at is not None:
            return
        if self.drop_tanks[0].level < self.restart_level - TINY_GAL:
            return
        if self.pump == "waits for water":
            self.pump = "primed"
            self.first_drawn = True
            self.establish()
            return
        self.pump = "repriming"
        self.log("pump", "repriming")
        unit = boss.drafting_unit(self)
        minutes = self.crew_minutes(self.plan.reprime, unit.name, "reprime", self.primes_lost)
        self.after(minutes, OPENINGS, 6, self.reprimed, self.primes_lost)

    def reprimed(self, primes_lost):
        if self.primes_lost == primes_lost:  # else it failed meanwhile
            self.pump = "primed"
            self.log("pump", "primed again")

    def establish(self):
        self.established = self.now
        self.log("supply", "established")

    def lose_prime(self):
        self.pump = "lost"
        self.primes_lost += 1
        self.log("pump", "prime lost")
