//! A chance against a target: below, above, or not clear yet.

use serde::Serialize;

use crate::runs::tally::Tally;
use crate::statistics::confidence_for_each;
use crate::statistics::sequential::{Decision, confidence_sequence, decide};

/// On which side of the target a chance lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Shown to be below.
    Below,
    /// Shown to be above.
    Above,
    /// Not clear from the runs made.
    NotClear,
    /// It was not run, as the plan cannot work at all.
    CannotWork,
}

/// The target, and how surely each chance is held against it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Target {
    /// Chance to stay below.
    pub chance: f64,
    /// Confidence of each statement.
    pub confidence: f64,
}

impl Target {
    /// So many chances against the same target, all at once with 95% confidence.
    pub fn for_all(chance: f64, statements: usize) -> Target {
        Target { chance, confidence: confidence_for_each(0.95, statements.max(1)) }
    }

    /// What can be said of `hits` of `of` runs, however often that was asked before.
    pub fn verdict(self, hits: u64, of: u64) -> Verdict {
        match decide(hits, of, self.chance, self.confidence) {
            Decision::Below => Verdict::Below,
            Decision::Above => Verdict::Above,
            Decision::NotClear => Verdict::NotClear,
        }
    }

    /// What can be said of a plan.
    pub fn verdict_of(self, tally: &Tally) -> Verdict {
        self.verdict(tally.interrupted, tally.runs)
    }

    /// The confidence sequence of `hits` of `of` runs.
    pub fn interval(self, hits: u64, of: u64) -> (f64, f64) {
        confidence_sequence(hits, of, self.confidence)
    }

    /// That of a plan.
    pub fn interval_of(self, tally: &Tally) -> (f64, f64) {
        self.interval(tally.interrupted, tally.runs)
    }
}
