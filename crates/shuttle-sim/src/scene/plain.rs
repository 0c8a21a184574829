//! The flows where all of them are steady: one drop tank, nobody pours by gravity, nobody nurses.
//!
//! Most plans are so for most of the time. It gives what `flows` gives, to the bit, and is asked only
//! while no story is told; `tests/laws/of_luck.rs` holds them together.

use super::{Pump, SAME_LEVEL, Scene};
use crate::flow::{Flow, SAME_RATE};
use crate::moment::Moment;

impl Scene {
    /// As `solve` would.
    pub(super) fn solve_plain(&mut self, now: Moment) -> bool {
        let tank = &mut self.tanks[0];
        let engine_full = self.engine_level >= self.engine_tank - SAME_LEVEL;
        let takes = self.wanted + if engine_full { 0.0 } else { self.tank_refill };
        let lay_fills = self.lay_filled < self.lay_volume;
        let could_take = if !lay_fills {
            takes
        } else if self.engine_is_here {
            self.wanted + self.tank_refill
        } else {
            0.0
        };
        let primed = self.pump == Pump::Primed;
        let mut drawn = if primed { could_take.clamp(0.0, self.draft_limit) } else { 0.0 };
        let poured = tank.pouring.unhindered().rate;
        let lacks = drawn - poured > SAME_RATE;
        let mut prime_lost = false;
        tank.is_held = tank.is_full() && poured - drawn > -SAME_RATE && !lacks;
        if primed && tank.level <= tank.unusable && lacks {
            if self.throttles {
                drawn = poured;
            } else {
                self.pump = Pump::PrimeLost;
                prime_lost = true;
                drawn = 0.0;
            }
        }
        let dumped = if tank.is_held { drawn } else { poured };
        tank.dumped = Flow::steady(dumped);
        tank.net = Flow::steady(dumped - drawn);

        let (lay_flow, supply) = if lay_fills { (drawn, 0.0) } else { (0.0, drawn) };
        let delivered = if self.engine_level > 0.0 || supply - self.wanted >= -SAME_RATE {
            self.wanted
        } else {
            supply
        };
        self.lay_flow = Flow::steady(lay_flow);
        self.delivered = Flow::steady(delivered);
        self.engine_net = Flow::steady(supply - delivered);

        let waits = matches!(self.pump, Pump::WaitingForWater | Pump::PrimeLost);
        tank.find_crossing(now, waits.then_some(self.restart_level));
        tank.find_first_empty(now);
        self.turns_at = Moment::NEVER;
        self.find_engine_crossing(now);
        let tank = &self.tanks[0];
        let mut next = self.engine_crosses_at.min(tank.crosses_at).min(tank.empty_at);
        if lay_fills {
            let left = self.lay_volume - self.lay_filled;
            self.lay_full_at = now.after(self.lay_flow.minutes_to_pass(left));
            next = next.min(self.lay_full_at);
        }
        self.next = next;
        prime_lost
    }
}
