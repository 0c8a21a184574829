//! A plan held against the one as it stands.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::{Apart, NOTHING, Verdict};

/// What can be said of a changed plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Against {
    /// The lines run short less often.
    LowerChance,
    /// They run short more often.
    HigherChance,
    /// As often as far as can be told, but for fewer minutes.
    FewerMinutes,
    /// As often as far as can be told, but for more minutes.
    MoreMinutes,
    /// Neither can be told apart.
    NotToldApart,
}

impl From<Verdict> for Against {
    fn from(verdict: Verdict) -> Against {
        match verdict {
            Verdict::LowerChance => Against::LowerChance,
            Verdict::HigherChance => Against::HigherChance,
            Verdict::FewerMinutes => Against::FewerMinutes,
            Verdict::MoreMinutes => Against::MoreMinutes,
            Verdict::NotToldApart => Against::NotToldApart,
        }
    }
}

impl Against {
    /// Whether it is better in what counts.
    pub fn helps(self) -> bool {
        matches!(self, Against::LowerChance | Against::FewerMinutes)
    }
}

/// Whether a difference of chances is shown to be too small to matter; else more fires might show one.
pub fn is_nothing(apart: &Apart) -> bool {
    apart.ci_low > -NOTHING && apart.ci_high < NOTHING
}

/// The decimal places of differences of chances as fires of 100 that every interval of a column supports.
pub fn digits_of(apart: impl IntoIterator<Item = Apart>) -> usize {
    let widest = apart.into_iter().map(|one| one.ci_high - one.ci_low).fold(0.0_f64, f64::max);
    if widest < 0.002 {
        2
    } else if widest < 0.04 {
        1
    } else {
        0
    }
}
