//! One drop tank: its level, who is at it, and when its level next meets a bound.

use super::flow::{Flow, LEAST_TURN, SAME_LEVEL};
use super::pouring::{Pour, Pouring};
use crate::plan::DropTank;
use crate::time::{Moment, Ticks};

/// A drop tank's state.
#[derive(Debug)]
pub(crate) struct TankState {
    pub capacity: f64,
    pub unusable: f64,
    pub(super) transfer: f64,
    pub level: f64,
    /// When what brings it came.
    pub arrived: Option<Moment>,
    pub is_ready: bool,
    pub free_positions: u32,
    /// Tankers at it: positioning or dumping.
    pub at_it: u32,
    /// What those positioning here will deliver, gal.
    coming: f64,
    pub(super) pouring: Pouring,
    /// What is dumped into it.
    pub(super) dumped: Flow,
    /// Whether it is full and its dumpers follow what leaves it.
    pub(super) is_held: bool,
    /// How fast its pour clock runs while what is poured and what leaves are steady.
    pace: f64,
    /// Whether it passes on just what is dumped into it, when transfers share what fits.
    pub(super) is_capped: bool,
    /// What it passes to the first tank.
    pub(super) sent: Flow,
    pub(super) net: Flow,
    /// When the next of those that dump here is empty, as far as is known now.
    pub(super) empty_at: Moment,
    pub(super) crosses_at: Moment,
    pub(super) bound: f64,
    /// What it holds to the last drop, gal. Its level is set to a bound that it meets within a part of
    /// a tick; what flowed in that part is neither lost nor made, or later events would drift away from
    /// round times.
    pub(super) gallons: f64,
    /// Lowest level since the supply was established, gal; infinite before.
    pub lowest: f64,
}

impl TankState {
    pub(super) fn new(tank: &DropTank, tankers: usize) -> TankState {
        TankState {
            capacity: tank.capacity,
            unusable: tank.unusable,
            transfer: tank.transfer,
            level: 0.0,
            arrived: None,
            is_ready: false,
            free_positions: tank.dump_positions,
            at_it: 0,
            coming: 0.0,
            pouring: Pouring::new(tankers.min(tank.dump_positions as usize)),
            dumped: Flow::NONE,
            is_held: false,
            pace: 0.0,
            is_capped: false,
            sent: Flow::NONE,
            net: Flow::NONE,
            empty_at: Moment::NEVER,
            crosses_at: Moment::NEVER,
            bound: 0.0,
            gallons: 0.0,
            lowest: f64::INFINITY,
        }
    }

    pub(super) fn reset(&mut self, tank: &DropTank) {
        let mut pouring = std::mem::take(&mut self.pouring);
        pouring.reset();
        *self = TankState { pouring, ..TankState::new(tank, 0) };
    }

    /// Whether a dump position here can be given to a tanker.
    pub fn is_open(&self) -> bool {
        self.is_ready && self.free_positions > 0
    }

    pub fn is_full(&self) -> bool {
        self.level >= self.capacity
    }

    /// Whether it holds water above its unusable level.
    pub fn has_usable_water(&self) -> bool {
        self.level > self.unusable + SAME_LEVEL
    }

    /// Whether it is full, someone dumps, and nothing can be poured: no water leaves it.
    pub(super) fn stands_still(&self) -> bool {
        self.is_held && !self.pouring.is_idle() && self.dumped == Flow::NONE
    }

    /// A tanker takes a position, to deliver so much.
    pub fn take_position(&mut self, load: f64) {
        self.free_positions -= 1;
        self.at_it += 1;
        self.coming += load;
    }

    /// A tanker in position begins to dump.
    pub(super) fn begin_dump(&mut self, tanker: usize, load: f64, pour: Pour) {
        self.coming = if self.at_it == 1 { 0.0 } else { self.coming - load };
        self.pouring.add(tanker, load, pour);
    }

    /// Pour-clock minutes in this many minutes.
    fn poured_for(&self, minutes: f64) -> f64 {
        if self.is_held && !self.is_steady() {
            self.pouring.minutes_for(self.dumped.over(minutes))
        } else {
            minutes * self.pace
        }
    }

    /// The level `minutes` after the flows were worked out.
    pub fn level_after(&self, minutes: f64) -> f64 {
        (self.level + self.net.over(minutes)).max(0.0).min(self.capacity)
    }

    /// What those at it still have to deliver, `minutes` after the flows were worked out, gal.
    pub(super) fn rests_after(&self, minutes: f64) -> f64 {
        if self.at_it == 0 {
            return 0.0;
        }
        let poured_for = self.poured_for(minutes);
        self.coming + self.pouring.rests_after(poured_for).map(|(_, rest)| rest).sum::<f64>()
    }

    /// Room less what those at it still bring, `minutes` after the flows were worked out, gal; negative where
    /// that is more.
    pub fn unclaimed_after(&self, minutes: f64) -> f64 {
        self.capacity - self.level_after(minutes) - self.rests_after(minutes)
    }

    /// How its room is claimed from `minutes` after the flows were worked out, as they are now, and what is unclaimed
    /// then; `None` if that stays as it is.
    pub fn claimed_from(&self, minutes: f64) -> Option<(Flow, f64)> {
        // Dumping only moves water from rests to level.
        let claimed = (self.net - self.dumped).after(minutes);
        (!claimed.passes_nothing()).then(|| (claimed, self.unclaimed_after(minutes)))
    }

    /// Whether what is poured into it, while it is held, stays as it is.
    pub(super) fn is_steady(&self) -> bool {
        self.dumped.slope == 0.0 && self.pouring.unhindered().slope == 0.0
    }

    /// Notes how fast the pour clock runs: as fast as time where it has room, and not at all where
    /// nobody pours.
    pub(super) fn set_pace(&mut self) {
        let poured = self.pouring.unhindered().rate;
        self.pace = if poured <= 0.0 {
            0.0
        } else if self.is_held {
            self.dumped.rate / poured
        } else {
            1.0
        };
    }

    pub(super) fn advance(&mut self, minutes: f64) {
        let poured_for = self.poured_for(minutes);
        self.pouring.run(poured_for);
        if self.net != Flow::NONE {
            self.gallons += self.net.over(minutes);
            self.level = self.level_held();
        }
    }

    /// Notes its level now, for the lowest.
    pub fn note_level(&mut self) {
        self.lowest = self.lowest.min(self.level);
    }

    /// The level with what it holds: within its bounds, whatever the rounding.
    pub(super) fn level_held(&self) -> f64 {
        self.gallons.max(0.0).min(self.capacity)
    }

    /// Holds so much more, or less: what belongs to a part of a tick. A level at a bound stays there.
    pub(super) fn change_by(&mut self, gallons: f64) {
        self.gallons += gallons;
        if self.level > self.unusable && self.level < self.capacity {
            self.level = self.level_held();
        }
    }

    /// The level has met its bound, within a part of a tick.
    pub(super) fn meet_bound(&mut self) {
        self.level = self.bound;
        self.crosses_at = Moment::NEVER;
    }

    /// Takes out a tanker whose load is gone now, if there is one; the next is asked for anew.
    pub(super) fn take_empty(&mut self, now: Moment) -> Option<usize> {
        if self.empty_at > now {
            return None;
        }
        let Some((tanker, beyond)) = self.pouring.take_empty() else {
            self.empty_at = Moment::NEVER;
            return None;
        };
        self.at_it -= 1;
        // What has run out beyond the load, or is still to come of it, in a part of a tick.
        self.change_by(-beyond);
        let also = self.pouring.first_rest().is_some_and(|(s, load)| {
            Ticks::of(s) == Ticks::NONE || (self.is_held && load <= SAME_LEVEL)
        });
        self.empty_at = if also { now } else { Moment::NEVER };
        Some(tanker)
    }

    /// A tanker gives up dumping here; returns its rest, gal.
    pub(super) fn take_off(&mut self, tanker: usize) -> f64 {
        self.at_it -= 1;
        self.pouring.take(tanker)
    }

    /// When its level meets a bound; `restart` is the level that the pump waits for, if it waits.
    pub(super) fn find_crossing(&mut self, now: Moment, restart: Option<f64>) {
        self.crosses_at = Moment::NEVER;
        let (level, net) = (self.level, self.net);
        if net == Flow::NONE {
            return;
        }
        let up = if level < self.unusable {
            self.unusable
        } else {
            let restart = restart.filter(|restart| level < restart - SAME_LEVEL);
            restart.unwrap_or(self.capacity)
        };
        (self.crosses_at, self.bound) = net.meets(now, up, self.unusable, |bound| {
            let (way, left) = (bound - level, bound - self.gallons);
            // A part of a tick does not turn a level round, nor take it away from where it stands.
            if way * left > 0.0 { left } else { way }
        });
        if self.bound == level {
            // A level that turns back to where it stands does so a moment later: time always goes on.
            self.crosses_at = self.crosses_at.max(now.after(LEAST_TURN));
        }
    }

    /// When the next load is gone. While the tank is held the sum poured is known until then.
    pub(super) fn find_first_empty(&mut self, now: Moment) {
        let Some((s, load)) = self.pouring.first_rest() else {
            self.empty_at = Moment::NEVER;
            return;
        };
        let minutes = if !self.is_held {
            s
        } else if load <= SAME_LEVEL {
            // Rounding must not keep a tanker at a drop tank that its load fills to the brim.
            0.0
        } else if self.dumped == Flow::NONE {
            f64::INFINITY
        } else if self.is_steady() {
            // What is beyond its brim is still to leave it as well.
            (self.pouring.unhindered().rate * s + self.gallons - self.level) / self.dumped.rate
        } else {
            self.dumped.minutes_to_pass(self.pouring.poured_in(s) + self.gallons - self.level)
        };
        self.empty_at = now.after(minutes);
    }
}
