//! What the figures of `risk` are made of: causes, busy places, tankers, levels, changes that were run.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::{Apart, Interval};
use shuttle_report::summary::Band;
use shuttle_report::what_would_help::{Help, Shortens};

use crate::shared::Whom;
use crate::shared::changes::ChangeFigures;

/// Share of the time watched by place.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Busy {
    /// Fill positions.
    pub fill_positions: Vec<BusyPlace>,
    /// Dump positions.
    pub dump_positions: Vec<BusyTank>,
    /// The attack engine's intakes.
    pub intakes: f64,
}

/// First interruptions of one cause that are about one unit or source.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CauseAbout {
    /// The cause.
    #[schemars(schema_with = "crate::shared::closed_words::cause")]
    pub cause: &'static str,
    /// Whom or what it is about.
    pub about: Whom,
    /// Share of all first interruptions.
    pub share: f64,
}

/// First interruptions of one cause in which the same thing held.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CauseOfWhich {
    /// The cause.
    #[schemars(schema_with = "crate::shared::closed_words::cause")]
    pub cause: &'static str,
    /// What held; `intake_free`: a loaded tanker waited, or stood at a full drop tank, while an intake of the attack
    /// engine was free.
    #[serde(rename = "of_which")]
    #[schemars(schema_with = "crate::shared::closed_words::of_which")]
    pub kind: &'static str,
    /// Share of all first interruptions.
    pub share: f64,
}

/// What parts of a cycle are made of.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct CycleOfWhich {
    /// Of `dump`: held up by a full drop tank, beyond what the load takes at its own rate.
    pub dump_held_up: f64,
}

/// Share of the time watched that a place was held.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BusyPlace {
    /// Its name.
    pub name: String,
    /// The share.
    pub share: f64,
}

/// Share of the time watched that a drop tank's dump positions were held.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BusyTank {
    /// The drop tank's place in the list, from 1.
    pub number: usize,
    /// The share.
    pub share: f64,
}

/// One tanker's means.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TankerFigures {
    /// Its name.
    pub name: String,
    /// Loads brought in a fire.
    pub trips_mean: f64,
    /// Water delivered in a fire.
    pub delivered_gal_mean: f64,
    /// Minutes of a cycle by part.
    #[schemars(schema_with = "crate::shared::closed_words::by_part")]
    pub cycle_min: BTreeMap<&'static str, f64>,
    /// Of which, by part.
    pub cycle_of_which_min: CycleOfWhich,
}

/// Water taken at a fill site.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Taken {
    /// Its name.
    pub name: String,
    /// In a fire, mean.
    pub taken_gal_mean: f64,
}

/// Levels over time, where at least half of the fires are being watched.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LevelFigures {
    /// Minutes after the alarm, one a mark.
    pub minute: Vec<f64>,
    /// One a drop tank.
    pub drop_tanks_gal: Vec<BandFigures>,
    /// The attack engine's tank.
    pub attack_engine_gal: BandFigures,
}

/// Five quantiles of a level, one of each a mark.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BandFigures {
    /// 5%.
    pub p5: Vec<f64>,
    /// 25%.
    pub p25: Vec<f64>,
    /// 50%.
    pub p50: Vec<f64>,
    /// 75%.
    pub p75: Vec<f64>,
    /// 95%.
    pub p95: Vec<f64>,
}

/// A change that makes the fires short for less time.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ShortensFigures {
    /// What is changed.
    pub change: ChangeFigures,
    /// Fires simulated with it: the first of those of the plan.
    pub replications: u64,
    /// Minutes short a fire as it stands, mean.
    pub interrupted_minutes_mean_before: f64,
    /// Minutes short with it, mean.
    pub interrupted_minutes_mean: f64,
    /// How many fewer.
    pub fewer_by: Apart,
}

impl ShortensFigures {
    /// From a change that was run.
    pub fn new(one: &Shortens) -> ShortensFigures {
        ShortensFigures {
            change: ChangeFigures::from(one.change.clone()),
            replications: one.replications,
            interrupted_minutes_mean_before: one.minutes_before,
            interrupted_minutes_mean: one.minutes,
            fewer_by: one.fewer,
        }
    }
}

/// A change and what it does.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HelpFigures {
    /// What is changed.
    pub change: ChangeFigures,
    /// Fires simulated with it: the first of those of the plan.
    pub replications: u64,
    /// The chance with it.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval, by itself.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// How much higher the chance is than as it stands, on the fires that both had; its 95% interval holds for
    /// all changes at once.
    pub higher_by: Apart,
}

/// A change that was tried.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TriedFigures {
    /// The change and what it does.
    #[serde(flatten)]
    pub tried: HelpFigures,
    /// The causes that it is a cure of.
    #[schemars(schema_with = "crate::shared::closed_words::some_causes")]
    pub cures: Vec<&'static str>,
    /// Whether it makes no difference in any fire: not whether the lines run short, nor for how long, nor in what
    /// they get or how low the attack engine runs.
    pub never_binds: bool,
}

/// A change that hurts.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HarmFigures {
    /// Fires simulated with it.
    pub replications: u64,
    /// The chance with it.
    pub interruption_probability: f64,
    /// How much higher the chance is, on the fires that both had, with its 95% interval.
    pub higher_by: Apart,
}

/// A change that was run, as figures.
pub(super) fn help_figures(help: &Help) -> HelpFigures {
    HelpFigures {
        change: help.change.clone().into(),
        replications: help.replications,
        interruption_probability: help.interruption_probability,
        ci_low: help.ci_low,
        ci_high: help.ci_high,
        interval: Interval::Single,
        higher_by: Apart {
            by: -help.lower_by,
            ci_low: -help.lower_by_ci.1,
            ci_high: -help.lower_by_ci.0,
            interval: Interval::AllAtOnce,
        },
    }
}

/// A band of a level, as figures.
pub(super) fn band(of: Band) -> BandFigures {
    BandFigures { p5: of.p5, p25: of.p25, p50: of.p50, p75: of.p75, p95: of.p95 }
}
