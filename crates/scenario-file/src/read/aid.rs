//! Who could be asked for.

use shuttle_sim::Plan;

/// The tankers that come anyway and those that could be asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Aid {
    /// The plan with everyone.
    pub everyone: Plan,
    /// Entries of the file's `tankers`; later ones are of its `aid`.
    own: usize,
}

impl Aid {
    /// - Given: `own`, how many entries the file's `tankers` has.
    pub(crate) fn of(everyone: Plan, own: usize) -> Aid {
        Aid { everyone, own }
    }

    /// Whether the file has a list of aid.
    pub fn is_listed(&self) -> bool {
        self.everyone.facts().tankers.iter().any(|tanker| tanker.listed >= self.own)
    }

    /// By place in the plan with everyone: whether a tanker is in the file's `tankers`.
    pub(crate) fn comes_anyway(&self) -> Vec<bool> {
        self.everyone.facts().tankers.iter().map(|tanker| tanker.listed < self.own).collect()
    }

    /// Places, in the plan with everyone, of those that could be asked for: the file's `aid`; where it
    /// has none, the tankers that are not asked for at the alarm.
    pub fn candidates(&self) -> Vec<usize> {
        let listed = self.is_listed();
        (self.everyone.facts().tankers.iter().enumerate())
            .filter(
                |(_, tanker)| {
                    if listed { tanker.listed >= self.own } else { tanker.call.requested_at > 0.0 }
                },
            )
            .map(|(place, _)| place)
            .collect()
    }
}
