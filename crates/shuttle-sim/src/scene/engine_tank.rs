//! The attack engine: what its lines want, what its own tank holds.

use super::flow::{Flow, SAME_LEVEL};
use crate::plan::AttackEngine;
use crate::time::Moment;

/// The attack engine's state.
#[derive(Debug)]
pub(crate) struct EngineTank {
    /// Whether it has reached the scene.
    pub is_here: bool,
    /// Intakes that no nurse holds.
    pub free_intakes: u32,
    /// Who takes an intake and does not pump yet, as listed.
    pub connecting: Vec<usize>,
    /// Attack flow wanted now, gpm; 0 before first water.
    pub wanted: f64,
    /// Water in its own tank, gal.
    pub level: f64,
    /// The same to the last drop; see `TankState::gallons`.
    pub(super) gallons: f64,
    pub(super) capacity: f64,
    refill: f64,
    /// What the tank gains.
    pub(super) net: Flow,
    pub(super) crosses_at: Moment,
    pub(super) bound: f64,
}

impl EngineTank {
    pub(super) fn new(engine: &AttackEngine, tankers: usize) -> EngineTank {
        EngineTank {
            is_here: false,
            free_intakes: engine.intakes,
            connecting: Vec::with_capacity(tankers),
            wanted: 0.0,
            level: engine.tank,
            gallons: engine.tank,
            capacity: engine.tank,
            refill: engine.tank_refill,
            net: Flow::NONE,
            crosses_at: Moment::NEVER,
            bound: 0.0,
        }
    }

    pub(super) fn reset(&mut self, engine: &AttackEngine) {
        let mut connecting = std::mem::take(&mut self.connecting);
        connecting.clear();
        *self = EngineTank { connecting, ..EngineTank::new(engine, 0) };
    }

    /// A tanker takes a free intake, and comes to nurse.
    pub fn take_intake(&mut self, tanker: usize) {
        self.free_intakes -= 1;
        let place = self.connecting.partition_point(|other| *other < tanker);
        self.connecting.insert(place, tanker);
    }

    /// What it takes, gpm: the attack flow, and more while its tank is not full.
    pub(super) fn takes(&self) -> f64 {
        let is_full = self.level >= self.capacity - SAME_LEVEL;
        self.wanted + if is_full { 0.0 } else { self.refill }
    }

    /// What it would take with room in its tank, gpm: what a lay that still fills swallows meanwhile.
    pub(super) fn takes_with_room(&self) -> f64 {
        if self.is_here { self.wanted + self.refill } else { 0.0 }
    }

    /// The level `minutes` after the flows were worked out.
    pub(super) fn level_after(&self, minutes: f64) -> f64 {
        (self.level + self.net.over(minutes)).clamp(0.0, self.capacity)
    }

    /// The lowest level in the next `minutes`: at an end, or where a falling level turns.
    pub(super) fn lowest_within(&self, minutes: f64) -> f64 {
        let end = self.level + self.net.over(minutes);
        let mut lowest = self.level.min(end);
        if self.net.slope > 0.0 {
            let turn = -self.net.rate / self.net.slope;
            if turn > 0.0 && turn < minutes {
                lowest = lowest.min(self.level + self.net.over(turn));
            }
        }
        lowest.max(0.0)
    }

    pub(super) fn advance(&mut self, minutes: f64) {
        if self.net != Flow::NONE {
            self.gallons += self.net.over(minutes);
            self.level = self.gallons.clamp(0.0, self.capacity);
        }
    }

    /// Holds so much more, or less: what belongs to a part of a tick. A level at a bound stays there.
    pub(super) fn change_by(&mut self, gallons: f64) {
        self.gallons += gallons;
        if self.level > 0.0 && self.level < self.capacity {
            self.level = self.gallons.clamp(0.0, self.capacity);
        }
    }

    /// When its level meets a bound.
    pub(super) fn find_crossing(&mut self, now: Moment) {
        self.crosses_at = Moment::NEVER;
        let (level, gallons, net) = (self.level, self.gallons, self.net);
        if net == Flow::NONE {
            return;
        }
        (self.crosses_at, self.bound) = net.meets(now, self.capacity, 0.0, |bound| {
            let (way, left) = (bound - level, bound - gallons);
            if way * left > 0.0 { left } else { way }
        });
    }
}
