"""One run of the shuttle, event by event.

An instant goes like this:
1. Everything due by the clock is applied: first what opens (units, drop tanks, the pump's hook-up, steps of the attack
   flow, fill sites), then the tankers in the order of the scenario; and again while anything due is left.
2. What the levels decide and what waits is served, in the order of `serve`; if that made anything due now, back to 1.
3. Then prime and shortfall are judged, and the clock goes to whatever comes next.
"""

import heapq
import math

from flows import advance, dumped_out, flows_now, minutes_to_next_change
from ramps import INSTANT, TINY_GAL
from scenario import Luck
from state import DropTankState, Lane, SiteState, TankerState

OPENINGS, TANKERS = 0, 1
STEPS_WITHOUT_PROGRESS = 100_000


class Run:
    def __init__(self, plan, seed=1, replication=0, planned=False):
        self.plan = plan
        self.luck = Luck(seed, replication, planned)
        self.now = 0.0
        self.agenda = []
        self.entries = 0
        self.events = []
        self.engine_here = False
        self.engine_level = float(plan.engine_tank)
        self.demand = 0.0
        self.pump = "not hooked up"  # then "waits for water", "primed", "lost", "repriming"
        self.pump_here = False
        self.hook_up_due = False
        self.primes_lost = 0
        self.lay_left = float(plan.lay_volume)
        self.intakes_held = 0
        self.drop_tanks = []
        for n, spec in enumerate(plan.drop_tanks):
            counts_from = plan.restart_level if n == 0 else min(spec.unusable + 300, spec.capacity)
            self.drop_tanks.append(DropTankState(spec, counts_from))
        self.tankers = [TankerState(spec, n) for n, spec in enumerate(plan.tankers)]
        self.sites = [SiteState(spec) for spec in plan.fill_sites]
        self.lanes = [Lane(near, crossing, f"lane {n + 1}") for n, (near, crossing) in enumerate(plan.one_lane)]
        self.scene_queue = []
        self.established = None
        self.delivered = self.spilled = self.arrived = self.unmet = self.minutes_short = 0.0
        self.lowest_engine_tank = self.engine_level
        self.open_shortfall = None
        self.interruptions = []

    # The clock

    def after(self, minutes, order, index, action, *details):
        self.entries += 1
        heapq.heappush(self.agenda, (self.now + minutes, order, index, self.entries, action, details))

    def log(self, who, what):
        self.events.append([self.now, who, what])

    def run(self):
        self.begin()
        still, last = 0, -1.0
        while True:
            self.apply_events()
            flows = flows_now(self)
            if flows.prime_fails:
                self.lose_prime()
                flows = flows_now(self)
            if self.now >= self.end - INSTANT:
                break
            minutes = minutes_to_next_change(self, flows)
            if self.agenda:
                minutes = min(minutes, self.agenda[0][0] - self.now)
            minutes = max(0.0, min(minutes, self.end - self.now))
            if minutes > INSTANT:
                self.judge_shortfall(flows)
            if flows.short:
                self.minutes_short += minutes
                self.unmet += self.demand * minutes - flows.delivered.gallons(minutes)
            advance(self, flows, minutes)
            self.now += minutes
            self.keep_lowest()
            still = 0 if self.now > last + INSTANT else still + 1
            last = self.now if still == 0 else last
            if still > STEPS_WITHOUT_PROGRESS:
                raise RuntimeError(f"no time passes at minute {self.now}")
        if self.open_shortfall:
            self.close_shortfall(self.end)
        return self

    def begin(self):
        plan, luck = self.plan, self.luck
        engine = plan.engine
        engine_comes = engine.requested_at + luck.minutes(engine.response, engine.name, "response")
        self.start = engine_comes + luck.minutes(plan.water_on, engine.name, "water_on")
        self.end = self.start + plan.duration
        self.after(engine_comes, OPENINGS, 0, self.engine_arrives)
        for minute, flow in plan.attack_flow:
            self.after(self.start + minute, OPENINGS, 1, self.set_demand, flow)
        if plan.supply_engine:
            unit = plan.supply_engine
            comes = unit.requested_at + luck.minutes(unit.response, unit.name, "response")
            self.after(comes, OPENINGS, 2, self.supply_engine_arrives)
        for tank in self.drop_tanks:
            if tank.spec.brought_by is None:
                unit = tank.spec.comes
                comes = unit.requested_at + luck.minutes(unit.response, unit.name, "response")
                self.after(comes, OPENINGS, 3, self.drop_tank_arrives, tank)
        for site in self.sites:
            ready = luck.minutes(site.spec.ready, site.spec.name, "ready")
            self.after(ready, OPENINGS, 4, self.site_ready, site)
        for tanker in self.tankers:
            spec = tanker.spec
            comes = spec.requested_at + luck.minutes(spec.response, spec.name, "response")
            self.after(comes, TANKERS, tanker.index, self.first_arrival, tanker)

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

    # What opens

    def engine_arrives(self):
        self.engine_here = True
        self.arrived += self.plan.engine_tank
        self.log(self.plan.engine.name, "arrives")
        self.has_arrived(self.plan.engine.name)
        if self.plan.supply_engine is None:
            self.pump_here = True
            self.plan_hook_up()

    def supply_engine_arrives(self):
        name = self.plan.supply_engine.name
        self.log(name, "arrives")
        self.has_arrived(name)
        self.pump_here = True
        self.plan_hook_up()

    def has_arrived(self, name):
        for tank in self.drop_tanks:
            if tank.spec.brought_by == name:
                self.drop_tank_arrives(tank)

    def drop_tank_arrives(self, tank):
        tank.arrived = True
        setup = self.luck.minutes(tank.spec.comes.setup, tank.spec.name, "setup")
        self.after(setup, OPENINGS, 3, self.drop_tank_ready, tank)

    def drop_tank_ready(self, tank):
        tank.ready = True
        self.log(tank.spec.name, "ready")
        self.plan_hook_up()

    def plan_hook_up(self):
        if self.hook_up_due or not self.drop_tanks:
            return
        if self.pump_here and self.drop_tanks[0].ready:
            self.hook_up_due = True
            who = self.plan.supply_engine or self.plan.engine
            setup = self.luck.minutes(self.plan.pump_setup, who.name, "pump setup")
            self.after(setup, OPENINGS, 5, self.hook_up)

    def hook_up(self):
        self.pump = "waits for water"
        self.log("pump", "hooked up")

    def set_demand(self, flow):
        self.demand = flow
        self.log("attack lines", f"{flow} gpm")

    def site_ready(self, site):
        site.ready = True
        self.log(site.spec.name, "ready")

    # The tanker's cycle

    def tanker_after(self, tanker, what, action):
        minutes = self.luck.minutes(tanker.spec.handling[what], tanker.spec.name, what, tanker.trips)
        tanker.phase = what
        self.after(minutes, TANKERS, tanker.index, action, tanker)

    def first_arrival(self, tanker):
        tanker.arrived = True
        self.has_arrived(tanker.spec.name)
        self.join_scene_queue(tanker, tanker.spec.fill_gal())

    def join_scene_queue(self, tanker, brought):
        self.arrived += brought
        tanker.load = brought * (1 - tanker.spec.waste)
        tanker.phase = "scene queue"
        self.scene_queue.append(tanker)
        self.log(tanker.spec.name, f"at the scene with {brought:.3f} gal")

    def start_nursing(self, tanker):
        tanker.phase = "nursing"
        self.log(tanker.spec.name, "nurses")
        if not self.drop_tanks and self.established is None:
            self.establish()

    def start_dumping(self, tanker):
        tanker.phase = "dumping"
        tanker.dump_left = tanker.curve.minutes(tanker.load)
        self.log(tanker.spec.name, f"dumps into {tanker.drop_tank.spec.name}")

    def nurse_done(self, tanker):
        self.intakes_held -= 1
        self.trip_done(tanker)

    def dump_done(self, tanker):
        tanker.drop_tank.positions_held -= 1
        tanker.drop_tank = None
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
                minutes = self.luck.minutes(spec.repair, spec.name, "repair", trip)
                self.after(minutes, TANKERS, tanker.index, self.repaired, tanker)

    def repaired(self, tanker):
        tanker.phase = "leaving"
        self.log(tanker.spec.name, "repaired")

    def depart(self, tanker):
        site = self.choose_site(tanker)
        if site is None:
            tanker.phase = "out of service"
            self.log(tanker.spec.name, "no fill site can give it half a load")
            return
        tanker.phase = "out"
        tanker.site = site
        tanker.route = self.lanes_near("scene") + ["leg"] + self.lanes_near(site.spec.name)
        self.log(tanker.spec.name, f"leaves for {site.spec.name}")
        self.drive_on(tanker)

    def choose_site(self, tanker):
        if tanker.spec.fill_site is not None:
            return next(site for site in self.sites if site.spec.name == tanker.spec.fill_site)
        best, best_minutes = None, math.inf
        for site in self.sites:
            if site.volume is not None and site.volume < tanker.spec.capacity / 2 - TINY_GAL:
                continue
            minutes = self.expected_minutes(tanker, site)
            if minutes < best_minutes - INSTANT:
                best, best_minutes = site, minutes
        return best

    def expected_minutes(self, tanker, site):
        spec, handling = tanker.spec, tanker.spec.handling
        at_or_on_the_way = ("out", "fill queue", "fill_connect", "filling", "fill_disconnect")
        ahead = sum(1 for other in self.tankers if other.site is site and other.phase in at_or_on_the_way)
        service = (
            spec.fill_gal() / min(spec.fill_limit, site.spec.flow)
            + handling["fill_connect"].mean()
            + handling["fill_disconnect"].mean()
        )
        return site.spec.out.mean() + site.spec.back.mean() + service * (1 + ahead // site.spec.positions)

    def lanes_near(self, where):
        return [lane for lane in self.lanes if lane.near == where]

    def drive_on(self, tanker):
        """The next stretch of the way out or back; at its end, the arrival."""
        if not tanker.route:
            if tanker.phase == "out":
                tanker.phase = "fill queue"
                tanker.site.queue.append(tanker)
                self.log(tanker.spec.name, f"at {tanker.site.spec.name}")
            else:
                self.join_scene_queue(tanker, tanker.spec.fill_gal() - tanker.fill_left)
            return
        stretch = tanker.route.pop(0)
        if stretch == "leg":
            leg = tanker.site.spec.out if tanker.phase == "out" else tanker.site.spec.back
            what = f"{tanker.phase} {tanker.site.spec.name}"
            minutes = self.luck.minutes(leg, tanker.spec.name, what, tanker.trips)
            self.after(minutes, TANKERS, tanker.index, self.drive_on, tanker)
        else:
            stretch.waiting.append((tanker, tanker.phase))

    def enter_lane(self, lane, tanker):
        lane.crossers += 1
        what = f"{lane.name} {tanker.phase}"
        minutes = self.luck.minutes(lane.crossing, tanker.spec.name, what, tanker.trips)
        self.after(minutes, TANKERS, tanker.index, self.leave_lane, lane, tanker)
        self.log(tanker.spec.name, f"enters {lane.name} {tanker.phase}")

    def leave_lane(self, lane, tanker):
        lane.crossers -= 1
        self.drive_on(tanker)

    def start_filling(self, tanker):
        tanker.phase = "filling"
        tanker.site.filling.append(tanker)
        self.log(tanker.spec.name, "fills")

    def fill_done(self, tanker):
        tanker.site.positions_held -= 1
        self.head_back(tanker)

    def head_back(self, tanker):
        tanker.phase = "back"
        tanker.route = self.lanes_near(tanker.site.spec.name)[::-1] + ["leg"] + self.lanes_near("scene")[::-1]
        self.log(tanker.spec.name, f"leaves {tanker.site.spec.name}")
        self.drive_on(tanker)

    # What the levels decide and what waits

    def serve(self):
        """Serves everything that can be served now; true if anything was."""
        before = self.entries, len(self.events)
        self.end_loads()
        self.end_fills()
        for tanker in self.tankers:
            if tanker.phase == "leaving":
                self.depart(tanker)
        self.serve_lanes()
        self.serve_sites()
        self.serve_scene_queue()
        self.gain_prime()
        return (self.entries, len(self.events)) != before

    def end_loads(self):
        for tanker in self.tankers:
            if tanker.phase == "nursing" and tanker.load <= TINY_GAL:
                self.engine_level += tanker.load
                self.last_drop(tanker)
                self.tanker_after(tanker, "nurse_disconnect", self.nurse_done)
            elif tanker.phase == "dumping" and dumped_out(tanker):
                tanker.drop_tank.level += tanker.load
                self.last_drop(tanker)
                self.tanker_after(tanker, "dump_clear", self.dump_done)

    def last_drop(self, tanker):
        """What rounding left of a load goes where the rest went."""
        self.spilled += tanker.waste_aboard()
        tanker.load = 0.0
        self.log(tanker.spec.name, "empty")

    def end_fills(self):
        for site in self.sites:
            drawn = min(site.spec.flow, sum(tanker.spec.fill_limit for tanker in site.filling))
            runs_dry = site.dry() and drawn > site.spec.recharge
            for tanker in list(site.filling):
                if runs_dry or tanker.fill_left <= TINY_GAL:
                    if tanker.fill_left <= TINY_GAL:
                        tanker.fill_left = 0.0
                    site.filling.remove(tanker)
                    self.log(tanker.spec.name, "site dry" if tanker.fill_left > 0 else "full")
                    self.tanker_after(tanker, "fill_disconnect", self.fill_done)
            if site.dry() and (runs_dry or site.spec.recharge <= 0):
                for tanker in site.queue:
                    tanker.fill_left = tanker.spec.fill_gal()
                    self.head_back(tanker)
                site.queue.clear()

    def serve_lanes(self):
        for lane in self.lanes:
            if lane.crossers == 0 and lane.waiting:
                lane.direction = lane.waiting[0][1]
            entering = [entry for entry in lane.waiting if entry[1] == lane.direction]
            lane.waiting = [entry for entry in lane.waiting if entry[1] != lane.direction]
            for tanker, _ in entering:
                self.enter_lane(lane, tanker)

    def serve_sites(self):
        for site in self.sites:
            while site.ready and site.queue and site.positions_held < site.spec.positions:
                tanker = site.queue.pop(0)
                site.positions_held += 1
                tanker.fill_left = tanker.spec.fill_gal()
                self.tanker_after(tanker, "fill_connect", self.start_filling)

    def serve_scene_queue(self):
        while self.scene_queue:
            tanker = self.scene_queue[0]
            if self.intake_open():
                self.intakes_held += 1
                self.tanker_after(tanker, "nurse_connect", self.start_nursing)
            else:
                tank = self.open_drop_tank(tanker.load)
                if tank is None:
                    return
                tanker.drop_tank = tank
                tank.positions_held += 1
                self.tanker_after(tanker, "dump_position", self.start_dumping)
            self.scene_queue.pop(0)

    def intake_open(self):
        nursing_over = self.drop_tanks and self.pump != "not hooked up"
        free = self.intakes_held < self.plan.intakes
        return self.engine_here and self.plan.nurse and not nursing_over and free

    def open_drop_tank(self, load):
        free = [t for t in self.drop_tanks if t.ready and t.positions_held < t.spec.dump_positions]
        if not free:
            return None
        for tank in free:
            if tank.room() >= load - TINY_GAL:
                return tank
        most = max(tank.room() for tank in free)
        return next(tank for tank in free if tank.room() >= most - TINY_GAL)

    def gain_prime(self):
        if self.pump not in ("waits for water", "lost"):
            return
        if self.drop_tanks[0].level < self.plan.restart_level - TINY_GAL:
            return
        if self.pump == "waits for water":
            self.pump = "primed"
            self.establish()
            return
        self.pump = "repriming"
        self.log("pump", "repriming")
        who = (self.plan.supply_engine or self.plan.engine).name
        self.after(
            self.luck.minutes(self.plan.reprime, who, "reprime", self.primes_lost), OPENINGS, 6, self.reprimed
        )

    def reprimed(self):
        self.pump = "primed"
        self.log("pump", "primed again")

    def establish(self):
        self.established = self.now
        self.log("supply", "established")

    # What is judged

    def lose_prime(self):
        self.pump = "lost"
        self.primes_lost += 1
        self.log("pump", "prime lost")

    def judge_shortfall(self, flows):
        if flows.short and self.open_shortfall is None:
            self.open_shortfall = (self.now, self.cause(), self.established is not None)
            self.log("attack lines", "short")
        elif not flows.short and self.open_shortfall is not None:
            self.close_shortfall(self.now)
            self.log("attack lines", "whole")

    def close_shortfall(self, end):
        start, cause, after = self.open_shortfall
        self.open_shortfall = None
        if end - start > INSTANT and end - start >= self.plan.tolerance - INSTANT:
            when = "after" if after else "before"
            self.interruptions.append({"start": start, "end": end, "cause": cause, "when": when})

    def cause(self):
        """Read from where the water is now, the first that holds."""
        usable = [tank.level > tank.spec.unusable + TINY_GAL for tank in self.drop_tanks]
        tanks_here = all(tank.arrived for tank in self.drop_tanks)
        if not (all(tanker.arrived for tanker in self.tankers) and self.pump_here and tanks_here):
            return "aid_not_arrived"
        if self.pump == "primed" and usable[0]:
            return "draft_or_lay_too_small"
        if self.pump != "primed" and any(usable):
            return "prime_lost"
        if any(site.queue for site in self.sites):
            return "fill_site_queue"
        if self.scene_queue:
            return "dump_site_queue"
        if any(tanker.phase == "out of service" for tanker in self.tankers):
            return "out_of_service"
        return "haul_too_long"

    def keep_lowest(self):
        if self.now >= self.start - INSTANT:
            self.lowest_engine_tank = min(self.lowest_engine_tank, self.engine_level)
        for tank in self.drop_tanks:
            if tank.lowest is not None:
                tank.lowest = min(tank.lowest, tank.level)
            elif tank.level >= tank.counts_from - TINY_GAL:
                tank.lowest = tank.level

    def still_there(self):
        """Water on scene at the end: engine tank, drop tanks, lay, and what tankers at the scene have not yet dumped."""
        at_the_scene = ("scene queue", "nurse_connect", "nursing", "dump_position", "dumping")
        aboard = sum(t.load + t.waste_aboard() for t in self.tankers if t.phase in at_the_scene)
        engine = self.engine_level if self.engine_here else 0
        lay = self.plan.lay_volume - self.lay_left
        return engine + lay + aboard + sum(tank.level for tank in self.drop_tanks)

    def result(self):
        reserve_touched = self.lowest_engine_tank < self.plan.reserve - TINY_GAL
        return {
            "established": self.established,
            "first_water": self.start,
            "interruptions": self.interruptions,
            "minutes_short": self.minutes_short,
            "unmet_gal": self.unmet,
            "delivered_gal": self.delivered,
            "spilled_gal": self.spilled,
            "arrived_gal": self.arrived,
            "still_there_gal": self.still_there(),
            "reserve_touched": reserve_touched,
            "lowest_engine_tank": self.lowest_engine_tank,
            "lowest_drop_tanks": [tank.lowest for tank in self.drop_tanks],
            "tankers": [{"name": t.spec.name, "trips": t.trips} for t in self.tankers],
            "events": self.events,
        }
