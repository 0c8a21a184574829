//! The figures of `lose`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::losses::{self, LossAnswer, LossRow, Lost};
use shuttle_report::options_compared::{Apart, Interval};

use crate::shared::luck::SharedLuck;
use crate::shared::target::Side;

/// The figures of `lose`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LossFigures {
    /// What a whole fire was taken to share.
    pub shared_luck: SharedLuck,
    /// Share of fires in which the lines may run short at most.
    pub target: f64,
    /// Whether the plan withstands the loss of any one thing.
    pub stands: Stands,
    /// Share of fires in which the lines run short with everything in service.
    pub interruption_probability: f64,
    /// Lower end of its interval; the intervals of all losses and this one hold at once with 95%.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// Minutes short a fire with everything in service, mean.
    pub interrupted_minutes_mean: f64,
    /// With everything in service: on which side of the target.
    #[serde(rename = "side_of_target")]
    pub fails: Side,
    /// The losses, the worst first.
    pub losses: Vec<LossRowFigures>,
}

/// Whether the plan withstands the loss of any one thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Stands {
    /// The chance stays below the target whatever is lost.
    AnyOne,
    /// Some loss brings it above.
    NotAnyOne,
    /// It is above with everything in service.
    NotEvenWhole,
    /// Not clear from the fires simulated.
    NotClear,
}

/// One loss.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LossRowFigures {
    /// What is lost; null with everything in service.
    pub lost: Option<Lost>,
    /// Fires simulated without it.
    pub replications: u64,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
    /// Lower end of its interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// Minutes short a fire, mean.
    pub interrupted_minutes_mean: f64,
    /// How much higher the share is than with everything; null where nothing was simulated.
    pub higher_by: Option<Apart>,
    /// On which side of the target.
    #[serde(rename = "side_of_target")]
    pub fails: Side,
}

impl LossFigures {
    /// From what was found.
    pub fn new(found: &LossAnswer, shared_luck: SharedLuck) -> LossFigures {
        let whole = row(&found.whole);
        LossFigures {
            shared_luck,
            target: found.target,
            stands: match found.stands {
                losses::Stands::AnyOne => Stands::AnyOne,
                losses::Stands::NotAnyOne => Stands::NotAnyOne,
                losses::Stands::NotEvenWhole => Stands::NotEvenWhole,
                losses::Stands::NotClear => Stands::NotClear,
            },
            interruption_probability: whole.interruption_probability,
            ci_low: whole.ci_low,
            ci_high: whole.ci_high,
            interval: whole.interval,
            interrupted_minutes_mean: whole.interrupted_minutes_mean,
            fails: whole.fails,
            losses: found.losses.iter().map(row).collect(),
        }
    }
}

fn row(row: &LossRow) -> LossRowFigures {
    LossRowFigures {
        lost: row.lost.clone(),
        replications: row.replications,
        interruption_probability: row.interruption_probability,
        ci_low: row.ci_low,
        ci_high: row.ci_high,
        interval: Interval::AllAtOnce,
        interrupted_minutes_mean: row.interrupted_minutes_mean,
        higher_by: row.higher_by,
        fails: row.verdict.into(),
    }
}
