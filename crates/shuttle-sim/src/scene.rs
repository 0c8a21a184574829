//! The water at the scene: attack engine, drop tanks, nurses, dumpers and the draft.
//!
//! Between events every flow is a straight line in time, so every level is known exactly. The
//! scene is touched only by what concerns it: bring to now, change, new flows, new crossings.

mod drop_tank;
mod flows;

use crate::dumping::Pour;
use crate::flow::{Flow, least, most};
use crate::moment::Moment;
use crate::plan::{LowWater, Plan};
use crate::results::SceneRecord;

pub(crate) use drop_tank::TankState;

/// Levels closer than this are one level, gal: far above rounding, far below any meaning.
pub(crate) const SAME_LEVEL: f64 = 1e-6;

/// A tanker pumping straight into the attack engine.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Nurse {
    pub tanker: usize,
    pub load: f64,
    pub pump_off: f64,
    flow: f64,
    empty_at: Moment,
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
    pub nurses: Vec<Nurse>,
    pub pump: Pump,
    /// Whether the attack engine has reached the scene.
    pub engine_is_here: bool,
    /// Attack flow wanted now, gpm; 0 before first water.
    pub wanted: f64,
    /// Water in the attack engine, gal.
    pub engine_level: f64,
    /// The same to the last drop; see [`TankState::gallons`].
    engine_gallons: f64,
    engine_tank: f64,
    tank_refill: f64,
    draft_limit: f64,
    restart_level: f64,
    throttles: bool,
    lay_volume: f64,
    pub lay_filled: f64,
    at: Moment,
    touched: bool,
    engine_net: Flow,
    engine_crosses_at: Moment,
    engine_bound: f64,
    delivered: Flow,
    lay_flow: Flow,
    lay_full_at: Moment,
    /// The next time something happens here by itself.
    pub next: Moment,
    pub record: SceneRecord,
}

impl Scene {
    pub fn new(plan: &Plan) -> Scene {
        let facts = plan.facts();
        let tankers = facts.tankers.len();
        let tanks = facts.drop_tanks.iter().map(|tank| TankState::new(tank, tankers));
        Scene {
            tanks: tanks.collect(),
            nurses: Vec::with_capacity(facts.tankers.len()),
            pump: Pump::NotHookedUp,
            engine_is_here: false,
            wanted: 0.0,
            engine_level: facts.attack_engine.tank,
            engine_gallons: facts.attack_engine.tank,
            engine_tank: facts.attack_engine.tank,
            tank_refill: facts.attack_engine.tank_refill,
            draft_limit: plan.draft_limit(),
            restart_level: plan.restart_level().unwrap_or(0.0),
            throttles: facts.supply.low_water == LowWater::Throttle,
            lay_volume: facts.supply.lay_volume,
            lay_filled: 0.0,
            at: Moment::ALARM,
            touched: true,
            engine_net: Flow::NONE,
            engine_crosses_at: Moment::NEVER,
            engine_bound: 0.0,
            delivered: Flow::NONE,
            lay_flow: Flow::NONE,
            lay_full_at: Moment::NEVER,
            next: Moment::NEVER,
            record: SceneRecord::new(plan),
        }
    }

    /// Empties everything.
    pub fn reset(&mut self) {
        self.tanks.iter_mut().for_each(TankState::reset);
        self.nurses.clear();
        self.pump = Pump::NotHookedUp;
        self.engine_is_here = false;
        self.wanted = 0.0;
        self.engine_level = self.engine_tank;
        self.engine_gallons = self.engine_tank;
        self.lay_filled = 0.0;
        self.at = Moment::ALARM;
        self.touched = true;
        self.engine_net = Flow::NONE;
        self.delivered = Flow::NONE;
        self.lay_flow = Flow::NONE;
        self.next = Moment::NEVER;
        self.record.reset();
    }

    /// Whether the lines get less than they need, from now on.
    pub fn is_short(&self) -> bool {
        self.delivered.is_below(Flow::steady(self.wanted))
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
        let tanks: f64 = self.tanks.iter().map(|tank| tank.gallons).sum();
        tanks + self.lay_filled + self.engine_gallons
    }

    /// Whether the flows must be worked out anew.
    pub fn is_touched(&self) -> bool {
        self.touched
    }

    /// Brings every level to `now`, so that something may change.
    #[inline(always)]
    pub fn touch(&mut self, now: Moment) {
        if now > self.at {
            self.advance(now);
        }
        self.touched = true;
    }

    /// The levels of the drop tanks and then of the attack engine at `now`, gal.
    pub fn levels_at(&self, now: Moment, levels: &mut Vec<f64>) {
        let minutes = now.since(self.at).span();
        for tank in &self.tanks {
            levels.push((tank.level + tank.net.over(minutes)).clamp(0.0, tank.capacity));
        }
        let engine = self.engine_level + self.engine_net.over(minutes);
        levels.push(engine.clamp(0.0, self.engine_tank));
    }

    #[inline]
    fn advance(&mut self, now: Moment) {
        let minutes = now.since(self.at).span();
        if self.record.next_mark() <= now {
            self.note_marks(now);
        }
        self.at = now;
        for tank in &mut self.tanks {
            tank.advance(minutes);
        }
        for nurse in &mut self.nurses {
            nurse.load -= nurse.flow * minutes;
        }
        if self.lay_flow != Flow::NONE {
            self.lay_filled += self.lay_flow.over(minutes);
        }
        let mut lowest_within = self.engine_level;
        if self.engine_net != Flow::NONE {
            lowest_within = self.engine_lowest_within(minutes).max(0.0);
            self.engine_gallons += self.engine_net.over(minutes);
            self.engine_level = self.engine_level_held();
        }
        self.record.passed(minutes, self.wanted, self.delivered.over(minutes), lowest_within);
        if self.record.is_established {
            self.note_tank_levels();
        }
    }

    #[inline(never)]
    fn note_marks(&mut self, now: Moment) {
        while self.record.mark_is_due(now) {
            let mark = self.record.next_mark();
            let mut levels = self.record.begin_mark();
            self.levels_at(mark, &mut levels);
            self.record.end_mark(levels);
        }
    }

    /// Notes the levels now, for the lowest of them.
    pub fn note_tank_levels(&mut self) {
        for tank in &mut self.tanks {
            tank.lowest = tank.lowest.min(tank.level);
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
    pub fn settle(&mut self, now: Moment) -> Option<Emptied> {
        if self.next > now {
            return None;
        }
        self.touch(now);
        for place in 0..self.tanks.len() {
            if self.tanks[place].crosses_at <= now {
                self.tank_meets_bound(place);
            }
        }
        self.settle_engine_and_lay(now);
        let mut emptied = None;
        let mut rest_next = Moment::NEVER;
        for tank in &mut self.tanks {
            if tank.empty_at <= now && emptied.is_none() {
                emptied = tank.take_empty(now).map(|tanker| Emptied::Dumper { tanker });
            }
            rest_next = rest_next.min(tank.empty_at);
        }
        for nurse in &self.nurses {
            rest_next = rest_next.min(nurse.empty_at);
        }
        if emptied.is_none() {
            let place = self.nurses.iter().position(|nurse| nurse.empty_at <= now);
            emptied =
                place.map(|place| Emptied::Nurse { tanker: self.nurses.remove(place).tanker });
        }
        if emptied.is_none() || rest_next > now {
            // Everything of this instant is settled; the flows will say what is next.
            self.next = Moment::NEVER;
        }
        emptied
    }

    /// A drop tank's level has met its bound. What the pump drew too much in a part of a tick, or too
    /// little, from one that is down to its unusable level, went to the lay or to the engine.
    fn tank_meets_bound(&mut self, place: usize) {
        let tank = &mut self.tanks[place];
        let falls = tank.net.rate < 0.0;
        tank.meet_bound();
        if place == 0 && falls && tank.bound == tank.unusable {
            let drawn_beyond = tank.bound - tank.gallons;
            tank.gallons = tank.bound;
            if self.lay_filled < self.lay_volume {
                self.lay_filled -= drawn_beyond;
            } else {
                self.engine_gallons -= drawn_beyond;
                if self.engine_level > 0.0 && self.engine_level < self.engine_tank {
                    self.engine_level = self.engine_level_held();
                }
            }
        }
    }

    /// Sets the engine's level and the lay to the bound they meet now. What either took too much in a
    /// part of a tick is still in the drop tank it came from.
    #[inline]
    fn settle_engine_and_lay(&mut self, now: Moment) {
        if self.engine_crosses_at <= now {
            self.engine_crosses_at = Moment::NEVER;
            self.engine_level = self.engine_bound;
            if self.engine_bound > 0.0 && self.nurses.is_empty() && self.pump == Pump::Primed {
                let taken_beyond = self.engine_gallons - self.engine_bound;
                self.engine_gallons = self.engine_bound;
                self.give_back(taken_beyond);
            }
        }
        if self.lay_full_at <= now {
            self.lay_full_at = Moment::NEVER;
            let taken_beyond = self.lay_filled - self.lay_volume;
            self.lay_filled = self.lay_volume;
            self.give_back(taken_beyond);
        }
    }

    fn give_back(&mut self, gallons: f64) {
        if let Some(first) = self.tanks.first_mut() {
            first.change_by(gallons);
        }
    }

    /// The engine's level with what it holds: within its bounds, whatever the rounding.
    #[inline]
    fn engine_level_held(&self) -> f64 {
        least(most(self.engine_gallons, 0.0), self.engine_tank)
    }

    pub fn begin_dump(&mut self, now: Moment, tank: usize, tanker: usize, load: f64, pour: Pour) {
        self.touch(now);
        self.tanks[tank].pouring.add(tanker, load, pour);
    }

    pub fn begin_nurse(&mut self, now: Moment, tanker: usize, load: f64, pump_off: f64) {
        self.touch(now);
        self.nurses.push(Nurse { tanker, load, pump_off, flow: 0.0, empty_at: Moment::NEVER });
    }
}
