//! A set with one unit or source lost, each loss in turn against the target.

use shuttle_sim::Plan;

use super::set_search::Search;
use super::spare::LossHeld;
use crate::changes::aid_sets::Set;
use crate::choices::departments::{Department, department_losses};
use crate::choices::losses::{Kind, Loss, Lost, losses};
use crate::decisions::looks::looks_from;
use crate::decisions::target::{Target, Verdict};
use crate::decisions::told::LIKELY;
use crate::runs::batch::Keep;
use crate::runs::side_by_side::SideBySide;
use crate::statistics::binomial::exact_interval;

/// Runs in the first look at a loss.
pub(super) const FIRST_LOOK: u64 = 64;
/// Most runs for any one loss: a loss too close to tell after these counts as not withstood.
const MOST_RUNS: f64 = 2048.0;
/// The same by the target: of so many runs for each that may run short by it, none that does is shown to be below.
const RUNS_BY_TARGET: f64 = 25.0;
/// A chance above this share of the target is hardly shown to be below by [`MOST_RUNS`]: a loss that is likely above it
/// is not run on where another set may be taken. To leave a set needs no proof.
const DOUBTFUL: f64 = 0.55;

/// When a loss need not be run any more.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Until {
    /// It is clear itself.
    EachIsClear,
    /// It is clear, or another is shown or seems not to be withstood.
    OneIsNotWithstood,
    /// It is clear, or another is shown not to be withstood: as many runs as the request itself.
    OneIsShownNot,
}

/// Losses of one unit or source of a plan, or of a department that comes whole.
pub(super) fn single_losses(search: &Search<'_>, plan: &Plan) -> Vec<Loss> {
    single_losses_of(plan, search.departments)
}

/// The same of a plan by itself.
pub(super) fn single_losses_of(plan: &Plan, departments: &[Department]) -> Vec<Loss> {
    let mut all = losses(plan);
    all.extend(department_losses(plan, departments));
    all.retain(|one| is_asked_to_stand(one.lost.kind()));
    all
}

/// Whether a request is to stand losses of this kind. Half a flow and a drop tank by itself are no unit or source, and
/// tankers that may each stay home by itself are more than one.
pub(super) fn is_asked_to_stand(kind: Kind) -> bool {
    match kind {
        Kind::Tanker
        | Kind::FillSite
        | Kind::SupplyEngine
        | Kind::SourcePump
        | Kind::WholeDepartment => true,
        Kind::HalfFlow | Kind::DropTank | Kind::NamedDepartment => false,
    }
}

/// Whether two losses are of the same thing, in plans with other aid.
pub(super) fn is_same(a: &Lost, b: &Lost) -> bool {
    match (a, b) {
        (Lost::OneTankerOf { names: a, .. }, Lost::OneTankerOf { names: b, .. }) => {
            a.iter().flatten().any(|name| b.iter().flatten().any(|other| other == name))
        }
        (Lost::Department { name: a, .. }, Lost::Department { name: b, .. }) => a == b,
        _ => a == b,
    }
}

/// Whether a loss is that of something that is there whoever is asked for.
pub(super) fn is_own(search: &Search<'_>, lost: &Lost) -> bool {
    let tankers = &search.aid.plan.facts().tankers;
    let is_aid = |name: &String| {
        search.aid.kinds.iter().flatten().flatten().any(|place| tankers[*place].name == *name)
    };
    match lost {
        Lost::OneTankerOf { names, .. } => !names.iter().flatten().any(is_aid),
        // Whoever is asked for, it takes the own ones along.
        Lost::Department { tankers, .. } => !tankers.iter().all(is_aid),
        _ => true,
    }
}

/// Losses with a set, the worst first.
///
/// - Given: `which` of the losses are asked about.
pub(super) fn held(
    search: &Search<'_>,
    set: &Set,
    target: Target,
    until: Until,
    which: impl Fn(&Lost) -> bool,
) -> Vec<LossHeld> {
    let Some(plan) = search.aid.plan(set) else { return Vec::new() };
    let mut all = single_losses(search, &plan);
    all.retain(|one| which(&one.lost));
    let plans: Vec<&Plan> = all.iter().filter_map(|one| one.plan.as_ref()).collect();
    let mut rows: Vec<LossHeld> = (all.iter().filter(|one| one.plan.is_none()))
        .map(|one| LossHeld {
            lost: one.lost.clone(),
            replications: 0,
            interruption_probability: 1.0,
            verdict: Verdict::CannotWork,
        })
        .collect();
    if !plans.is_empty() && (rows.is_empty() || until == Until::EachIsClear) {
        let mut side = SideBySide::new(plans, search.question.luck, Keep::Counts);
        let mut open: Vec<usize> = (0..side.tallies().count()).collect();
        let most = match until {
            Until::OneIsShownNot => search.question.most_runs,
            Until::EachIsClear | Until::OneIsNotWithstood => most_runs(search),
        };
        for look in looks_from(FIRST_LOOK, most) {
            let others: Vec<usize> = open.iter().copied().filter(|place| *place > 0).collect();
            side.run_until(look, &others, search.control);
            let mut one_is_not = false;
            open.retain(|place| {
                let tally = side.tally(*place);
                let verdict = target.verdict_of(tally);
                let (low, _) = exact_interval(tally.interrupted, tally.runs, LIKELY);
                let doubtful = verdict == Verdict::NotClear && low > DOUBTFUL * target.chance;
                one_is_not |=
                    verdict == Verdict::Above || doubtful && until == Until::OneIsNotWithstood;
                verdict == Verdict::NotClear
            });
            let enough = open.is_empty() || (one_is_not && until != Until::EachIsClear);
            if enough || search.control.is_stopped() {
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

/// The losses with a set if all of them are withstood and the set itself meets the target; `None` otherwise.
///
/// - Given: `suspect`, the loss that is likely the worst: it is looked at first, as most sets fail by it; when a loss need
///   not be run on.
pub(super) fn all_held(
    search: &Search<'_>,
    set: &Set,
    target: Target,
    (suspect, until): (Option<&Lost>, Until),
    which: impl Fn(&Lost) -> bool,
) -> Option<Vec<LossHeld>> {
    let is_below = |rows: &[LossHeld]| rows.iter().all(|row| row.verdict == Verdict::Below);
    let asked = |rest: Option<&Lost>, first: bool| {
        held(search, set, target, until, |lost| {
            which(lost) && rest.is_none_or(|suspect| is_same(lost, suspect) == first)
        })
    };
    let mut rows = if suspect.is_some() { asked(suspect, true) } else { Vec::new() };
    if !is_below(&rows) || !meets(search, set, target) {
        return None;
    }
    rows.extend(asked(suspect, false));
    rows.sort_by(|a, b| b.interruption_probability.total_cmp(&a.interruption_probability));
    is_below(&rows).then_some(rows)
}

/// Most runs for any one loss.
pub(super) fn most_runs(search: &Search<'_>) -> u64 {
    let by_target = (RUNS_BY_TARGET / search.question.target).min(search.question.most_runs as f64);
    search.question.most_runs.min(MOST_RUNS.max(by_target) as u64)
}

/// Whether a set itself is shown to meet the target.
fn meets(search: &Search<'_>, set: &Set, target: Target) -> bool {
    let Some(plan) = search.aid.plan(set) else { return false };
    let mut side = SideBySide::new(vec![&plan], search.question.luck, Keep::Counts);
    for look in looks_from(FIRST_LOOK, most_runs(search)) {
        side.run_until(look, &[], search.control);
        match target.verdict_of(side.tally(0)) {
            Verdict::Below => return true,
            Verdict::NotClear => {}
            Verdict::Above | Verdict::CannotWork => return false,
        }
    }
    false
}
