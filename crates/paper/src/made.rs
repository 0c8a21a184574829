//! What a page was made from, for its foot.

use answers::Date;
use answers::{Basis, Reader};
use shuttle_report::units::whole;

/// What a page was made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Made {
    /// Who reads it.
    pub reader: Reader,
    /// The day.
    pub date: Date,
    /// The version of the program.
    pub version: &'static str,
}

impl Made {
    /// "2026-03-01": the day as ISO 8601 has it, which no two countries read differently.
    pub fn day(&self) -> String {
        format!("{:04}-{:02}-{:02}", self.date.year, self.date.month, self.date.day)
    }

    /// "20,000 fires, luck number 1. bucketline 0.1.0, 2026-03-01."
    pub fn from(&self, basis: &Basis) -> String {
        let fires = if basis.replications == 1 { "fire" } else { "fires" };
        format!(
            "{} simulated {fires}, luck number {}. bucketline {}, {}.",
            whole(basis.replications as f64),
            basis.seed,
            self.version,
            self.day()
        )
    }
}
