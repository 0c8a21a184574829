//! The water at the scene: attack engine, drop tanks, nurses, dumpers and the draft.
//!
//! Between events every flow is a straight line in time, so every level is known exactly. The
//! scene is touched only by what concerns it: bring to now, change, new flows, new crossings.

mod flow;

#[cfg(test)]
mod flow_tests;

mod pouring;

#[cfg(test)]
mod pouring_tests;

mod drop_tank;

mod engine_tank;

#[cfg(test)]
mod engine_tank_tests;

mod meter;

mod flows;

use crate::plan::{LowWater, Plan};
use crate::time::Moment;
use flow::Flow;
use meter::Meter;

pub(crate) use drop_tank::TankState;
pub(crate) use engine_tank::EngineTank;
pub(crate) use flow::{LEAST_TURN, SAME_LEVEL, SAME_RATE};
pub(crate) use pouring::Pour;

/// A tanker pumping straight into the attack engine.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Nurse {
    pub tanker: usize,
    pub pump_off: f64,
    load: f64,
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

/// All water at the scene and the flows between.
#[derive(Debug)]
pub(crate) struct Scene {
    pub engine: EngineTank,
    pub tanks: Vec<TankState>,
    /// The drop tank that the draft stands in: the first in order that comes. Those before it never do.
    pub first: usize,
    /// In the order they began.
    pub nurses: Vec<Nurse>,
    pub pump: Pump,
    draft_limit: f64,
    restart_level: f64,
    throttles: bool,
    lay_volume: f64,
    lay_filled: f64,
    lay_flow: Flow,
    lay_full_at: Moment,
    delivered: Flow,
    /// Whether the lines get less than they need, from now on.
    pub is_short: bool,
    /// When the flows were worked out.
    at: Moment,
    /// Whether they must be worked out anew.
    touched: bool,
    /// The next time something happens here by itself.
    pub next: Moment,
    pub meter: Meter,
}

impl Scene {
    pub fn new(plan: &Plan) -> Scene {
        let facts = plan.facts();
        let tankers = facts.tankers.len();
        Scene {
            engine: EngineTank::new(&facts.attack_engine, tankers),
            tanks: facts.drop_tanks.iter().map(|tank| TankState::new(tank, tankers)).collect(),
            first: 0,
            nurses: Vec::with_capacity(tankers),
            pump: Pump::NotHookedUp,
            draft_limit: plan.draft_limit(),
            restart_level: 0.0,
            throttles: facts.supply.low_water == LowWater::Throttle,
            lay_volume: facts.supply.lay_volume,
            lay_filled: 0.0,
            lay_flow: Flow::NONE,
            lay_full_at: Moment::NEVER,
            delivered: Flow::NONE,
            is_short: false,
            at: Moment::ALARM,
            touched: true,
            next: Moment::NEVER,
            meter: Meter::new(plan),
        }
    }

    pub fn reset(&mut self, plan: &Plan) {
        let facts = plan.facts();
        self.engine.reset(&facts.attack_engine);
        for (state, tank) in self.tanks.iter_mut().zip(&facts.drop_tanks) {
            state.reset(tank);
        }
        self.nurses.clear();
        self.pump = Pump::NotHookedUp;
        self.lay_filled = 0.0;
        self.lay_flow = Flow::NONE;
        self.delivered = Flow::NONE;
        self.is_short = false;
        self.at = Moment::ALARM;
        self.touched = true;
        self.next = Moment::NEVER;
        self.meter.reset();
    }

    // Questions. Those with a moment read what is there then, without working out the flows anew.

    /// Whether the flows must be worked out anew.
    pub fn is_touched(&self) -> bool {
        self.touched
    }

    /// Minutes since the flows were worked out.
    pub fn minutes_until(&self, now: Moment) -> f64 {
        now.since(self.at).span()
    }

    /// What the lines get now, gpm.
    pub fn given_flow(&self) -> f64 {
        self.delivered.rate.max(0.0)
    }

    /// The drop tank that the draft stands in.
    pub fn first_tank(&self) -> Option<&TankState> {
        self.tanks.get(self.first)
    }

    /// Whether the first drop tank has water the pump could reach.
    pub fn has_usable_water(&self) -> bool {
        self.first_tank().is_some_and(TankState::has_usable_water)
    }

    /// Whether any drop tank has water above its unusable level.
    pub fn has_water_somewhere(&self) -> bool {
        self.tanks.iter().any(TankState::has_usable_water)
    }

    /// Whether the first drop tank holds enough to draw (again).
    pub fn holds_restart_level(&self) -> bool {
        self.first_tank().is_some_and(|tank| tank.level >= self.restart_level - SAME_LEVEL)
    }

    /// Whether the first drop tank lacks its restart level, counting what those at it still bring.
    pub fn lacks_restart_level(&self, now: Moment) -> bool {
        let minutes = self.minutes_until(now);
        self.first_tank().is_some_and(|tank| {
            tank.level_after(minutes) + tank.rests_after(minutes) < self.restart_level - SAME_LEVEL
        })
    }

    /// Whether a drop tank is full.
    pub fn is_full(&self, tank: usize, now: Moment) -> bool {
        let tank = &self.tanks[tank];
        tank.level_after(self.minutes_until(now)) >= tank.capacity
    }

    /// Whether the attack engine is there and has an intake that nobody holds.
    pub fn an_intake_is_free(&self) -> bool {
        self.engine.is_here && self.engine.free_intakes > 0
    }

    /// Whether somebody nurses or connects; who disconnects does not count.
    pub fn somebody_nurses(&self) -> bool {
        !self.nurses.is_empty() || !self.engine.connecting.is_empty()
    }

    /// Whether a dry lay still takes water before the engine gets any.
    pub fn lay_is_filling(&self) -> bool {
        self.lay_filled < self.lay_volume
    }

    /// What the pump can draw for the lines, gpm: nothing unless it is primed.
    pub fn lines_draw(&self) -> f64 {
        if self.pump == Pump::Primed { self.engine.wanted.min(self.draft_limit) } else { 0.0 }
    }

    /// What the nurses still have to give, gal.
    pub fn nursed_rests(&self, now: Moment) -> f64 {
        let minutes = self.minutes_until(now);
        self.nurses.iter().map(|nurse| (nurse.load - nurse.flow * minutes).max(0.0)).sum()
    }

    /// Water in the attack engine's tank, gal.
    pub fn engine_level(&self, now: Moment) -> f64 {
        self.engine.level_after(self.minutes_until(now))
    }

    /// What the lines want and what they are given from now on, gpm.
    pub fn lines_want_and_have(&self) -> (f64, f64) {
        (self.engine.wanted, self.delivered.rate)
    }

    /// The levels of the drop tanks and then of the attack engine, gal.
    pub fn levels(&self, now: Moment) -> impl Iterator<Item = f64> {
        levels_after(&self.tanks, &self.engine, self.minutes_until(now))
    }

    /// Water in drop tanks, lay, attack engine and what dumps or pumps off, gal.
    pub fn water_held(&self) -> f64 {
        let tanks: f64 = self.tanks.iter().map(|tank| tank.gallons).sum();
        let rests: f64 = self.moving_rests().map(|(_, rest)| rest).sum();
        tanks + self.lay_filled + self.engine.gallons + rests
    }

    /// What each that dumps or pumps off still has, gal.
    pub fn moving_rests(&self) -> impl Iterator<Item = (usize, f64)> {
        let dumping = self.tanks.iter().flat_map(|tank| tank.pouring.rests_after(0.0));
        dumping.chain(self.nurses.iter().map(|nurse| (nurse.tanker, nurse.load)))
    }

    /// A tanker that stands at a full drop tank, can pour nothing there, and meets this test of tanker and
    /// rest: of several, the first by `began`.
    pub fn stands_idle(
        &self,
        meets: impl Fn(usize, f64) -> bool,
        began: impl Fn(usize) -> Moment,
    ) -> Option<usize> {
        let mut first = None;
        for tank in self.tanks.iter().filter(|tank| tank.stands_still()) {
            for (tanker, rest) in tank.pouring.rests_after(0.0) {
                if meets(tanker, rest) && first.is_none_or(|other| began(tanker) < began(other)) {
                    first = Some(tanker);
                }
            }
        }
        first
    }

    // Changes.

    /// The draft stands in this drop tank, and the pump draws once it holds that much.
    pub fn draft_from(&mut self, tank: usize, restart_level: f64) {
        self.first = tank;
        self.restart_level = restart_level;
    }

    /// Brings every level to `now`, so that something may change.
    pub fn touch(&mut self, now: Moment) {
        if now > self.at {
            self.advance(now);
        }
        self.touched = true;
    }

    fn advance(&mut self, now: Moment) {
        let minutes = self.minutes_until(now);
        while let Some(mark) = self.meter.mark_due(now) {
            let until_mark = self.minutes_until(mark);
            self.meter.note_levels(levels_after(&self.tanks, &self.engine, until_mark));
        }
        self.at = now;
        let lowest = self.engine.lowest_within(minutes);
        self.engine.advance(minutes);
        for tank in &mut self.tanks {
            tank.advance(minutes);
            if self.meter.is_established {
                tank.note_level();
            }
        }
        for nurse in &mut self.nurses {
            nurse.load -= nurse.flow * minutes;
        }
        if self.lay_flow != Flow::NONE {
            self.lay_filled += self.lay_flow.over(minutes);
        }
        self.meter.passed(minutes, self.engine.wanted, self.delivered.over(minutes), lowest);
    }

    pub fn begin_dump(&mut self, now: Moment, tank: usize, tanker: usize, load: f64, pour: Pour) {
        self.touch(now);
        self.tanks[tank].begin_dump(tanker, load, pour);
    }

    pub fn begin_nurse(&mut self, now: Moment, tanker: usize, load: f64, pump_off: f64) {
        self.touch(now);
        self.engine.connecting.retain(|connects| *connects != tanker);
        self.nurses.push(Nurse { tanker, load, pump_off, flow: 0.0, empty_at: Moment::NEVER });
    }

    /// A tanker stops dumping before it is empty; returns its rest, gal.
    pub fn stop_dump(&mut self, now: Moment, tank: usize, tanker: usize) -> f64 {
        self.touch(now);
        self.tanks[tank].take_off(tanker)
    }

    /// Sets every level that meets its bound now exactly to it. The flows will say what is next.
    pub fn settle(&mut self, now: Moment) {
        self.touch(now);
        self.next = Moment::NEVER;
        for place in 0..self.tanks.len() {
            if self.tanks[place].crosses_at <= now {
                self.tank_meets_bound(place);
            }
        }
        self.settle_engine_and_lay(now);
    }

    /// Takes out a tanker whose load is gone, one at a time; whether it dumped or nursed, its phase says.
    pub fn take_empty(&mut self, now: Moment) -> Option<usize> {
        for tank in &mut self.tanks {
            if let Some(tanker) = tank.take_empty(now) {
                return Some(tanker);
            }
        }
        let place = self.nurses.iter().position(|nurse| nurse.empty_at <= now)?;
        let nurse = self.nurses.remove(place);
        // What it gave beyond its load in a part of a tick, or kept of it, the engine has less, or more.
        self.engine.change_by(nurse.load);
        Some(nurse.tanker)
    }

    /// A drop tank's level has met its bound. What the pump drew too much in a part of a tick, or too
    /// little, from one that is down to its unusable level, went to the lay or to the engine.
    fn tank_meets_bound(&mut self, place: usize) {
        let tank = &mut self.tanks[place];
        let falls = tank.net.rate < 0.0;
        tank.meet_bound();
        if place == self.first && falls && tank.bound == tank.unusable {
            let drawn_beyond = tank.bound - tank.gallons;
            tank.gallons = tank.bound;
            if self.lay_filled < self.lay_volume {
                self.lay_filled -= drawn_beyond;
            } else {
                self.engine.change_by(-drawn_beyond);
            }
        }
    }

    /// Sets the engine's level and the lay to the bound they meet now. What either took too much in a
    /// part of a tick is still in the drop tank it came from.
    fn settle_engine_and_lay(&mut self, now: Moment) {
        let engine = &mut self.engine;
        if engine.crosses_at <= now {
            engine.crosses_at = Moment::NEVER;
            engine.level = engine.bound;
            if engine.bound > 0.0 && self.nurses.is_empty() && self.pump == Pump::Primed {
                let taken_beyond = engine.gallons - engine.bound;
                engine.gallons = engine.bound;
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
        if let Some(first) = self.tanks.get_mut(self.first) {
            first.change_by(gallons);
        }
    }
}

/// The levels `minutes` after the flows were worked out.
fn levels_after(
    tanks: &[TankState],
    engine: &EngineTank,
    minutes: f64,
) -> impl Iterator<Item = f64> {
    let of_tanks = tanks.iter().map(move |tank| tank.level_after(minutes));
    of_tanks.chain([engine.level_after(minutes)])
}
