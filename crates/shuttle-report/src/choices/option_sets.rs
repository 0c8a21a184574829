//! Options together: which set of those tried is best.
//!
//! Every set runs on the luck of the plan as it stands. After each look the better half goes on; what is said of
//! the best at the end holds for all sets and looks at once, so that choosing it costs nothing in honesty.

use serde::Serialize;
use shuttle_sim::Plan;

use crate::decisions::looks::looks_from;
use crate::decisions::told::{Apart, Interval, Rule, Verdict};
use crate::runs::batch::Keep;
use crate::runs::control::{Control, SameLuck};
use crate::runs::side_by_side::SideBySide;

/// Runs in the first look.
const FIRST_LOOK: u64 = 256;
/// Most runs for a set.
const MOST_RUNS: u64 = 8_192;
/// So many sets go on to the end.
const FINALISTS: usize = 4;
/// Two chances within this of each other do not differ by enough to be worth more runs.
const NOTHING: f64 = 0.005;

/// The best of some sets of options.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BestSet {
    /// The options, by place in the list of options from 0.
    pub options: Vec<usize>,
    /// Sets that were tried.
    pub tried: usize,
    /// Runs of it.
    pub replications: u64,
    /// Chance of interruption with it.
    pub interruption_probability: f64,
    /// How much higher that is than as it stands; the interval holds for all sets at once.
    pub higher_by: Apart,
    /// What can be said against the plan as it stands.
    pub verdict: Verdict,
}

/// The best of these sets; `None` of none, or where it was stopped early.
pub fn best_set(
    as_it_stands: &Plan,
    sets: &[(Vec<usize>, Plan)],
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> Option<BestSet> {
    let plans = [as_it_stands].into_iter().chain(sets.iter().map(|(_, plan)| plan)).collect();
    let mut side = SideBySide::new(plans, luck, Keep::Counts);
    let looks = looks_from(FIRST_LOOK, most_runs.min(MOST_RUNS));
    let rule = Rule::new(sets.len(), looks.len(), NOTHING);
    let mut who: Vec<usize> = (1..=sets.len()).collect();
    for look in looks {
        side.run_until(look, &who, control);
        if control.is_stopped() {
            return None;
        }
        // Of two that save as many fires the one with fewer minutes short, then the smaller.
        let worth = |place: &usize| {
            let tally = side.tally(*place);
            let by = tally.pairs.interrupted.difference(0.95).value;
            (by, tally.minutes_short_mean(), sets[*place - 1].0.len() as f64)
        };
        who.sort_by(|a, b| {
            let (a, b) = (worth(a), worth(b));
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.total_cmp(&b.2))
        });
        who.truncate(who.len().div_ceil(2).max(FINALISTS));
        who.sort_unstable();
    }
    let by = |place: &usize| side.tally(*place).pairs.interrupted.difference(0.95).value;
    let lowest = who.iter().copied().min_by(|a, b| by(a).total_cmp(&by(b)))?;
    // Of those that cannot be told from it, or not by enough to matter, the smallest: what adds nothing is not
    // recommended.
    let as_good = |place: &usize| {
        let apart = side.tally(*place).against(side.tally(lowest)).difference(rule.together);
        *place == lowest || !apart.is_clear() || apart.value.abs() < NOTHING
    };
    let best = (who.iter().copied().filter(as_good)).min_by(|a, b| {
        let size = |place: usize| sets[place - 1].0.len();
        size(*a).cmp(&size(*b)).then(by(a).total_cmp(&by(b)))
    })?;
    let tally = side.tally(best);
    let base = &side.base().tally;
    Some(BestSet {
        options: sets[best - 1].0.clone(),
        tried: sets.len(),
        replications: tally.runs,
        interruption_probability: rule.chance_beside(base, tally).0,
        higher_by: rule.apart_from(base, tally, Interval::AllAtOnce),
        verdict: rule.verdict(&tally.pairs),
    })
}
