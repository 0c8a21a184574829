//! What is judged once everything of an instant has been applied: whether the pump can draw, whether
//! the lines are short, and why.

use crate::draws::Purpose;
use crate::engine::Shuttle;
use crate::results::{Cause, Interruption};
use crate::scene::Pump;
use crate::timers::{SAME_INSTANT, Timer};
use crate::trace::Happening;

/// A shortfall shorter than this is no shortfall, minutes: rounding, not water.
const NO_LENGTH: f64 = 1e-6;

impl Shuttle {
    /// Whether the pump can draw, now that everything of this instant has been applied.
    pub(crate) fn judge_pump(&mut self) {
        if self.scene.holds_restart_level() {
            match self.scene.pump {
                Pump::WaitingForWater => {
                    self.scene.touch(self.now);
                    self.scene.pump = Pump::Primed;
                    self.note(Happening::Primed);
                    self.supply_established();
                }
                Pump::PrimeLost => {
                    self.scene.touch(self.now);
                    self.scene.pump = Pump::Repriming;
                    self.note(Happening::Repriming);
                    let reprime = self.ready.reprime;
                    let (key, time) = (self.ready.draft_key, self.primes_lost);
                    let minutes = self.minutes(&reprime, key, Purpose::Reprime, time);
                    self.timers.schedule(self.now + minutes, Timer::Reprimed);
                }
                Pump::NotHookedUp | Pump::Primed | Pump::Repriming => {}
            }
        }
        if self.scene.solve(self.now) {
            self.primes_lost += 1;
            self.note(Happening::PrimeLost);
        }
    }

    pub(crate) fn supply_established(&mut self) {
        if self.result.established.is_none() {
            self.scene.touch(self.now);
            self.result.established = Some(self.now);
            self.scene.record.is_established = true;
            self.scene.note_tank_levels();
        }
    }

    pub(crate) fn judge_shortfall(&mut self) {
        let is_short = self.scene.is_short();
        match (self.shortfall, is_short) {
            (None, true) => {
                self.shortfall = Some((self.now, self.cause()));
                self.note(Happening::ShortfallBegan);
            }
            (Some(began), false) => {
                self.close_shortfall(began);
                self.note(Happening::ShortfallEnded);
            }
            _ => {}
        }
        self.scene.record.is_short = is_short;
    }

    pub(crate) fn close_shortfall(&mut self, (start, cause): (f64, Cause)) {
        self.shortfall = None;
        let minutes = self.now - start;
        let tolerance = self.plan.facts().incident.tolerance;
        if minutes >= (tolerance - SAME_INSTANT).max(NO_LENGTH) {
            let established = self.result.established;
            self.result.interruptions.push(Interruption {
                start,
                minutes,
                before_supply: established.is_none_or(|established| start < established),
                cause,
            });
        }
    }

    /// Why the lines go short now: where the water is.
    pub(crate) fn cause(&self) -> Cause {
        if self.not_arrived > 0 {
            Cause::AidNotArrived
        } else if self.scene.pump == Pump::Primed && self.scene.has_usable_water() {
            Cause::DraftOrLayTooSmall
        } else if self.scene.pump != Pump::Primed && self.scene.has_water_somewhere() {
            Cause::PrimeLost
        } else if self.waiting_to_fill > 0 {
            Cause::FillSiteQueue
        } else if !self.scene_queue.is_empty() {
            Cause::DumpSiteQueue
        } else if self.out_of_service > 0 {
            Cause::OutOfService
        } else {
            Cause::HaulTooLong
        }
    }
}
