//! One run of a plan, event by event.
//!
//! The loop goes from instant to instant. At each, everything that happens then is applied: level
//! crossings first, then the timers (places are freed, equipment is made ready, places are asked
//! for), then the queues are served; again until nothing more happens. Only then are prime and
//! shortfall judged.

use std::collections::VecDeque;

use crate::ahead::KnownAhead;
use crate::draws::{Draws, Luck, Purpose, UnitDraws};
use crate::fill_site::SiteState;
use crate::moment::{Moment, Ticks};
use crate::one_lane::LaneState;
use crate::phase::{Phase, TankerState};
use crate::plan::{Brought, Plan};
use crate::ready::{Ready, ReadyCall};
use crate::results::{Cause, RunResult};
use crate::sampler::Sampler;
use crate::scene::{Emptied, Pump, Scene};
use crate::timers::{Timer, Timers};
use crate::trace::{Happening, Note, Trace};

/// An instant with more rounds than this would never end: a bug, which must not hang.
const MOST_ROUNDS: u32 = 100_000;

/// Runs a plan again and again; the room for a run is made once.
#[derive(Debug)]
pub struct Shuttle {
    pub(crate) plan: Plan,
    pub(crate) ready: Ready,
    pub(crate) known_ahead: KnownAhead,
    pub(crate) draws: Draws,
    pub(crate) now: Moment,
    pub(crate) timers: Timers,
    pub(crate) scene: Scene,
    pub(crate) sites: Vec<SiteState>,
    /// When the next dump begins and whose, where that needs no timer; see `ahead`.
    pub(crate) next_dump: (Moment, usize),
    /// When something next happens at any fill site by itself.
    sites_next: Moment,
    /// Whether the flow at any fill site must be shared anew.
    pub(crate) sites_touched: bool,
    /// Whether a place was asked for or became free since the queues were served.
    pub(crate) places_moved: bool,
    pub(crate) lanes: Vec<LaneState>,
    pub(crate) tankers: Vec<TankerState>,
    pub(crate) scene_queue: VecDeque<usize>,
    pub(crate) free_intakes: u32,
    supply_engine_is_here: bool,
    /// Units and drop tanks that have not yet reached the scene.
    pub(crate) not_arrived: u32,
    pub(crate) out_of_service: u32,
    pub(crate) waiting_to_fill: u32,
    hook_up_scheduled: bool,
    pub(crate) primes_lost: u32,
    pub(crate) first_water: Moment,
    /// When the watch ends.
    pub(crate) end: Moment,
    pub(crate) established: Option<Moment>,
    /// When the present shortfall began and why; `None` while there is none.
    pub(crate) shortfall: Option<(Moment, Cause)>,
    /// Taken from each fill site, in whole millionths of a gallon: their sum does not depend on order.
    pub(crate) taken: Vec<u64>,
    /// How long places were held within the watch: at fill sites, at drop tanks, at the engine.
    pub(crate) fill_held: Vec<Ticks>,
    pub(crate) dump_held: Vec<Ticks>,
    pub(crate) intake_held: Ticks,
    keeps_levels: bool,
    pub(crate) result: RunResult,
    pub(crate) trace: Option<Trace>,
}

impl Shuttle {
    /// Makes room to run a plan.
    pub fn new(plan: &Plan) -> Shuttle {
        let facts = plan.facts();
        let tankers = facts.tankers.len();
        Shuttle {
            ready: Ready::new(plan),
            known_ahead: KnownAhead::new(plan),
            draws: Draws::new(Luck::Planned),
            now: Moment::ALARM,
            timers: Timers::new(
                tankers,
                facts.drop_tanks.len(),
                facts.fill_sites.len(),
                facts.incident.attack_flow.len(),
            ),
            scene: Scene::new(plan),
            sites: (facts.fill_sites.iter()).map(|site| SiteState::new(site, tankers)).collect(),
            next_dump: (Moment::NEVER, 0),
            sites_next: Moment::NEVER,
            sites_touched: false,
            places_moved: false,
            lanes: facts.one_lanes.iter().map(|_| LaneState::new(tankers)).collect(),
            tankers: vec![TankerState::responding(UnitDraws::Planned, 0.0, 0.0); tankers],
            scene_queue: VecDeque::with_capacity(tankers),
            free_intakes: 0,
            supply_engine_is_here: false,
            not_arrived: 0,
            out_of_service: 0,
            waiting_to_fill: 0,
            hook_up_scheduled: false,
            primes_lost: 0,
            first_water: Moment::NEVER,
            end: Moment::NEVER,
            established: None,
            shortfall: None,
            taken: vec![0; facts.fill_sites.len()],
            fill_held: vec![Ticks::NONE; facts.fill_sites.len()],
            dump_held: vec![Ticks::NONE; facts.drop_tanks.len()],
            intake_held: Ticks::NONE,
            keeps_levels: true,
            result: RunResult { interruptions: Vec::with_capacity(64), ..RunResult::default() },
            trace: None,
            plan: plan.clone(),
        }
    }

    /// The plan it runs.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Whether runs note the levels minute by minute (they do unless told otherwise); what happens in
    /// a run does not depend on it.
    pub fn keep_levels(&mut self, keep: bool) {
        self.keeps_levels = keep;
    }

    /// Runs the plan once. The same luck gives the same result, to the bit.
    pub fn run(&mut self, luck: Luck) -> &RunResult {
        self.begin(luck);
        let mut next = self.next_instant();
        while next < self.end {
            self.now = next;
            next = self.apply_instant();
        }
        self.finish();
        &self.result
    }

    /// Runs the plan once and tells the story.
    pub fn run_traced(&mut self, luck: Luck) -> (RunResult, Trace) {
        self.trace = Some(Trace::default());
        self.run(luck);
        (self.result.clone(), self.trace.take().unwrap_or_default())
    }

    fn next_instant(&self) -> Moment {
        let of_water = self.scene.next.min(self.sites_next);
        self.timers.next().min(self.next_dump.0).min(of_water)
    }

    /// Everything that happens at this instant, until nothing more does.
    ///
    /// - Returns: the next instant.
    #[inline(always)]
    fn apply_instant(&mut self) -> Moment {
        let mut flows_changed = false;
        for _ in 0..MOST_ROUNDS {
            if self.scene.next <= self.now {
                self.apply_scene_crossings();
            }
            if self.sites_next <= self.now {
                self.apply_site_crossings();
            }
            self.apply_timers();
            if self.next_dump.0 <= self.now {
                self.begin_next_dump();
            }
            if self.scene.is_touched() {
                self.judge_pump();
                flows_changed = true;
            }
            if self.trace.is_some() {
                self.note_course();
            }
            if self.sites_touched {
                self.share_sites();
            }
            let next = self.next_instant();
            if next > self.now {
                if flows_changed {
                    self.judge_shortfall();
                }
                return next;
            }
        }
        panic!("minute {} does not end", self.now.minutes());
    }

    #[inline]
    fn begin_next_dump(&mut self) {
        let (_, tanker) = std::mem::replace(&mut self.next_dump, (Moment::NEVER, 0));
        self.result.events += 1;
        self.begin_dump(tanker, 0);
    }

    /// All timers of this instant. Those applied may set others that run out at once, but no level
    /// moves before the flows are worked out anew.
    fn apply_timers(&mut self) {
        for _ in 0..MOST_ROUNDS {
            while let Some(timer) = self.timers.take_due(self.now) {
                self.apply(timer);
            }
            if !std::mem::take(&mut self.places_moved) {
                return;
            }
            self.serve_queues();
            if self.timers.next() > self.now {
                return;
            }
        }
        panic!("minute {} does not end", self.now.minutes());
    }

    /// Works out the flow at every fill site that was touched.
    fn share_sites(&mut self) {
        self.sites_touched = false;
        self.sites_next = Moment::NEVER;
        for site in &mut self.sites {
            site.solve(self.now);
            self.sites_next = self.sites_next.min(site.next);
        }
    }

    fn apply_scene_crossings(&mut self) {
        while let Some(emptied) = self.scene.settle(self.now) {
            self.result.events += 1;
            match emptied {
                Emptied::Dumper { tanker } => self.dumped(tanker),
                Emptied::Nurse { tanker } => self.pumped_off(tanker),
            }
        }
    }

    fn apply_site_crossings(&mut self) {
        self.sites_touched = true;
        for site in 0..self.sites.len() {
            while let Some(filling) = self.sites[site].take_finished(self.now) {
                self.result.events += 1;
                self.filled(filling.tanker, site, filling.taken());
            }
            if std::mem::take(&mut self.sites[site].just_went_dry) {
                self.note(Happening::FillSiteDry(site));
                while let Some(tanker) = self.sites[site].queue.pop_front() {
                    self.waiting_to_fill -= 1;
                    self.leave_dry_site(tanker, site);
                }
            }
        }
    }

    #[inline]
    fn apply(&mut self, timer: Timer) {
        self.result.events += 1;
        match timer {
            Timer::TankerLeavesSite(tanker)
            | Timer::TankerFrees(tanker)
            | Timer::TankerGoesOn(tanker) => {
                self.tanker_is_done(tanker as usize);
            }
            once => self.apply_once(once),
        }
    }

    /// What comes once or a few times in a run.
    #[cold]
    fn apply_once(&mut self, timer: Timer) {
        match timer {
            Timer::TankerLeavesSite(_) | Timer::TankerFrees(_) | Timer::TankerGoesOn(_) => {}
            Timer::AttackEngineArrives => {
                self.scene.touch(self.now);
                self.scene.engine_is_here = true;
                self.places_moved = true;
                self.note(Happening::AttackEngineArrived);
                self.unit_arrived(&Brought::ByAttackEngine);
            }
            Timer::FirstWater => self.note(Happening::FirstWater),
            Timer::AttackFlowSteps(step) => {
                let flow = self.plan.facts().incident.attack_flow[step as usize].flow;
                self.scene.touch(self.now);
                self.scene.wanted = flow;
                self.note(Happening::FlowWanted(flow));
            }
            Timer::SupplyEngineArrives => {
                self.supply_engine_is_here = true;
                self.note(Happening::SupplyEngineArrived);
                self.unit_arrived(&Brought::BySupplyEngine);
            }
            Timer::DropTankArrives(tank) => {
                self.not_arrived -= 1;
                self.set_up_drop_tank(tank as usize);
            }
            Timer::DropTankReady(tank) => {
                self.scene.touch(self.now);
                self.scene.tanks[tank as usize].is_ready = true;
                self.places_moved = true;
                self.note(Happening::DropTankReady(tank as usize));
                self.hook_up_if_all_is_there();
            }
            Timer::HookedUp => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::WaitingForWater;
                self.note(Happening::HookedUp);
            }
            Timer::Reprimed => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Primed;
                self.note(Happening::PrimeBack);
            }
            Timer::FillSiteReady(site) => {
                self.sites[site as usize].is_ready = true;
                self.places_moved = true;
                self.note(Happening::FillSiteReady(site as usize));
            }
        }
    }

    /// A unit has reached the scene, with the drop tanks it brings.
    pub(crate) fn unit_arrived(&mut self, unit: &Brought) {
        self.not_arrived -= 1;
        for tank in 0..self.ready.tanks.len() {
            if self.ready.tanks[tank].brought == *unit {
                self.set_up_drop_tank(tank);
            }
        }
        self.hook_up_if_all_is_there();
    }

    fn set_up_drop_tank(&mut self, tank: usize) {
        self.note(Happening::DropTankArrived(tank));
        let (setup, key) = (self.ready.tanks[tank].setup, self.ready.tanks[tank].key);
        let setup = self.time(&setup, key, Purpose::Setup, 0);
        self.timers.schedule(self.now + setup, Timer::DropTankReady(tank as u32));
    }

    /// The draft is hooked up some time after the pump has arrived and the first drop tank is ready.
    fn hook_up_if_all_is_there(&mut self) {
        let pump_is_here = match self.ready.supply_engine {
            Some(_) => self.supply_engine_is_here,
            None => self.scene.engine_is_here,
        };
        let tank_is_ready = self.scene.tanks.first().is_some_and(|tank| tank.is_ready);
        if pump_is_here && tank_is_ready && !self.hook_up_scheduled {
            self.hook_up_scheduled = true;
            let setup = self.ready.draft_setup;
            let setup = self.time(&setup, self.ready.draft_key, Purpose::Setup, 0);
            self.timers.schedule(self.now + setup, Timer::HookedUp);
        }
    }

    fn begin(&mut self, luck: Luck) {
        self.draws = Draws::new(luck);
        self.now = Moment::ALARM;
        self.timers.clear();
        self.scene.reset(self.trace.is_none());
        self.sites.iter_mut().for_each(SiteState::reset);
        self.next_dump = (Moment::NEVER, 0);
        self.sites_next = Moment::NEVER;
        self.sites_touched = false;
        self.places_moved = false;
        self.lanes.iter_mut().for_each(LaneState::reset);
        self.scene_queue.clear();
        self.free_intakes = self.plan.facts().attack_engine.intakes;
        self.supply_engine_is_here = false;
        self.not_arrived = 1;
        self.out_of_service = 0;
        self.waiting_to_fill = 0;
        self.hook_up_scheduled = false;
        self.primes_lost = 0;
        self.established = None;
        self.shortfall = None;
        self.taken.fill(0);
        self.fill_held.fill(Ticks::NONE);
        self.dump_held.fill(Ticks::NONE);
        self.intake_held = Ticks::NONE;
        self.result.reset(&self.plan);
        self.schedule_calls();
    }

    fn schedule_calls(&mut self) {
        let arrives = self.arrival(&self.ready.attack_engine);
        let attack_key = self.ready.attack_engine.key;
        self.first_water =
            arrives + self.time(&self.ready.water_on, attack_key, Purpose::WaterOn, 0);
        self.end = self.first_water.after(self.plan.facts().incident.duration);
        self.scene.end = self.end;
        self.timers.schedule(arrives, Timer::AttackEngineArrives);
        self.timers.schedule(self.first_water, Timer::FirstWater);
        for step in 0..self.plan.facts().incident.attack_flow.len() {
            let from = self.plan.facts().incident.attack_flow[step].from;
            let timer = Timer::AttackFlowSteps(step as u32);
            self.timers.schedule(self.first_water.after(from), timer);
        }
        if let Some(call) = &self.ready.supply_engine {
            let arrives = self.arrival(call);
            self.not_arrived += 1;
            self.timers.schedule(arrives, Timer::SupplyEngineArrives);
        }
        for tank in 0..self.ready.tanks.len() {
            if let Some(call) = &self.ready.tanks[tank].call {
                let arrives = self.arrival(call);
                self.not_arrived += 1;
                self.timers.schedule(arrives, Timer::DropTankArrives(tank as u32));
            }
        }
        for site in 0..self.sites.len() {
            let ready = &self.ready.sites[site];
            let ready = Moment::ALARM + self.time(&ready.ready, ready.key, Purpose::Ready, 0);
            self.sites[site].places.reset(ready);
            self.timers.schedule(ready, Timer::FillSiteReady(site as u32));
        }
        for tanker in 0..self.tankers.len() {
            let ready = &self.ready.tankers[tanker];
            let (arrives, load) = (self.arrival(&ready.call), ready.fill * (1.0 - ready.waste));
            let waste = ready.fill - load;
            self.not_arrived += 1;
            let draws = self.draws.of(ready.call.key);
            self.tankers[tanker] = TankerState::responding(draws, load, waste);
            self.timers.schedule(arrives, Timer::TankerGoesOn(tanker as u32));
        }
        self.result.first_water = self.first_water.minutes();
        self.result.end = self.end.minutes();
        if self.keeps_levels {
            self.scene.record.start_marks(self.first_water, self.end);
        }
    }

    fn arrival(&self, call: &ReadyCall) -> Moment {
        let response = self.time(&call.response, call.key, Purpose::Response, 0);
        Moment::ALARM.after(call.requested_at) + response
    }

    pub(crate) fn time(&self, time: &Sampler, who: u64, purpose: Purpose, trip: u32) -> Ticks {
        self.draws.of(who).time(time, &self.ready.tables, purpose, trip)
    }

    fn finish(&mut self) {
        let end = self.end;
        self.now = end;
        self.scene.touch(end);
        if let Some(began) = self.shortfall {
            self.close_shortfall(began);
        }
        for tanker in 0..self.tankers.len() {
            self.release_held(tanker);
        }
        self.settle_part_loads();
        for site in 0..self.sites.len() {
            self.sites[site].advance(end);
        }
        let scene = &self.scene;
        let result = &mut self.result;
        result.remaining = scene.water_held();
        result.remaining += scene
            .tanks
            .iter()
            .flat_map(|tank| tank.pouring.loads())
            .map(|(_, load)| load)
            .sum::<f64>();
        result.remaining += scene.nurses.iter().map(|nurse| nurse.load).sum::<f64>();
        for tanker in &self.tankers {
            if tanker.phase.holds_water_at_scene() {
                result.remaining += tanker.load + tanker.waste;
            }
        }
        result.established = self.established.map(Moment::minutes);
        result.intake_held = self.intake_held.minutes();
        result.taken.extend(self.taken.iter().map(|millionths| *millionths as f64 / 1e6));
        result.fill_held.extend(self.fill_held.iter().map(|held| held.minutes()));
        result.dump_held.extend(self.dump_held.iter().map(|held| held.minutes()));
        for (record, tanker) in result.tankers.iter_mut().zip(&self.tankers) {
            record.trips = tanker.trips;
            if record.cycles > 0 {
                record.parts = tanker.all_parts.map(Ticks::span);
            }
        }
        let record = &scene.record;
        result.minutes_short = record.minutes_short;
        result.unmet = record.unmet;
        result.delivered = record.delivered;
        result.wanted = record.wanted;
        result.reserve_touched = record.reserve_touched;
        result.lowest_engine = record.lowest_engine;
        for (lowest, tank) in result.lowest_tanks.iter_mut().zip(&scene.tanks) {
            *lowest = tank.lowest;
        }
        result.levels.extend_from_slice(&record.levels);
        self.note(Happening::WatchEnded);
        self.note_course();
    }

    /// Writes a line of the story, if one is being told.
    #[inline(always)]
    pub(crate) fn note(&mut self, happening: Happening) {
        if self.trace.is_some() {
            self.write_note(happening);
        }
    }

    #[cold]
    fn write_note(&mut self, happening: Happening) {
        if let Some(trace) = &mut self.trace {
            trace.notes.push(Note { minute: self.now.minutes(), happening });
            self.scene.levels_at(self.now, &mut trace.levels);
        }
    }

    #[inline(always)]
    pub(crate) fn note_tanker(&mut self, tanker: usize, phase: Phase) {
        if self.trace.is_some() {
            self.write_note(Happening::Tanker(tanker, phase.doing()));
        }
    }

    #[cold]
    fn note_course(&mut self) {
        if let Some(trace) = &mut self.trace {
            let mut levels = Vec::new();
            self.scene.levels_at(self.now, &mut levels);
            trace.course.push((self.now.minutes(), levels));
        }
    }
}

impl RunResult {
    fn reset(&mut self, plan: &Plan) {
        let facts = plan.facts();
        let tanks = facts.drop_tanks.len();
        self.established = None;
        self.interruptions.clear();
        self.lowest_tanks.clear();
        self.lowest_tanks.resize(tanks, f64::INFINITY);
        self.tankers.clear();
        self.tankers.resize(facts.tankers.len(), Default::default());
        self.fill_held.clear();
        self.dump_held.clear();
        self.taken.clear();
        self.arrived = facts.attack_engine.tank;
        self.spilled = 0.0;
        self.levels.clear();
        self.events = 0;
    }
}
