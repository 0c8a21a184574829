//! The flows at the scene, given the levels: nurses, dumping, transfer, draft; and when the next level
//! meets its bound.

use super::flow::{Flow, LEAST_TURN, SAME_LEVEL, falls_short, lesser};
use super::{Pump, Scene};
use crate::time::Moment;

impl Scene {
    /// Works out all flows, and what happens next.
    ///
    /// - Returns: whether prime was lost by it.
    pub fn solve(&mut self, now: Moment) -> bool {
        self.touched = false;
        self.at = now;
        let mut prime_lost = false;
        let mut holds_for = f64::INFINITY;

        let takes = self.engine.takes();
        let nursed = self.nurse_flow(takes);
        let mut drawn = Flow::NONE;
        let lay_fills = self.lay_filled < self.lay_volume;
        if !self.tanks.is_empty() {
            if self.pump == Pump::Primed {
                let could_take = if lay_fills { self.engine.takes_with_room() } else { takes };
                drawn = Flow::steady((could_take - nursed).clamp(0.0, self.draft_limit));
            }
            drawn = self.tank_flows(drawn, &mut holds_for, &mut prime_lost);
        }
        let (lay_flow, supplied) =
            if lay_fills { (drawn, Flow::NONE) } else { (Flow::NONE, drawn) };
        self.lay_flow = lay_flow;

        let supply = Flow::steady(nursed) + supplied;
        let wanted = Flow::steady(self.engine.wanted);
        self.delivered =
            if self.engine.level > 0.0 { wanted } else { lesser(wanted, supply, &mut holds_for) };
        self.is_short = self.delivered.is_below(wanted);
        self.engine.net = supply - self.delivered;
        self.find_crossings(now, holds_for);
        prime_lost
    }

    /// Who began first pumps all it can, the next what is wanted beyond that.
    fn nurse_flow(&mut self, takes: f64) -> f64 {
        let mut left = takes;
        for nurse in &mut self.nurses {
            nurse.flow = nurse.pump_off.min(left);
            left -= nurse.flow;
        }
        takes - left
    }

    /// Dumping, transfer and draft, given what the pump would draw.
    ///
    /// - Returns: what it does draw.
    fn tank_flows(&mut self, would_draw: Flow, holds_for: &mut f64, prime_lost: &mut bool) -> Flow {
        let mut drawn = would_draw;
        // What the other tanks could send to the first.
        let mut could_send = Flow::NONE;
        let place = self.first;
        let first_ready = self.tanks[place].is_ready;
        for tank in &mut self.tanks[place + 1..] {
            tank.sent = if !first_ready || !tank.is_ready || tank.level < tank.unusable {
                Flow::NONE
            } else if tank.level > tank.unusable {
                Flow::steady(tank.transfer)
            } else {
                let poured = tank.pouring.unhindered();
                lesser(Flow::steady(tank.transfer), poured, holds_for)
            };
            could_send = could_send + tank.sent;
        }
        let poured = self.tanks[place].pouring.unhindered();
        let could_come = poured + could_send;

        let first = &mut self.tanks[place];
        first.is_held = false;
        first.dumped = poured;
        let mut stays_for = f64::INFINITY;
        if first.is_full() && !falls_short(could_come, drawn, &mut stays_for) {
            // It stays full: dumping comes before transfer, and the transfers share what fits.
            if first.pouring.is_held_to(drawn) {
                // Held back, the pour keeps its strength for longer than it would unhindered.
                first.is_held = true;
                first.dumped = drawn;
                stays_for = first.pouring.held_for(drawn);
            }
            *holds_for = holds_for.min(stays_for);
            let fits = drawn - first.dumped;
            self.share_transfer(fits, holds_for);
        } else if self.pump == Pump::Primed
            && first.level <= first.unusable
            && falls_short(could_come, drawn, holds_for)
        {
            if self.throttles {
                drawn = could_come;
            } else {
                self.pump = Pump::PrimeLost;
                *prime_lost = true;
                drawn = Flow::NONE;
            }
        }

        let mut sent_in = Flow::NONE;
        for tank in &mut self.tanks[place + 1..] {
            sent_in = sent_in + tank.sent;
            tank.is_held = tank.is_full() && tank.pouring.is_held_to(tank.sent);
            if tank.is_held {
                tank.dumped = tank.sent;
                *holds_for = holds_for.min(tank.pouring.held_for(tank.sent));
                tank.net = Flow::NONE;
            } else {
                tank.dumped = tank.pouring.unhindered();
                tank.net = tank.dumped - tank.sent;
            }
            tank.set_pace();
        }
        let first = &mut self.tanks[place];
        first.net = first.dumped + sent_in - drawn;
        first.set_pace();
        drawn
    }

    /// Shares what fits into the first tank in proportion to the transfer rates; a tank at its
    /// unusable level passes no more than is dumped into it, and the others take up the rest.
    fn share_transfer(&mut self, fits: Flow, holds_for: &mut f64) {
        let (mut left, mut weights) = (fits, 0.0);
        for tank in &mut self.tanks[self.first + 1..] {
            tank.is_capped = false;
            if tank.sent != Flow::NONE {
                weights += tank.transfer;
            }
        }
        let mut open = weights > 0.0;
        while open {
            open = false;
            for tank in &mut self.tanks[self.first + 1..] {
                if tank.sent == Flow::NONE || tank.is_capped || tank.level > tank.unusable {
                    continue;
                }
                let share = left.times(tank.transfer / weights);
                let poured = tank.pouring.unhindered();
                if falls_short(poured, share, holds_for) {
                    tank.sent = poured;
                    tank.is_capped = true;
                    left = left - poured;
                    weights -= tank.transfer;
                    open = weights > 0.0;
                }
            }
        }
        for tank in &mut self.tanks[self.first + 1..] {
            if tank.sent != Flow::NONE && !tank.is_capped {
                tank.sent = left.times(tank.transfer / weights);
            }
        }
    }

    fn find_crossings(&mut self, now: Moment, holds_for: f64) {
        // The next turn of a flow, though no level meets a bound.
        let mut next = now.after(holds_for.max(LEAST_TURN));
        let waits_for_water = matches!(self.pump, Pump::WaitingForWater | Pump::PrimeLost);
        for (place, tank) in self.tanks.iter_mut().enumerate() {
            let restart = (place == self.first && waits_for_water).then_some(self.restart_level);
            tank.find_crossing(now, restart);
            tank.find_first_empty(now);
            next = next.min(tank.crosses_at).min(tank.empty_at);
        }
        for nurse in &mut self.nurses {
            let minutes = if nurse.load <= SAME_LEVEL { 0.0 } else { nurse.load / nurse.flow };
            nurse.empty_at = now.after(minutes);
            next = next.min(nurse.empty_at);
        }
        self.engine.find_crossing(now);
        next = next.min(self.engine.crosses_at);
        self.lay_full_at = if self.lay_flow == Flow::NONE {
            Moment::NEVER
        } else {
            now.after(self.lay_flow.minutes_to_pass(self.lay_volume - self.lay_filled))
        };
        self.next = next.min(self.lay_full_at);
    }
}
