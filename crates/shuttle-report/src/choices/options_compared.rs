//! Options side by side with the plan as it stands: what each changes, which cannot be told apart,
//! and which are worth their cost.
//!
//! All plans run on common random numbers, the plan as it stands in full. An option ends at a look after which
//! more runs would say nothing new: it is clear against the plan as it stands and against every option that
//! is still in question. Each interval holds whenever the runs ended; a verdict also holds for all options and
//! both measures at once ([`decisions`](crate::decisions)).

use serde::Serialize;
use shuttle_sim::Plan;

use crate::decisions::looks::looks;
use crate::decisions::told::Rule;
use crate::runs::batch::Keep;
use crate::runs::control::{Control, SameLuck};
use crate::runs::side_by_side::SideBySide;
use crate::runs::tally::Tally;
use crate::statistics::binomial::exact_interval;
use crate::statistics::paired_means::PairedMeans;

pub use crate::decisions::told::{Apart, Interval, NO_MINUTES, Verdict};

/// Two chances within this of each other do not differ by enough to be worth more runs.
pub const NOTHING: f64 = 0.005;

/// Two options whose difference lies within this part of what the better of them is worth do as well as
/// each other.
const AS_GOOD: f64 = 0.1;

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
    /// Runs made: of the plan as it stands all of them.
    pub replications: u64,
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
    /// Whether it changes nothing at all in any run against the plan as it stands: it never binds.
    pub never_binds: bool,
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
    /// Runs of the plan as it stands; an option that was clear earlier has fewer.
    pub replications: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Whether it was stopped early.
    pub ended_early: bool,
}

/// Runs the first option, which is the plan as it stands, `most_runs` times and the others until they are clear.
///
/// - Panics: when there is no option at all.
pub fn compare(
    choices: &[Choice<'_>],
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> Comparison {
    let options = choices.len().saturating_sub(1);
    let plans = choices.iter().map(|one| one.plan).collect();
    let mut side = SideBySide::new(plans, luck, Keep::Counts);
    side.begin_with_base(most_runs, control);
    let looks = looks(most_runs);
    let against_base = Rule::new(options, looks.len(), NOTHING);
    let pairs = choices.len() * options / 2;
    let rules = Rules {
        against_base,
        each_other: Rule::of_chances(pairs, looks.len(), NOTHING),
        costs: costs(choices),
    };
    let mut who: Vec<usize> = (1..choices.len()).collect();
    for look in looks {
        side.run_until(look, &who, control);
        if control.is_stopped() {
            break;
        }
        who = rules.in_question(&side, &who);
        if who.is_empty() {
            break;
        }
    }
    side.run_base_until(most_runs, control);
    let tallies: Vec<&Tally> = side.tallies().collect();
    let worth = rules.worth_having(&tallies);
    let rows: Vec<Row> = (choices.iter().zip(&tallies).enumerate())
        .map(|(place, (choice, tally))| Row {
            worth_having: worth.as_ref().map(|worth| worth[place]),
            ..row(choice, tally, (place > 0).then_some((&choices[0], tallies[0])), against_base)
        })
        .collect();
    let best = rules.best_of(&tallies);
    let as_good_as_best = best.map_or_else(Vec::new, |best| rules.as_good_as(best, &tallies));
    Comparison {
        best,
        as_good_as_best,
        title: choices.first().map_or_else(String::new, |one| one.plan.facts().title.clone()),
        rows,
        replications: side.compared_runs(),
        seed: luck.seed,
        ended_early: control.is_stopped(),
    }
}

/// How options are told from the plan as it stands and from each other.
struct Rules {
    against_base: Rule,
    each_other: Rule,
    /// One an option, where all are stated.
    costs: Option<Vec<f64>>,
}

impl Rules {
    /// Those of `who` of which more runs may still say something.
    fn in_question(&self, side: &SideBySide<'_>, who: &[usize]) -> Vec<usize> {
        let tallies: Vec<&Tally> = side.tallies().collect();
        let mut open: Vec<bool> = (0..tallies.len())
            .map(|place| {
                who.contains(&place)
                    && !self.against_base.is_settled(&tallies[place].pairs.interrupted)
            })
            .collect();
        // The best and those not told from it; where costs are stated, all that are not told apart.
        let best = self.best_of(&tallies);
        for (place, one) in who.iter().enumerate() {
            for other in &who[place + 1..] {
                if self.costs.is_none() && best != Some(*one) && best != Some(*other) {
                    continue;
                }
                let worth =
                    |place: &usize| tallies[*place].pairs.interrupted.difference(0.95).value;
                let nothing = NOTHING.max(AS_GOOD * worth(one).min(worth(other)).abs());
                let shares = tallies[*one].against(tallies[*other]);
                if !self.each_other.is_settled_within(&shares, nothing) {
                    open[*one] = true;
                    open[*other] = true;
                }
            }
        }
        who.iter().copied().filter(|place| open[*place]).collect()
    }

    /// The option with the lowest chance, of those significantly lower than the plan as it stands.
    fn best_of(&self, tallies: &[&Tally]) -> Option<usize> {
        let lower = |place: &usize| {
            self.against_base.verdict(&tallies[*place].pairs) == Verdict::LowerChance
        };
        // By the difference on common runs, as not all have made the same number of them.
        let by = |place: &usize| tallies[*place].pairs.interrupted.difference(0.95).value;
        (1..tallies.len()).filter(lower).min_by(|a, b| by(a).total_cmp(&by(b)))
    }

    /// Those that cannot be told apart from the best one.
    fn as_good_as(&self, best: usize, tallies: &[&Tally]) -> Vec<usize> {
        let confidence = self.each_other.together;
        (1..tallies.len())
            .filter(|place| *place != best)
            .filter(|place| {
                !tallies[*place].against(tallies[best]).difference(confidence).is_clear()
            })
            .collect()
    }

    /// Which of the plans are worth having: those that are significantly better than everything that costs
    /// less and not significantly worse than anything that costs the same. `None` unless every option states
    /// its cost.
    fn worth_having(&self, tallies: &[&Tally]) -> Option<Vec<bool>> {
        let costs = self.costs.as_ref()?;
        let is_worth = |place: usize| {
            (0..tallies.len()).filter(|other| *other != place).all(|other| {
                let shares = tallies[place].against(tallies[other]);
                let apart = shares.difference(self.each_other.together);
                if costs[other] < costs[place] {
                    apart.high < 0.0
                } else if costs[other] > costs[place] {
                    true
                } else {
                    apart.low <= 0.0
                }
            })
        };
        Some((0..tallies.len()).map(is_worth).collect())
    }
}

/// What each costs, where all options state it. The plan as it stands costs nothing where it states nothing.
fn costs(choices: &[Choice<'_>]) -> Option<Vec<f64>> {
    if choices.len() < 2 || choices.iter().all(|choice| choice.cost.is_none()) {
        return None;
    }
    (choices.iter().enumerate())
        .map(|(place, choice)| choice.cost.or_else(|| (place == 0).then_some(0.0)))
        .collect()
}

fn row(choice: &Choice<'_>, tally: &Tally, base: Option<(&Choice<'_>, &Tally)>, rule: Rule) -> Row {
    let (chance, (ci_low, ci_high)) = match base {
        // Its number of runs does not depend on what they show.
        None => (tally.chance(), exact_interval(tally.interrupted, tally.runs, 0.95)),
        Some((_, base)) => rule.chance_beside(base, tally),
    };
    let verdict = base.map(|_| rule.verdict(&tally.pairs));
    let cost_of_a_point = base.and_then(|(base, of_base)| {
        let more = choice.cost? - base.cost.unwrap_or(0.0);
        let points = -100.0 * rule.apart_from(of_base, tally, Interval::Single).by;
        (verdict == Some(Verdict::LowerChance)).then(|| more / points)
    });
    // As the chance: what the base's other runs say of the luck of these is used too, so that figures and differences agree.
    let of_base = base.map(|(_, of_base)| of_base).filter(|of_base| of_base.runs != tally.runs);
    let mean = |mean: fn(&Tally) -> f64, pairs: &PairedMeans| {
        let beside = of_base.zip(pairs.difference(rule.alone));
        beside.map_or(mean(tally), |(of_base, by)| (mean(of_base) + by.value).max(0.0))
    };
    let reserve = |tally: &Tally| tally.mean(tally.reserve_touched as f64);
    let reserve_touched = of_base.map_or(reserve(tally), |of_base| {
        let by = tally.pairs.reserve_touched.difference(rule.alone).value;
        (reserve(of_base) + by).clamp(0.0, 1.0)
    });
    Row {
        name: choice.name.clone(),
        cost: choice.cost,
        replications: tally.runs,
        interruption_probability: chance,
        ci_low,
        ci_high,
        reserve_touched,
        interrupted_minutes_mean: mean(Tally::minutes_short_mean, &tally.pairs.minutes_short),
        lowest_engine_gal_mean: mean(|of| of.mean(of.lowest_engine), &tally.pairs.lowest_engine),
        lowest_drop_tank_gal_mean: tally.lowest_tank_mean(),
        flow_gpm_mean: mean(|of| of.mean(of.flow), &tally.pairs.flow),
        differences: base.map(|(_, base)| differences(base, tally, rule)),
        verdict,
        never_binds: base.is_some() && tally.runs > 0 && tally.pairs.are_the_same(),
        cost_of_a_point,
        worth_having: None,
    }
}

fn differences(base: &Tally, tally: &Tally, rule: Rule) -> Differences {
    let pairs = &tally.pairs;
    let means = |means: &PairedMeans| rule.shown_mean(means);
    Differences {
        interruption_probability: rule.apart_from(base, tally, Interval::Single),
        reserve_touched: rule.shown(&pairs.reserve_touched),
        interrupted_minutes_mean: means(&pairs.minutes_short),
        lowest_engine_gal_mean: means(&pairs.lowest_engine),
        flow_gpm_mean: means(&pairs.flow),
    }
}
