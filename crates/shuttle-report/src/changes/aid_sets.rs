//! The aid that can be asked for, and its sets: units that are identical except for their names are one
//! kind, and a set says how many of each kind come.

use shuttle_sim::{Brought, Plan, PlanDraft};

use super::variation::{alike, with_tankers};

/// How many of each kind of unit come.
pub(crate) type Set = Vec<usize>;

/// The aid that can be asked for.
pub(crate) struct Aid<'p> {
    /// The plan with everyone.
    pub plan: &'p Plan,
    /// Places of tankers by kind: identical except for their names.
    pub kinds: Vec<Vec<usize>>,
}

impl Aid<'_> {
    pub fn of<'p>(plan: &'p Plan, candidates: &[usize]) -> Aid<'p> {
        Aid { plan, kinds: kinds(plan.facts(), candidates.iter().copied()) }
    }

    /// How many sets there are; `None` if more than can be counted.
    pub fn sets(&self) -> Option<usize> {
        self.kinds.iter().try_fold(1_usize, |sets, kind| sets.checked_mul(kind.len() + 1))
    }

    pub fn units(&self) -> usize {
        self.kinds.iter().map(Vec::len).sum()
    }

    pub fn everyone(&self) -> Set {
        self.kinds.iter().map(Vec::len).collect()
    }

    /// All sets of `units` units.
    pub fn sets_of(&self, units: usize) -> Vec<Set> {
        let mut sets = vec![Vec::new()];
        for kind in &self.kinds {
            sets = (sets.into_iter())
                .flat_map(|set: Set| {
                    let left = units - set.iter().sum::<usize>();
                    (0..=kind.len().min(left)).map(move |count| {
                        let mut longer = set.clone();
                        longer.push(count);
                        longer
                    })
                })
                .collect();
        }
        sets.retain(|set| set.iter().sum::<usize>() == units);
        sets
    }

    /// Places of the tankers of a set.
    pub fn places(&self, set: &Set) -> Vec<usize> {
        (self.kinds.iter().zip(set)).flat_map(|(kind, count)| kind[..*count].to_vec()).collect()
    }

    /// When the last unit of a set arrives, minutes after the alarm, by means; 0 of none.
    pub fn latest_arrival(&self, set: &Set) -> f64 {
        let tankers = &self.plan.facts().tankers;
        let arrives =
            |place: usize| tankers[place].call.requested_at + tankers[place].call.response.mean();
        self.places(set).into_iter().map(arrives).fold(0.0, f64::max)
    }

    pub fn names(&self, set: &Set) -> Vec<String> {
        let tankers = &self.plan.facts().tankers;
        self.places(set).into_iter().map(|place| tankers[place].name.clone()).collect()
    }

    /// The plan with this aid and no other; `None` if it cannot work.
    pub fn plan(&self, set: &Set) -> Option<Plan> {
        let mut comes = vec![true; self.plan.facts().tankers.len()];
        for place in self.kinds.iter().flatten() {
            comes[*place] = false;
        }
        for place in self.places(set) {
            comes[place] = true;
        }
        with_tankers(self.plan, &comes).ok()
    }

    /// The sets with one unit more, or one less.
    pub fn neighbours(&self, set: &Set, more: bool) -> Vec<(usize, Set)> {
        (0..set.len())
            .filter_map(|kind| {
                let mut changed = set.clone();
                if more && set[kind] < self.kinds[kind].len() {
                    changed[kind] += 1;
                } else if !more && set[kind] > 0 {
                    changed[kind] -= 1;
                } else {
                    return None;
                }
                Some((kind, changed))
            })
            .collect()
    }
}

/// These tankers by kind, wherever they stand in the list: identical except for their names. One that
/// brings a drop tank is a kind of its own.
pub(crate) fn kinds(facts: &PlanDraft, places: impl Iterator<Item = usize>) -> Vec<Vec<usize>> {
    let mut kinds: Vec<Vec<usize>> = Vec::new();
    for place in places {
        let like = |kind: &&mut Vec<usize>| {
            !brings(facts, place)
                && !brings(facts, kind[0])
                && alike(&facts.tankers[place], &facts.tankers[kind[0]])
        };
        match kinds.iter_mut().find(like) {
            Some(kind) => kind.push(place),
            None => kinds.push(vec![place]),
        }
    }
    kinds
}

/// Whether it brings a drop tank, or the pump of a fill site.
pub(crate) fn brings(facts: &PlanDraft, place: usize) -> bool {
    let pumps = facts.fill_sites.iter().filter_map(|site| site.source_pump.as_ref());
    (facts.drop_tanks.iter().map(|tank| &tank.brought))
        .chain(pumps.map(|pump| &pump.brought))
        .any(|brought| *brought == Brought::ByTanker(place))
}
