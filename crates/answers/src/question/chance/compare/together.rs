//! Options together: the best pair, and the best set for a sum of money.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::batch::Control;
use shuttle_report::option_sets::{BestSet, best_set};
use shuttle_report::options_compared::{Apart, Comparison};
use shuttle_sim::Plan;

use super::figures::OptionFigures;
use crate::question::Budget;
use crate::say;
use crate::say::{Chances, Piece, Sentence, list, name};
use crate::shared::against::Against;

/// Pairs are tried of so many options, those that do most alone.
const IN_PAIRS: usize = 8;
/// Sets for a sum are tried of so many.
const IN_SETS: usize = 6;

/// The best of some sets of options.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SetFigures {
    /// The names of the options.
    #[serde(rename = "of_options")]
    pub options: Vec<OptionName>,
    /// What they cost together; null where a cost is not known.
    pub cost: Option<f64>,
    /// Sets that were tried.
    #[serde(rename = "sets_tried")]
    pub tried: usize,
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines run short.
    pub interruption_probability: f64,
    /// How much higher that is than as it stands; the interval holds for all sets at once.
    pub higher_by: Apart,
    /// What can be said against the plan as it stands.
    #[serde(rename = "effect")]
    pub verdict: Against,
}

/// An option.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OptionName {
    /// Its name.
    pub name: String,
}

/// What options do together.
#[derive(Debug, Clone, Default, PartialEq, Serialize, JsonSchema)]
pub struct TogetherFigures {
    /// The best pair of options; null where no two go together.
    pub best_pair: Option<SetFigures>,
    /// The sum that may be spent; null where none was named.
    pub budget: Option<f64>,
    /// The best set of options within it; null where none was named, or nothing can be had for it.
    pub best_within_budget: Option<SetFigures>,
}

/// The best pair, and the best set for a sum of money.
pub fn together(
    scenario: &Scenario,
    found: &Comparison,
    spend: Option<f64>,
    budget: Budget,
    control: &Control,
) -> TogetherFigures {
    let promising = by_worth(found);
    let best = |sets: Vec<Vec<usize>>| {
        let sets: Vec<(Vec<usize>, Plan)> = (sets.into_iter())
            .filter_map(|set| {
                let plan = scenario.with_options(&set)?;
                Some((set, plan))
            })
            .collect();
        let best =
            best_set(&scenario.plan, &sets, budget.replications, budget.same_luck(), control);
        best.map(|best| figures(scenario, &best))
    };
    let of_two: Vec<usize> = promising.iter().copied().take(IN_PAIRS).collect();
    let pairs = (of_two.iter().enumerate())
        .flat_map(|(place, one)| of_two[place + 1..].iter().map(|other| vec![*one, *other]))
        .collect();
    let best_pair = best(pairs);
    let within = spend.and_then(|spend| best(sets_within(scenario, &promising, spend)));
    // Broken off, what is missing says nothing.
    TogetherFigures {
        best_pair,
        budget: spend.filter(|_| !control.is_stopped()),
        best_within_budget: within,
    }
}

/// The options from the one that saves most fires alone, by place in the scenario.
fn by_worth(found: &Comparison) -> Vec<usize> {
    let by = |place: &usize| {
        let row = &found.rows[place + 1];
        let differences = row.differences.as_ref();
        (
            differences.map_or(0.0, |one| one.interruption_probability.by),
            row.interrupted_minutes_mean,
        )
    };
    let mut places: Vec<usize> = (0..found.rows.len().saturating_sub(1)).collect();
    places.sort_by(|a, b| {
        let (a, b) = (by(a), by(b));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    places
}

/// Every set of the most promising options that can be had for a sum.
fn sets_within(scenario: &Scenario, promising: &[usize], spend: f64) -> Vec<Vec<usize>> {
    let known: Vec<(usize, f64)> = (promising.iter())
        .filter_map(|place| Some((*place, scenario.options[*place].cost?)))
        .filter(|(_, cost)| *cost <= spend)
        .take(IN_SETS)
        .collect();
    (1_u32..1 << known.len())
        .filter_map(|bits| {
            let chosen: Vec<(usize, f64)> = (known.iter().enumerate())
                .filter(|(at, _)| bits >> at & 1 == 1)
                .map(|(_, one)| *one)
                .collect();
            let cost: f64 = chosen.iter().map(|(_, cost)| cost).sum();
            (cost <= spend).then(|| chosen.into_iter().map(|(place, _)| place).collect())
        })
        .collect()
}

fn figures(scenario: &Scenario, best: &BestSet) -> SetFigures {
    let options = || best.options.iter().map(|place| &scenario.options[*place]);
    SetFigures {
        options: options().map(|one| OptionName { name: one.name.clone() }).collect(),
        cost: options().map(|one| one.cost).sum(),
        tried: best.tried,
        replications: best.replications,
        interruption_probability: best.interruption_probability,
        higher_by: best.higher_by,
        verdict: best.verdict.into(),
    }
}

impl SetFigures {
    fn is_better(&self) -> bool {
        self.verdict == Against::LowerChance
    }

    /// "A and B (2,100): short in 3 fires of 100".
    fn words(&self) -> Sentence {
        let names = list(self.options.iter().map(|one| say![name(&one.name)]));
        let cost = self.cost.map(|cost| say![" (", Piece::Number(cost, 0), ")"]);
        let chances = Chances::of(self.interruption_probability, self.replications);
        say![names, cost, ": short in ", Piece::Fires(chances)]
    }
}

impl TogetherFigures {
    /// The best pair, where it surely helps, and more than the best option alone.
    ///
    /// - Given: the best option alone, if any helps.
    pub fn pair_words(&self, alone: Option<&OptionFigures>) -> Option<Sentence> {
        /// Fewer fires than these are no more help. Judgement.
        const NOTHING: f64 = 0.005;
        let pair = self.best_pair.as_ref()?;
        let enough = alone.map_or(1.0, |alone| alone.interruption_probability - NOTHING);
        Some(if let Some(alone) = alone.filter(|_| pair.interruption_probability > enough) {
            say!["no pair of options does better than this one by itself: ", name(&alone.name), "."]
        } else if pair.is_better() {
            say!["of two together the best are ", pair.words(), "."]
        } else {
            say!["no two together surely help."]
        })
    }

    /// The best set for the sum.
    pub fn budget_words(&self) -> Option<Sentence> {
        let spend = Piece::Number(self.budget?, 0);
        Some(match &self.best_within_budget {
            Some(set) if set.is_better() => {
                say!["for ", spend, " the best is ", set.words(), "."]
            }
            Some(_) => say!["nothing that can be had for ", spend, " surely helps."],
            None => say!["nothing with a known cost can be had for ", spend, "."],
        })
    }
}
