//! The scene where all flows are steady: one drop tank, nobody pours by gravity, nobody nurses.
//!
//! Most plans are so for most of the time, and most of a run's time goes into the scene. Each of these
//! gives what its namesake in `scene` and `flows` gives, to the bit, and is asked only while no story is
//! told; `tests/laws/known_ahead.rs` holds them together.

use super::{Emptied, Pump, SAME_LEVEL, Scene};
use crate::flow::{Flow, SAME_RATE, least, most};
use crate::moment::Moment;

impl Scene {
    /// Whether these may be asked now.
    #[inline]
    pub(super) fn goes_steady(&self) -> bool {
        self.short_way && self.nurses.is_empty()
    }

    #[inline]
    pub(super) fn advance_steady(&mut self, minutes: f64) {
        let [tank] = &mut self.tanks[..] else { return };
        tank.pouring.run(minutes * tank.pace);
        tank.gallons += tank.net.rate * minutes;
        tank.level = either(tank.net.rate != 0.0, tank.level_held(), tank.level);
        if self.record.is_established {
            tank.lowest = least(tank.lowest, tank.level);
        }
        if self.lay_flow.rate != 0.0 {
            self.lay_filled += self.lay_flow.rate * minutes;
        }
        let mut lowest_within = self.engine_level;
        if self.engine_net.rate != 0.0 {
            let level = self.engine_level + self.engine_net.rate * minutes;
            lowest_within = most(least(lowest_within, level), 0.0);
            self.engine_gallons += self.engine_net.rate * minutes;
            self.engine_level = self.engine_level_held();
        }
        self.record.passed(minutes, self.wanted, self.delivered.rate * minutes, lowest_within);
    }

    /// What `settle` does once it has brought the levels to `now`.
    #[inline]
    pub(super) fn settle_steady(&mut self, now: Moment) -> Option<Emptied> {
        self.next = Moment::NEVER;
        if self.tanks[0].crosses_at <= now {
            self.tank_meets_bound(0);
        }
        self.settle_engine_and_lay(now);
        let [tank] = &mut self.tanks[..] else { return None };
        if tank.empty_at > now {
            return None;
        }
        let tanker = tank.take_empty(now)?;
        self.next = tank.empty_at;
        Some(Emptied::Dumper { tanker })
    }

    #[inline]
    pub(super) fn solve_steady(&mut self, now: Moment) -> bool {
        let [tank] = &mut self.tanks[..] else { return false };
        let engine_full = self.engine_level >= self.engine_tank - SAME_LEVEL;
        let mut could_take = self.wanted + if engine_full { 0.0 } else { self.tank_refill };
        let lay_fills = self.lay_filled < self.lay_volume;
        if lay_fills {
            could_take = if self.engine_is_here { self.wanted + self.tank_refill } else { 0.0 };
        }
        let is_primed = self.pump == Pump::Primed;
        let mut drawn = if is_primed { least(could_take, self.draft_limit) } else { 0.0 };
        let poured = tank.pouring.unhindered().rate;
        let lacks = drawn - poured > SAME_RATE;
        let mut prime_lost = false;
        let is_held = tank.is_full() & !lacks & (poured - drawn > -SAME_RATE);
        if is_primed & lacks & (tank.level <= tank.unusable) & !is_held {
            if self.throttles {
                drawn = poured;
            } else {
                self.pump = Pump::PrimeLost;
                prime_lost = true;
                drawn = 0.0;
            }
        }
        let dumped = either(is_held, drawn, poured);
        tank.is_held = is_held;
        tank.dumped = Flow::steady(dumped);
        tank.net = Flow::steady(dumped - drawn);
        tank.set_pace();
        let waits = matches!(self.pump, Pump::WaitingForWater | Pump::PrimeLost);
        tank.find_crossing(now, waits.then_some(self.restart_level));
        tank.find_first_empty(now);
        let mut next = tank.crosses_at.min(tank.empty_at);

        let supply = if lay_fills { 0.0 } else { drawn };
        let is_met = self.engine_level > 0.0 || supply - self.wanted >= -SAME_RATE;
        let delivered = if is_met { self.wanted } else { supply };
        self.delivered = Flow::steady(delivered);
        self.engine_net = Flow::steady(supply - delivered);
        self.find_engine_crossing(now);
        next = next.min(self.engine_crosses_at);
        self.lay_flow = Flow::steady(drawn - supply);
        if lay_fills {
            let left = self.lay_volume - self.lay_filled;
            self.lay_full_at = now.after(self.lay_flow.minutes_to_pass(left));
            next = next.min(self.lay_full_at);
        }
        // While the pump waits for its level, getting there is an event.
        if self.engine_net.rate == 0.0 && !lay_fills && !waits {
            next = self.fill_ahead(now, drawn).unwrap_or(next);
        }
        self.next = next;
        prime_lost
    }

    /// A drop tank that gets full while a tanker dumps needs no event for that, where nothing else
    /// moves: from then on it is held, the lines get what they got, and when the load is gone is known
    /// now.
    ///
    /// - Returns: when the load is gone, which is the next event; `None` where there is no such thing.
    #[inline]
    fn fill_ahead(&mut self, now: Moment, drawn: f64) -> Option<Moment> {
        let [tank] = &mut self.tanks[..] else { return None };
        let fills_at = tank.crosses_at;
        let is_next = now < fills_at && fills_at < tank.empty_at && fills_at < self.end;
        if !is_next || tank.bound != tank.capacity {
            return None;
        }
        let poured = tank.pouring.unhindered().rate;
        let span = fills_at.since(now).span();
        let gallons = tank.gallons + tank.net.rate * span;
        let (s, load) = tank.pouring.first_rest_after(span)?;
        let minutes =
            if load <= SAME_LEVEL { 0.0 } else { (poured * s + gallons - tank.capacity) / drawn };
        let empty_at = fills_at.after(minutes);
        if empty_at <= fills_at {
            // At one instant with what else is due then, which may come first.
            return None;
        }
        tank.empty_at = empty_at;
        tank.crosses_at = Moment::NEVER;
        self.fills_at = fills_at;
        self.draws_then = drawn;
        Some(empty_at)
    }

    /// What the event of a drop tank that gets full would have done.
    pub(super) fn fill_up(&mut self) {
        let fills_at = std::mem::replace(&mut self.fills_at, Moment::NEVER);
        self.advance_to(fills_at);
        let [tank] = &mut self.tanks[..] else { return };
        tank.bound = tank.capacity;
        tank.meet_bound();
        tank.is_held = true;
        tank.dumped = Flow::steady(self.draws_then);
        tank.net = Flow::NONE;
        tank.set_pace();
    }
}

/// One or the other without a branch: to guess wrong takes longer than to have both.
#[inline(always)]
pub(super) fn either(is_one: bool, one: f64, other: f64) -> f64 {
    let mask = u64::from(is_one).wrapping_neg();
    f64::from_bits((one.to_bits() & mask) | (other.to_bits() & !mask))
}
