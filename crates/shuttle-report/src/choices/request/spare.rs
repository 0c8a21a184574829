//! A request with something to spare: it stays below the target whichever one unit or source is lost.
//!
//! From the smallest set on, the unit that helps most against the loss that hurts most is added, until no loss of
//! one thing brings the chance above; then each unit is tried to be left out again. What even everyone together
//! cannot make up for is set apart first: no request helps there. Whether a set stands a loss is decided as every
//! set against the target, by a confidence sequence; the choice of what to add is a guess that needs no proof.

use serde::Serialize;
use shuttle_sim::Plan;

use super::set_search::Search;
use crate::changes::aid_sets::Set;
use crate::choices::losses::{Kind, Loss, Lost, losses};
use crate::decisions::looks::looks_from;
use crate::decisions::target::{Target, Verdict};
use crate::runs::batch::Keep;
use crate::runs::side_by_side::SideBySide;
use crate::runs::tally::Tally;

/// Runs in the first look at a loss.
const FIRST_LOOK: u64 = 256;
/// Most runs for any one loss: a loss too close to tell after these counts as not withstood.
const MOST_RUNS: u64 = 2048;
/// Runs by which what to add is guessed.
const GUESS: u64 = 256;

/// A loss with the request.
#[derive(Debug, Clone, Serialize)]
pub struct LossHeld {
    /// What is lost.
    pub lost: Lost,
    /// Simulated fires.
    pub replications: u64,
    /// Chance of interruption then.
    pub interruption_probability: f64,
    /// On which side of the target.
    pub verdict: Verdict,
}

/// What it takes to have something to spare.
#[derive(Debug, Clone, Serialize)]
pub struct Spare {
    /// Whether every loss that anybody could make up for is withstood.
    pub stands: bool,
    /// The request that meets the target with nothing to spare.
    pub bare: Vec<String>,
    /// Chance of interruption with that.
    pub bare_probability: f64,
    /// Runs of that.
    pub bare_replications: u64,
    /// The losses with the request, the worst first.
    pub losses: Vec<LossHeld>,
    /// What no request makes up for: with everyone there is the loss of it brings the chance above the target.
    pub not_made_up_for: Vec<Lost>,
}

/// The set that also stands the loss of any one unit or source, where there is one; else the one that comes nearest.
///
/// - Given: `bare`, a set that meets the target.
pub(super) fn with_spare(search: &Search<'_>, bare: &Set, bare_tally: &Tally) -> (Set, Spare) {
    let everyone = search.aid.everyone();
    // Losses of the smallest set, of all sets on the way, and of everyone, at most twice as they are left out again.
    let units = search.aid.units() + search.aid.plan.facts().fill_sites.len() + 1;
    let target = Target::for_all(search.question.target, 4 * (search.aid.units() + 1) * units);
    let hopeless: Vec<Lost> = (held(search, &everyone, target, &[]).into_iter())
        .filter(|one| matches!(one.verdict, Verdict::Above | Verdict::CannotWork))
        .map(|one| one.lost)
        // A unit of the aid that is alone of its kind is not asked for where it is not needed.
        .filter(|lost| !matches!(lost, Lost::OneTankerOf { .. }) || is_own(search, lost))
        .collect();
    let mut set = bare.clone();
    let mut rows = held(search, &set, target, &hopeless);
    while !search.control.is_stopped()
        && set != everyone
        && let Some(worst) = rows.first().filter(|row| row.verdict != Verdict::Below)
    {
        set = one_more(search, &set, worst);
        rows = held(search, &set, target, &hopeless);
    }
    // What was added first may not be needed any more.
    if rows.iter().all(|row| row.verdict == Verdict::Below) {
        loop {
            let smaller = (search.aid.neighbours(&set, false).into_iter())
                .map(|(_, smaller)| smaller)
                .filter(|smaller| meets(search, smaller, target))
                .find_map(|smaller| {
                    let rows = held(search, &smaller, target, &hopeless);
                    let stands = rows.iter().all(|row| row.verdict == Verdict::Below);
                    stands.then_some((smaller, rows))
                });
            match smaller.filter(|_| !search.control.is_stopped()) {
                Some(smaller) => (set, rows) = smaller,
                None => break,
            }
        }
    }
    let spare = Spare {
        stands: rows.iter().all(|row| row.verdict == Verdict::Below),
        bare: search.aid.names(bare),
        bare_probability: bare_tally.chance(),
        bare_replications: bare_tally.runs,
        losses: rows,
        not_made_up_for: hopeless,
    };
    (set, spare)
}

/// Whether a loss is that of a tanker that comes anyway.
fn is_own(search: &Search<'_>, lost: &Lost) -> bool {
    let tankers = &search.aid.plan.facts().tankers;
    let is_aid = |name: &String| {
        search.aid.kinds.iter().flatten().flatten().any(|place| tankers[*place].name == *name)
    };
    match lost {
        Lost::OneTankerOf { names, .. } => !names.iter().flatten().any(is_aid),
        _ => true,
    }
}

/// Losses of one unit or source of a plan; half a flow and a drop tank by itself are neither.
fn single_losses(plan: &Plan) -> Vec<Loss> {
    let mut all = losses(plan);
    all.retain(|one| matches!(one.lost.kind(), Kind::Tanker | Kind::FillSite | Kind::SupplyEngine));
    all
}

/// Whether two losses are of the same thing, in plans with other aid.
fn is_same(a: &Lost, b: &Lost) -> bool {
    match (a, b) {
        (Lost::OneTankerOf { names: a, .. }, Lost::OneTankerOf { names: b, .. }) => {
            a.iter().flatten().any(|name| b.iter().flatten().any(|other| other == name))
        }
        _ => a == b,
    }
}

/// Every loss with a set, the worst first, each run until it is clear.
fn held(search: &Search<'_>, set: &Set, target: Target, left_aside: &[Lost]) -> Vec<LossHeld> {
    let Some(plan) = search.aid.plan(set) else { return Vec::new() };
    let mut all = single_losses(&plan);
    all.retain(|one| !left_aside.iter().any(|aside| is_same(aside, &one.lost)));
    let plans: Vec<&Plan> = all.iter().filter_map(|one| one.plan.as_ref()).collect();
    let mut rows: Vec<LossHeld> = (all.iter().filter(|one| one.plan.is_none()))
        .map(|one| LossHeld {
            lost: one.lost.clone(),
            replications: 0,
            interruption_probability: 1.0,
            verdict: Verdict::CannotWork,
        })
        .collect();
    if !plans.is_empty() {
        let mut side = SideBySide::new(plans, search.question.luck, Keep::Counts);
        let mut open: Vec<usize> = (0..side.tallies().count()).collect();
        for look in looks_from(FIRST_LOOK, search.question.most_runs.min(MOST_RUNS)) {
            let others: Vec<usize> = open.iter().copied().filter(|place| *place > 0).collect();
            side.run_until(look, &others, search.control);
            open.retain(|place| target.verdict_of(side.tally(*place)) == Verdict::NotClear);
            if open.is_empty() || search.control.is_stopped() {
                break;
            }
        }
        let works = all.iter().filter(|one| one.plan.is_some());
        rows.extend(works.zip(side.tallies()).map(|(one, tally)| LossHeld {
            lost: one.lost.clone(),
            replications: tally.runs,
            interruption_probability: tally.chance(),
            verdict: target.verdict_of(tally),
        }));
    }
    rows.sort_by(|a, b| b.interruption_probability.total_cmp(&a.interruption_probability));
    rows
}

/// Whether a set itself is shown to meet the target.
fn meets(search: &Search<'_>, set: &Set, target: Target) -> bool {
    let Some(plan) = search.aid.plan(set) else { return false };
    let mut side = SideBySide::new(vec![&plan], search.question.luck, Keep::Counts);
    looks_from(FIRST_LOOK, search.question.most_runs.min(MOST_RUNS)).into_iter().any(|look| {
        side.run_until(look, &[], search.control);
        target.verdict_of(side.tally(0)) == Verdict::Below
    })
}

/// The set with the one unit more that seems to help most once this is lost; of equals the one that is there first.
fn one_more(search: &Search<'_>, set: &Set, worst: &LossHeld) -> Set {
    let sets: Vec<Set> =
        search.aid.neighbours(set, true).into_iter().map(|(_, more)| more).collect();
    let lost: Vec<(Set, Plan)> = (sets.into_iter())
        .filter_map(|more| {
            let plan = search.aid.plan(&more)?;
            let all = single_losses(&plan);
            let same = all.into_iter().find(|one| is_same(&one.lost, &worst.lost))?;
            Some((more, same.plan?))
        })
        .collect();
    if lost.is_empty() {
        return search.aid.everyone();
    }
    let plans: Vec<&Plan> = lost.iter().map(|(_, plan)| plan).collect();
    let mut side = SideBySide::new(plans, search.question.luck, Keep::Counts);
    let others: Vec<usize> = (1..lost.len()).collect();
    side.run_until(GUESS.min(search.question.most_runs), &others, search.control);
    let best = (0..lost.len()).min_by(|a, b| {
        let worth = |place: usize| {
            let tally = side.tally(place);
            (tally.chance(), tally.minutes_short_mean(), search.aid.latest_arrival(&lost[place].0))
        };
        let (a, b) = (worth(*a), worth(*b));
        (a.0.total_cmp(&b.0)).then(a.1.total_cmp(&b.1)).then(a.2.total_cmp(&b.2))
    });
    best.map_or_else(|| search.aid.everyone(), |best| lost[best].0.clone())
}
