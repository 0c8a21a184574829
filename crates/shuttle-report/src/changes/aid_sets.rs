//! The aid that can be asked for, and its sets. A call brings one tanker, or several that come together or not at
//! all (a department that comes whole, an alarm). Calls of single tankers that are identical except for their names
//! are one kind, and a set says how many calls of each kind are made.

use std::cmp::Ordering;

use shuttle_sim::{Brought, FillSite, Plan, PlanDraft};

use super::variation::{alike, with_tankers};

/// How many calls of each kind are made.
pub(crate) type Set = Vec<usize>;

/// The aid that can be asked for.
pub(crate) struct Aid<'p> {
    /// The plan with everyone.
    pub plan: &'p Plan,
    /// Calls by kind, each the places of its tankers; all calls of a kind bring as many.
    pub kinds: Vec<Vec<Vec<usize>>>,
}

impl Aid<'_> {
    /// - Given: every call, the places of the tankers it brings.
    pub fn of<'p>(plan: &'p Plan, calls: &[Vec<usize>]) -> Aid<'p> {
        let single = calls.iter().filter(|call| call.len() == 1).flatten().copied();
        let mut all: Vec<Vec<Vec<usize>>> = (kinds(plan.facts(), single).into_iter())
            .map(|kind| kind.into_iter().map(|place| vec![place]).collect())
            .collect();
        all.extend(calls.iter().filter(|call| call.len() > 1).map(|call| vec![call.clone()]));
        Aid { plan, kinds: all }
    }

    /// How many sets there are; `None` if more than can be counted.
    pub fn sets(&self) -> Option<usize> {
        self.kinds.iter().try_fold(1_usize, |sets, kind| sets.checked_mul(kind.len() + 1))
    }

    /// Calls that can be made.
    pub fn calls(&self) -> usize {
        self.kinds.iter().map(Vec::len).sum()
    }

    /// Tankers that can come.
    pub fn units(&self) -> usize {
        self.kinds.iter().flatten().map(Vec::len).sum()
    }

    /// Tankers of a set.
    pub fn units_of(&self, set: &Set) -> usize {
        self.places(set).len()
    }

    pub fn everyone(&self) -> Set {
        self.kinds.iter().map(Vec::len).collect()
    }

    /// All sets that bring `units` tankers; none where calls bring several and their numbers do not add up to it.
    pub fn sets_of(&self, units: usize) -> Vec<Set> {
        // Each with the tankers that are left to be brought.
        let mut sets = vec![(Vec::new(), units)];
        for kind in &self.kinds {
            let each = kind[0].len();
            sets = (sets.into_iter())
                .flat_map(|(set, left): (Set, usize)| {
                    (0..=kind.len().min(left / each)).map(move |calls| {
                        let mut longer = set.clone();
                        longer.push(calls);
                        (longer, left - calls * each)
                    })
                })
                .collect();
        }
        sets.into_iter().filter(|(_, left)| *left == 0).map(|(set, _)| set).collect()
    }

    /// The calls of a set, each the places of its tankers.
    pub fn calls_of<'a>(&'a self, set: &'a Set) -> impl Iterator<Item = &'a Vec<usize>> {
        (self.kinds.iter().zip(set)).flat_map(|(kind, calls)| &kind[..*calls])
    }

    /// Places of the tankers of a set.
    pub fn places(&self, set: &Set) -> Vec<usize> {
        self.calls_of(set).flatten().copied().collect()
    }

    /// When the calls of a set are there, minutes after the alarm, by means: the last first.
    pub fn arrivals(&self, set: &Set) -> Vec<f64> {
        let mut all: Vec<f64> = self.calls_of(set).map(|call| self.arrival(call)).collect();
        all.sort_by(|a, b| b.total_cmp(a));
        all
    }

    /// When the last of these tankers arrives, minutes after the alarm, by means.
    pub fn arrival(&self, call: &[usize]) -> f64 {
        let tankers = &self.plan.facts().tankers;
        let arrives = |place: &usize| {
            tankers[*place].call.requested_at + tankers[*place].call.response.mean()
        };
        call.iter().map(arrives).fold(0.0, f64::max)
    }

    /// Which of two sets is there sooner: the one whose last call is; of equals by the last but one, and so on.
    pub fn sooner(&self, a: &Set, b: &Set) -> Ordering {
        let (a, b) = (self.arrivals(a), self.arrivals(b));
        let first_apart = a.iter().zip(&b).map(|(a, b)| a.total_cmp(b)).find(|order| order.is_ne());
        first_apart.unwrap_or(a.len().cmp(&b.len()))
    }

    pub fn names(&self, set: &Set) -> Vec<String> {
        self.names_at(&self.places(set))
    }

    /// The names of the tankers at these places.
    pub fn names_at(&self, places: &[usize]) -> Vec<String> {
        let tankers = &self.plan.facts().tankers;
        places.iter().map(|place| tankers[*place].name.clone()).collect()
    }

    /// The plan with this aid and no other; `None` if it cannot work.
    pub fn plan(&self, set: &Set) -> Option<Plan> {
        let mut comes = vec![true; self.plan.facts().tankers.len()];
        for place in self.kinds.iter().flatten().flatten() {
            comes[*place] = false;
        }
        for place in self.places(set) {
            comes[place] = true;
        }
        with_tankers(self.plan, &comes).ok()
    }

    /// The sets with one call more, or one less.
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
fn brings(facts: &PlanDraft, place: usize) -> bool {
    brings_drop_tank(facts, place) || sites_pumped_by(facts, place).next().is_some()
}

/// Whether it brings a drop tank.
pub(crate) fn brings_drop_tank(facts: &PlanDraft, place: usize) -> bool {
    facts.drop_tanks.iter().any(|tank| tank.brought == Brought::ByTanker(place))
}

/// The fill sites whose pump it brings.
pub(crate) fn sites_pumped_by(facts: &PlanDraft, place: usize) -> impl Iterator<Item = &FillSite> {
    (facts.fill_sites.iter()).filter(move |site| {
        site.source_pump.as_ref().is_some_and(|pump| pump.brought == Brought::ByTanker(place))
    })
}
