//! One run of a plan, event by event.
//!
//! The loop goes from instant to instant. At each, everything that happens then is applied: level
//! crossings first, then the timers (places are freed, equipment is made ready, places are asked
//! for), then the queues are served; again until nothing more happens. Only then are prime and
//! shortfall judged.

use std::collections::VecDeque;

use crate::draws::{Draws, Luck, UnitDraws};
use crate::fill_site::SiteState;
use crate::moment::{Moment, Ticks};
use crate::one_lane::LaneState;
use crate::phase::TankerState;
use crate::plan::Plan;
use crate::ready::Ready;
use crate::results::{Cause, RunResult};
use crate::scene::{Emptied, Scene};
use crate::timers::{Due, Timers};
use crate::trace::{Happening, Trace};

/// An instant with more rounds than this would never end: a bug, which must not hang.
const MOST_ROUNDS: u32 = 100_000;

/// Runs a plan again and again; the room for a run is made once.
#[derive(Debug)]
pub struct Shuttle {
    pub(crate) plan: Plan,
    pub(crate) ready: Ready,
    pub(crate) draws: Draws,
    pub(crate) now: Moment,
    pub(crate) timers: Timers,
    pub(crate) scene: Scene,
    pub(crate) sites: Vec<SiteState>,
    /// When something next happens at any fill site by itself.
    pub(crate) sites_next: Moment,
    /// Whether the flow at any fill site must be shared anew.
    pub(crate) sites_touched: bool,
    /// Whether a place was asked for or became free since the queues were served.
    pub(crate) places_moved: bool,
    pub(crate) lanes: Vec<LaneState>,
    pub(crate) tankers: Vec<TankerState>,
    pub(crate) scene_queue: VecDeque<usize>,
    pub(crate) free_intakes: u32,
    pub(crate) supply_engine_is_here: bool,
    /// Units and drop tanks that have not yet reached the scene.
    pub(crate) not_arrived: u32,
    pub(crate) out_of_service: u32,
    pub(crate) waiting_to_fill: u32,
    pub(crate) hook_up_scheduled: bool,
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
    pub(crate) keeps_levels: bool,
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
        self.timers.next().min(of_water)
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

    /// All timers of this instant. Those applied may set others that run out at once, but no level
    /// moves before the flows are worked out anew.
    fn apply_timers(&mut self) {
        for _ in 0..MOST_ROUNDS {
            while let Some(due) = self.timers.take_due(self.now) {
                self.result.events += 1;
                match due {
                    Due::Tanker(tanker) => self.tanker_is_done(tanker),
                    Due::Once(once) => self.apply_once(once),
                }
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
}
