//! The trip wires: what is asked of the runs, and their figures.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::Interval;
use shuttle_report::trip_wires::{self, Cell, Question, TripWires, Watched};
use shuttle_report::units::{LITRES_PER_GALLON, Units};
use shuttle_sim::Plan;

use crate::say::Chances;

/// Minutes within which no load comes. The second is "no tanker in sight": one that is seen coming takes about two
/// minutes to stop, get into place and pour (assumed; a drill can correct it).
pub const NO_LOAD_WITHIN: [f64; 4] = [1.0, IN_SIGHT, 4.0, 6.0];
/// A tanker in sight pours within so many minutes.
pub const IN_SIGHT: f64 = 2.0;
/// From this share of fires on that run short, ask where the next load is. Judgement.
pub const ASK_FROM: f64 = 0.1;
/// From this share on, gate down: more often than not the lines run short otherwise. Judgement.
pub const GATE_DOWN_FROM: f64 = 0.5;
/// Above so much of what the tank holds no level warns of anything: every tank stands there once, filled or being
/// filled, in good fires and bad. Judgement.
const NEARLY_FULL: f64 = 0.75;
/// At most so many levels are looked at.
const MOST_LEVELS: f64 = 16.0;
/// Steps between levels that can be read off a tank, in the reader's units.
const STEPS: [f64; 8] = [50.0, 100.0, 200.0, 250.0, 500.0, 1_000.0, 2_000.0, 5_000.0];

/// The levels to look at: round numbers in the reader's units, from below full to above what no pump reaches, the
/// level at which the pump first draws, and what is kept for backing out.
pub fn question(plan: &Plan, units: Units) -> Question {
    let (capacity, unusable) = Watched::of(plan).capacity_and_unusable(plan);
    let gallons = match units {
        Units::Us => 1.0,
        Units::Metric => 1.0 / LITRES_PER_GALLON,
    };
    let floor = floor(plan);
    let usable = capacity - unusable;
    let wide_enough = |step: &&f64| usable <= **step * gallons * MOST_LEVELS;
    let widest = usable / MOST_LEVELS / gallons;
    let step = STEPS.iter().find(wide_enough).copied().unwrap_or(widest) * gallons;
    let most = (capacity / step).ceil() as u64;
    let levels = (1..most)
        .rev()
        .map(|count| count as f64 * step)
        .filter(|level| *level > floor && *level <= NEARLY_FULL * capacity);
    Question {
        levels: levels.collect(),
        no_load_within: NO_LOAD_WITHIN.to_vec(),
        ask_from: ASK_FROM,
        gate_down_from: GATE_DOWN_FROM,
    }
}

/// Below it no level is told: nobody gates down at less than what the pump needs to begin, nor at the water for
/// backing out.
fn floor(plan: &Plan) -> f64 {
    let facts = plan.facts();
    let (_, unusable) = Watched::of(plan).capacity_and_unusable(plan);
    match facts.drop_tanks.first() {
        Some(tank) => unusable.max(facts.supply.restart_level_for(tank)),
        None => unusable.max(facts.incident.reserve),
    }
}

/// What of the watched water the lines do not get: what no pump reaches, and of the engine's own tank what is kept
/// for backing out.
fn kept(plan: &Plan) -> f64 {
    let (_, unusable) = Watched::of(plan).capacity_and_unusable(plan);
    let facts = plan.facts();
    if facts.drop_tanks.is_empty() { unusable.max(facts.incident.reserve) } else { unusable }
}

/// Which water is watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Water {
    /// All drop tanks together, from when the pump first drew.
    DropTanks,
    /// The attack engine's own tank, from first water: where there are no drop tanks.
    EngineTank,
}

/// The trip wires. A fire counts where the water fell through a level while the lines had their flow, and no load
/// began to pour within so many minutes; it ran short where the lines did before the water stood above the level
/// again with the pump drawing.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WiresFigures {
    /// Which water is watched.
    pub water: Water,
    /// What it holds when full.
    pub full_gal: f64,
    /// How much of that no pump reaches.
    pub unusable_gal: f64,
    /// From this share of fires running short on, ask where the next load is.
    pub ask_from_share: f64,
    /// From this share on, gate down.
    pub gate_down_from_share: f64,
    /// Minutes within which a tanker that is in sight pours.
    pub in_sight_min: f64,
    /// One for each number of minutes without a load.
    pub wires: Vec<WireFigures>,
    /// Every level with every number of minutes.
    pub table: Vec<CellFigures>,
}

/// The levels to act at when no load comes for so many minutes; none where no level calls for it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WireFigures {
    /// Minutes within which no load comes.
    pub no_load_within_min: f64,
    /// The highest level at which to ask where the next load is.
    pub ask: Option<CellFigures>,
    /// The highest level at which to say that the lines be gated down.
    pub gate_down: Option<CellFigures>,
}

/// Fires that fell through one level with no load within so many minutes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct CellFigures {
    /// The level.
    pub level_gal: f64,
    /// Minutes it lasts at the greatest attack flow, by hand, down to what no pump reaches or what is kept for backing
    /// out.
    pub lasts_min: f64,
    /// Minutes within which no load began to pour.
    pub no_load_within_min: f64,
    /// Fires in which that happened.
    pub fires: u64,
    /// Share of them that ran short; null where fewer than 100 fires fell through the level so.
    pub ran_short: Option<f64>,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
}

impl CellFigures {
    /// How often those fires ran short.
    pub fn chances(&self) -> Option<Chances> {
        self.ran_short.map(|share| Chances::of(share, self.fires))
    }
}

impl WiresFigures {
    /// Of what was found for a plan that wants this flow at most, gpm.
    pub fn new(found: &TripWires, plan: &Plan, peak_gpm: f64) -> WiresFigures {
        let (full_gal, unusable_gal) = found.watched.capacity_and_unusable(plan);
        let kept = kept(plan);
        let cell = |cell: &Cell| {
            let (ci_low, ci_high) = cell.interval();
            CellFigures {
                level_gal: cell.level,
                lasts_min: (cell.level - kept).max(0.0) / peak_gpm,
                no_load_within_min: cell.no_load_within,
                fires: cell.fires,
                ran_short: cell.share(),
                ci_low,
                ci_high,
                interval: Interval::Single,
            }
        };
        let wire = |wire: &trip_wires::Wire| WireFigures {
            no_load_within_min: wire.no_load_within,
            ask: wire.ask.as_ref().map(cell),
            gate_down: wire.gate_down.as_ref().map(cell),
        };
        WiresFigures {
            water: match found.watched {
                Watched::DropTanks => Water::DropTanks,
                Watched::EngineTank => Water::EngineTank,
            },
            full_gal,
            unusable_gal,
            ask_from_share: ASK_FROM,
            gate_down_from_share: GATE_DOWN_FROM,
            in_sight_min: IN_SIGHT,
            wires: found.wires.iter().map(wire).collect(),
            table: found.cells.iter().map(cell).collect(),
        }
    }

    /// The level to gate down at that is said first: with no tanker in sight where a level calls for it, else of the
    /// shortest wait that has one.
    pub fn first_gate_down(&self) -> Option<CellFigures> {
        let waits = self.in_sight().into_iter().chain(&self.wires);
        waits.filter_map(|wire| wire.gate_down).next()
    }

    /// For each later load than the one that [`Self::first_gate_down`] is told for, the higher level to gate down at.
    pub fn gate_down_sooner(&self) -> Vec<CellFigures> {
        let Some(first) = self.first_gate_down() else { return Vec::new() };
        (self.wires.iter())
            .filter(|wire| wire.no_load_within_min > first.no_load_within_min)
            .filter_map(|wire| wire.gate_down)
            .filter(|cell| cell.level_gal > first.level_gal)
            .collect()
    }

    /// Where to ask for the next load: with no tanker in sight, and no later than one gates down for a later load, which
    /// takes knowing how far off it is.
    pub fn ask_at(&self) -> Option<CellFigures> {
        let ask = self.in_sight().and_then(|wire| wire.ask);
        let all = ask.into_iter().chain(self.gate_down_sooner());
        all.max_by(|a, b| a.level_gal.total_cmp(&b.level_gal))
    }

    /// The levels to act at with no tanker in sight.
    pub fn in_sight(&self) -> Option<&WireFigures> {
        self.wires.iter().find(|wire| wire.no_load_within_min == self.in_sight_min)
    }
}
