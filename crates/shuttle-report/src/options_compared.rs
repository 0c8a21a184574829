//! Options side by side with the plan as it stands: what each changes, which cannot be told apart,
//! and which are worth their cost.
//!
//! All plans run on common random numbers. The runs are looked at up to [`LOOKS`] times and end when every
//! option is clear. Each interval is given for its look with the error shared over the looks, so it holds
//! whenever the runs ended; a verdict also holds for all options and both measures at once (Bonferroni).

use serde::Serialize;
use shuttle_sim::Plan;

use crate::batch::Control;
use crate::side_by_side::{LOOKS, Record, SameLuck, SideBySide, looks};
use crate::statistics::binomial::exact_interval;
use crate::statistics::confidence_for_each;
use crate::statistics::paired::Difference;

/// Two chances shown to lie within this of each other do not differ by enough to be worth more runs.
pub const NOTHING: f64 = 0.005;

/// A difference in minutes short below this, three seconds a fire, is not worth reporting.
pub const NO_MINUTES: f64 = 0.05;

/// An option.
#[derive(Debug, Clone)]
pub struct Choice<'p> {
    /// What it is called.
    pub name: String,
    /// What it costs, in the scenario's own currency.
    pub cost: Option<f64>,
    /// The plan with it.
    pub plan: &'p Plan,
}

/// A difference, the option less the plan as it stands, with its 95% interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Apart {
    /// The observed difference.
    pub by: f64,
    /// Lower end.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
}

impl From<Difference> for Apart {
    fn from(difference: Difference) -> Apart {
        Apart { by: difference.value, ci_low: difference.low, ci_high: difference.high }
    }
}

/// What can be said of an option against the plan as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// The chance of interruption is significantly lower.
    LowerChance,
    /// It is significantly higher.
    HigherChance,
    /// The chances cannot be told apart, but there are significantly fewer minutes short, by [`NO_MINUTES`]
    /// or more.
    FewerMinutes,
    /// The chances cannot be told apart, but there are significantly more minutes short.
    MoreMinutes,
    /// Neither can be told apart.
    NotToldApart,
}

/// The differences of one option from the plan as it stands.
#[derive(Debug, Clone, Serialize)]
pub struct Differences {
    /// Chance of interruption.
    pub interruption_probability: Apart,
    /// Chance that the reserve is touched.
    pub reserve_touched: Apart,
    /// Minutes short, mean; `None` with fewer than two runs, as below.
    pub interrupted_minutes_mean: Option<Apart>,
    /// The attack engine's lowest level, gal, mean.
    pub lowest_engine_gal_mean: Option<Apart>,
    /// Flow delivered over the watch, gpm, mean.
    pub flow_gpm_mean: Option<Apart>,
}

/// One option, or first the plan as it stands.
#[derive(Debug, Clone, Serialize)]
pub struct Row {
    /// What it is called.
    pub name: String,
    /// What it costs.
    pub cost: Option<f64>,
    /// Chance of interruption.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// Chance that the reserve is touched.
    pub reserve_touched: f64,
    /// Minutes short, mean.
    pub interrupted_minutes_mean: f64,
    /// The attack engine's lowest level, gal, mean.
    pub lowest_engine_gal_mean: f64,
    /// The first drop tank's lowest level since it was first drawn from, gal, mean.
    pub lowest_drop_tank_gal_mean: Option<f64>,
    /// Flow delivered over the watch, gpm, mean.
    pub flow_gpm_mean: f64,
    /// Against the plan as it stands; `None` for that plan itself.
    pub differences: Option<Differences>,
    /// The same as a verdict.
    pub verdict: Option<Verdict>,
    /// What each percentage point less of risk costs, with the cost and risk of the plan as it stands taken
    /// off; `None` unless the chance is significantly lower and both costs are known.
    pub cost_of_a_point: Option<f64>,
    /// Whether nothing at the same or lower cost does as well: `None` where a cost is not known.
    pub worth_having: Option<bool>,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct Comparison {
    /// The title of the plan as it stands.
    pub title: String,
    /// The plan as it stands, then the options in the order given.
    pub rows: Vec<Row>,
    /// The option with the lowest chance, of those significantly lower than the plan as it stands.
    pub best: Option<usize>,
    /// Options whose chance cannot be told apart from the best one's, simultaneously.
    pub as_good_as_best: Vec<usize>,
    /// Runs of each.
    pub runs: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Whether it was stopped early.
    pub stopped_early: bool,
}

/// Runs the options, the first of which is the plan as it stands, until all are clear or `most_runs`
/// are made.
///
/// - Panics: when there is no option at all.
pub fn compare(
    choices: &[Choice<'_>],
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> Comparison {
    let options = choices.len().saturating_sub(1);
    let mut side = SideBySide::new(choices.iter().map(|one| one.plan).collect(), luck);
    let who: Vec<usize> = (1..choices.len()).collect();
    // Two measures of each option, at each look.
    let together = confidence_for_each(0.95, (2 * options * LOOKS).max(1));
    for look in looks(most_runs, [16, 4, 1]) {
        side.run_until(look, &who, control);
        let is_clear = |record: &Record| {
            let apart = record.pairs.interrupted.difference(together);
            apart.is_clear() || (apart.low > -NOTHING && apart.high < NOTHING)
        };
        if control.is_stopped() || side.records()[1..].iter().all(is_clear) {
            break;
        }
    }
    let records = side.records();
    let worth = worth_having(choices, records);
    let rows: Vec<Row> = (choices.iter().zip(records).enumerate())
        .map(|(place, (choice, record))| Row {
            worth_having: worth.as_ref().map(|worth| worth[place]),
            ..row(choice, record, (place > 0).then(|| (&choices[0], together)))
        })
        .collect();
    let (best, as_good_as_best) = best_of(&rows, records);
    Comparison {
        best,
        as_good_as_best,
        title: choices.first().map_or_else(String::new, |one| one.plan.facts().title.clone()),
        rows,
        runs: records[0].runs,
        seed: luck.seed,
        stopped_early: control.is_stopped(),
    }
}

/// The option with the lowest chance, and those that cannot be told apart from it.
fn best_of(rows: &[Row], records: &[Record]) -> (Option<usize>, Vec<usize>) {
    let chance = |place: &usize| rows[*place].interruption_probability;
    let lower = |place: &usize| rows[*place].verdict == Some(Verdict::LowerChance);
    let best = (1..rows.len()).filter(lower).min_by(|a, b| chance(a).total_cmp(&chance(b)));
    let Some(best) = best else {
        return (None, Vec::new());
    };
    let confidence = confidence_for_each(0.95, (rows.len() * (rows.len() - 1) / 2) * LOOKS);
    let as_good = (1..rows.len())
        .filter(|place| *place != best)
        .filter(|place| !records[*place].against(&records[best]).difference(confidence).is_clear())
        .collect();
    (Some(best), as_good)
}

fn row(choice: &Choice<'_>, record: &Record, against: Option<(&Choice<'_>, f64)>) -> Row {
    let (ci_low, ci_high) =
        exact_interval(record.interrupted, record.runs, confidence_for_each(0.95, LOOKS));
    let verdict = against.map(|(_, together)| verdict(record, together));
    let cost_of_a_point = against.and_then(|(first, _)| {
        let more = choice.cost? - first.cost.unwrap_or(0.0);
        let points = -100.0 * record.pairs.interrupted.difference(0.95).value;
        (verdict == Some(Verdict::LowerChance)).then(|| more / points)
    });
    Row {
        name: choice.name.clone(),
        cost: choice.cost,
        interruption_probability: record.chance(),
        ci_low,
        ci_high,
        reserve_touched: record.mean(record.reserve_touched as f64),
        interrupted_minutes_mean: record.mean(record.minutes_short),
        lowest_engine_gal_mean: record.mean(record.lowest_engine),
        lowest_drop_tank_gal_mean: record.lowest_tank_mean(),
        flow_gpm_mean: record.mean(record.flow),
        differences: against.map(|_| differences(record)),
        verdict,
        cost_of_a_point,
        worth_having: None,
    }
}

fn differences(record: &Record) -> Differences {
    let each = confidence_for_each(0.95, LOOKS);
    let pairs = &record.pairs;
    Differences {
        interruption_probability: pairs.interrupted.difference(each).into(),
        reserve_touched: pairs.reserve_touched.difference(each).into(),
        interrupted_minutes_mean: pairs.minutes_short.difference(each).map(Apart::from),
        lowest_engine_gal_mean: pairs.lowest_engine.difference(each).map(Apart::from),
        flow_gpm_mean: pairs.flow.difference(each).map(Apart::from),
    }
}

/// What a record says against the first plan, with this confidence for each of the two measures.
pub fn verdict(record: &Record, confidence: f64) -> Verdict {
    let chance = record.pairs.interrupted.difference(confidence);
    let minutes = (record.pairs.minutes_short.difference(confidence))
        .filter(|minutes| minutes.value.abs() >= NO_MINUTES);
    if chance.high < 0.0 {
        Verdict::LowerChance
    } else if chance.low > 0.0 {
        Verdict::HigherChance
    } else if minutes.is_some_and(|minutes| minutes.high < 0.0) {
        Verdict::FewerMinutes
    } else if minutes.is_some_and(|minutes| minutes.low > 0.0) {
        Verdict::MoreMinutes
    } else {
        Verdict::NotToldApart
    }
}

/// Which of the plans are worth having: those that are significantly better than everything that costs less
/// and not significantly worse than anything that costs the same. Costs nothing: the plan as it stands,
/// where it states no cost. `None` unless every option states its cost.
fn worth_having(choices: &[Choice<'_>], records: &[Record]) -> Option<Vec<bool>> {
    let costs: Vec<f64> = (choices.iter().enumerate())
        .map(|(place, choice)| choice.cost.or_else(|| (place == 0).then_some(0.0)))
        .collect::<Option<_>>()?;
    if choices.len() < 2 || choices.iter().all(|choice| choice.cost.is_none()) {
        return None;
    }
    let pairs = choices.len() * (choices.len() - 1) / 2;
    let confidence = confidence_for_each(0.95, pairs * LOOKS);
    let is_worth = |place: usize| {
        (0..choices.len()).filter(|other| *other != place).all(|other| {
            let apart = records[place].against(&records[other]).difference(confidence);
            if costs[other] < costs[place] {
                apart.high < 0.0
            } else if costs[other] > costs[place] {
                true
            } else {
                apart.low <= 0.0
            }
        })
    };
    Some((0..choices.len()).map(is_worth).collect())
}
