//! The greatest flow that holds to the end of the watch, by the minute after the alarm from which it is asked
//! for: for the plan as it stands, and with everyone who could be asked.
//!
//! Nothing is asked for before that minute, so that early water fills tanks; a fire in which the first water
//! itself comes later counts as one in which the flow does not hold. Beside each flow stands how long the first
//! loads alone would carry it: the same plan with every source out of service.

use serde::Serialize;
use shuttle_sim::{Doing, Happening, Luck, Plan, Shuttle};

use super::demand::{AskedFrom, Trial, until_first_water};
use super::grading::rule_held::{Grid, by_hand};
use super::held_flow::{Search, greatest_step};
use super::shared_out;
use super::stepped_up::{HeldStep, SteppedUp, stepped_up, worth_telling};
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;
use crate::worksheet::worksheet;

/// Minutes after the alarm that are looked at where none are asked for.
pub const USUAL_MINUTES: [f64; 5] = [10.0, 15.0, 20.0, 30.0, 45.0];
/// A usual minute so soon after the first one tells nothing new.
const APART: f64 = 3.0;
/// No hauled flow is above this, gpm.
const GREATEST_FLOW: f64 = 5_000.0;
/// Between the greatest flow that holds and the least that fails this part of it may stay unclear.
pub(super) const WITHIN: f64 = 0.04;
/// Fires in which first water and first loads are looked at: a percentile of 95 to about a percent of fires.
const GLANCES: u64 = 1_000;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct MinuteQuestion {
    /// Minutes after the alarm, in rising order; `None`: the usual ones, from the first by which water is on.
    pub minutes: Option<Vec<f64>>,
    /// Share of fires in which a flow must hold.
    pub share: f64,
    /// Flows are tried this far apart, gpm.
    pub step_gpm: f64,
    /// Most runs for any one flow.
    pub most_runs: u64,
    /// Seed and threads.
    pub luck: SameLuck,
}

/// What holds from first water on, or from one minute.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MinuteRow {
    /// From when the flow is asked for, minutes after the alarm; first water as it comes by means.
    pub minute: f64,
    /// The greatest flow that is shown to hold, gpm; `None` if none does.
    pub held_gpm: Option<f64>,
    /// Up to this flow it is not clear from the runs made, gpm.
    pub not_clear_up_to_gpm: Option<f64>,
    /// A greater flow was seen to hold where a lesser one fails.
    pub uneven: bool,
    /// Whether the first water itself comes too late too often.
    pub no_water_yet: bool,
    /// The minute after the alarm to which the first loads alone carry that flow in the same share of fires;
    /// `None` where no flow holds. The end of the watch where they carry it throughout.
    pub first_loads_until_min: Option<f64>,
    /// The cause of the most first breaks one step above, and its share of them.
    pub binds: Option<(&'static str, f64)>,
    /// Runs made.
    pub replications: u64,
}

/// What a number of tankers holds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeldBy {
    /// The tankers.
    pub tankers: Vec<String>,
    /// A flow that is asked for from first water on, whenever that comes; `None`: not reached.
    pub at_first_water: Option<MinuteRow>,
    /// One a minute.
    pub rows: Vec<MinuteRow>,
    /// The flows worth telling, in the order of their minutes.
    pub steps: Vec<HeldStep>,
    /// Those steps taken one after another in one fire; `None` for fewer than two.
    pub stepped_up: Option<SteppedUp>,
    /// The first load that has been filled again is at work, minutes after the alarm, every time at its mean, under
    /// the greatest flow that holds, or the least that was tried; `None` where none ever is.
    pub first_refill_min: Option<f64>,
}

impl HeldBy {
    /// What holds from first water on, then by minute.
    pub fn all_rows(&self) -> impl Iterator<Item = &MinuteRow> {
        self.at_first_water.iter().chain(&self.rows)
    }
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MinuteAnswer {
    /// The plan's title.
    pub title: String,
    /// Share of fires in which a flow must hold.
    pub share: f64,
    /// First water by means, minutes after the alarm.
    pub first_water_min: f64,
    /// The end of the watch by means, minutes after the alarm.
    pub end_min: f64,
    /// The plan as it stands.
    pub as_it_stands: HeldBy,
    /// With everyone who could be asked for; `None` where that is nobody.
    pub with_aid: Option<HeldBy>,
    /// Runs made.
    pub replications: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Whether it was stopped early; what was not reached is left out.
    pub ended_early: bool,
}

/// What holds from which minute.
///
/// - Given: `everyone`, the plan with all who could be asked for, where there are any.
pub fn flow_by_minute(
    plan: &Plan,
    everyone: Option<&Plan>,
    question: &MinuteQuestion,
    control: &Control,
) -> MinuteAnswer {
    let first_water_min = plan.facts().first_water_mean();
    let end_min = first_water_min + plan.facts().incident.duration;
    let minutes = minutes(plan, question, end_min).into_iter().map(AskedFrom::Minute);
    let asked: Vec<AskedFrom> = [AskedFrom::FirstWater].into_iter().chain(minutes).collect();
    let plans: Vec<&Plan> = [plan].into_iter().chain(everyone).collect();
    let jobs = plans.len() * asked.len();
    let (outer, inner) = shared_out(question.luck.threads, jobs);
    // One more for each plan: its flows one after another.
    let searches = jobs + plans.len();
    let search = Search {
        share: question.share,
        most_runs: question.most_runs,
        luck: SameLuck { threads: inner, ..question.luck },
        searches,
        to_be_exact: 0,
        within: WITHIN,
    };
    let work = |_: &mut (), job: u64| {
        let (which, at) = (job as usize / asked.len(), job as usize % asked.len());
        let row = row(plans[which], asked[at], question, search, control);
        (row, control.is_stopped())
    };
    let mut rows: Vec<MinuteRow> = Vec::new();
    let mut cut_short = false;
    in_order(
        jobs as u64,
        outer,
        control,
        || (),
        work,
        |_, (row, stopped)| {
            cut_short |= stopped;
            if !cut_short {
                rows.push(row);
            }
        },
    );
    let together = Search { luck: question.luck, ..search };
    let held_by = |plan: &Plan, rows: Vec<MinuteRow>| {
        let mut rows = rows.into_iter();
        let (at_first_water, rows) = (rows.next(), rows.collect::<Vec<_>>());
        let steps = worth_telling(at_first_water.as_ref(), &rows);
        HeldBy {
            tankers: plan.facts().tankers.iter().map(|tanker| tanker.name.clone()).collect(),
            stepped_up: stepped_up(plan, &steps, question.step_gpm, together, control),
            steps,
            at_first_water,
            first_refill_min: first_refill(plan, &rows, question.step_gpm),
            rows,
        }
    };
    let replications = rows.iter().map(|row| row.replications).sum();
    let of_aid = rows.split_off(asked.len().min(rows.len()));
    MinuteAnswer {
        title: plan.facts().title.clone(),
        share: question.share,
        first_water_min,
        end_min,
        as_it_stands: held_by(plan, rows),
        with_aid: everyone.map(|everyone| held_by(everyone, of_aid)),
        replications,
        seed: question.luck.seed,
        ended_early: control.is_stopped(),
    }
}

/// The minutes to look at: those asked for, or the first whole one by which water is on often enough, and the
/// usual ones after it that leave some of the watch.
fn minutes(plan: &Plan, question: &MinuteQuestion, end_min: f64) -> Vec<f64> {
    if let Some(asked) = &question.minutes {
        return asked.clone();
    }
    let first = first_water_by(plan, question).map_or(0.0, f64::ceil);
    let later =
        USUAL_MINUTES.into_iter().filter(|minute| *minute >= first + APART && *minute < end_min);
    [first].into_iter().chain(later).collect()
}

/// The minute after the alarm by which the first water is on, with half of what is allowed to spare.
fn first_water_by(plan: &Plan, question: &MinuteQuestion) -> Option<f64> {
    let mut shuttle = Shuttle::new(&until_first_water(plan).ok()?);
    shuttle.keep_levels(false);
    let mut times: Vec<f64> = (0..GLANCES)
        .map(|replication| {
            shuttle.run(Luck::Drawn { seed: question.luck.seed, replication }).first_water
        })
        .collect();
    let spare = (GLANCES as f64 * (1.0 - question.share) / 2.0) as usize;
    Some(nth_greatest(&mut times, spare))
}

/// The value that so many others exceed.
fn nth_greatest(values: &mut [f64], exceed: usize) -> f64 {
    values.sort_by(|a, b| b.total_cmp(a));
    values.get(exceed).copied().unwrap_or(0.0)
}

fn row(
    plan: &Plan,
    from: AskedFrom,
    question: &MinuteQuestion,
    search: Search,
    control: &Control,
) -> MinuteRow {
    let grid = Grid::with(question.step_gpm, question.step_gpm);
    let (likely, top) = (grid.step_at(by_hand(&worksheet(plan))), grid.step_at(GREATEST_FLOW));
    let found = greatest_step(likely, None, top, search, control, |step| {
        Trial::from(plan, from, grid.flow(step)).ok()
    });
    let held_gpm = found.holds.map(|step| grid.flow(step));
    let above = found.fails.and_then(|fails| found.look(fails));
    let allowed = 1.0 - question.share;
    MinuteRow {
        minute: match from {
            AskedFrom::FirstWater => plan.facts().first_water_mean(),
            AskedFrom::Minute(minute) => minute,
        },
        held_gpm,
        not_clear_up_to_gpm: found.unclear_up_to().map(|step| grid.flow(step)),
        uneven: found.uneven,
        no_water_yet: held_gpm.is_none()
            && above.is_some_and(|look| look.late as f64 > allowed * look.replications as f64),
        first_loads_until_min: held_gpm.and_then(|gpm| first_loads(plan, from, gpm, question)),
        binds: above.and_then(|look| look.main_cause),
        replications: found.replications(),
    }
}

/// The minute after the alarm to which the first loads alone carry a flow, in the share of fires asked for.
fn first_loads(plan: &Plan, from: AskedFrom, gpm: f64, question: &MinuteQuestion) -> Option<f64> {
    /// As many as tell the percentile to a minute or so.
    const FIRES: u64 = 200;
    let mut facts = plan.facts().clone();
    facts.fill_sites.iter_mut().for_each(shuttle_sim::FillSite::never_serves);
    let dry = Plan::check(facts).ok()?;
    let mut shuttle = Trial::from(&dry, from, gpm).ok()?.shuttle();
    let mut ends: Vec<f64> = (0..FIRES)
        .map(|replication| {
            let run = shuttle.run(Luck::Drawn { seed: question.luck.seed, replication });
            run.interruptions.first().map_or(run.end, |first| first.start)
        })
        .collect();
    let exceed = (FIRES as f64 * question.share) as usize;
    Some(nth_greatest(&mut ends, exceed.min(FIRES as usize - 1)))
}

/// When the first load that was filled again is at work, every time at its mean, under the greatest flow that
/// holds; where none does, under the least one tried.
fn first_refill(plan: &Plan, rows: &[MinuteRow], least_gpm: f64) -> Option<f64> {
    let greatest = rows.iter().filter_map(|row| row.held_gpm).fold(least_gpm, f64::max);
    let first = rows.iter().find(|row| row.held_gpm.is_some()).or(rows.first())?;
    let mut shuttle = Trial::from(plan, AskedFrom::Minute(first.minute), greatest).ok()?.shuttle();
    let (_, trace) = shuttle.run_traced(Luck::Planned);
    let mut refilled = vec![false; plan.facts().tankers.len()];
    trace.notes.iter().find_map(|note| match note.happening {
        Happening::Tanker(tanker, Doing::TravelingBack) => {
            refilled[tanker] = true;
            None
        }
        Happening::Tanker(tanker, Doing::Dumping(_) | Doing::PumpingOff) if refilled[tanker] => {
            Some(note.minute)
        }
        _ => None,
    })
}
