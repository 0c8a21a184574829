//! A request with something to spare: it stays below the target whichever one unit or source is lost.
//!
//! From the smallest set on, the unit that helps most against the loss that hurts most is added, until no loss of
//! one thing brings the chance above; then each unit is tried to be left out again, and each to be exchanged for one
//! that is there sooner. Where one loss stays near the target whoever comes, few runs tell nothing: then, and once more at the
//! end, sets are looked at in as many runs as the request itself. What even everyone together cannot make up for is set
//! apart first: no request helps there. Whether a set stands a loss is decided as every set against the target, by a confidence sequence; the choice of what
//! to add is a guess that needs no proof.

use serde::Serialize;
use shuttle_sim::Plan;

use super::best_guess::best_guess;
use super::held_losses::{
    Until, all_held, held, is_asked_to_stand, is_own, is_same, single_losses,
};
use super::made_up_for::{NotMadeUpFor, what_makes_up_for};
use super::question_and_answer::RequestQuestion;
use super::set_search::Search;
use crate::changes::aid_sets::Set;
use crate::choices::losses::{Kind, LossRow, Lost, what_a_loss_does};
use crate::decisions::target::{Target, Verdict};
use crate::runs::tally::Tally;

/// Most calls that one of the set is tried to be exchanged for.
const MOST_EXCHANGES: usize = 4;
/// Most sets that are tried with as many runs as the request itself, each of which may take a second: where no set was clear in
/// few, and behind a set that was.
const MOST_IN_FULL: usize = 12;
const MOST_IN_FULL_BEHIND: usize = 4;

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
    /// Departments of the request whose tankers may each stay home by itself, with all of them at home, the worst
    /// first: that is more than one loss, and it need not be withstood.
    pub departments: Vec<LossHeld>,
    /// What no request makes up for: with everyone there is the loss of it brings the chance above the target.
    pub not_made_up_for: Vec<NotMadeUpFor>,
}

/// The set that also stands the loss of any one unit or source, where there is one; else the one that comes nearest.
///
/// - Given: `bare`, a set that meets the target.
pub(super) fn with_spare(search: &Search<'_>, bare: &Set, bare_tally: &Tally) -> (Set, Spare) {
    let everyone = search.aid.everyone();
    // Losses of the smallest set, of all sets on the way, and of everyone: at most twice as many as they are left out
    // again, and as many once more as each is exchanged.
    let sites = search.aid.plan.facts().fill_sites.len();
    let units = search.aid.units() + 2 * sites + 1 + search.departments.len();
    let sets = 4 * (search.aid.units() + 1) + search.aid.calls() * MOST_EXCHANGES;
    let target = Target::for_all(search.question.target, sets * units);
    // A unit of the aid is not asked for where it is not needed, so that its loss is never one nobody makes up for.
    let own = |lost: &Lost| is_own(search, lost);
    let hopeless: Vec<Lost> = (held(search, &everyone, target, Until::EachIsClear, own)
        .into_iter())
    .filter(|one| matches!(one.verdict, Verdict::Above | Verdict::CannotWork))
    .map(|one| one.lost)
    .collect();
    let which = |lost: &Lost| !hopeless.iter().any(|aside| is_same(aside, lost));
    let is_below = |rows: &[LossHeld]| rows.iter().all(|row| row.verdict == Verdict::Below);
    let mut set = bare.clone();
    let mut rows = held(search, &set, target, Until::OneIsNotWithstood, which);
    while !is_below(&rows) && set != everyone && !search.control.is_stopped() {
        set = one_more(search, &set, &rows[0]);
        rows = held(search, &set, target, Until::OneIsNotWithstood, which);
    }
    let is_quickly_clear = is_below(&rows);
    if !is_quickly_clear {
        // One loss may be near the target whoever comes. In full it may be clear, and then with fewer as well.
        rows = held(search, &set, target, Until::OneIsShownNot, which);
    }
    if is_below(&rows) {
        let stands = |until: Until| {
            move |set: &Set, suspect: Option<&Lost>| {
                all_held(search, set, target, (suspect, until), which)
            }
        };
        if is_quickly_clear {
            let quickly = stands(Until::OneIsNotWithstood);
            leave_out(search, &mut set, &mut rows, usize::MAX, quickly);
            exchange(search, &mut set, &mut rows, quickly);
        }
        let most = if is_quickly_clear { MOST_IN_FULL_BEHIND } else { MOST_IN_FULL };
        leave_out(search, &mut set, &mut rows, most, stands(Until::OneIsShownNot));
    }
    let mut spare = Spare {
        stands: false,
        bare: search.aid.names(bare),
        bare_probability: bare_tally.chance(),
        bare_replications: bare_tally.runs,
        losses: Vec::new(),
        departments: Vec::new(),
        not_made_up_for: Vec::new(),
    };
    tell_losses(search, &set, &hopeless, &mut spare);
    spare.stands = is_below(&spare.losses);
    (set, spare)
}

/// What each loss does with the set that is taken: those that it is asked to stand, those that are more than one, and
/// those that no request makes up for, with what does.
fn tell_losses(search: &Search<'_>, set: &Set, hopeless: &[Lost], spare: &mut Spare) {
    let Some(plan) = search.aid.plan(set).filter(|_| !search.control.is_stopped()) else { return };
    let RequestQuestion { target, most_runs, luck, .. } = search.question;
    let departments = search.departments;
    let told = what_a_loss_does(&plan, departments, target, most_runs, luck, search.control);
    let mut aside: Vec<LossRow> = Vec::new();
    for row in told.losses {
        let (Some(lost), Some(kind)) = (&row.lost, row.kind) else { continue };
        let is_hopeless = hopeless.iter().any(|one| is_same(one, lost));
        // With fewer it may be withstood where with everyone it is not: one more can be in the way.
        if is_hopeless && row.verdict != Verdict::Below {
            aside.push(row);
            continue;
        }
        let held = LossHeld {
            lost: lost.clone(),
            replications: row.replications,
            interruption_probability: row.interruption_probability,
            verdict: row.verdict,
        };
        if is_asked_to_stand(kind) {
            spare.losses.push(held);
        } else if kind == Kind::NamedDepartment {
            spare.departments.push(held);
        }
    }
    spare.not_made_up_for = what_makes_up_for(search, &plan, aside);
}

/// What was added first may not be needed any more: whoever comes least often is tried first to be left out, of those whoever
/// comes last.
///
/// - Given: how many may be tried yet.
fn leave_out(
    search: &Search<'_>,
    set: &mut Set,
    rows: &mut Vec<LossHeld>,
    mut tries: usize,
    stands: impl Fn(&Set, Option<&Lost>) -> Option<Vec<LossHeld>>,
) {
    let tankers = &search.aid.plan.facts().tankers;
    let turnout = |kind: usize| {
        let of = search.aid.kinds[kind][0].iter().map(|place| tankers[*place].call.turnout);
        of.fold(1.0, f64::min)
    };
    let mut kinds = latest_first(search, set);
    kinds.sort_by(|a, b| turnout(*a).total_cmp(&turnout(*b)));
    for kind in kinds {
        while set[kind] > 0 && tries > 0 && !search.control.is_stopped() {
            tries -= 1;
            let mut smaller = set.clone();
            smaller[kind] -= 1;
            let Some(then) = stands(&smaller, rows.first().map(|row| &row.lost)) else { break };
            (*set, *rows) = (smaller, then);
        }
    }
}

/// Of sets that stand every loss the one that is there soonest: whoever comes last is tried first to be exchanged for
/// one that is there sooner and brings no more units.
fn exchange(
    search: &Search<'_>,
    set: &mut Set,
    rows: &mut Vec<LossHeld>,
    stands: impl Fn(&Set, Option<&Lost>) -> Option<Vec<LossHeld>>,
) {
    let aid = &search.aid;
    let arrival = |kind: usize| aid.arrival(&aid.kinds[kind][0]);
    for late in latest_first(search, set) {
        let mut sooner = latest_first(search, &aid.everyone());
        sooner.retain(|kind| {
            set[*kind] < aid.kinds[*kind].len()
                && arrival(*kind) < arrival(late)
                && aid.kinds[*kind][0].len() <= aid.kinds[late][0].len()
        });
        for kind in sooner.into_iter().rev().take(MOST_EXCHANGES) {
            if search.control.is_stopped() {
                return;
            }
            let mut exchanged = set.clone();
            exchanged[late] -= 1;
            exchanged[kind] += 1;
            if let Some(then) = stands(&exchanged, rows.first().map(|row| &row.lost)) {
                (*set, *rows) = (exchanged, then);
                break;
            }
        }
    }
}

/// The kinds of which a set has some, the one that arrives last first.
fn latest_first(search: &Search<'_>, set: &Set) -> Vec<usize> {
    let arrival = |kind: usize| search.aid.arrival(&search.aid.kinds[kind][0]);
    let mut kinds: Vec<usize> = (0..set.len()).filter(|kind| set[*kind] > 0).collect();
    kinds.sort_by(|a, b| arrival(*b).total_cmp(&arrival(*a)));
    kinds
}

/// The set with the one unit more that seems to help most once this is lost; of those not told from it the one that
/// is there soonest.
fn one_more(search: &Search<'_>, set: &Set, worst: &LossHeld) -> Set {
    let sets: Vec<(Set, Plan)> = (search.aid.neighbours(set, true).into_iter())
        .filter_map(|(_, more)| {
            let plan = search.aid.plan(&more)?;
            let all = single_losses(search, &plan);
            let same = all.into_iter().find(|one| is_same(&one.lost, &worst.lost))?;
            Some((more, same.plan?))
        })
        .collect();
    let guess = best_guess(search, &sets);
    guess.map_or_else(|| search.aid.everyone(), |guess| sets[guess.soonest].0.clone())
}
