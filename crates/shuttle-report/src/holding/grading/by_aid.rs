//! What a place is credited with and holds by whose tankers come: with each kind of aid its own best set of sites.

use serde::Serialize;

use super::grade::{GradeQuestion, SiteGrade};
use super::rule_held::{Found, search_for};
use super::site_sets::Graded;
use super::survey::Aid;
use crate::changes::variation::draft_with_sites;
use crate::holding::held_flow::Search;
use crate::runs::control::{Control, SameLuck};

/// Searches that this takes at most: for each kind of aid the best set by hand, and the best set of the rule.
pub(super) const BY_AID_SEARCHES: usize = 6;

/// What is credited and holds at best with some of the tankers under the first rule.
#[derive(Debug, Clone, Serialize)]
pub struct HeldWith {
    /// Which scenario, counted from 0.
    pub scenario: usize,
    /// Whose tankers come.
    pub aid: Aid,
    /// How many there are.
    pub tankers: usize,
    /// The most that any set of sites is credited with by hand, gpm.
    pub credit_gpm: f64,
    /// The sites of that set.
    pub credit_with: Vec<String>,
    /// The greatest flow that is shown to hold, gpm.
    pub held_gpm: Option<f64>,
    /// The sites with which.
    pub held_with: Vec<String>,
    /// Flows up to this one may hold too, gpm.
    pub not_clear_up_to_gpm: Option<f64>,
}

/// What holds with the own tankers, with automatic aid and with all, each with the best set of sites for it; nothing
/// where no aid is listed.
///
/// - Given: `best`, the best set under the first rule, which is tried beside the best by hand.
pub(super) fn by_aid(
    one: &Graded<'_>,
    best: &SiteGrade,
    question: &GradeQuestion,
    search: Search,
    control: &Control,
) -> Vec<HeldWith> {
    let Some(rule) = question.rules.first() else {
        return Vec::new();
    };
    let counts = |aid: Aid| one.with(aid).tankers.len();
    let steps = [Aid::Own, Aid::Automatic, Aid::Mutual];
    if steps.iter().all(|aid| counts(*aid) == counts(Aid::Own)) {
        return Vec::new();
    }
    let names = |sites: &[usize]| -> Vec<String> {
        sites.iter().map(|site| one.everyone.fill_sites[*site].name.clone()).collect()
    };
    let known: Vec<usize> = (best.results.first())
        .map(|result| {
            let is_used =
                |site: &&usize| result.held_with.contains(&one.everyone.fill_sites[**site].name);
            best.places.iter().filter(is_used).copied().collect()
        })
        .unwrap_or_default();
    let search = Search { luck: SameLuck { threads: question.threads, ..search.luck }, ..search };
    (steps.into_iter())
        .map(|aid| {
            let by_hand = one.best_by_hand(aid, rule, &known);
            let mut sets = vec![known.clone()];
            if !by_hand.sites.is_empty() && by_hand.sites != known {
                sets.push(by_hand.sites.clone());
            }
            let facts = one.with(aid);
            let held = |found: &Found| found.greatest.holds.map(|step| found.flow(step));
            let found = (sets.into_iter())
                .map(|set| {
                    let there = draft_with_sites(&facts, &set);
                    let found = search_for(&there, rule, question.step_gpm, search, control);
                    (set, found)
                })
                .reduce(|first, other| if held(&other.1) > held(&first.1) { other } else { first });
            let greatest = found.as_ref().map(|(_, found)| found);
            HeldWith {
                scenario: best.scenario,
                aid,
                tankers: facts.tankers.len(),
                credit_gpm: by_hand.gpm,
                credit_with: names(&by_hand.sites),
                held_gpm: greatest.and_then(held),
                held_with: found.as_ref().map(|(set, _)| names(set)).unwrap_or_default(),
                not_clear_up_to_gpm: greatest
                    .and_then(|found| Some(found.flow(found.greatest.unclear_up_to()?))),
            }
        })
        .collect()
}
