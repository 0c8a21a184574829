//! The mutual-aid request: the smallest set of the available aid that keeps the chance of interruption
//! below the target, and what each unit of it is worth.
//!
//! Sets are tried by size, the smallest first, all sets of one size on common random numbers. A set is
//! sampled until its confidence sequence leaves the target; the confidence of each is raised (Bonferroni)
//! so that the chance of a wrong verdict on any set is at most 5%. Nothing is assumed about the effect of
//! one more tanker: it may well be in the way. Units that are identical except for their names are tried
//! once. Where there are too many sets for that, units are added one by one, each time the one that helps
//! most by a few fires, and of those not told from it the one that is there soonest; then each is left out in turn to see whether it is needed.

mod any_loss;

mod around;

mod best_guess;

mod held_losses;

mod made_up_for;

mod question_and_answer;

mod set_search;

mod spare;

use shuttle_sim::Plan;

use crate::changes::aid_sets::{Aid, brings_drop_tank, sites_pumped_by};
use crate::choices::departments::Department;
use crate::choices::losses::Lost;
use crate::decisions::target::{Target, Verdict};
use crate::decisions::told::Verdict as Told;
use crate::runs::control::Control;
use set_search::{Search, Tried};

pub use any_loss::held_with_any_one_lost;
pub use around::LATE;
pub use made_up_for::{Cure, Holds, NotMadeUpFor, TriedCure};
pub use spare::{LossHeld, Spare};

pub use question_and_answer::{AidChange, Around, RequestAnswer, RequestQuestion, SizeRow, Unit};

/// Most sets that are all tried: those of twelve units that are all different.
pub const MOST_SETS: usize = 4096;

/// Finds the smallest request.
///
/// - Given: `plan` with everyone who could come; `candidates`, the places of the tankers that are
///   there to be asked for, in rising order. The others always come.
pub fn smallest_request(
    plan: &Plan,
    candidates: &[usize],
    question: RequestQuestion,
    control: &Control,
) -> RequestAnswer {
    let calls: Vec<Vec<usize>> = candidates.iter().map(|place| vec![*place]).collect();
    smallest_request_of_calls(plan, &calls, &[], question, control)
}

/// The same where some tankers come together or not at all.
///
/// - Given: `calls`, for each the places of the tankers it brings, at least one and no tanker in two of them; in
///   the order of their first tankers; the departments that may stay home with several tankers.
pub fn smallest_request_of_calls(
    plan: &Plan,
    calls: &[Vec<usize>],
    departments: &[Department],
    question: RequestQuestion,
    control: &Control,
) -> RequestAnswer {
    let aid = Aid::of(plan, calls);
    let sets = aid.sets().filter(|sets| *sets <= question.most_sets);
    let units = aid.units();
    // Adding one by one tries up to all kinds at each size, and leaving out as many again.
    let statements = sets.unwrap_or(2 * (aid.calls() + 1) * (aid.calls() + 1));
    let target = Target::for_all(question.target, statements);
    let mut search = Search { aid, departments, question, target, control, sizes: Vec::new() };
    let found = if sets.is_some() { search.all_sets(units) } else { search.one_by_one() };
    answer(search, found, sets.is_some())
}

/// The request that was found, or all available aid, with its neighbours.
fn answer(mut search: Search<'_>, found: Option<Tried>, all_sets_tried: bool) -> RequestAnswer {
    let meets_target = found.is_some();
    let bare = found.as_ref().map_or_else(|| search.aid.everyone(), |found| found.set.clone());
    let (set, spare) = match &found {
        Some(found) if search.question.spare && !search.control.is_stopped() => {
            let (set, spare) = spare::with_spare(&search, &bare, &found.tally);
            // Broken off, it says nothing.
            if search.control.is_stopped() { (bare.clone(), None) } else { (set, Some(spare)) }
        }
        _ => (bare.clone(), None),
    };
    let perhaps = (search.sizes.iter())
        .find(|row| row.verdict == Verdict::NotClear)
        .map(|row| row.units)
        .filter(|unclear| !meets_target || *unclear < bare.iter().sum());
    let facts = search.aid.plan.facts();
    let of_calls = search.aid.calls_of(&set).enumerate();
    let mut request: Vec<Unit> = of_calls
        .flat_map(|(call, places)| places.iter().map(move |place| (call, *place)))
        .map(|(call, place)| {
            let tanker = &facts.tankers[place];
            Unit {
                name: tanker.name.clone(),
                capacity_gal: tanker.capacity,
                requested_at_min: tanker.call.requested_at,
                response_min: tanker.call.response.mean(),
                turnout: tanker.call.turnout,
                brings_drop_tank: brings_drop_tank(facts, place),
                brings_pump_to: (sites_pumped_by(facts, place))
                    .map(|site| site.name.clone())
                    .collect(),
                call,
                without_it: None,
            }
        })
        .collect();
    let mut around = around::around(&search, &set);
    as_among_losses(&search, &mut around.one_less, spare.as_ref());
    let (mut add_nothing, mut in_the_way) = (Vec::new(), Vec::new());
    for (kind, less) in &around.one_less {
        for place in search.aid.kinds[*kind][..set[*kind]].iter().flatten() {
            let name = &facts.tankers[*place].name;
            for unit in request.iter_mut().filter(|unit| unit.name == *name) {
                unit.without_it = Some(less.clone());
            }
            // With no set that meets the target everyone is listed, so it is worth naming those who add
            // nothing.
            match less.told {
                Told::NotToldApart if !meets_target => add_nothing.push(name.clone()),
                Told::LowerChance | Told::FewerMinutes => in_the_way.push(name.clone()),
                _ => {}
            }
        }
    }
    for (kind, more) in &around.one_more {
        let rest = search.aid.kinds[*kind][set[*kind]..].iter().flatten();
        let names = rest.map(|place| facts.tankers[*place].name.clone());
        match more.told {
            Told::NotToldApart => add_nothing.extend(names),
            Told::HigherChance | Told::MoreMinutes => in_the_way.extend(names),
            Told::LowerChance | Told::FewerMinutes => {}
        }
    }
    let soonest: Vec<f64> = (search.aid.calls_of(&set))
        .map(|call| call.iter().map(|place| facts.tankers[*place].call.response.mean()))
        .map(|responses| responses.fold(f64::INFINITY, f64::min))
        .collect();
    request.sort_by(|a, b| {
        // What it cannot do without comes first; a smaller difference is no order, and whoever is nearest is called.
        let is_needed = |unit: &Unit| {
            (unit.without_it.as_ref())
                .is_some_and(|without| without.interruption_probability >= search.question.target)
        };
        (a.requested_at_min.total_cmp(&b.requested_at_min))
            .then(is_needed(b).cmp(&is_needed(a)))
            .then(soonest[a.call].total_cmp(&soonest[b.call]))
            // Those that come together stand together.
            .then(a.call.cmp(&b.call))
            .then(a.response_min.total_cmp(&b.response_min))
            .then(b.capacity_gal.total_cmp(&a.capacity_gal))
    });
    in_order(&mut request);
    // The same set is tried beside the request with more fires: one page shows one figure for it.
    for row in &mut search.sizes {
        let beside =
            (around.one_less.iter().map(|(_, less)| less)).find(|less| match &less.change {
                AidChange::Without(without) => {
                    less.replications > row.replications
                        && is_without(&row.names, &request, without)
                }
                _ => false,
            });
        if let Some(less) = beside {
            row.replications = less.replications;
            row.interruption_probability = less.interruption_probability;
            row.ci_low = row.ci_low.min(less.interruption_probability);
            row.ci_high = row.ci_high.max(less.interruption_probability);
        }
    }
    // The request in full: its first runs are those it was found with.
    let tally = around.tally.unwrap_or_default();
    let (mut ci_low, mut ci_high) = search.target.interval_of(&tally);
    if let Some(found) = found.as_ref().filter(|found| found.set == set) {
        (ci_low, ci_high) = (ci_low.max(found.interval.0), ci_high.min(found.interval.1));
        let names = search.aid.names(&set);
        for row in search.sizes.iter_mut().filter(|row| row.names == names && tally.runs > 0) {
            row.replications = tally.runs;
            row.interruption_probability = tally.chance();
            (row.ci_low, row.ci_high) = (ci_low, ci_high);
        }
    }
    RequestAnswer {
        title: facts.title.clone(),
        target: search.question.target,
        meets_target,
        request,
        replications: tally.runs,
        interruption_probability: tally.chance(),
        ci_low,
        ci_high,
        sizes: search.sizes,
        perhaps,
        all_sets_tried,
        late: around.late,
        all_come: around.all_come,
        one_more: around.one_more.into_iter().map(|(_, more)| more).collect(),
        add_nothing,
        in_the_way,
        spare,
        reserve_touched: tally.reserve_touched as f64 / tally.runs.max(1) as f64,
        held_back_by: match meets_target {
            true => Vec::new(),
            false => {
                tally.causes().into_iter().map(|(cause, share)| (cause.key(), share)).collect()
            }
        },
        seed: search.question.luck.seed,
        ended_early: search.control.is_stopped(),
    }
}

/// One unit less, or one department that comes whole, is told among the losses too: the same plan has one chance.
fn as_among_losses(search: &Search<'_>, one_less: &mut [(usize, Around)], spare: Option<&Spare>) {
    let losses = spare.map_or(&[][..], |spare| &spare.losses);
    for (_, less) in one_less {
        let AidChange::Without(without) = &less.change else { continue };
        let is_same = |lost: &Lost| match lost {
            Lost::OneTankerOf { names, .. } => {
                without.len() == 1 && names.iter().flatten().any(|name| without.contains(name))
            }
            Lost::Department { tankers, .. } => {
                tankers.len() == without.len() && tankers.iter().all(|one| without.contains(one))
            }
            _ => false,
        };
        if let Some(held) = losses.iter().find(|held| is_same(&held.lost) && held.replications > 0)
            && !search.control.is_stopped()
        {
            less.replications = held.replications;
            less.interruption_probability = held.interruption_probability;
        }
    }
}

/// Numbers the calls in the order in which they are made.
fn in_order(request: &mut [Unit]) {
    let mut order: Vec<usize> = Vec::new();
    for unit in request {
        let number = order.iter().position(|call| *call == unit.call).unwrap_or(order.len());
        if number == order.len() {
            order.push(unit.call);
        }
        unit.call = number;
    }
}

/// Whether these are the names of the request without some.
fn is_without(names: &[String], request: &[Unit], without: &[String]) -> bool {
    names.len() + without.len() == request.len()
        && names
            .iter()
            .all(|name| !without.contains(name) && request.iter().any(|unit| unit.name == *name))
}
