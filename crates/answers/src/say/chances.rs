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

    /// Said as fires of 100: neither never nor always, nor so near to it that another count is said.
    pub fn is_of_a_hundred(self) -> bool {
        (0.0095..=0.9905).contains(&self.share)
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

/// The fewest decimal places, at most two, with which two chances shown as fires of 100 are as far apart as
/// they are: 3.4 and 3.6 are not 3 and 4.
pub fn digits_apart(one: Chances, other: Chances) -> usize {
    /// How far off the difference that is shown may be, as a share of the true one. Judgement.
    const OFF: f64 = 0.25;
    let apart = 100.0 * (one.share - other.share).abs();
    if apart == 0.0 {
        return 0;
    }
    (0..2)
        .find(|digits| {
            let scale = 10f64.powi(*digits);
            let shown = |of: Chances| (100.0 * of.share * scale).round() / scale;
            ((shown(one) - shown(other)).abs() - apart).abs() <= OFF * apart
        })
        .unwrap_or(2) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_chances_are_shown_as_far_apart_as_they_are() {
        for (one, other, digits) in [
            (0.29, 0.06, 0),
            (0.0358, 0.034, 1),
            (0.0344, 0.0059, 1),
            (0.0012, 0.0009, 2),
            (0.3, 0.3, 0),
        ] {
            let of = |share| Chances::of(share, 20_000);
            assert_eq!(digits_apart(of(one), of(other)), digits, "{one} and {other}");
        }
    }
}
