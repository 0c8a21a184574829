//! What each input is worth: every one that can be moved, moved by a stated amount to either side, all on
//! common random numbers.

use serde::Serialize;
use shuttle_sim::Plan;

use crate::batch::Control;
use crate::moved_inputs::{DEMAND, Lever, Way, levers};
use crate::options_compared::{Apart, Verdict, verdict};
use crate::side_by_side::{LOOKS, Record, SameLuck, SideBySide, looks};
use crate::statistics::confidence_for_each;
use crate::units::Units;

/// Chances shown to lie within this of each other are not worth more runs here.
const NOTHING: f64 = 0.015;

/// An input moved one way.
#[derive(Debug, Clone, Serialize)]
pub struct Moved {
    /// Which way.
    pub way: Way,
    /// Runs made.
    pub runs: u64,
    /// Chance of interruption then.
    pub interruption_probability: f64,
    /// How much higher the chance is than as it stands; its 95% interval holds by itself.
    pub higher_by: Apart,
    /// How many more minutes short, mean.
    pub more_minutes: Option<Apart>,
    /// How much higher the chance is that the reserve is touched.
    pub reserve_touched_by: Apart,
    /// What can be said, for all inputs at once.
    pub verdict: Verdict,
}

/// One input.
#[derive(Debug, Clone, Serialize)]
pub struct LeverRow {
    /// What is moved.
    pub input: String,
    /// What it is now.
    pub now: String,
    /// The amount it is moved by.
    pub amount: String,
    /// Moved to the side that should help.
    pub better: Option<Moved>,
    /// Moved to the other side.
    pub worse: Option<Moved>,
    /// Whether either way makes a difference that is clear.
    pub is_clear: bool,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct LeverAnswer {
    /// The plan's title.
    pub title: String,
    /// Chance of interruption as it stands.
    pub interruption_probability: f64,
    /// Chance that the reserve is touched as it stands.
    pub reserve_touched: f64,
    /// Minutes short as it stands, mean.
    pub interrupted_minutes_mean: f64,
    /// Runs of the plan as it stands; an input that was clear earlier has fewer.
    pub runs: u64,
    /// The inputs: clear ones by what they are worth, the demand last, then the others.
    pub rows: Vec<LeverRow>,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Whether it was stopped early.
    pub stopped_early: bool,
}

/// Moves every input and says what each is worth.
pub fn what_each_is_worth(
    plan: &Plan,
    units: Units,
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> LeverAnswer {
    let levers = levers(plan, units);
    let moved =
        |lever: &Lever| usize::from(lever.better.is_some()) + usize::from(lever.worse.is_some());
    let statements = levers.iter().map(moved).sum::<usize>();
    let plans: Vec<&Plan> = [plan]
        .into_iter()
        .chain(
            levers
                .iter()
                .flat_map(|lever| (lever.better.iter()).chain(&lever.worse).map(|(_, plan)| plan)),
        )
        .collect();
    let together = confidence_for_each(0.95, (2 * statements * LOOKS).max(1));
    let mut side = SideBySide::new(plans, luck);
    let mut who: Vec<usize> = (1..=statements).collect();
    for look in looks(most_runs, [10, 4, 1]) {
        side.run_until(look, &who, control);
        who.retain(|place| {
            let apart = side.records()[*place].pairs.interrupted.difference(together);
            !(apart.is_clear() || (apart.low > -NOTHING && apart.high < NOTHING))
        });
        if control.is_stopped() || who.is_empty() {
            break;
        }
    }
    let records = side.records();
    let whole = &records[0];
    let mut next = records[1..].iter();
    let mut rows: Vec<LeverRow> = (levers.iter())
        .map(|lever| {
            let mut moved = |moved: &Option<(Way, Plan)>| {
                let (way, _) = moved.as_ref()?;
                Some(moved_row(*way, next.next()?, together))
            };
            let (better, worse) = (moved(&lever.better), moved(&lever.worse));
            LeverRow {
                input: lever.input.clone(),
                now: lever.now.clone(),
                amount: lever.amount.clone(),
                is_clear: (better.iter().chain(&worse))
                    .any(|moved| moved.verdict != Verdict::NotToldApart),
                better,
                worse,
            }
        })
        .collect();
    rows.sort_by(|a, b| {
        b.is_clear
            .cmp(&a.is_clear)
            .then((a.input == DEMAND).cmp(&(b.input == DEMAND)))
            .then(b.worth().0.total_cmp(&a.worth().0))
            .then(b.worth().1.total_cmp(&a.worth().1))
    });
    LeverAnswer {
        title: plan.facts().title.clone(),
        interruption_probability: whole.chance(),
        reserve_touched: whole.mean(whole.reserve_touched as f64),
        interrupted_minutes_mean: whole.mean(whole.minutes_short),
        runs: whole.runs,
        rows,
        seed: luck.seed,
        stopped_early: control.is_stopped(),
    }
}

impl LeverRow {
    /// The greater of the two clear differences: of the chance, then of minutes short.
    fn worth(&self) -> (f64, f64) {
        let clear = || {
            (self.better.iter().chain(&self.worse))
                .filter(|moved| !self.is_clear || moved.verdict != Verdict::NotToldApart)
        };
        let greatest = |by: fn(&Moved) -> f64| clear().map(by).fold(0.0, f64::max);
        (
            greatest(|moved| moved.higher_by.by.abs()),
            greatest(|moved| moved.more_minutes.map_or(0.0, |minutes| minutes.by.abs())),
        )
    }
}

fn moved_row(way: Way, record: &Record, together: f64) -> Moved {
    let each = confidence_for_each(0.95, LOOKS);
    let pairs = &record.pairs;
    Moved {
        way,
        runs: record.runs,
        interruption_probability: record.chance(),
        higher_by: pairs.interrupted.difference(each).into(),
        more_minutes: pairs.minutes_short.difference(each).map(Apart::from),
        reserve_touched_by: pairs.reserve_touched.difference(each).into(),
        verdict: verdict(record, together),
    }
}
