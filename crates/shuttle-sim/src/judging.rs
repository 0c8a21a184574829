//! What is judged once everything of an instant has been applied: whether the pump can draw, whether
//! the lines are short, and why.

use crate::draws::Purpose;
use crate::engine::Shuttle;
use crate::moment::Moment;
use crate::results::{Cause, Interruption};
use crate::scene::Pump;
use crate::timers::Once;
use crate::trace::Happening;

/// A shortfall shorter than this is no shortfall, minutes: rounding, not water.
const NO_LENGTH: f64 = 1e-6;

/// A shortfall that lacks less than this is as long as the tolerance, minutes.
const NEARLY: f64 = 1e-9;

impl Shuttle {
    /// Whether the pump can draw, now that everything of this instant has been applied.
    #[inline]
    pub(crate) fn judge_pump(&mut self) {
        match self.scene.pump {
            Pump::WaitingForWater if self.scene.holds_restart_level() => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Primed;
                self.note(Happening::Primed);
                self.supply_established();
            }
            Pump::PrimeLost if self.scene.holds_restart_level() => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Repriming;
                self.note(Happening::Repriming);
                let (key, time) = (self.ready.draft_key, self.primes_lost);
                let reprime = self.time(&self.ready.reprime, key, Purpose::Reprime, time);
                self.timers.schedule(self.now + reprime, Once::Reprimed);
            }
            _ => {}
        }
        if self.scene.solve(self.now) {
            self.primes_lost += 1;
            self.note(Happening::PrimeLost);
        }
    }

    pub(crate) fn supply_established(&mut self) {
        if self.established.is_none() {
            self.scene.touch(self.now);
            self.established = Some(self.now);
            self.scene.record.is_established = true;
            self.scene.note_tank_levels();
        }
    }

    #[inline]
    pub(crate) fn judge_shortfall(&mut self) {
        let is_short = self.scene.is_short();
        if is_short == self.scene.record.is_short {
            return;
        }
        self.scene.record.is_short = is_short;
        if is_short {
            self.shortfall = Some((self.now, self.cause()));
            self.note(Happening::ShortfallBegan);
        } else if let Some(began) = self.shortfall {
            self.close_shortfall(began);
            self.note(Happening::ShortfallEnded);
        }
    }

    pub(crate) fn close_shortfall(&mut self, (start, cause): (Moment, Cause)) {
        self.shortfall = None;
        let minutes = self.now.since(start).minutes();
        let tolerance = self.plan.facts().incident.tolerance;
        if minutes >= (tolerance - NEARLY).max(NO_LENGTH) {
            self.result.interruptions.push(Interruption {
                start: start.minutes(),
                minutes,
                before_supply: self.established.is_none_or(|established| start < established),
                cause,
            });
        }
    }

    /// Why the lines go short now: where the water is.
    #[cold]
    pub(crate) fn cause(&self) -> Cause {
        if self.not_arrived > 0 {
            Cause::AidNotArrived
        } else if self.scene.pump == Pump::Primed && self.scene.has_usable_water() {
            Cause::DraftOrLayTooSmall
        } else if self.scene.pump != Pump::Primed && self.scene.has_water_somewhere() {
            Cause::PrimeLost
        } else if self.someone_waits_to_fill() {
            Cause::FillSiteQueue
        } else if self.someone_waits_to_dump() {
            Cause::DumpSiteQueue
        } else if self.out_of_service > 0 {
            Cause::OutOfService
        } else {
            Cause::HaulTooLong
        }
    }

    fn someone_waits_to_fill(&self) -> bool {
        self.waiting_to_fill > 0
    }

    fn someone_waits_to_dump(&self) -> bool {
        !self.scene_queue.is_empty()
    }
}
