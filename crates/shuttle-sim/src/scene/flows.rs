//! The flows at the scene, given the levels: nurses, dumping, transfer, draft; and when the next level
//! meets its bound.

use super::{Pump, SAME_LEVEL, Scene};
use crate::dumping::Pouring;
use crate::flow::{Flow, falls_short, lesser};
use crate::timers::{SAME_INSTANT, earlier};

impl Scene {
    /// Works out all flows if anything changed, and what happens next.
    ///
    /// - Returns: whether prime was lost by it.
    pub fn solve(&mut self, now: f64) -> bool {
        if !self.touched {
            return false;
        }
        self.touched = false;
        self.at = now;
        let mut prime_lost = false;
        let mut holds_for = f64::INFINITY;

        let engine_full = self.engine_level >= self.engine_tank - SAME_LEVEL;
        let takes = self.wanted + if engine_full { 0.0 } else { self.tank_refill };
        let nursed = self.nurse_flow(takes);
        let mut drawn = Flow::NONE;
        if !self.tanks.is_empty() {
            self.add_up_pouring();
            if self.pump == Pump::Primed {
                // A lay that is still filling swallows what an engine with room would have taken.
                let could_take = if self.lay_filled >= self.lay_volume {
                    takes
                } else if self.engine_is_here {
                    self.wanted + self.tank_refill
                } else {
                    0.0
                };
                drawn = Flow::steady((could_take - nursed).clamp(0.0, self.draft_limit));
            }
            drawn = self.tank_flows(drawn, &mut holds_for, &mut prime_lost);
        }
        let lay_fills = self.lay_filled < self.lay_volume;
        let (lay_flow, supplied) =
            if lay_fills { (drawn, Flow::NONE) } else { (Flow::NONE, drawn) };
        self.lay_flow = lay_flow;

        let supply = Flow::steady(nursed) + supplied;
        let wanted = Flow::steady(self.wanted);
        self.delivered =
            if self.engine_level > 0.0 { wanted } else { lesser(wanted, supply, &mut holds_for) };
        self.engine_net = supply - self.delivered;
        self.find_crossings(now, holds_for);
        prime_lost
    }

    /// Shares what the engine takes among the nurses, in proportion to their rates.
    fn nurse_flow(&mut self, takes: f64) -> f64 {
        if self.nurses.is_empty() {
            return 0.0;
        }
        let all: f64 = self.nurses.iter().map(|nurse| nurse.pump_off).sum();
        let share = if all > takes { takes / all } else { 1.0 };
        for nurse in &mut self.nurses {
            nurse.flow = nurse.pump_off * share;
        }
        all.min(takes)
    }

    fn add_up_pouring(&mut self) {
        for tank in &mut self.tanks {
            tank.pouring = Pouring::default();
        }
        for dumper in &self.dumpers {
            self.tanks[dumper.tank].pouring.add(dumper);
        }
    }

    /// Dumping, transfer and draft, given what the pump would draw.
    ///
    /// - Returns: what it does draw.
    fn tank_flows(&mut self, would_draw: Flow, holds_for: &mut f64, prime_lost: &mut bool) -> Flow {
        let mut drawn = would_draw;
        // What the other tanks could send to the first.
        let mut could_send = Flow::NONE;
        let first_ready = self.tanks[0].is_ready;
        for tank in &mut self.tanks[1..] {
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
        let poured = self.tanks[0].pouring.unhindered();
        let could_come = poured + could_send;

        let first = &mut self.tanks[0];
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
        for tank in &mut self.tanks[1..] {
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
        }
        let first = &mut self.tanks[0];
        first.net = first.dumped + sent_in - drawn;
        drawn
    }

    /// Shares what fits into the first tank in proportion to the transfer rates; a tank at its
    /// unusable level passes no more than is dumped into it, and the others take up the rest.
    fn share_transfer(&mut self, fits: Flow, holds_for: &mut f64) {
        let (mut left, mut weights) = (fits, 0.0);
        for tank in &mut self.tanks[1..] {
            tank.is_capped = false;
            if tank.sent != Flow::NONE {
                weights += tank.transfer;
            }
        }
        let mut open = weights > 0.0;
        while open {
            open = false;
            for tank in &mut self.tanks[1..] {
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
        for tank in &mut self.tanks[1..] {
            if tank.sent != Flow::NONE && !tank.is_capped {
                tank.sent = left.times(tank.transfer / weights);
            }
        }
    }

    /// When loads are gone. In a held tank the sum poured is known only until the first of its
    /// dumpers is empty, so only that one can be next.
    fn find_empty_dumpers(&mut self, now: f64) {
        if self.dumpers.is_empty() {
            return;
        }
        if self.tanks.iter().any(|tank| tank.is_held) {
            for tank in &mut self.tanks {
                tank.first_empty_after = f64::INFINITY;
            }
            for dumper in &self.dumpers {
                let tank = &mut self.tanks[dumper.tank];
                tank.first_empty_after = tank.first_empty_after.min(dumper.unhindered_minutes());
            }
        }
        for dumper in &mut self.dumpers {
            let tank = &self.tanks[dumper.tank];
            let s = dumper.unhindered_minutes();
            let minutes = if dumper.load <= 0.0 || s <= 0.0 {
                0.0
            } else if !tank.is_held {
                s
            } else if s > tank.first_empty_after + SAME_INSTANT {
                f64::INFINITY
            } else {
                tank.dumped.minutes_to_pass(tank.pouring.poured_in(s))
            };
            dumper.empty_at = now + minutes;
            self.next = earlier(self.next, dumper.empty_at);
        }
    }

    fn find_crossings(&mut self, now: f64, holds_for: f64) {
        // A turn never comes at once, so time always goes on.
        self.turns_at = now + holds_for.max(2.0 * SAME_INSTANT);
        self.next = self.turns_at;
        let waits_for_water = matches!(self.pump, Pump::WaitingForWater | Pump::PrimeLost);
        for (place, tank) in self.tanks.iter_mut().enumerate() {
            let (level, net) = (tank.level, tank.net);
            tank.crosses_at = f64::INFINITY;
            if net == Flow::NONE {
                continue;
            }
            let up = if level < tank.unusable {
                tank.unusable
            } else if place == 0 && waits_for_water && level < self.restart_level - SAME_LEVEL {
                self.restart_level
            } else {
                tank.capacity
            };
            for bound in [up, tank.unusable] {
                if bound == tank.unusable && level < bound && up != bound {
                    continue;
                }
                let minutes = net.minutes_to_pass(bound - level);
                if now + minutes < tank.crosses_at {
                    tank.crosses_at = now + minutes;
                    tank.bound = bound;
                }
            }
            self.next = earlier(self.next, tank.crosses_at);
        }
        self.find_empty_dumpers(now);
        for nurse in &mut self.nurses {
            nurse.empty_at = now + if nurse.load <= 0.0 { 0.0 } else { nurse.load / nurse.flow };
            self.next = earlier(self.next, nurse.empty_at);
        }
        self.engine_crosses_at = f64::INFINITY;
        if self.engine_net != Flow::NONE {
            for bound in [0.0, self.engine_tank] {
                let minutes = self.engine_net.minutes_to_pass(bound - self.engine_level);
                if now + minutes < self.engine_crosses_at {
                    self.engine_crosses_at = now + minutes;
                    self.engine_bound = bound;
                }
            }
            self.next = earlier(self.next, self.engine_crosses_at);
        }
        self.lay_full_at = now + self.lay_flow.minutes_to_pass(self.lay_volume - self.lay_filled);
        self.next = earlier(self.next, self.lay_full_at);
    }
}
