//! Which of several sets to go on with, by a few fires of each: a guess that needs no proof, as whatever comes of it is
//! held against the target in full.
//!
//! The best of many by a few fires is often the one with the best luck. So it is asked which sets can be told from it
//! at all; of those that cannot, the one that is there soonest is taken.

use shuttle_sim::Plan;

use super::set_search::Search;
use crate::changes::aid_sets::Set;
use crate::decisions::told::{LIKELY, Rule, Verdict};
use crate::runs::any_two::AnyTwo;

/// Fires after which one looks: what is told to be worse after the first is left out.
const LOOKS: [u64; 3] = [64, 128, 256];
/// A difference below this does not matter.
const NOTHING: f64 = 0.01;

/// What was guessed, as places in the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Guess {
    /// The one that is there soonest of those not told from the best.
    pub soonest: usize,
    /// The best by these fires.
    pub best: usize,
}

/// Guesses; `None` of no sets.
///
/// - Given: sets, each with the plan that tells what it is worth.
pub(super) fn best_guess(search: &Search<'_>, sets: &[(Set, Plan)]) -> Option<Guess> {
    let mut runs = AnyTwo::new(sets.iter().map(|(_, plan)| plan).collect(), search.question.luck);
    // An ordinary interval is enough where nothing is said of it.
    let rule = Rule { together: LIKELY, ..Rule::new(1, 1, NOTHING) };
    let mut open: Vec<usize> = (0..sets.len()).collect();
    let mut best = 0;
    for look in LOOKS {
        runs.run_until(look.min(search.question.most_runs), &open, search.control);
        best = open.iter().copied().min_by(|a, b| {
            let (a, b) = (runs.short(*a), runs.short(*b));
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
        })?;
        open.retain(|place| {
            let told = rule.verdict(&runs.pairs(*place, best));
            !matches!(told, Verdict::HigherChance | Verdict::MoreMinutes)
        });
        if open.len() == 1 || look >= search.question.most_runs || search.control.is_stopped() {
            break;
        }
    }
    let soonest = (open.into_iter()).min_by(|a, b| search.aid.sooner(&sets[*a].0, &sets[*b].0))?;
    Some(Guess { soonest, best })
}
