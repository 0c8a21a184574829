//! Which sets of fill sites are simulated: all where they are few, else the best by hand.

use super::grading_rules::GradingRule;
use super::site_sets::Graded;
use super::weighed_sets::{Weighed, weigh};
use crate::worksheet::assignment::Assignment;

/// Most sets of a scenario whose flow is simulated; of more, the best by hand. Judgement: five sites alone, in
/// pairs, in threes and together.
const MOST_SIMULATED: usize = 26;

/// So many sites, and all their sets are simulated.
const FEW_SITES: usize = 5;

/// Sites by place, with the site of every tanker.
type SetOfSites = (Vec<usize>, Vec<Option<usize>>);

/// A set that is simulated.
pub(super) struct SimulatedSet {
    pub(super) scenario: usize,
    pub(super) places: Vec<usize>,
    /// By tanker that counts: the best site by hand, nothing where it stands; empty where that is not known.
    pub(super) site_of: Vec<Option<usize>>,
}

/// The sets of one scenario that are simulated.
pub(super) fn simulated_sets(
    scenario: usize,
    one: &Graded<'_>,
    weighed: &Weighed,
    rules: &[GradingRule],
) -> Vec<SimulatedSet> {
    let sets = simulated(weighed);
    let others = best_under_others(one, rules, &sets);
    (sets.into_iter().chain(others))
        .map(|(places, site_of)| SimulatedSet { scenario, places, site_of })
        .collect()
}

/// The best set by hand under each rule but the first, where it is not simulated anyway.
fn best_under_others(
    one: &Graded<'_>,
    rules: &[GradingRule],
    known: &[SetOfSites],
) -> Vec<SetOfSites> {
    let mut others: Vec<SetOfSites> = Vec::new();
    for rule in rules.iter().skip(1) {
        let best = one.best_by_hand(Graded::counted_by(rule), rule, &[]).sites;
        if !best.is_empty() && !known.iter().chain(&others).any(|(set, _)| *set == best) {
            others.push((best, Vec::new()));
        }
    }
    others
}

/// The sets of a place weighed by hand, by the first rule.
pub(super) fn weighed(one: &Graded<'_>, rules: &[GradingRule]) -> Weighed {
    let Some(rule) = rules.first() else {
        return Weighed { sets: Vec::new(), all_up_to_three: true };
    };
    let facts = one.in_time(Graded::counted_by(rule), rule);
    let creditable = one.creditable(rule);
    // Where there are many, there is no room for those that the rule does not credit anyway.
    let few = creditable.len() <= FEW_SITES || !creditable.contains(&true);
    let sites: Vec<usize> = (0..creditable.len()).filter(|site| few || creditable[*site]).collect();
    weigh(&one.by_hand(&facts, rule), &sites)
}

/// The sets worth simulating, each with the site of every tanker: all where they are few, else every site alone as
/// far as there is room, and the best by hand of those that leave no site unused.
fn simulated(weighed: &Weighed) -> Vec<SetOfSites> {
    let of = |(set, best): &(Vec<usize>, Assignment)| (set.clone(), best.site_of.clone());
    if weighed.sets.len() <= MOST_SIMULATED {
        let mut sets: Vec<_> = weighed.sets.iter().map(of).collect();
        sets.sort_by_key(|(set, _)| set.len());
        return sets;
    }
    let mut by_credit: Vec<_> = (weighed.sets.iter())
        .filter(|(set, best)| set.iter().all(|site| best.site_of.contains(&Some(*site))))
        .collect();
    by_credit.sort_by(|a, b| b.1.gpm.total_cmp(&a.1.gpm).then(a.0.len().cmp(&b.0.len())));
    let (singles, larger): (Vec<_>, Vec<_>) =
        by_credit.into_iter().partition(|(set, _)| set.len() == 1);
    let singles = singles.into_iter().take(MOST_SIMULATED / 2);
    let room = MOST_SIMULATED - singles.len();
    singles.chain(larger.into_iter().take(room)).map(of).collect()
}
