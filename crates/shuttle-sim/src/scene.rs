//! The water at the scene: attack engine, drop tanks, nurses, dumpers and the draft.
//!
//! Between events every flow is a straight line in time, so every level is known exactly. The
//! scene is touched only by what concerns it: bring to now, change, new flows, new crossings.

use crate::dumping::{Dumper, Pouring};
use crate::flow::{Flow, falls_short, lesser};
use crate::plan::{LowWater, Plan};
use crate::results::SceneRecord;
use crate::timers::{SAME_INSTANT, earlier};

/// Levels closer than this are one level, gal: far above rounding, far below any meaning.
pub(crate) const SAME_LEVEL: f64 = 1e-6;

/// A drop tank's state.
#[derive(Debug, Clone)]
pub(crate) struct TankState {
    pub capacity: f64,
    pub unusable: f64,
    transfer: f64,
    positions: u32,
    pub level: f64,
    pub is_ready: bool,
    pub free_positions: u32,
    pouring: Pouring,
    /// What is dumped into it.
    dumped: Flow,
    /// Whether it is full and its dumpers follow what leaves it.
    is_held: bool,
    /// Whether it passes on just what is dumped into it, when transfers share what fits.
    is_capped: bool,
    /// What it passes to the first tank.
    sent: Flow,
    net: Flow,
    /// Unhindered minutes until the first of its dumpers is empty.
    first_empty_after: f64,
    crosses_at: f64,
    bound: f64,
}

impl TankState {
    pub fn room(&self) -> f64 {
        self.capacity - self.level
    }

    fn is_full(&self) -> bool {
        self.level >= self.capacity
    }
}

/// A tanker pumping straight into the attack engine.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Nurse {
    pub tanker: usize,
    pub load: f64,
    pub pump_off: f64,
    flow: f64,
    empty_at: f64,
}

/// The drafting pump.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pump {
    NotHookedUp,
    WaitingForWater,
    Primed,
    PrimeLost,
    Repriming,
}

/// A tanker whose load is gone.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Emptied {
    Dumper { tanker: usize },
    Nurse { tanker: usize },
}

/// All water at the scene and the flows between.
#[derive(Debug)]
pub(crate) struct Scene {
    pub tanks: Vec<TankState>,
    pub dumpers: Vec<Dumper>,
    pub nurses: Vec<Nurse>,
    pub pump: Pump,
    /// Whether the attack engine has reached the scene.
    pub engine_is_here: bool,
    /// Attack flow wanted now, gpm; 0 before first water.
    pub wanted: f64,
    /// Water in the attack engine, gal.
    pub engine_level: f64,
    engine_tank: f64,
    tank_refill: f64,
    draft_limit: f64,
    restart_level: f64,
    throttles: bool,
    lay_volume: f64,
    pub lay_filled: f64,
    at: f64,
    touched: bool,
    engine_net: Flow,
    engine_crosses_at: f64,
    engine_bound: f64,
    delivered: Flow,
    lay_flow: Flow,
    lay_full_at: f64,
    /// When a flow changes its course though no level meets a bound.
    turns_at: f64,
    /// The next time something happens here by itself.
    pub next: f64,
    pub record: SceneRecord,
}

impl Scene {
    pub fn new(plan: &Plan) -> Scene {
        let facts = plan.facts();
        let tanks = facts.drop_tanks.iter().map(|tank| TankState {
            capacity: tank.capacity,
            unusable: tank.unusable,
            transfer: tank.transfer,
            positions: tank.dump_positions,
            level: 0.0,
            is_ready: false,
            free_positions: tank.dump_positions,
            pouring: Pouring::default(),
            dumped: Flow::NONE,
            is_held: false,
            is_capped: false,
            sent: Flow::NONE,
            net: Flow::NONE,
            first_empty_after: f64::INFINITY,
            crosses_at: f64::INFINITY,
            bound: 0.0,
        });
        Scene {
            tanks: tanks.collect(),
            dumpers: Vec::with_capacity(facts.tankers.len()),
            nurses: Vec::with_capacity(facts.tankers.len()),
            pump: Pump::NotHookedUp,
            engine_is_here: false,
            wanted: 0.0,
            engine_level: facts.attack_engine.tank,
            engine_tank: facts.attack_engine.tank,
            tank_refill: facts.attack_engine.tank_refill,
            draft_limit: plan.draft_limit(),
            restart_level: plan.restart_level().unwrap_or(0.0),
            throttles: facts.supply.low_water == LowWater::Throttle,
            lay_volume: facts.supply.lay_volume,
            lay_filled: 0.0,
            at: 0.0,
            touched: true,
            engine_net: Flow::NONE,
            engine_crosses_at: f64::INFINITY,
            engine_bound: 0.0,
            delivered: Flow::NONE,
            lay_flow: Flow::NONE,
            lay_full_at: f64::INFINITY,
            turns_at: f64::INFINITY,
            next: f64::INFINITY,
            record: SceneRecord::new(plan),
        }
    }

    pub fn reset(&mut self) {
        for tank in &mut self.tanks {
            tank.level = 0.0;
            tank.is_ready = false;
            tank.free_positions = tank.positions;
            tank.net = Flow::NONE;
        }
        self.dumpers.clear();
        self.nurses.clear();
        self.pump = Pump::NotHookedUp;
        self.engine_is_here = false;
        self.wanted = 0.0;
        self.engine_level = self.engine_tank;
        self.lay_filled = 0.0;
        self.at = 0.0;
        self.touched = true;
        self.engine_net = Flow::NONE;
        self.delivered = Flow::NONE;
        self.lay_flow = Flow::NONE;
        self.next = f64::INFINITY;
        self.record.reset();
    }

    /// Whether the lines get less than they need, from now on.
    pub fn is_short(&self) -> bool {
        falls_short(self.delivered, Flow::steady(self.wanted), &mut f64::INFINITY.clone())
    }

    /// Whether the first drop tank has water the pump could reach.
    pub fn has_usable_water(&self) -> bool {
        (self.tanks.first()).is_some_and(|tank| tank.level > tank.unusable + 1e-6)
    }

    /// Whether any drop tank has water above its unusable level.
    pub fn has_water_somewhere(&self) -> bool {
        (self.tanks.iter()).any(|tank| tank.level > tank.unusable + 1e-6)
    }

    /// Whether the first drop tank holds enough to draw (again).
    pub fn holds_restart_level(&self) -> bool {
        (self.tanks.first()).is_some_and(|tank| tank.level >= self.restart_level - SAME_LEVEL)
    }

    /// Water in drop tanks, lay and attack engine, gal.
    pub fn water_held(&self) -> f64 {
        let tanks: f64 = self.tanks.iter().map(|tank| tank.level).sum();
        tanks + self.lay_filled + self.engine_level
    }

    /// Whether the flows must be worked out anew.
    pub fn is_touched(&self) -> bool {
        self.touched
    }

    /// Brings every level to `now`, so that something may change.
    pub fn touch(&mut self, now: f64) {
        self.advance(now);
        self.touched = true;
    }

    /// The levels of the drop tanks and then of the attack engine at `now`, gal.
    pub fn levels_at(&self, now: f64, levels: &mut Vec<f64>) {
        let minutes = now - self.at;
        for tank in &self.tanks {
            levels.push((tank.level + tank.net.over(minutes)).clamp(0.0, tank.capacity));
        }
        let engine = self.engine_level + self.engine_net.over(minutes);
        levels.push(engine.clamp(0.0, self.engine_tank));
    }

    fn advance(&mut self, now: f64) {
        let minutes = now - self.at;
        if minutes <= 0.0 {
            return;
        }
        while self.record.next_mark() <= now + SAME_INSTANT {
            let mark = self.record.next_mark();
            let mut levels = self.record.begin_mark();
            self.levels_at(mark, &mut levels);
            self.record.end_mark(levels);
        }
        for dumper in &mut self.dumpers {
            let tank = &self.tanks[dumper.tank];
            dumper.pour_for(if tank.is_held {
                tank.pouring.unhindered_minutes_for(tank.dumped.over(minutes))
            } else {
                minutes
            });
        }
        for tank in &mut self.tanks {
            // Rounding must not carry a level past a bound it is about to be set to.
            tank.level = (tank.level + tank.net.over(minutes)).clamp(0.0, tank.capacity);
        }
        for nurse in &mut self.nurses {
            nurse.load -= nurse.flow * minutes;
        }
        self.lay_filled += self.lay_flow.over(minutes);
        let lowest_within = self.engine_lowest_within(minutes).max(0.0);
        let level = self.engine_level + self.engine_net.over(minutes);
        self.engine_level = level.clamp(0.0, self.engine_tank);
        self.record.passed(minutes, self.wanted, self.delivered.over(minutes), lowest_within);
        self.at = now;
        self.note_tank_levels();
    }

    /// Notes the levels now, for the lowest of them.
    pub fn note_tank_levels(&mut self) {
        if self.record.is_established {
            for (lowest, tank) in self.record.lowest_tanks.iter_mut().zip(&self.tanks) {
                *lowest = lowest.min(tank.level);
            }
        }
    }

    /// The lowest engine level in the next `minutes`: at an end, or where a falling level turns.
    fn engine_lowest_within(&self, minutes: f64) -> f64 {
        let (level, net) = (self.engine_level, self.engine_net);
        let end = level + net.over(minutes);
        if net.slope > 0.0 {
            let turn = -net.rate / net.slope;
            if turn > 0.0 && turn < minutes {
                return (level + net.over(turn)).min(end);
            }
        }
        level.min(end)
    }

    /// Sets every level that meets its bound now exactly to it, and takes out a tanker whose load
    /// is gone, one at a time.
    pub fn settle(&mut self, now: f64) -> Option<Emptied> {
        if self.next > now + SAME_INSTANT {
            return None;
        }
        self.touch(now);
        let due = now + SAME_INSTANT;
        for tank in &mut self.tanks {
            if tank.crosses_at <= due {
                tank.level = tank.bound;
                tank.crosses_at = f64::INFINITY;
            }
        }
        if self.engine_crosses_at <= due {
            self.engine_level = self.engine_bound;
            self.engine_crosses_at = f64::INFINITY;
        }
        if self.lay_full_at <= due {
            self.lay_filled = self.lay_volume;
            self.lay_full_at = f64::INFINITY;
        }
        if let Some(place) = self.dumpers.iter().position(|dumper| dumper.empty_at <= due) {
            let Dumper { tanker, .. } = self.dumpers.remove(place);
            return Some(Emptied::Dumper { tanker });
        }
        if let Some(place) = self.nurses.iter().position(|nurse| nurse.empty_at <= due) {
            let Nurse { tanker, .. } = self.nurses.remove(place);
            return Some(Emptied::Nurse { tanker });
        }
        // Everything of this instant is settled; the flows will say what is next.
        self.next = f64::INFINITY;
        None
    }

    pub fn begin_dump(&mut self, now: f64, dumper: Dumper) {
        self.touch(now);
        self.dumpers.push(dumper);
    }

    pub fn begin_nurse(&mut self, now: f64, tanker: usize, load: f64, pump_off: f64) {
        self.touch(now);
        self.nurses.push(Nurse { tanker, load, pump_off, flow: 0.0, empty_at: f64::INFINITY });
    }

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
