//! A whole dump at once, where nothing comes between its beginning and its end.
//!
//! While the pump draws what the lines want and nobody else pours, a load's whole course is known when
//! it begins: the drop tank rises or falls, or gets full and holds the tanker back, until the load is
//! gone. Nothing is asked of the scene meanwhile, so it is brought past all of it in one step, through
//! the same numbers in the same order as event by event: the bits are the same
//! (`tests/laws/known_ahead.rs`).

use super::steady::either;
use super::{Pump, SAME_LEVEL, Scene};
use crate::dumping::Pour;
use crate::flow::{Flow, SAME_RATE, least, most};
use crate::moment::{Moment, Ticks};

/// The pump draws what the lines want, and nothing but the only drop tank's level moves: whoever begins
/// to pour changes nothing else.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Evenly {
    /// What the pump draws, gpm.
    drawn: f64,
}

impl Scene {
    /// Whether everything runs evenly now. It does until something else comes to the scene than one load
    /// after the other, or [`Scene::next`].
    pub fn runs_evenly(&self) -> Option<Evenly> {
        let [tank] = &self.tanks[..] else { return None };
        let engine_full = self.engine_level >= self.engine_tank - SAME_LEVEL;
        let could_take = self.wanted + if engine_full { 0.0 } else { self.tank_refill };
        let drawn = least(could_take, self.draft_limit);
        let is_even = self.goes_steady()
            && !self.touched
            && self.pump == Pump::Primed
            && tank.pouring.is_idle()
            && self.lay_filled >= self.lay_volume
            && self.engine_net.rate == 0.0
            && !self.record.is_short
            && drawn == self.wanted
            && drawn > SAME_RATE;
        is_even.then_some(Evenly { drawn })
    }

    /// Brings everything past a load that begins to pour at `now` into the only drop tank, alone.
    ///
    /// - Returns: when the load is gone, later than `now` and so long before `until` that the tanker is
    ///   clear by then; `None`, with nothing done, where that is not known: then it must come event by
    ///   event.
    #[inline]
    pub fn dump_ahead(
        &mut self,
        even: Evenly,
        now: Moment,
        load: f64,
        pour: Pour,
        until: Moment,
        clear: Ticks,
    ) -> Option<Moment> {
        if now <= self.at || now >= self.next {
            return None;
        }
        let drawn = even.drawn;
        let Pour::Steady { rate: poured } = pour else { return None };
        let [tank] = &mut self.tanks[..] else { return None };
        let (capacity, unusable) = (tank.capacity, tank.unusable);
        let held = |gallons| least(most(gallons, 0.0), capacity);

        let before = now.since(self.at).span();
        let mut gallons = tank.gallons + tank.net.rate * before;
        let begins_with = either(tank.net.rate != 0.0, held(gallons), tank.level);
        if begins_with <= unusable {
            return None;
        }
        let mut level = begins_with;
        let mut clock = tank.pouring.clock();
        let gone_at = clock + load / poured;
        let mut gone = now.after(gone_at - clock);

        // Unhindered while there is room.
        let net = poured - drawn;
        let (mut fills_at, mut unhindered) = (now, 0.0);
        if begins_with < capacity || net <= -SAME_RATE {
            let bound = if net > 0.0 { capacity } else { unusable };
            let (way, left) = (bound - level, bound - gallons);
            let left = if way * left > 0.0 { left } else { way };
            fills_at = now.after(Flow::steady(net).minutes_to_pass(left));
            if fills_at == gone || (fills_at < gone && net < 0.0) {
                return None;
            }
            unhindered = fills_at.min(gone).since(now).span();
            clock += unhindered;
            gallons += net * unhindered;
            level = either(net != 0.0, held(gallons), level);
        }
        let lowest = least(begins_with, level);

        // Held back once it is full.
        let mut held_for = 0.0;
        if fills_at < gone {
            level = capacity;
            let rest = gone_at - clock;
            let minutes = if poured * rest <= SAME_LEVEL {
                0.0
            } else {
                (poured * most(rest, 0.0) + gallons - capacity) / drawn
            };
            gone = fills_at.after(minutes);
            if gone <= fills_at {
                return None;
            }
            held_for = gone.since(fills_at).span();
            clock += held_for * (drawn / poured);
        }

        // What is beyond the load, or still to come of it, in a part of a tick.
        gallons += poured * (gone_at - clock);
        if level > unusable && level < capacity {
            level = held(gallons);
        }
        if gone <= now || gone + clear >= until || level <= unusable {
            return None;
        }

        if self.record.next_mark() <= gone {
            self.note_marks(now);
            let full_at = fills_at.min(gone);
            self.note_marks_from(now, begins_with, if full_at > now { net } else { 0.0 }, full_at);
            self.note_marks_from(full_at, capacity, 0.0, gone);
        }
        let [tank] = &mut self.tanks[..] else { return None };
        tank.pouring.set_clock(clock);
        (tank.gallons, tank.level) = (gallons, level);
        if self.record.is_established {
            tank.lowest = least(tank.lowest, lowest);
        }
        tank.is_held = false;
        tank.dumped = Flow::NONE;
        tank.net = Flow::steady(-drawn);
        tank.pace = 0.0;
        tank.empty_at = Moment::NEVER;
        // It falls from here on, until the next load comes or prime is lost.
        let (way, left) = (unusable - level, unusable - gallons);
        let left = if left < 0.0 { left } else { way };
        tank.crosses_at = gone.after(left / -drawn);
        tank.bound = unusable;
        self.next = tank.crosses_at;
        self.at = gone;
        let (wanted, engine) = (self.wanted, self.engine_level);
        self.record.passed(before, wanted, self.delivered.rate * before, engine);
        self.delivered = Flow::steady(wanted);
        self.record.passed(unhindered, wanted, wanted * unhindered, engine);
        self.record.passed(held_for, wanted, wanted * held_for, engine);
        Some(gone)
    }

    /// Notes the marks until then of a drop tank that from a moment on holds so much, and gains so much
    /// a minute.
    #[cold]
    fn note_marks_from(&mut self, from: Moment, level: f64, net: f64, until: Moment) {
        let [tank] = &mut self.tanks[..] else { return };
        (tank.level, tank.net) = (level, Flow::steady(net));
        self.at = from;
        self.note_marks(until);
    }
}
