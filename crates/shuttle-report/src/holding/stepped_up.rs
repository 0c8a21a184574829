//! Flows that hold from different minutes, taken one after another in one fire.
//!
//! Each flow of an answer holds where nothing is asked for before its minute. A crew that opens lines at the first
//! of these minutes and steps up at the later ones has used water by then: how often it runs short is another
//! chance, and this is it.

use serde::Serialize;
use shuttle_sim::{Luck, Plan};

use super::by_minute::MinuteRow;
use super::demand::Trial;
use super::grading::rule_held::Grid;
use super::held_flow::{Search, greatest_step};
use crate::runs::control::Control;

/// Fires that are run: they tell a few of a hundred from none.
const FIRES: u64 = 1_000;
/// A flow is worth a step of its own where it is so much more than the one before.
const LEAST_RISE: f64 = 1.15;
/// The same for the last minute asked about.
const LAST_RISE: f64 = 1.05;

/// Flows taken one after another.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SteppedUp {
    /// Minutes after the alarm with the flow asked for from each, gpm; both rise, and there are at least two.
    pub steps: Vec<(f64, f64)>,
    /// Fires run.
    pub replications: u64,
    /// Fires in which the lines ran short.
    pub short: u64,
    /// The most that holds from the last of these minutes where the first flow was given from the first, gpm; `None`
    /// where no more than that first flow is shown to hold.
    pub after_the_first_gpm: Option<f64>,
}

/// The flows worth telling: the first, the last, and the greatest step between them, each from the first minute at
/// which it holds. Three are heard over the radio.
pub fn worth_telling(rows: &[MinuteRow]) -> Vec<(f64, f64)> {
    let flows: Vec<(f64, f64)> =
        rows.iter().filter_map(|row| Some((row.minute, row.held_gpm?))).collect();
    let mut told: Vec<(f64, f64)> = Vec::new();
    for (place, (minute, gpm)) in flows.iter().enumerate() {
        let is_last = place + 1 == flows.len();
        let rises = told.last().is_none_or(|(_, before)| *gpm >= LEAST_RISE * before);
        if rises || (is_last && told.last().is_some_and(|(_, before)| *gpm >= LAST_RISE * before)) {
            told.push((*minute, *gpm));
        }
    }
    if let [first, between @ .., last] = told.as_slice()
        && between.len() > 1
    {
        let middle = between[between.len() / 2];
        told = vec![*first, middle, *last];
    }
    // A flow is had from the first minute at which it holds, not from the one at which it was chosen to be told.
    let first_of =
        |gpm: f64| flows.iter().find(|(_, held)| *held >= gpm).map(|(minute, _)| *minute);
    told.into_iter().map(|(minute, gpm)| (first_of(gpm).unwrap_or(minute), gpm)).collect()
}

/// How often the lines run short where these flows are asked for one after another, and what the last of them may be
/// for the first to hold before it; `None` for fewer than two.
///
/// - Given: `search`, in which this counts as one.
pub(super) fn stepped_up(
    plan: &Plan,
    steps: &[(f64, f64)],
    step_gpm: f64,
    search: Search,
    control: &Control,
) -> Option<SteppedUp> {
    let [first, later @ ..] = steps else { return None };
    let (last_minute, last_gpm) = *later.last()?;
    let mut shuttle = Trial::stepped(plan, *first, later).ok()?.shuttle();
    let (mut replications, mut short) = (0, 0);
    for replication in 0..FIRES {
        if control.is_stopped() {
            break;
        }
        let run = shuttle.run(Luck::Drawn { seed: search.luck.seed, replication });
        replications += 1;
        short += u64::from(!run.interruptions.is_empty());
    }
    let grid = Grid::with(step_gpm, step_gpm);
    // What holds with nothing used before is the most there can be.
    let top = grid.step_at(last_gpm);
    let found = greatest_step(top, None, top, search, control, |step| {
        Trial::stepped(plan, *first, &[(last_minute, grid.flow(step))]).ok()
    });
    (replications > 0).then(|| SteppedUp {
        steps: steps.to_vec(),
        replications,
        short,
        after_the_first_gpm: found.holds.map(|step| grid.flow(step)).filter(|gpm| *gpm > first.1),
    })
}
