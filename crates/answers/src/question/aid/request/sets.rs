//! The sets that `request` tried: of each number of units the best.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::Interval;
use shuttle_report::request::{RequestAnswer, SizeRow};

use crate::say::Chances;
use crate::shared::target::Side;

/// The best set of one size.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SetFigures {
    /// Units asked for.
    #[serde(rename = "unit_count")]
    pub units: usize,
    /// Sets of this size that were tried.
    #[serde(rename = "sets_tried")]
    pub sets: usize,
    /// Names of the units of the best of them.
    pub names: Vec<String>,
    /// Simulated fires of it.
    pub replications: u64,
    /// Share of fires in which the lines run short.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval, for all sets at once.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// On which side of the target the best of them lies.
    #[serde(rename = "side_of_target")]
    pub verdict: Side,
}

impl SetFigures {
    /// How often the lines run short.
    pub fn chances(&self) -> Chances {
        Chances::of(self.interruption_probability, self.replications)
    }
}

/// The best set of so many units. Of the one that is the request the chance is that of the request, which was run in full.
pub(super) fn set(row: &SizeRow, found: &RequestAnswer) -> SetFigures {
    let is_the_request = row.names.len() == found.request.len()
        && found.request.iter().all(|one| row.names.contains(&one.name));
    let of_the_set = SetFigures {
        units: row.units,
        sets: row.sets,
        names: row.names.clone(),
        replications: row.replications,
        interruption_probability: row.interruption_probability,
        ci_low: row.ci_low,
        ci_high: row.ci_high,
        interval: Interval::AllAtOnce,
        verdict: row.verdict.into(),
    };
    if !is_the_request || found.replications <= row.replications {
        return of_the_set;
    }
    SetFigures {
        replications: found.replications,
        interruption_probability: found.interruption_probability,
        ci_low: found.ci_low,
        ci_high: found.ci_high,
        ..of_the_set
    }
}
