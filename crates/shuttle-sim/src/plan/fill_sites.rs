//! The facts of the sources and of the roads to them, with units, as stated and not yet checked.

use super::calls::{Brought, Call};
use super::limits;
use super::shared_luck::Failure;
use super::time_taken::TimeTaken;

/// A place where tankers load.
#[derive(Debug, Clone, PartialEq)]
pub struct FillSite {
    /// Its name; unique among fill sites.
    pub name: String,
    /// Flow for all tankers filling at once, gpm.
    pub flow: f64,
    /// The rating of the pump at the source, where the scenario states one, gpm.
    pub pump: Option<f64>,
    /// Tankers that can be hooked up at once.
    pub positions: u32,
    /// Minutes after the alarm at which it can serve.
    pub ready: TimeTaken,
    /// How tankers share the flow.
    pub fill_order: FillOrder,
    /// Water to be had, gal; `None`: no end to it.
    pub volume: Option<f64>,
    /// What runs into a limited volume, gpm.
    pub recharge: f64,
    /// Whether it may fail.
    pub failure: Option<Failure>,
    /// The pump that someone brings there, without which it serves nobody but those who fill themselves; `None`:
    /// what gives the water is there, see `ready`.
    pub source_pump: Option<SourcePump>,
    /// Whether tankers that fill themselves can reach its water with their own hose.
    pub self_fill: bool,
    /// The road from the scene.
    pub out: Leg,
    /// The road to the scene.
    pub back: Leg,
}

/// A pump that someone brings to a fill site: the site can serve once it has come and is set up.
#[derive(Debug, Clone, PartialEq)]
pub struct SourcePump {
    /// Its name, or that of the engine that pumps; unique among all units.
    pub name: String,
    /// What brings it. Its own vehicle drives to the site, and its response counts to there; another unit has
    /// brought it once that has reached the scene, and the way on to the site is part of the set-up.
    pub brought: Brought,
    /// Minutes to set it up.
    pub setup: TimeTaken,
}

/// How tankers that fill at once share a site's flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FillOrder {
    /// Max-min fair: equal shares, what one cannot take goes to the others.
    Shared,
    /// Whoever began first takes all it can, the next what is left.
    OneByOne,
}

/// One way along the road.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// Distance, where the scenario gives one, miles.
    pub miles: Option<f64>,
    /// Minutes on the way.
    pub time: TimeTaken,
}

/// A stretch of road that carries one direction at a time.
#[derive(Debug, Clone, PartialEq)]
pub struct OneLane {
    /// Which end of the haul it lies at.
    pub near: Near,
    /// Minutes to cross it, on top of the leg.
    pub crossing: TimeTaken,
}

/// Which end of the haul.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Near {
    /// By the fire.
    Scene,
    /// By the fill site with this place in the list.
    FillSite(usize),
}

impl SourcePump {
    /// Its own call, where it has its own vehicle.
    pub fn call(&self) -> Option<&Call> {
        match &self.brought {
            Brought::Itself(call) => Some(call),
            _ => None,
        }
    }
}

impl FillSite {
    /// It serves nobody for as long as anyone watches.
    pub fn never_serves(&mut self) {
        self.ready = TimeTaken::Fixed(limits::MOST_MINUTES);
        self.source_pump = None;
        self.self_fill = false;
    }
}
