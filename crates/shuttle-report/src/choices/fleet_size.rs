//! How many tankers to ask for: the fewest, in the order the plan lists them, whose chance of
//! interruption is below the target.
//!
//! Every number of tankers is sampled until it is clear on which side of the target it lies, or until the
//! runs allowed are used up; those listed are run in full, so that their chance is the one that every other
//! answer gives. The decision may be looked at after every block because each interval is a
//! confidence sequence. They hold for all numbers of tankers simultaneously: the confidence of each is
//! raised (Bonferroni) so that the chance of any wrong verdict in the table is at most 5%.

use serde::Serialize;
use shuttle_sim::Plan;

use crate::changes::variation::with_fleet_of;
use crate::decisions::looks::looks;
use crate::decisions::target::Target;
use crate::runs::batch::{Batch, Keep};
use crate::runs::control::{Control, Runs};
use crate::runs::tally::Tally;

pub use crate::decisions::target::Verdict;

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

/// One number of tankers.
#[derive(Debug, Clone, Serialize)]
pub struct FleetRow {
    /// How many tankers.
    pub tankers: usize,
    /// The tanker that this row adds.
    pub adds: String,
    /// Whether the scenario lists it, or it is one more like the last.
    pub listed: bool,
    /// Runs made; of the tankers listed all that are allowed, so that the chance is the same in all answers.
    pub replications: u64,
    /// Runs with an interruption.
    pub interrupted: u64,
    /// Chance of interruption.
    pub interruption_probability: f64,
    /// Lower end of its confidence sequence, for the whole table at once.
    pub ci_low: f64,
    /// Upper end of that interval.
    pub ci_high: f64,
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
    pub ended_early: bool,
    /// Seed of the random numbers.
    pub seed: u64,
}

/// A drop in the chance of less than this counts as none: three runs of the first look.
const NOTHING: f64 = 0.005;

/// Mean minutes short below this are not worth shortening.
const NOTHING_MINUTES: f64 = 1.0;

/// Finds the fewest tankers that keep the chance of interruption below the target.
pub fn fewest_tankers(plan: &Plan, question: SizeQuestion, control: &Control) -> SizeAnswer {
    fewest_with_aid(plan, plan.facts().tankers.len(), question, control)
}

/// The same with aid: after the tankers that come anyway those of the aid, in the order of the plan, before one is
/// thought up that nobody has.
///
/// - Given: `plan` with everyone; `own`, how many of its first tankers come anyway.
pub fn fewest_with_aid(
    plan: &Plan,
    own: usize,
    question: SizeQuestion,
    control: &Control,
) -> SizeAnswer {
    let listed = plan.facts().tankers.len();
    let most = listed + question.beyond_listed;
    let target = Target::for_all(question.target, most);
    let mut rows: Vec<FleetRow> = Vec::new();
    let mut tallies: Vec<Option<Tally>> = Vec::new();
    for tankers in 1..=most {
        let Ok(fleet) = with_fleet_of(plan, tankers) else {
            rows.push(cannot_work(plan, tankers));
            tallies.push(None);
            continue;
        };
        let sampled = sample(&fleet, question, tankers == own, target, control);
        if control.is_stopped() {
            break;
        }
        rows.push(row(&fleet, tankers, listed, &sampled));
        tallies.push(Some(sampled.when_clear));
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
        (None, Some(best)) => tallies[best].as_ref().map_or_else(Vec::new, shares),
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
        ended_early: control.is_stopped(),
        seed: question.seed,
    }
}

/// A fleet that was run.
struct Sampled {
    tally: Tally,
    /// Its runs up to when it was clear: what other numbers of tankers have runs for as well.
    when_clear: Tally,
    verdict: Verdict,
    /// The running intersection of its confidence sequence over all looks, so that no word is taken back.
    interval: (f64, f64),
}

/// Runs a fleet in growing looks until its side of the target is clear, or in full.
fn sample(
    fleet: &Plan,
    question: SizeQuestion,
    in_full: bool,
    target: Target,
    control: &Control,
) -> Sampled {
    let mut batch = Batch::new(fleet, Keep::Counts);
    let mut when_clear = Tally::default();
    let (mut verdict, mut interval) = (Verdict::NotClear, (0.0_f64, 1.0_f64));
    for look in looks(question.most_runs) {
        let runs = Runs {
            first: batch.tally.runs,
            count: look - batch.tally.runs,
            seed: question.seed,
            threads: question.threads,
        };
        batch.extend(fleet, runs, 0, control);
        let (low, high) = target.interval_of(&batch.tally);
        interval = (interval.0.max(low), interval.1.min(high));
        if verdict == Verdict::NotClear {
            verdict = target.verdict_of(&batch.tally);
            when_clear.clone_from(&batch.tally);
        }
        if control.is_stopped() || (verdict != Verdict::NotClear && !in_full) {
            break;
        }
    }
    Sampled { tally: batch.tally, when_clear, verdict, interval }
}

fn row(fleet: &Plan, tankers: usize, listed: usize, sampled: &Sampled) -> FleetRow {
    let tally = &sampled.tally;
    FleetRow {
        tankers,
        adds: (fleet.facts().tankers.last()).map_or_else(String::new, |last| last.name.clone()),
        listed: tankers <= listed,
        replications: tally.runs,
        interrupted: tally.interrupted,
        interruption_probability: tally.chance(),
        ci_low: sampled.interval.0,
        ci_high: sampled.interval.1,
        reserve_touched: tally.mean(tally.reserve_touched as f64),
        drop_tanks: fleet.facts().drop_tanks.len(),
        interrupted_minutes_mean: tally.minutes_short_mean(),
        main_cause: shares(tally).first().copied(),
        verdict: sampled.verdict,
    }
}

fn cannot_work(plan: &Plan, tankers: usize) -> FleetRow {
    FleetRow {
        tankers,
        adds: (plan.facts().tankers.get(tankers - 1))
            .map_or_else(String::new, |tanker| tanker.name.clone()),
        listed: true,
        replications: 0,
        interrupted: 0,
        interruption_probability: 1.0,
        ci_low: 1.0,
        ci_high: 1.0,
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
        let pairs = from.against(to);
        let runs = from.runs.min(to.runs).max(1) as f64;
        (pairs.only_first as f64 - pairs.only_second as f64) / runs
    };
    // While every run fails, the chance says nothing; the minutes short may still be falling.
    let minutes = Tally::minutes_short_mean;
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
    (0..rows.len()).filter(|place| rows[*place].replications > 0).min_by(|a, b| {
        let chance = |place: &usize| rows[*place].interruption_probability;
        chance(a).total_cmp(&chance(b))
    })
}

/// Causes by their keys.
fn shares(tally: &Tally) -> Vec<(&'static str, f64)> {
    tally.causes().into_iter().map(|(cause, share)| (cause.key(), share)).collect()
}
