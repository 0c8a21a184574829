//! How many tankers to ask for: the fewest, in the order the plan lists them, whose chance of
//! interruption is below the target.
//!
//! Every number of tankers is sampled until it is clear on which side of the target it lies, or until the
//! runs allowed are used up. The decision may be looked at after every block because each interval is a
//! confidence sequence. They hold for all numbers of tankers simultaneously: the confidence of each is
//! raised (Bonferroni) so that the chance of any wrong verdict in the table is at most 5%.

use serde::Serialize;
use shuttle_sim::{Cause, Plan};

use crate::batch::{Control, Keep, Runs, run_batch};
use crate::statistics::confidence_for_each;
use crate::statistics::sequential::{Decision, confidence_sequence, decide};
use crate::tally::{Tally, paired};
use crate::variation::with_fleet_of;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct SizeQuestion {
    /// Chance of interruption to stay below.
    pub target: f64,
    /// Most runs for any one number of tankers.
    pub most_runs: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use.
    pub threads: usize,
    /// How many tankers beyond the listed to try, like the last one.
    pub beyond_listed: usize,
}

/// On which side of the target a number of tankers lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Shown to be below.
    Below,
    /// Shown to be above.
    Above,
    /// Not clear from the runs made.
    NotClear,
    /// With so few tankers the plan cannot work at all, because no drop tank comes.
    CannotWork,
}

/// One number of tankers.
#[derive(Debug, Clone, Serialize)]
pub struct FleetRow {
    /// How many tankers.
    pub tankers: usize,
    /// The tanker that this row adds.
    pub adds: String,
    /// Whether the scenario lists it, or it is one more like the last.
    pub listed: bool,
    /// Runs made.
    pub runs: u64,
    /// Runs with an interruption.
    pub interrupted: u64,
    /// Chance of interruption.
    pub interruption_probability: f64,
    /// Lower end of its confidence sequence, for the whole table at once.
    pub low: f64,
    /// Upper end of that interval.
    pub high: f64,
    /// Share of runs in which the reserve was touched.
    pub reserve_touched: f64,
    /// Drop tanks that come with these tankers.
    pub drop_tanks: usize,
    /// Minutes short, mean.
    pub interrupted_minutes_mean: f64,
    /// The cause of the most first interruptions, and its share of them.
    pub main_cause: Option<(&'static str, f64)>,
    /// On which side of the target.
    pub verdict: Verdict,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct SizeAnswer {
    /// The plan's title.
    pub title: String,
    /// Chance of interruption to stay below.
    pub target: f64,
    /// The fewest tankers that are shown to be below; `None` if no number tried is.
    pub tankers: Option<usize>,
    /// A smaller number that may already do, where the runs allowed did not make it clear.
    pub perhaps: Option<usize>,
    /// From this number on another tanker makes no visible difference.
    pub adds_nothing_after: Option<usize>,
    /// Why the best number tried still fails, by share of first interruptions; empty if none fails.
    pub held_back_by: Vec<(&'static str, f64)>,
    /// One row a number of tankers, from 1.
    pub rows: Vec<FleetRow>,
    /// Whether it was stopped early.
    pub stopped_early: bool,
    /// Seed of the random numbers.
    pub seed: u64,
}

/// Runs in the first look at a number of tankers.
const FIRST_LOOK: u64 = 512;
/// A drop in the chance of less than this counts as none: three runs of the first look.
const NOTHING: f64 = 0.005;

/// Mean minutes short below this are not worth shortening.
const NOTHING_MINUTES: f64 = 1.0;

/// Finds the fewest tankers that keep the chance of interruption below the target.
pub fn fewest_tankers(plan: &Plan, question: SizeQuestion, control: &Control) -> SizeAnswer {
    let listed = plan.facts().tankers.len();
    let most = listed + question.beyond_listed;
    // 95% for the whole table.
    let confidence = confidence_for_each(0.95, most);
    let mut rows: Vec<FleetRow> = Vec::new();
    let mut tallies: Vec<Option<Tally>> = Vec::new();
    for tankers in 1..=most {
        let Ok(fleet) = with_fleet_of(plan, tankers) else {
            rows.push(cannot_work(plan, tankers));
            tallies.push(None);
            continue;
        };
        let (tally, verdict) = sample(&fleet, question, confidence, control);
        if control.is_stopped() {
            break;
        }
        rows.push(row(&fleet, tankers, listed, &tally, confidence, verdict));
        tallies.push(Some(tally));
        if tankers > listed && adds_nothing_from(&tallies).is_some() {
            break;
        }
    }
    // The fewest that is below the target; a smaller number that stayed unclear is mentioned as `perhaps`.
    let tankers = (rows.iter()).find(|row| row.verdict == Verdict::Below).map(|row| row.tankers);
    let perhaps = (rows.iter())
        .filter(|row| row.verdict == Verdict::NotClear)
        .map(|row| row.tankers)
        .find(|unclear| tankers.is_none_or(|sure| *unclear < sure));
    let held_back_by = match (tankers, best_of(&rows)) {
        (None, Some(best)) => {
            (tallies[best].as_ref()).map_or_else(Vec::new, |tally| shares_of(&tally.first_causes))
        }
        _ => Vec::new(),
    };
    SizeAnswer {
        title: plan.facts().title.clone(),
        target: question.target,
        tankers,
        perhaps,
        adds_nothing_after: adds_nothing_from(&tallies),
        held_back_by,
        rows,
        stopped_early: control.is_stopped(),
        seed: question.seed,
    }
}

/// Runs a fleet in growing looks until its side of the target is clear.
fn sample(
    fleet: &Plan,
    question: SizeQuestion,
    confidence: f64,
    control: &Control,
) -> (Tally, Verdict) {
    let mut tally = Tally::new(fleet);
    loop {
        let look = if tally.runs == 0 { FIRST_LOOK } else { tally.runs };
        let runs = Runs {
            first: tally.runs,
            count: look.min(question.most_runs - tally.runs),
            seed: question.seed,
            threads: question.threads,
        };
        tally.merge(&run_batch(fleet, runs, Keep::Sums, control).tally);
        let verdict = match decide(tally.interrupted, tally.runs, question.target, confidence) {
            Decision::Below => Verdict::Below,
            Decision::Above => Verdict::Above,
            Decision::NotClear => Verdict::NotClear,
        };
        let done = tally.runs >= question.most_runs || control.is_stopped();
        if done || verdict != Verdict::NotClear {
            return (tally, verdict);
        }
    }
}

fn row(
    fleet: &Plan,
    tankers: usize,
    listed: usize,
    tally: &Tally,
    confidence: f64,
    verdict: Verdict,
) -> FleetRow {
    let (low, high) = confidence_sequence(tally.interrupted, tally.runs, confidence);
    let runs = tally.runs.max(1) as f64;
    FleetRow {
        tankers,
        adds: (fleet.facts().tankers.last()).map_or_else(String::new, |last| last.name.clone()),
        listed: tankers <= listed,
        runs: tally.runs,
        interrupted: tally.interrupted,
        interruption_probability: tally.interrupted as f64 / runs,
        low,
        high,
        reserve_touched: tally.reserve_touched as f64 / runs,
        drop_tanks: fleet.facts().drop_tanks.len(),
        interrupted_minutes_mean: tally.minutes_short[0] / runs,
        main_cause: shares_of(&tally.first_causes).first().copied(),
        verdict,
    }
}

fn cannot_work(plan: &Plan, tankers: usize) -> FleetRow {
    FleetRow {
        tankers,
        adds: (plan.facts().tankers.get(tankers - 1))
            .map_or_else(String::new, |tanker| tanker.name.clone()),
        listed: true,
        runs: 0,
        interrupted: 0,
        interruption_probability: 1.0,
        low: 1.0,
        high: 1.0,
        reserve_touched: 1.0,
        drop_tanks: 0,
        interrupted_minutes_mean: plan.facts().incident.duration,
        main_cause: None,
        verdict: Verdict::CannotWork,
    }
}

/// The number of tankers after which neither one nor two more make a visible difference on common random
/// numbers, if there are enough tallies to tell.
fn adds_nothing_from(tallies: &[Option<Tally>]) -> Option<usize> {
    let lowers_by = |from: &Tally, to: &Tally| {
        let pairs = paired(from, to);
        let runs = from.runs.min(to.runs).max(1) as f64;
        (pairs.only_first as f64 - pairs.only_second as f64) / runs
    };
    // While every run fails, the chance says nothing; the minutes short may still be falling.
    let minutes = |tally: &Tally| tally.minutes_short[0] / tally.runs.max(1) as f64;
    let shortens_by = |from: &Tally, to: &Tally| minutes(from) - minutes(to);
    let place = tallies.windows(3).position(|three| {
        let [Some(here), Some(next), Some(after)] = three else {
            return false;
        };
        [next, after].into_iter().all(|more| {
            lowers_by(here, more) < NOTHING
                && shortens_by(here, more) < 0.02 * minutes(here).max(NOTHING_MINUTES)
        })
    })?;
    Some(place + 1)
}

fn best_of(rows: &[FleetRow]) -> Option<usize> {
    (0..rows.len()).filter(|place| rows[*place].runs > 0).min_by(|a, b| {
        let chance = |place: &usize| rows[*place].interruption_probability;
        chance(a).total_cmp(&chance(b))
    })
}

/// Causes by share of first interruptions, greatest first.
fn shares_of(counts: &[u64; Cause::ALL.len()]) -> Vec<(&'static str, f64)> {
    let all: u64 = counts.iter().sum();
    let mut shares: Vec<(&'static str, f64)> = (Cause::ALL.iter())
        .filter(|cause| counts[**cause as usize] > 0)
        .map(|cause| (cause.key(), counts[*cause as usize] as f64 / all as f64))
        .collect();
    shares.sort_by(|a, b| b.1.total_cmp(&a.1));
    shares
}
