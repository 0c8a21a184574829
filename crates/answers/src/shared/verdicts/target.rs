//! A chance held against the one to stay below.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::fleet_size::Verdict;

use crate::say;
use crate::say::{Piece, Sentence};

/// On which side of the target a chance lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Shown to be below.
    Below,
    /// Shown to be above.
    Above,
    /// Too close to it for the fires simulated.
    NotClear,
    /// With so few the plan cannot work at all.
    CannotWork,
}

impl From<Verdict> for Side {
    fn from(verdict: Verdict) -> Side {
        match verdict {
            Verdict::Below => Side::Below,
            Verdict::Above => Side::Above,
            Verdict::NotClear => Side::NotClear,
            Verdict::CannotWork => Side::CannotWork,
        }
    }
}

impl Side {
    /// "yes", "no", "too close": an answer to whether it is below the target.
    ///
    /// - Given: `why`, what to say where the plan cannot work.
    pub fn words(self, why: Sentence) -> Sentence {
        match self {
            Side::Below => say!["yes"],
            Side::Above => say!["no"],
            Side::NotClear => say!["too close"],
            Side::CannotWork => why,
        }
    }
}

/// "under 5%?": the head of a column of sides.
pub fn below(target: f64) -> Sentence {
    say!["under ", Piece::Share(target), "?"]
}

/// What a larger budget is good for, where a chance lies too close to the target.
pub fn more_would_tell() -> Sentence {
    say!["More fires", crate::say::on_command(" (--runs)"), " would tell."]
}
