//! What each input is worth: every one that can be moved, moved by a stated amount to either side, all on
//! common random numbers, next to the plan as it stands in full.
//!
//! An input moved ends at a look after which it is clear and known well enough, or hardly worth as much as
//! matters, or hardly worth a quarter of what the greatest one surely is.

use serde::Serialize;
use shuttle_sim::Plan;

use crate::changes::input::{Input, Quantity, Way};
use crate::changes::moved_inputs::{Lever, levers};
use crate::decisions::looks::looks_from;
use crate::decisions::told::{Apart, Interval, LIKELY, Rule, Verdict};
use crate::runs::batch::Keep;
use crate::runs::control::{Control, SameLuck};
use crate::runs::side_by_side::SideBySide;
use crate::runs::tally::Tally;
use crate::statistics::binomial::exact_interval;
use crate::statistics::paired::Difference;
use crate::units::Units;

/// Runs of the first look: inputs are many, and most of them hardly matter.
const FIRST_LOOK: u64 = 256;
/// Most runs of an input moved: enough to tell one and a half percentage points.
const MOST_RUNS: u64 = 4096;
/// Chances within this of each other are not worth more runs here.
const NOTHING: f64 = 0.02;
/// Nor is help below this part of the greatest help, or harm below this part of the greatest harm. They are held apart,
/// as harm has the more room where a plan seldom runs short; and no purchase lowers the demand, so it sets no bar.
const OF_THE_GREATEST: f64 = 0.25;
/// A difference is known well enough when its interval reaches no further to either side than this part of it.
const PRECISE: f64 = 0.5;

/// An input moved one way.
#[derive(Debug, Clone, Serialize)]
pub struct Moved {
    /// Which way.
    pub way: Way,
    /// Runs made.
    pub replications: u64,
    /// Chance of interruption then.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval, by itself.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// How much higher the chance is than as it stands; its 95% interval holds by itself.
    pub higher_by: Apart,
    /// How many more minutes short, mean.
    pub more_minutes: Option<Apart>,
    /// How much higher the chance is that the reserve is touched.
    pub reserve_touched_by: Apart,
    /// What can be said, for all inputs at once.
    pub verdict: Verdict,
    /// Whether it changes nothing at all in any run: it never binds.
    pub never_binds: bool,
}

/// One input.
#[derive(Debug, Clone, Serialize)]
pub struct LeverRow {
    /// What is moved.
    pub input: Input,
    /// What it is now.
    pub now: Quantity,
    /// The amount it is moved by.
    pub amount: Quantity,
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
    /// Lower end of its 95% interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// Chance that the reserve is touched as it stands.
    pub reserve_touched: f64,
    /// Minutes short as it stands, mean.
    pub interrupted_minutes_mean: f64,
    /// Runs of the plan as it stands; an input that was clear earlier has fewer.
    pub replications: u64,
    /// The inputs: clear ones by what they are worth, the demand last, then the others.
    pub rows: Vec<LeverRow>,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Whether it was stopped early.
    pub ended_early: bool,
}

/// Moves every input and says what each is worth.
pub fn what_each_is_worth(
    plan: &Plan,
    units: Units,
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> LeverAnswer {
    worth_of(plan, levers(plan, units), most_runs, luck, control)
}

/// The same for these inputs alone.
pub fn worth_of(
    plan: &Plan,
    levers: Vec<Lever>,
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> LeverAnswer {
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
    let mut side = SideBySide::new(plans, luck, Keep::Counts);
    side.begin_with_base(most_runs, control);
    let most = most_runs.min(MOST_RUNS);
    let rule = Rule::new(statements.max(1), looks_from(FIRST_LOOK, most).len(), NOTHING);
    let of_demand: Vec<bool> = (levers.iter())
        .flat_map(|lever| (lever.better.iter()).chain(&lever.worse).map(move |_| lever))
        .map(|lever| lever.input == Input::Demand)
        .collect();
    move_inputs(&mut side, &of_demand, most, rule, control);
    side.run_base_until(most_runs, control);
    let whole = &side.base().tally;
    let mut next = side.tallies().skip(1);
    let mut rows: Vec<LeverRow> = (levers.iter())
        .map(|lever| {
            let mut moved = |moved: &Option<(Way, Plan)>| {
                let (way, _) = moved.as_ref()?;
                Some(moved_row(*way, next.next()?, whole, rule))
            };
            let (better, worse) = (moved(&lever.better), moved(&lever.worse));
            LeverRow {
                input: lever.input.clone(),
                now: lever.now,
                amount: lever.amount,
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
            .then((a.input == Input::Demand).cmp(&(b.input == Input::Demand)))
            .then(b.worth().0.total_cmp(&a.worth().0))
            .then(b.worth().1.total_cmp(&a.worth().1))
    });
    let (ci_low, ci_high) = exact_interval(whole.interrupted, whole.runs, 0.95);
    LeverAnswer {
        title: plan.facts().title.clone(),
        interruption_probability: whole.chance(),
        ci_low,
        ci_high,
        reserve_touched: whole.mean(whole.reserve_touched as f64),
        interrupted_minutes_mean: whole.minutes_short_mean(),
        replications: side.compared_runs(),
        rows,
        seed: luck.seed,
        ended_early: control.is_stopped(),
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

/// Runs every input moved until it is settled.
///
/// - Given: `of_demand`, whether a move is one of the demand, in the order of the plans.
fn move_inputs(
    side: &mut SideBySide<'_>,
    of_demand: &[bool],
    most: u64,
    rule: Rule,
    control: &Control,
) {
    let mut who: Vec<usize> = (1..=of_demand.len()).collect();
    for look in looks_from(FIRST_LOOK, most) {
        side.run_until(look, &who, control);
        if control.is_stopped() || who.is_empty() {
            return;
        }
        let apart = |place: usize, confidence: f64| {
            side.tally(place).pairs.interrupted.difference(confidence)
        };
        let greatest = |of: fn(&Difference) -> f64| {
            (1..=of_demand.len())
                .filter(|place| !of_demand[place - 1])
                .map(|place| of(&apart(place, rule.together)))
                .fold(0.0, f64::max)
        };
        let little = |greatest: f64| rule.nothing.max(OF_THE_GREATEST * greatest);
        let little_help = little(greatest(|apart| -apart.high));
        let little_harm = little(greatest(|apart| apart.low));
        who.retain(|place| {
            let likely = apart(*place, LIKELY);
            let is_known = apart(*place, rule.together).is_clear()
                && likely.high - likely.low <= 2.0 * PRECISE * likely.value.abs();
            !is_known && (likely.low <= -little_help || likely.high >= little_harm)
        });
    }
}

fn moved_row(way: Way, tally: &Tally, base: &Tally, rule: Rule) -> Moved {
    let pairs = &tally.pairs;
    let (chance, (ci_low, ci_high)) = rule.chance_beside(base, tally);
    Moved {
        way,
        replications: tally.runs,
        interruption_probability: chance,
        ci_low,
        ci_high,
        higher_by: rule.apart_from(base, tally, Interval::Single),
        more_minutes: rule.shown_mean(&pairs.minutes_short),
        reserve_touched_by: rule.shown(&pairs.reserve_touched),
        verdict: rule.verdict(pairs),
        never_binds: tally.runs > 0 && pairs.are_the_same(),
    }
}
