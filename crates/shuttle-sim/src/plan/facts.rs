//! The facts of a shuttle, with units, as stated and not yet checked.
//!
//! A [`PlanDraft`] is written by whoever reads a scenario or tries a change.

use super::calls::{Brought, Call};
use super::fill_sites::{FillSite, OneLane};
use super::rests_on::Unsure;
use super::shared_luck::{Failure, WholeFire};
use super::time_taken::TimeTaken;

/// Everything a run needs, as stated and not yet checked.
///
/// Units: US gallons, gpm, minutes. Times of day count from the alarm (minute 0).
#[derive(Debug, Clone, PartialEq)]
pub struct PlanDraft {
    /// What the plan is called in reports.
    pub title: String,
    /// What the fire asks for.
    pub incident: Incident,
    /// The engine whose lines must not run dry.
    pub attack_engine: AttackEngine,
    /// How water gets from drop tank or nurse to the attack engine.
    pub supply: Supply,
    /// In the order they are fed from and filled; the first is the one drafted from.
    pub drop_tanks: Vec<DropTank>,
    /// In the order they are listed, groups already spelled out one by one.
    pub tankers: Vec<Tanker>,
    /// Where tankers load, in the order they are listed.
    pub fill_sites: Vec<FillSite>,
    /// Stretches of road that carry one direction at a time.
    pub one_lanes: Vec<OneLane>,
    /// What a whole fire shares.
    pub whole_fire: WholeFire,
    /// Which inputs rest on readings or a guess; the others are taken as known.
    pub unsure: Vec<Unsure>,
}

/// What the fire asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct Incident {
    /// Minutes watched, from first water.
    pub duration: f64,
    /// Attack flow by minutes after first water, in rising order of `from`.
    pub attack_flow: Vec<FlowStep>,
    /// Water kept in the attack engine so the crew can back out, gal.
    pub reserve: f64,
    /// A shortfall this long, in minutes, is an interruption; 0 counts any.
    pub tolerance: f64,
}

/// From this minute after first water, the lines need this flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowStep {
    /// Minutes after first water.
    pub from: f64,
    /// gpm; 0 is a lull.
    pub flow: f64,
}

/// The engine that pumps the attack lines.
#[derive(Debug, Clone, PartialEq)]
pub struct AttackEngine {
    /// Its name; unique among all units.
    pub name: String,
    /// Its own tank, gal; starts full.
    pub tank: f64,
    /// When it is asked for and arrives.
    pub call: Call,
    /// Minutes from arrival to first water.
    pub water_on: TimeTaken,
    /// Intakes a nurse can take.
    pub intakes: u32,
    /// What it takes beyond the attack flow while its tank is not full, gpm.
    pub tank_refill: f64,
}

/// How water gets to the attack engine.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Whether a tanker may pump straight into the attack engine until the draft is hooked up.
    pub nurse: bool,
    /// The engine that drafts and pumps to the attack engine; without one the attack engine drafts.
    pub engine: Option<SupplyEngine>,
    /// Minutes to hook up the draft when the attack engine drafts itself.
    pub setup: TimeTaken,
    /// Everything that limits the draft, each with its reason. Empty: no limit.
    pub draft_limits: Vec<DraftLimit>,
    /// The first drop tank's level at which the pump can draw, gal; `None` for 300 gal above
    /// unusable, never above the capacity.
    pub restart_level: Option<f64>,
    /// Minutes to prime again once the level is back at `restart_level`.
    pub reprime: TimeTaken,
    /// What the operator does when the drop tank runs low.
    pub low_water: LowWater,
    /// Water that a dry lay swallows before the engine gets any, gal.
    pub lay_volume: f64,
    /// Whether the drafting pump may fail.
    pub failure: Option<Failure>,
}

/// One limit on the draft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DraftLimit {
    /// Where the limit comes from.
    pub reason: DraftLimitReason,
    /// gpm.
    pub flow: f64,
}

/// Where a limit on the draft comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DraftLimitReason {
    /// Stated outright.
    Stated,
    /// The pump's rating at its lift.
    PumpAtLift,
    /// What the lay can carry at the pump pressure.
    Lay,
}

/// The engine at the drop tanks.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyEngine {
    /// Its name; unique among all units.
    pub name: String,
    /// When it is asked for and arrives.
    pub call: Call,
    /// Minutes to hook up, once it and the first drop tank are ready.
    pub setup: TimeTaken,
}

/// What the pump operator does when less comes into the first drop tank than is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LowWater {
    /// Keeps drawing: prime is lost at the unusable level.
    LosePrime,
    /// Gates down so that the draw equals what comes in.
    Throttle,
}

/// A portable tank at the dump site.
#[derive(Debug, Clone, PartialEq)]
pub struct DropTank {
    /// Its place in the scenario's `drop_tanks`, from 0.
    pub listed: usize,
    /// gal.
    pub capacity: f64,
    /// Water below the strainer's reach, gal.
    pub unusable: f64,
    /// What brings it to the scene.
    pub brought: Brought,
    /// Minutes to set it up once it is there.
    pub setup: TimeTaken,
    /// Tankers that can dump into it at once.
    pub dump_positions: u32,
    /// What it passes to the first drop tank, gpm; unused on the first.
    pub transfer: f64,
}

/// A truck that carries water.
#[derive(Debug, Clone, PartialEq)]
pub struct Tanker {
    /// Its name; unique among all units, and the key of its draws.
    pub name: String,
    /// Which entry of the scenario's `tankers` list it came from.
    pub listed: usize,
    /// gal.
    pub capacity: f64,
    /// When it is asked for and arrives.
    pub call: Call,
    /// Rate at which the load moves into a drop tank, gpm.
    pub dump_rate: f64,
    /// Whether `dump_rate` holds throughout or is an average.
    pub dump_curve: DumpCurve,
    /// Rate at which the load moves into the attack engine when nursing, gpm.
    pub pump_off: f64,
    /// Greatest rate at which it takes water, gpm; `None`: not stated, see [`Tanker::fill_limit_at`].
    pub fill_limit: Option<f64>,
    /// Share of what could leave that is spilled or not filled, 0 to below 1.
    pub waste: f64,
    /// Share of the capacity that never leaves, 0 to below 1.
    pub residual: f64,
    /// Chance of a breakdown after each trip, 0 to 1.
    pub breakdown_per_trip: f64,
    /// Minutes a breakdown takes; `None` takes it out for good.
    pub repair: Option<TimeTaken>,
    /// The site it is assigned to, by place in the list; `None`: it chooses.
    pub fill_site: Option<usize>,
    /// Its handling times.
    pub handling: Handling,
    /// How much its crew's nights differ: coefficient of variation of one more factor on its handling.
    pub crew_cv: f64,
    /// How long it drives on the open road, beside the times of the roads: 1.2 takes a fifth longer.
    pub drive_factor: f64,
    /// The department that comes whole or not at all: its tankers share the draw of whether they come, and state one
    /// `turnout`. `None`: whether it comes is its own luck.
    pub comes_with: Option<String>,
    /// Rate at which it fills itself where its own hose reaches the water, gpm; `None`: it is filled.
    pub self_fill: Option<f64>,
}

/// How the flow out of a dumping tanker behaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DumpCurve {
    /// `dump_rate` throughout.
    Steady,
    /// Falls with the square root of what is left; `dump_rate` is its average over the first 90%.
    Gravity,
}

/// Minutes taken by each piece of handling.
#[derive(Debug, Clone, PartialEq)]
pub struct Handling {
    /// Connect to the attack engine.
    pub nurse_connect: TimeTaken,
    /// Break that connection.
    pub nurse_disconnect: TimeTaken,
    /// Get into place at the drop tank.
    pub dump_position: TimeTaken,
    /// Pull clear of the drop tank.
    pub dump_clear: TimeTaken,
    /// Connect at the fill site.
    pub fill_connect: TimeTaken,
    /// Disconnect at the fill site.
    pub fill_disconnect: TimeTaken,
}

impl PlanDraft {
    /// The mean of first water, minutes after the alarm: the factors that a whole fire shares have mean 1 and are drawn
    /// apart from the times they multiply, so that it is the sum of the means.
    pub fn first_water_mean(&self) -> f64 {
        let engine = &self.attack_engine;
        engine.call.requested_at + engine.call.response.mean() + engine.water_on.mean()
    }

    /// The minute after the alarm from which a fill site can serve, every time at its mean: that of the site, and that of
    /// the pump that comes to it, there and set up.
    ///
    /// - Given: the site, by place in the list.
    pub fn site_ready_mean(&self, site: usize) -> f64 {
        let site = &self.fill_sites[site];
        let draws = site.source_pump.as_ref().map(|pump| {
            let call = match &pump.brought {
                Brought::Itself(call) => call,
                Brought::ByTanker(place) => &self.tankers[*place].call,
                Brought::ByAttackEngine => &self.attack_engine.call,
                Brought::BySupplyEngine => {
                    self.supply.engine.as_ref().map_or(&self.attack_engine.call, |one| &one.call)
                }
            };
            call.requested_at + call.response.mean() + pump.setup.mean()
        });
        draws.map_or(site.ready.mean(), |draws| draws.max(site.ready.mean()))
    }

    /// Whether anything is drawn once a fire: factors, turnout, failures.
    pub fn shares_luck(&self) -> bool {
        let own_calls = self.drop_tanks.iter().filter_map(|tank| match &tank.brought {
            Brought::Itself(call) => Some(call),
            _ => None,
        });
        let mut calls = (self.tankers.iter().map(|tanker| &tanker.call))
            .chain(self.supply.engine.as_ref().map(|engine| &engine.call))
            .chain(own_calls)
            .chain(self.fill_sites.iter().filter_map(|site| site.source_pump.as_ref()?.call()));
        let mut failures = (self.fill_sites.iter().filter_map(|site| site.failure.as_ref()))
            .chain(&self.supply.failure);
        self.whole_fire.each().iter().any(|(_, cv)| *cv > 0.0)
            || self.tankers.iter().any(|tanker| tanker.crew_cv > 0.0)
            || calls.any(|call| call.turnout < 1.0)
            || failures.any(|failure| failure.chance > 0.0)
    }

    /// The greatest rate at which a tanker takes water at any of the fill sites, gpm.
    pub fn greatest_fill_limit(&self, tanker: &Tanker) -> f64 {
        (self.fill_sites.iter()).fold(0.0, |most, site| tanker.fill_limit_at(site).max(most))
    }
}

impl Supply {
    /// The least of the limits, gpm; infinite where there is none.
    pub fn draft_limit(&self) -> f64 {
        (self.draft_limits.iter()).fold(f64::INFINITY, |least, limit| least.min(limit.flow))
    }

    /// `restart_level`, or its default for this first drop tank, gal; the default also where this tank
    /// cannot offer the level, which was stated for another.
    pub fn restart_level_for(&self, first: &DropTank) -> f64 {
        let default = (first.unusable + RESTART_ABOVE_UNUSABLE).min(first.capacity);
        self.restart_level.filter(|level| first.offers(*level)).unwrap_or(default)
    }

    /// Whether a lay lies between the drop tanks and the attack engine, which then cannot draft itself.
    pub fn has_lay(&self) -> bool {
        self.lay_volume > 0.0
            || self.draft_limits.iter().any(|limit| limit.reason == DraftLimitReason::Lay)
    }
}

impl DropTank {
    /// Whether the pump can wait for this level: at least a gallon above unusable, up to the capacity.
    pub fn offers(&self, restart_level: f64) -> bool {
        (self.unusable + LEAST_RESTART..=self.capacity).contains(&restart_level)
    }
}

impl Handling {
    /// Each handling time with its key.
    pub fn each(&self) -> [(&'static str, &TimeTaken); 6] {
        [
            ("nurse_connect", &self.nurse_connect),
            ("nurse_disconnect", &self.nurse_disconnect),
            ("dump_position", &self.dump_position),
            ("dump_clear", &self.dump_clear),
            ("fill_connect", &self.fill_connect),
            ("fill_disconnect", &self.fill_disconnect),
        ]
    }
}

impl Tanker {
    /// What a whole fill takes, gal.
    pub fn fill(&self) -> f64 {
        self.capacity * (1.0 - self.residual)
    }

    /// What a full load delivers, gal.
    pub fn load(&self) -> f64 {
        self.fill() * (1.0 - self.waste)
    }

    /// The rate at which it fills itself at this site, gpm; `None` where it is filled like others.
    pub fn self_fill_at(&self, site: &FillSite) -> Option<f64> {
        self.self_fill.filter(|_| site.self_fill)
    }

    /// The greatest rate at which it takes water at this site, gpm: its own where it fills itself; as stated; where
    /// nothing is, what the apparatus standard asks of a tanker, or the pump at the source where that gives more.
    pub fn fill_limit_at(&self, site: &FillSite) -> f64 {
        if let Some(rate) = self.self_fill_at(site) {
            return rate;
        }
        self.fill_limit.unwrap_or(FILL_LIMIT.max(site.pump.unwrap_or(0.0)))
    }

    /// How fast it fills with this site to itself, gpm.
    pub fn fill_rate_at(&self, site: &FillSite) -> f64 {
        self.self_fill_at(site).unwrap_or_else(|| self.fill_limit_at(site).min(site.flow))
    }

    /// Mean minutes of the road to this site and back, as this tanker drives it.
    pub fn drive_to(&self, site: &FillSite) -> [f64; 2] {
        [&site.out, &site.back].map(|leg| leg.time.mean() * self.drive_factor)
    }
}

/// The default restart level lies this far above the unusable level, gal (the model's definition).
pub const RESTART_ABOVE_UNUSABLE: f64 = 300.0;

/// The restart level lies at least this far above unusable, gal: else the pump would win and lose its
/// prime without end.
pub(crate) const LEAST_RESTART: f64 = 1.0;

/// What a tanker takes where nothing is stated, gpm. Source: NFPA 1901/1903, a tanker takes 1,000 gpm.
pub const FILL_LIMIT: f64 = 1_000.0;
