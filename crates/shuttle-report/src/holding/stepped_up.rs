//! Flows that hold from different minutes, taken one after another in one fire.
//!
//! Each flow of an answer holds where nothing is asked for before its minute. A crew that opens lines at the first
//! of these minutes and steps up at the later ones has used water by then: how often it runs short is another
//! chance, and this is it.

use serde::Serialize;
use shuttle_sim::{Luck, Plan};

use super::by_minute::{MinuteRow, WITHIN};
use super::demand::{AskedFrom, Trial};
use super::grading::rule_held::Grid;
use super::held_flow::{Search, greatest_step};
use crate::runs::control::{Control, SameLuck};

/// Fires that are run: they tell a few of a hundred from none.
const FIRES: u64 = 1_000;
/// A flow is worth a step of its own where it is so much more than the one before.
const LEAST_RISE: f64 = 1.15;
/// The same for the last minute asked about.
const LAST_RISE: f64 = 1.05;

/// A flow worth telling.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct HeldStep {
    /// Whether it holds from first water on; else nothing is asked for before its minute.
    pub at_first_water: bool,
    /// From when it holds, minutes after the alarm; first water as it comes by means.
    pub minute: f64,
    /// The flow, gpm.
    pub gpm: f64,
}

impl HeldStep {
    fn asked_from(&self) -> AskedFrom {
        if self.at_first_water { AskedFrom::FirstWater } else { AskedFrom::Minute(self.minute) }
    }
}

/// Flows taken one after another.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SteppedUp {
    /// The flows, which rise from one to the next; at least two.
    pub steps: Vec<HeldStep>,
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
///
/// - Given: what holds from first water on, and from each minute.
pub fn worth_telling(at_first_water: Option<&MinuteRow>, rows: &[MinuteRow]) -> Vec<HeldStep> {
    let step = |row: &MinuteRow, at_first_water| {
        Some(HeldStep { at_first_water, minute: row.minute, gpm: row.held_gpm? })
    };
    let at_water = at_first_water.and_then(|row| step(row, true));
    let flows: Vec<HeldStep> =
        at_water.into_iter().chain(rows.iter().filter_map(|row| step(row, false))).collect();
    let mut told: Vec<HeldStep> = Vec::new();
    for (place, flow) in flows.iter().enumerate() {
        let is_last = place + 1 == flows.len();
        let rises_by = |rise: f64| told.last().is_some_and(|last| flow.gpm >= rise * last.gpm);
        if told.is_empty() || rises_by(LEAST_RISE) || (is_last && rises_by(LAST_RISE)) {
            told.push(*flow);
        }
    }
    if let [first, between @ .., last] = told.as_slice()
        && between.len() > 1
    {
        let middle = between[between.len() / 2];
        told = vec![*first, middle, *last];
    }
    // A flow is had from the first minute at which it holds, not from the one at which it was chosen to be told.
    let first_of = |told: HeldStep| {
        let first = flows.iter().find(|flow| flow.gpm >= told.gpm).unwrap_or(&told);
        HeldStep { gpm: told.gpm, ..*first }
    };
    told.into_iter().map(first_of).collect()
}

/// How often the lines run short where these flows are asked for one after another, and what the last of them may be
/// for the first to hold before it; `None` for fewer than two.
///
/// - Given: `search`, in which this counts as one.
pub(super) fn stepped_up(
    plan: &Plan,
    steps: &[HeldStep],
    step_gpm: f64,
    search: Search,
    control: &Control,
) -> Option<SteppedUp> {
    let [first, later @ ..] = steps else { return None };
    let last = later.last()?;
    let begin = (first.asked_from(), first.gpm);
    let later: Vec<(f64, f64)> = later.iter().map(|step| (step.minute, step.gpm)).collect();
    let mut shuttle = Trial::stepped(plan, begin, &later).ok()?.shuttle();
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
    let top = grid.step_at(last.gpm);
    let found = greatest_step(top, None, top, search, control, |step| {
        Trial::stepped(plan, begin, &[(last.minute, grid.flow(step))]).ok()
    });
    (replications > 0).then(|| SteppedUp {
        steps: steps.to_vec(),
        replications,
        short,
        after_the_first_gpm: found.holds.map(|step| grid.flow(step)).filter(|gpm| *gpm > first.gpm),
    })
}

/// The greatest flow to begin with, from first water on, with which all later steps of a plan hold as they are wanted.
///
/// - Given: the share of fires in which they must hold; how far apart flows are tried, gpm; the most runs of each.
/// - Returns: a flow below the one that is wanted at first; `None` where the plan begins later or has no later steps, or
///   where none is shown to hold.
pub fn begin_lower(
    plan: &Plan,
    share: f64,
    step_gpm: f64,
    (most_runs, luck): (u64, SameLuck),
    control: &Control,
) -> Option<f64> {
    let [first, later @ ..] = plan.facts().incident.attack_flow.as_slice() else { return None };
    if first.from > 0.0 || later.is_empty() {
        return None;
    }
    let first_water = plan.facts().first_water_mean();
    let later: Vec<(f64, f64)> =
        later.iter().map(|step| (first_water + step.from, step.flow)).collect();
    let grid = Grid::with(step_gpm, step_gpm);
    let search = Search { share, most_runs, luck, searches: 1, to_be_exact: 0, within: WITHIN };
    let top = grid.step_at(first.flow);
    let found = greatest_step(top, None, top, search, control, |step| {
        Trial::stepped(plan, (AskedFrom::FirstWater, grid.flow(step)), &later).ok()
    });
    found.holds.map(|step| grid.flow(step)).filter(|gpm| *gpm < first.flow)
}

/// A later step is had soon enough where it is this part of what waiting longer brings. Judgement.
const NEARLY: f64 = 0.9;

/// The soonest of these minutes from which nearly the most can be had that any of them brings, where less is given from first
/// water on.
///
/// - Given: the flow to begin with, gpm; minutes after the alarm, in rising order; the most that is wanted, gpm; the share of
///   fires in which both must hold; how far apart flows are tried, gpm; the most runs of each.
/// - Returns: the minute, and the flow from it on, gpm; `None` where no more than the beginning is shown to hold.
pub fn step_up_soonest(
    plan: &Plan,
    first_gpm: f64,
    (minutes, most_gpm): (&[f64], f64),
    (share, step_gpm): (f64, f64),
    (most_runs, luck): (u64, SameLuck),
    control: &Control,
) -> Option<(f64, f64)> {
    let grid = Grid::with(step_gpm, step_gpm);
    let searches = minutes.len();
    let search = Search { share, most_runs, luck, searches, to_be_exact: 0, within: WITHIN };
    let top = grid.step_at(most_gpm);
    let begin = (AskedFrom::FirstWater, first_gpm);
    let from = |minute: &f64| {
        let found = greatest_step(top, None, top, search, control, |step| {
            Trial::stepped(plan, begin, &[(*minute, grid.flow(step))]).ok()
        });
        let gpm = found.holds.map(|step| grid.flow(step))?;
        (gpm > first_gpm).then_some((*minute, gpm))
    };
    let steps: Vec<(f64, f64)> = minutes.iter().filter_map(from).collect();
    let most = steps.iter().map(|(_, gpm)| *gpm).fold(0.0, f64::max);
    steps.into_iter().find(|(_, gpm)| *gpm >= NEARLY * most)
}
