//! The request changed a little: one unit less, one more, asked for later; each on common random numbers.

use shuttle_sim::Plan;

use super::question_and_answer::{Around, SizeRow};
use super::set_search::Search;
use crate::aid_sets::Set;
use crate::options_compared;
use crate::side_by_side::{Record, SideBySide};
use crate::statistics::confidence_for_each;

/// Runs for the request's neighbours: one unit less, one more, asked for later.
const AROUND_RUNS: u64 = 4096;
/// Minutes by which the request may come late.
pub const LATE: [f64; 3] = [5.0, 10.0, 15.0];

/// The neighbours of a request. The numbers are places among the kinds of aid.
#[derive(Default)]
pub(super) struct Surroundings {
    /// Of the request as it stands.
    pub(super) record: Option<Record>,
    pub(super) one_less: Vec<(usize, Around)>,
    pub(super) one_more: Vec<(usize, Around)>,
    pub(super) late: Vec<Around>,
}

/// The request changed a little, each change on common random numbers.
pub(super) fn around(search: &Search<'_>, set: &Set) -> Surroundings {
    let Some(base) = search.aid.plan(set).filter(|_| !search.control.is_stopped()) else {
        return Surroundings::default();
    };
    let mut plans = vec![base];
    let mut changes: Vec<(Option<(usize, bool)>, String)> = Vec::new();
    let mut in_the_table: Vec<Option<&SizeRow>> = Vec::new();
    for more in [false, true] {
        for (kind, changed) in search.aid.neighbours(set, more) {
            let Some(plan) = search.aid.plan(&changed) else { continue };
            plans.push(plan);
            let place = if more { set[kind] } else { set[kind] - 1 };
            let name = &search.aid.plan.facts().tankers[search.aid.kinds[kind][place]].name;
            changes.push((Some((kind, more)), name.clone()));
            let names = search.aid.names(&changed);
            in_the_table.push(search.sizes.iter().find(|row| row.names == names));
        }
    }
    let asked = search.aid.names(set);
    for minutes in LATE {
        if let Some(plan) = late(&plans[0], &asked, minutes) {
            plans.push(plan);
            changes.push((None, format!("{minutes:.0} min later")));
            in_the_table.push(None);
        }
    }
    let mut side = SideBySide::new(plans.iter().collect(), search.question.luck);
    let who: Vec<usize> = (1..plans.len()).collect();
    side.run_until(AROUND_RUNS.min(search.question.most_runs), &who, search.control);
    let mut records = side.records().iter();
    let record = records.next().cloned();
    let each = confidence_for_each(0.95, (2 * changes.len()).max(1));
    let mut found = Surroundings { record, ..Surroundings::default() };
    for (((kind, what), row), record) in changes.into_iter().zip(in_the_table).zip(records) {
        // The same set in the table of sizes, with more runs: one page shows one figure for it.
        let longer = row.filter(|row| row.runs > record.runs);
        let (runs, chance) = longer
            .map_or((record.runs, record.chance()), |row| (row.runs, row.interruption_probability));
        let around = Around {
            what,
            runs,
            interruption_probability: chance,
            higher_by: record.pairs.interrupted.difference(each).into(),
            told: options_compared::verdict(record, each),
        };
        match kind {
            Some((kind, false)) => found.one_less.push((kind, around)),
            Some((kind, true)) => found.one_more.push((kind, around)),
            None => found.late.push(around),
        }
    }
    found
}

/// The plan with these units asked for `minutes` later.
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
