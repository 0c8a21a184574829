//! The figures of `levers`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::changes::input::{Input, Way};
use shuttle_report::levers::{LeverAnswer, LeverRow, Moved};
use shuttle_report::options_compared::{Apart, Interval};

use crate::shared::against::Against;
use crate::shared::changes::QuantityFigures;

use super::inputs::{is_demand, is_reserve};
use super::{interval, is_unexpected};

/// The figures of `levers`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LeverFigures {
    /// Share of fires in which the lines run short as it stands.
    pub interruption_probability: f64,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// Share of fires in which the reserve is used as it stands.
    #[serde(rename = "reserve_touched_share")]
    pub reserve_touched: f64,
    /// Minutes short a fire as it stands, mean.
    pub interrupted_minutes_mean: f64,
    /// The inputs: first those that make a difference, by what they are worth, the demand last.
    #[serde(rename = "levers_moved")]
    pub levers: Vec<LeverFigure>,
}

/// One input.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LeverFigure {
    /// What is moved.
    pub input: Input,
    /// What it is as planned.
    pub now: QuantityFigures,
    /// The amount it is moved by.
    pub amount: QuantityFigures,
    /// Whether it is the flow the lines need, which no purchase lowers.
    pub is_demand: bool,
    /// Whether it is the reserve, which moves no water.
    pub is_reserve: bool,
    /// Whether either way makes a difference that these fires show.
    pub is_clear: bool,
    /// Moved to the side that should help; null where it cannot be.
    pub better: Option<MovedFigures>,
    /// Moved to the other side; null where it cannot be.
    pub worse: Option<MovedFigures>,
}

/// An input moved one way.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct MovedFigures {
    /// Which way.
    pub way: Way,
    /// Fires simulated.
    pub replications: u64,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
    /// How much higher the share is than as it stands, with its 95% interval.
    pub higher_by: Apart,
    /// Minutes short a fire then, mean; null from fewer than two fires.
    pub interrupted_minutes_then: Option<f64>,
    /// How many more minutes short a fire, mean; null from fewer than two fires.
    #[serde(rename = "interrupted_minutes_higher_by")]
    pub more_minutes: Option<Apart>,
    /// How much higher the share is in which the reserve is used.
    #[serde(rename = "reserve_touched_higher_by")]
    pub reserve_touched_by: Apart,
    /// What these fires show, for all inputs at once.
    #[serde(rename = "effect")]
    pub shows: Against,
    /// Whether it hurts although one would expect help.
    pub is_unexpected: bool,
    /// Whether it changes nothing in any of these fires.
    pub never_binds: bool,
}

impl LeverFigures {
    /// From what was found.
    pub fn new(found: &LeverAnswer) -> LeverFigures {
        let (ci_low, ci_high) = interval(found);
        LeverFigures {
            interruption_probability: found.interruption_probability,
            ci_low,
            ci_high,
            interval: Interval::Single,
            reserve_touched: found.reserve_touched,
            interrupted_minutes_mean: found.interrupted_minutes_mean,
            levers: (found.rows.iter())
                .map(|row| lever(row, found.interrupted_minutes_mean))
                .collect(),
        }
    }
}

/// - Given: minutes short a fire as it stands, mean.
fn lever(row: &LeverRow, minutes_mean: f64) -> LeverFigure {
    LeverFigure {
        input: row.input.clone(),
        now: row.now.into(),
        amount: row.amount.into(),
        is_demand: is_demand(row),
        is_reserve: is_reserve(row),
        is_clear: row.is_clear,
        better: row.better.as_ref().map(|moved| moved_figures(row, moved, minutes_mean)),
        worse: row.worse.as_ref().map(|moved| moved_figures(row, moved, minutes_mean)),
    }
}

fn moved_figures(row: &LeverRow, moved: &Moved, minutes_mean: f64) -> MovedFigures {
    MovedFigures {
        way: moved.way,
        replications: moved.replications,
        interruption_probability: moved.interruption_probability,
        higher_by: moved.higher_by,
        interrupted_minutes_then: moved.more_minutes.map(|more| minutes_mean + more.by),
        more_minutes: moved.more_minutes,
        reserve_touched_by: moved.reserve_touched_by,
        shows: moved.verdict.into(),
        is_unexpected: is_unexpected(row, moved),
        never_binds: moved.never_binds,
    }
}
