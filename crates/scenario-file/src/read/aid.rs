//! Who could be asked for.

use shuttle_sim::Plan;

/// The tankers that come anyway and those that could be asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Aid {
    /// The plan with everyone.
    pub everyone: Plan,
    /// Entries of the file's `tankers`; later ones are of its `aid`.
    own: usize,
    /// Departments by entry, those of `aid` behind the others.
    departments: Vec<Option<String>>,
}

impl Aid {
    /// - Given: `own`, how many entries the file's `tankers` has; the departments by entry.
    pub(crate) fn of(everyone: Plan, own: usize, departments: Vec<Option<String>>) -> Aid {
        Aid { everyone, own, departments }
    }

    /// The department of a tanker, by its name, if the file states it.
    pub fn department_of(&self, name: &str) -> Option<String> {
        let tanker = self.everyone.facts().tankers.iter().find(|tanker| tanker.name == name)?;
        self.departments.get(tanker.listed)?.clone()
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
