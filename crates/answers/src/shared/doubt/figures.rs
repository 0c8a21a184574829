//! The figures of doubt.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::doubt::asked::Doubt;
use shuttle_sim::{Owner, PlanPart, RestsOn};

/// How far the chance can be trusted: its range over what the inputs may be that rest on readings or guesses.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct DoubtFigures {
    /// The share of what the inputs may be that the range covers.
    #[serde(rename = "covers_share")]
    pub level: f64,
    /// Draws of the inputs.
    pub draws: usize,
    /// Simulated fires under each draw.
    pub fires_each: u64,
    /// Chance that the lines run short, mean over the draws.
    pub interruption_probability_mean: f64,
    /// Low end of the range of that chance.
    pub interruption_probability_low: f64,
    /// High end.
    pub interruption_probability_high: f64,
    /// The inputs that rest on readings or guesses.
    pub inputs: Vec<InputFigures>,
    /// The readings that would narrow the range most, best first.
    pub worth_timing: Vec<WorthTimingFigures>,
    /// The share of what the inputs may be in which the target is missed; none where there is no target.
    pub misses_target: Option<f64>,
    /// What the first change that is recommended does over the draws; none where none was held against the plan.
    pub first_change: Option<ChangeInDoubtFigures>,
}

/// An input that rests on readings or a guess.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct InputFigures {
    /// What it belongs to.
    #[serde(rename = "belongs_to")]
    pub of: OwnerFigures,
    /// Which facts, by their keys in the scenario.
    #[schemars(schema_with = "facts")]
    pub facts: Vec<&'static str>,
    /// What it rests on.
    pub rests_on: RestsOnFigures,
    /// The share of the variance of the chance that it makes by itself.
    pub share_of_variance: f64,
}

/// What an input belongs to, by the user's names.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum OwnerFigures {
    /// The attack engine.
    AttackEngine,
    /// The supply.
    Supply,
    /// The supply engine.
    SupplyEngine,
    /// The drop tank with this number, from 1.
    DropTank {
        /// Its number.
        number: usize,
    },
    /// The tanker or group of this name.
    Tankers {
        /// Its name.
        name: String,
    },
    /// All tankers without times of their own.
    EveryTanker,
    /// The fill site of this name.
    FillSite {
        /// Its name.
        name: String,
    },
    /// The one-lane stretch near this fill site; null: near the scene.
    OneLane {
        /// The fill site's name; null: near the scene.
        fill_site: Option<String>,
    },
}

/// What an input rests on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum RestsOnFigures {
    /// Readings.
    Readings {
        /// How many.
        readings: u32,
    },
    /// A guess.
    Guess {
        /// Off by this factor either way in 80 of 100 cases.
        factor: f64,
    },
}

/// What more readings of an input should make of the range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct WorthTimingFigures {
    /// Its place among the inputs; a result counts them from 1.
    #[serde(rename = "input_number", serialize_with = "crate::shared::closed_words::from_one")]
    pub input: usize,
    /// How many readings.
    pub readings: u32,
    /// Low end of the range that is to be expected then.
    pub interruption_probability_low: f64,
    /// High end.
    pub interruption_probability_high: f64,
}

/// What a change does over the draws.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct ChangeInDoubtFigures {
    /// How much higher the chance is with it, low end of the range.
    pub higher_by_low: f64,
    /// High end.
    pub higher_by_high: f64,
    /// The share of what the inputs may be in which it does not lower the chance.
    pub does_not_help: f64,
}

impl DoubtFigures {
    /// From what was found.
    ///
    /// - Given: `target`, the chance to stay below, where there is one.
    pub fn new(found: &Doubt, target: Option<f64>) -> DoubtFigures {
        DoubtFigures {
            level: found.level,
            draws: found.draws,
            fires_each: found.fires_each,
            interruption_probability_mean: found.range.mean,
            interruption_probability_low: found.range.low,
            interruption_probability_high: found.range.high,
            inputs: (found.inputs.iter())
                .map(|input| InputFigures {
                    of: owner(&input.of),
                    facts: input.parts.iter().copied().map(key).collect(),
                    rests_on: match input.rests_on {
                        RestsOn::Readings(readings) => RestsOnFigures::Readings { readings },
                        RestsOn::Guess(factor) => RestsOnFigures::Guess { factor },
                    },
                    share_of_variance: input.share,
                })
                .collect(),
            worth_timing: (found.worth_timing.iter())
                .map(|worth| WorthTimingFigures {
                    input: worth.input,
                    readings: shuttle_report::doubt::readings::MORE,
                    interruption_probability_low: worth.low,
                    interruption_probability_high: worth.high,
                })
                .collect(),
            misses_target: target.map(|target| found.misses(target)),
            first_change: found.changes.first().map(|change| ChangeInDoubtFigures {
                higher_by_low: change.higher_by.low,
                higher_by_high: change.higher_by.high,
                does_not_help: change.does_not_help,
            }),
        }
    }

    /// All fires that the range stands on.
    pub fn fires(&self) -> u64 {
        self.draws as u64 * self.fires_each
    }
}

fn owner(of: &Owner) -> OwnerFigures {
    match of {
        Owner::AttackEngine => OwnerFigures::AttackEngine,
        Owner::Supply => OwnerFigures::Supply,
        Owner::SupplyEngine => OwnerFigures::SupplyEngine,
        Owner::DropTank(listed) => OwnerFigures::DropTank { number: listed + 1 },
        Owner::Tankers { name, .. } => OwnerFigures::Tankers { name: name.clone() },
        Owner::EveryTanker(_) => OwnerFigures::EveryTanker,
        Owner::FillSite(name) => OwnerFigures::FillSite { name: name.clone() },
        Owner::OneLane(near) => OwnerFigures::OneLane { fill_site: near.clone() },
    }
}

/// The key of a fact in the scenario.
fn key(part: PlanPart) -> &'static str {
    match part {
        PlanPart::Response => "response",
        PlanPart::WaterOn => "water_on",
        PlanPart::TankRefill => "tank_refill",
        PlanPart::Setup => "setup",
        PlanPart::Reprime => "reprime",
        PlanPart::DraftLimit => "draft_limit",
        PlanPart::Repair => "repair",
        PlanPart::Transfer => "transfer",
        PlanPart::Capacity => "capacity",
        PlanPart::DumpRate => "dump_rate",
        PlanPart::PumpOff => "pump_off",
        PlanPart::FillLimit => "fill_limit",
        PlanPart::Waste => "waste",
        PlanPart::NurseConnect => "nurse_connect",
        PlanPart::NurseDisconnect => "nurse_disconnect",
        PlanPart::DumpPosition => "dump_position",
        PlanPart::DumpClear => "dump_clear",
        PlanPart::FillConnect => "fill_connect",
        PlanPart::FillDisconnect => "fill_disconnect",
        PlanPart::Flow => "flow",
        PlanPart::Recharge => "recharge",
        PlanPart::Ready => "ready",
        PlanPart::Out => "out",
        PlanPart::Back => "back",
        PlanPart::Crossing => "crossing",
        other => unreachable!("{other:?} never rests on readings or a guess"),
    }
}

/// Every part that may rest on readings or a guess.
const UNSURE: [PlanPart; 25] = [
    PlanPart::Response,
    PlanPart::WaterOn,
    PlanPart::TankRefill,
    PlanPart::Setup,
    PlanPart::Reprime,
    PlanPart::DraftLimit,
    PlanPart::Repair,
    PlanPart::Transfer,
    PlanPart::Capacity,
    PlanPart::DumpRate,
    PlanPart::PumpOff,
    PlanPart::FillLimit,
    PlanPart::Waste,
    PlanPart::NurseConnect,
    PlanPart::NurseDisconnect,
    PlanPart::DumpPosition,
    PlanPart::DumpClear,
    PlanPart::FillConnect,
    PlanPart::FillDisconnect,
    PlanPart::Flow,
    PlanPart::Recharge,
    PlanPart::Ready,
    PlanPart::Out,
    PlanPart::Back,
    PlanPart::Crossing,
];

fn facts(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
    crate::shared::closed_words::some_of(&UNSURE.map(key))
}
