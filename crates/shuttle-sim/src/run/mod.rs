//! One run of a plan: the loop from instant to instant, and the order within one.
//!
//! Read in this order: `prepared` (the plan made ready), `calendar` (the event list), `tanker` (what one tanker
//! does), `tally` (what is counted), `boss` (what the tanker boss judges), `shuttle` (what a run is made of); then
//! `callout` (who comes, what opens, what fails), and the rules: `line` (rules 1 to 4), `dump_site` (rules 3 and 5), `haul` (rules 6 to 8), `judge`.

mod boss;
mod calendar;
mod callout;
mod dump_site;
mod haul;
mod judge;
mod line;
mod prepared;
mod shuttle;
mod tally;
mod tanker;

#[cfg(test)]
mod tests;

pub use shuttle::Shuttle;

use crate::causes::Cause;
use crate::luck::Luck;
use crate::results::RunResult;
use crate::road::Way;
use crate::story::{Happening, Trace};
use crate::time::Moment;
use calendar::Event;
use tanker::Phase;

/// An instant with more rounds than this would never end: a bug, which must not hang.
const MOST_ROUNDS: u32 = 100_000;

impl Shuttle {
    /// Runs the plan once. The same luck gives the same result, to the bit.
    pub fn run(&mut self, luck: Luck) -> &RunResult {
        self.run_on(luck, false);
        &self.tally.result
    }

    /// Runs the plan only until it is certain that the lines are interrupted.
    ///
    /// - Returns: the cause of the first interruption; `None` if there is none, after the whole watch. It is
    ///   the first that [`run`](Shuttle::run) counts with the same luck.
    pub fn first_break(&mut self, luck: Luck) -> Option<Cause> {
        self.run_on(luck, true);
        self.broken_by(self.now)
    }

    /// Runs until the watch is over, or the lines are certain to be interrupted.
    fn run_on(&mut self, luck: Luck, until_broken: bool) {
        self.begin(luck);
        let mut next = self.calendar.next();
        while next < self.tally.end {
            self.now = next;
            next = self.instant();
            if until_broken {
                // The present shortfall, if there is one, lasts until then.
                let lasts_until = next.min(self.tally.end);
                if self.broken_by(lasts_until).is_some() {
                    self.now = lasts_until;
                    return;
                }
            }
        }
        self.finish();
    }

    /// Runs the plan once and tells the story.
    pub fn run_traced(&mut self, luck: Luck) -> (RunResult, Trace) {
        self.story.begin();
        self.run(luck);
        (self.tally.result.clone(), self.story.take())
    }

    /// Everything that happens at this instant, in the model's order; whenever anything happened that may lead
    /// to more, again from the top. Only then are prime and shortfall judged, and last of all who pulls clear
    /// with a rest.
    ///
    /// What happens leads to more by being due at once, which the calendar knows, or by a change that an earlier
    /// step looks at: those three say so.
    ///
    /// - Returns: the next instant.
    fn instant(&mut self) -> Moment {
        for _ in 0..MOST_ROUNDS {
            self.apply_due();
            if self.scene.next <= self.now {
                self.end_loads();
            }
            if self.sites_next <= self.now {
                self.end_fills();
            }
            let leaving = !self.leaving.is_empty() || !self.standing_by.is_empty();
            let left = leaving && self.tankers_leave();
            if std::mem::take(&mut self.may_enter_a_lane) {
                self.serve_lanes();
            }
            if std::mem::take(&mut self.may_begin_to_fill) {
                self.serve_fill_sites();
            }
            let broke_off = self.serve_line();
            let primes = self.prime();
            if left || broke_off || primes || self.calendar.next() <= self.now {
                continue;
            }
            let flows_are_new = self.work_out_flows();
            if flows_are_new && self.pull_clear_with_a_rest() {
                continue;
            }
            let next = self.next_instant(flows_are_new);
            if next > self.now {
                self.judge_shortfall();
                return next;
            }
        }
        panic!("minute {} does not end", self.now.minutes());
    }

    fn next_instant(&mut self, flows_are_new: bool) -> Moment {
        let next = self.calendar.next().min(self.scene.next).min(self.sites_next);
        next.min(self.when_a_load_fits(next, flows_are_new))
    }

    /// Everything that is due by the clock.
    fn apply_due(&mut self) {
        while let Some(event) = self.calendar.take_due(self.now) {
            self.tally.result.events += 1;
            match event {
                Event::AttackEngineArrives => self.attack_engine_arrives(),
                Event::FirstWater => self.note(Happening::FirstWater),
                Event::AttackFlowSteps => self.attack_flow_steps(),
                Event::SupplyEngineArrives => self.supply_engine_is_due(),
                Event::DropTank(tank) => self.drop_tank_is_due(tank),
                Event::FillSiteReady(site) => self.fill_site_is_due(site),
                Event::Pump => self.pump_is_due(),
                Event::PumpFails => self.pump_fails_or_is_repaired(),
                Event::FillSiteFails(site) => self.fill_site_fails_or_is_repaired(site),
                Event::Tanker(tanker) => self.tanker_is_due(tanker),
            }
        }
    }

    /// The time of its present phase is over.
    fn tanker_is_due(&mut self, tanker: usize) {
        match self.tankers[tanker].phase {
            Phase::Responding => self.tanker_comes(tanker),
            Phase::NurseConnect => self.begin_nursing(tanker),
            Phase::NurseDisconnect => {
                self.scene.engine.free_intakes += 1;
                self.head_may_go();
                self.trip_done(tanker);
            }
            Phase::DumpPosition(tank) => self.begin_dumping(tanker, tank),
            Phase::DumpClear(tank) => {
                self.scene.tanks[tank].free_positions += 1;
                self.head_may_go();
                self.trip_done(tanker);
            }
            Phase::BreakOff(_) => self.broke_off(tanker),
            Phase::Repair => self.repaired(tanker),
            // That its time has come is enough: it looks again as others leave.
            Phase::StandBy => {}
            Phase::LaneCross { lane, way, site } => self.crossed(tanker, lane, way, site),
            Phase::TravelOut(site) => self.drove(tanker, Way::Out, site),
            Phase::TravelBack(site) => self.drove(tanker, Way::Back, site),
            Phase::FillConnect(site) => self.begin_filling(tanker, site),
            Phase::FillDisconnect(site) => self.left_fill_position(tanker, site),
            Phase::InLine { .. }
            | Phase::Nursing
            | Phase::Dumping(_)
            | Phase::Leaving
            | Phase::OutOfService
            | Phase::LaneWait { .. }
            | Phase::FillQueue(_)
            | Phase::Filling(_) => {
                unreachable!("tanker {tanker} finished what has no set time")
            }
        }
    }

    /// The watch is over.
    fn finish(&mut self) {
        self.now = self.tally.end;
        self.scene.touch(self.now);
        self.close_shortfall();
        for tanker in &self.tankers {
            if let Some(place) = tanker.phase.place() {
                self.tally.held(place, tanker.since, self.now);
            }
        }
        self.tally.close(&self.scene, &self.tankers);
        self.note(Happening::WatchEnded);
        self.story.note_turn(self.now, &self.scene);
    }
}
