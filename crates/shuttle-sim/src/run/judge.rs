//! What is judged at the end of an instant: prime, shortfall, and why the lines are short.

use crate::luck::Purpose;
use crate::results::{Cause, Interruption, Subject};
use crate::run::calendar::Event;
use crate::run::shuttle::Shuttle;
use crate::run::tanker::Phase;
use crate::scene::Pump;
use crate::story::Happening;
use crate::time::Moment;

/// A shortfall shorter than this is no shortfall, minutes: rounding, not water.
const NO_LENGTH: f64 = 1e-6;

/// A shortfall that lacks less than this is as long as the tolerance, minutes.
const NEARLY: f64 = 1e-9;

impl Shuttle {
    /// Whether the pump gains prime, or begins to prime again, now that the level is there.
    ///
    /// - Returns: whether it did.
    pub(crate) fn prime(&mut self) -> bool {
        match self.scene.pump {
            Pump::NotHookedUp | Pump::Primed | Pump::Repriming => false,
            _ if self.draft.failed.is_some() || !self.scene.holds_restart_level() => false,
            Pump::WaitingForWater => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Primed;
                self.note(Happening::Primed);
                self.supply_is_established();
                true
            }
            Pump::PrimeLost => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Repriming;
                self.note(Happening::Repriming);
                let (key, trip) = (self.prepared.draft_key, self.draft.primes_lost);
                let time = self.draw_of(key, self.prepared.reprime, Purpose::Reprime, trip);
                self.calendar.set(Event::Pump, self.now + time);
                true
            }
        }
    }

    /// The pump can draw for the first time; without drop tanks, the first nurse is connected.
    pub(crate) fn supply_is_established(&mut self) {
        if self.tally.established.is_none() {
            self.scene.touch(self.now);
            self.tally.established = Some(self.now);
            self.scene.meter.is_established = true;
            self.scene.note_tank_levels();
        }
    }

    /// Works out the flows anew where anything moved; prime may be lost by it.
    ///
    /// - Returns: whether those at the scene are new.
    pub(crate) fn work_out_flows(&mut self) -> bool {
        let at_scene = self.scene.is_touched();
        if at_scene {
            if self.scene.solve(self.now) {
                self.prime_is_lost();
            }
            self.story.note_turn(self.now, &self.scene);
        }
        for site in &mut self.sites {
            site.solve(self.now);
        }
        at_scene
    }

    pub(crate) fn prime_is_lost(&mut self) {
        self.draft.primes_lost += 1;
        self.note(Happening::PrimeLost);
    }

    pub(crate) fn judge_shortfall(&mut self) {
        let is_short = self.scene.is_short();
        if is_short == self.scene.meter.is_short {
            return;
        }
        self.scene.meter.is_short = is_short;
        if is_short {
            let cause = self.cause();
            self.tally.shortfall = Some((self.now, cause, self.about(cause)));
            self.note(Happening::ShortfallBegan(self.scene.given_flow()));
        } else {
            self.close_shortfall();
            self.note(Happening::ShortfallEnded);
        }
    }

    /// The present shortfall, if there is one, ends now; it counts if it was long enough.
    pub(crate) fn close_shortfall(&mut self) {
        let Some((start, cause, about)) = self.tally.shortfall.take() else { return };
        let minutes = self.now.since(start).minutes();
        if self.counts(minutes) {
            let established = self.tally.established;
            self.tally.result.interruptions.push(Interruption {
                start: start.minutes(),
                minutes,
                before_supply: established.is_none_or(|established: Moment| start < established),
                cause,
                about,
            });
        }
    }

    /// Whether a shortfall of this length is an interruption.
    fn counts(&self, minutes: f64) -> bool {
        minutes >= (self.plan.facts().incident.tolerance - NEARLY).max(NO_LENGTH)
    }

    /// The cause of the first interruption, if there was one or the present shortfall is one by `until`, when
    /// it still lasts.
    pub(crate) fn broken_by(&self, until: Moment) -> Option<Cause> {
        if let Some(first) = self.tally.result.interruptions.first() {
            return Some(first.cause);
        }
        let (start, cause, _) = self.tally.shortfall?;
        self.counts(until.since(start).minutes()).then_some(cause)
    }

    /// Why the lines go short now: where the water is. The first that holds.
    fn cause(&self) -> Cause {
        let water_on_tankers = self.any_tanker(|phase, load| match phase {
            Phase::Nursing | Phase::Dumping { .. } => true,
            phase => phase.holds_water_at_scene() && load > 0.0,
        });
        let water_here = water_on_tankers || self.scene.has_water_somewhere();
        if self.tally.still_to_come > 0 && !water_here {
            Cause::NotCome
        } else if matches!(self.scene.pump, Pump::NotHookedUp | Pump::WaitingForWater)
            && !self.scene.tanks.is_empty()
            && water_here
        {
            Cause::DraftNotUp
        } else if self.draft.failed.is_some() {
            Cause::PumpFailed
        } else if self.scene.pump == Pump::Primed && self.scene.has_usable_water() {
            Cause::DraftOrLayTooSmall
        } else if matches!(self.scene.pump, Pump::PrimeLost | Pump::Repriming) {
            Cause::PrimeLost
        } else if self.any_tanker(|phase, _| self.waits_for_source(phase)) {
            Cause::SourceNotReady
        } else if self.any_tanker(|phase, _| matches!(phase, Phase::FillQueue { .. })) {
            Cause::FillSiteQueue
        } else if self.any_tanker(|phase, load| self.waits_to_deliver(phase, load)) {
            Cause::DumpSiteQueue
        } else if self.any_tanker(|phase, _| matches!(phase, Phase::Repair | Phase::OutOfService)) {
            Cause::OutOfService
        } else {
            Cause::HaulTooLong
        }
    }

    fn any_tanker(&self, is: impl Fn(Phase, f64) -> bool) -> bool {
        self.tankers.iter().any(|tanker| is(tanker.phase, tanker.load))
    }

    /// Whom or what a cause is about, where it is one.
    fn about(&self, cause: Cause) -> Option<Subject> {
        match cause {
            Cause::NotCome => self.should_have_come_first(),
            Cause::SourceNotReady => (0..self.tankers.len()).find_map(|tanker| {
                let phase = self.tankers[tanker].phase;
                let site = match phase {
                    Phase::StandBy => self.prepared.tankers[tanker].fill_site,
                    _ => phase.bound_for(),
                };
                site.filter(|_| self.waits_for_source(phase)).map(Subject::FillSite)
            }),
            _ => None,
        }
    }

    /// It waits for water at a source that is not ready, has run down or has failed, or stands by for one.
    fn waits_for_source(&self, phase: Phase) -> bool {
        match phase {
            Phase::StandBy => true,
            Phase::FillQueue { site } | Phase::Filling { site } => self.sites[site].gives_less(),
            _ => false,
        }
    }

    /// It has water at the scene and waits for a place, or for room.
    fn waits_to_deliver(&self, phase: Phase, load: f64) -> bool {
        match phase {
            Phase::InLine { .. } => load > 0.0,
            Phase::Dumping { tank } => self.scene.tanks[tank].is_full(),
            _ => false,
        }
    }
}
