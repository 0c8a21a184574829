//! The request changed a little: one call less, one more, asked for later, every unit sure to come; each on common
//! random numbers.

use shuttle_sim::{Brought, Plan};

use super::question_and_answer::{AidChange, Around, SizeRow};
use super::set_search::Search;
use crate::changes::aid_sets::Set;
use crate::decisions::looks::{FIRST_LOOK, looks};
use crate::decisions::told::{Interval, Rule};
use crate::runs::batch::{BLOCK, Keep};
use crate::runs::side_by_side::{AHEAD, SideBySide};
use crate::runs::tally::Tally;

/// Most runs for each of the request's neighbours: one unit less, one more, asked for later.
const MOST_RUNS: u64 = 4096;
/// Of many neighbours each gets fewer, so that all together have as many as sixteen.
const RUNS_OF_ALL: u64 = 16 * MOST_RUNS;
/// A difference below this does not matter.
const NOTHING: f64 = 0.01;
/// Minutes by which the request may come late.
pub const LATE: [f64; 3] = [5.0, 10.0, 15.0];

/// The neighbours of a request. The numbers are places among the kinds of aid.
#[derive(Default)]
pub(super) struct Surroundings {
    /// Of the request as it stands, in full.
    pub(super) tally: Option<Tally>,
    pub(super) one_less: Vec<(usize, Around)>,
    pub(super) one_more: Vec<(usize, Around)>,
    pub(super) late: Vec<Around>,
    pub(super) all_come: Option<Around>,
}

/// What was changed.
#[derive(Clone, Copy)]
enum Neighbour {
    OneLess(usize),
    OneMore(usize),
    Late,
    AllCome,
}

/// The request changed a little, each change on common random numbers.
pub(super) fn around(search: &Search<'_>, set: &Set) -> Surroundings {
    let Some(base) = search.aid.plan(set).filter(|_| !search.control.is_stopped()) else {
        return Surroundings::default();
    };
    let mut plans = vec![base];
    let mut changes: Vec<(Neighbour, AidChange)> = Vec::new();
    let mut in_the_table: Vec<Option<&SizeRow>> = Vec::new();
    for more in [false, true] {
        for (kind, changed) in search.aid.neighbours(set, more) {
            let Some(plan) = search.aid.plan(&changed) else { continue };
            plans.push(plan);
            let place = if more { set[kind] } else { set[kind] - 1 };
            let called = search.aid.names_at(&search.aid.kinds[kind][place]);
            changes.push(if more {
                (Neighbour::OneMore(kind), AidChange::OneMore(called))
            } else {
                (Neighbour::OneLess(kind), AidChange::Without(called))
            });
            let names = search.aid.names(&changed);
            in_the_table.push(search.sizes.iter().find(|row| row.names == names));
        }
    }
    let asked = search.aid.names(set);
    for minutes in LATE {
        if let Some(plan) = late(&plans[0], &asked, minutes) {
            plans.push(plan);
            changes.push((Neighbour::Late, AidChange::Later(minutes)));
            in_the_table.push(None);
        }
    }
    if let Some(plan) = all_come(&plans[0]) {
        plans.push(plan);
        changes.push((Neighbour::AllCome, AidChange::AllCome));
        in_the_table.push(None);
    }
    let most_runs = search.question.most_runs;
    let share = RUNS_OF_ALL / changes.len().max(1) as u64;
    let looks = looks(most_runs.min(share.clamp(FIRST_LOOK, MOST_RUNS) / BLOCK * BLOCK));
    let rule = Rule::new(changes.len(), looks.len(), NOTHING);
    let mut side = SideBySide::new(plans.iter().collect(), search.question.luck, Keep::Counts);
    side.run_base_until(most_runs.min(AHEAD), search.control);
    let mut who: Vec<usize> = (1..plans.len()).collect();
    for look in looks {
        side.run_until(look, &who, search.control);
        who.retain(|place| !rule.is_settled(&side.tally(*place).pairs.interrupted));
        if who.is_empty() || search.control.is_stopped() {
            break;
        }
    }
    side.run_base_until(most_runs, search.control);
    let base = &side.base().tally;
    let mut found = Surroundings { tally: Some(base.clone()), ..Surroundings::default() };
    let tallies = side.tallies().skip(1);
    for (((kind, change), row), tally) in changes.into_iter().zip(in_the_table).zip(tallies) {
        // The same set in the table of sizes, with more runs: one page shows one figure for it.
        let longer = row.filter(|row| row.replications > tally.runs);
        let (replications, interruption_probability) = longer.map_or_else(
            || (tally.runs, rule.chance_beside(base, tally).0),
            |row| (row.replications, row.interruption_probability),
        );
        let around = Around {
            change,
            replications,
            interruption_probability,
            higher_by: rule.apart_from(base, tally, Interval::AllAtOnce),
            told: rule.verdict(&tally.pairs),
        };
        match kind {
            Neighbour::OneLess(kind) => found.one_less.push((kind, around)),
            Neighbour::OneMore(kind) => found.one_more.push((kind, around)),
            Neighbour::Late => found.late.push(around),
            Neighbour::AllCome => found.all_come = Some(around),
        }
    }
    found
}

/// The plan with these units asked for `minutes` later; `None` where none is named.
fn late(plan: &Plan, names: &[String], minutes: f64) -> Option<Plan> {
    if names.is_empty() {
        return None;
    }
    let mut facts = plan.facts().clone();
    for tanker in facts.tankers.iter_mut().filter(|tanker| names.contains(&tanker.name)) {
        tanker.call.requested_at += minutes;
    }
    Plan::check(facts).ok()
}

/// The plan with every unit sure to come; `None` where all are.
fn all_come(plan: &Plan) -> Option<Plan> {
    let mut facts = plan.facts().clone();
    let engine = facts.supply.engine.iter_mut().map(|engine| &mut engine.call);
    let tanks = facts.drop_tanks.iter_mut().filter_map(|tank| match &mut tank.brought {
        Brought::Itself(call) => Some(call),
        _ => None,
    });
    let tankers = facts.tankers.iter_mut().map(|tanker| &mut tanker.call);
    let mut some_may_not = false;
    for call in tankers.chain(engine).chain(tanks) {
        some_may_not |= call.turnout < 1.0;
        call.turnout = 1.0;
    }
    if some_may_not { Plan::check(facts).ok() } else { None }
}
