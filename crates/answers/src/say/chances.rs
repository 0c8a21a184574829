//! How often something happened in simulated fires.

use shuttle_report::units::percent_digits;

/// How often something happened in simulated fires.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chances {
    /// Share of the fires, 0 to 1.
    pub share: f64,
    /// Simulated fires.
    pub fires: u64,
}

impl Chances {
    /// This share of so many simulated fires.
    pub fn of(share: f64, fires: u64) -> Chances {
        Chances { share, fires }
    }

    /// It happened in none of them.
    pub fn is_never(self) -> bool {
        self.share <= 0.0
    }

    /// It happened in all of them.
    pub fn is_always(self) -> bool {
        self.share >= 1.0
    }
}

/// The decimal places that every chance of a column can be shown with: no more than the runs of any of them
/// support, so that decimals do not jump within the column.
pub fn column_digits(of: impl IntoIterator<Item = Chances>) -> usize {
    of.into_iter()
        .filter(|one| !one.is_never() && !one.is_always())
        .map(|one| percent_digits(one.share, one.fires))
        .min()
        .unwrap_or(0)
}
