//! Options side by side with the plan as it stands.

mod figures;
mod pictures;
mod tables;
mod together;
mod told;
mod unlike;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::options_compared::{self, Choice};
use shuttle_sim::Plan;

use crate::answer::{Answer, Basis};
use crate::question::Budget;

pub use figures::CompareFigures;
pub use together::{SetFigures, TogetherFigures};

/// What the plan without options is called in results.
const AS_IT_STANDS: &str = "as it stands";

/// How many plans these scenarios give to compare: of one, itself and its options; of several, each as it
/// stands. With fewer than two there is nothing to compare.
pub fn plans_to_compare(scenarios: &[Scenario]) -> usize {
    match scenarios {
        [only] => 1 + only.options.len(),
        several => several.len(),
    }
}

/// Options side by side.
///
/// - Given: scenarios with at least two [`plans_to_compare`], the first of which is the one the others are
///   held against; `spend`, a sum of money for the best set of options, in the scenario's own currency; a budget
///   for each plan.
/// - Panics: without a scenario.
pub fn compare(
    scenarios: &[Scenario],
    spend: Option<f64>,
    budget: Budget,
    control: &Control,
) -> Answer<CompareFigures> {
    let base = &scenarios[0];
    let choices = choices(scenarios);
    let found =
        options_compared::compare(&choices, budget.replications, budget.same_luck(), control);
    let plans: Vec<&Plan> = scenarios.iter().map(|scenario| &scenario.plan).collect();
    let unlike = unlike::unlike_fires(&plans, base.units);
    let together = match scenarios {
        [only] if only.options.len() > 1 && !found.ended_early => {
            together::together(only, &found, spend, budget, control)
        }
        _ => TogetherFigures::default(),
    };
    let basis = Basis {
        replications: found.replications,
        seed: budget.seed,
        ended_early: control.is_stopped(),
    };
    let figures = CompareFigures::new(&found, unlike, together);
    let told = told::told(scenarios, &figures, &basis);
    Answer {
        question: "compare",
        title: base.plan.facts().title.clone(),
        asked: base.asked.clone(),
        pictures: pictures::pictures(&figures, &basis, &told.verdict),
        told,
        basis,
        figures,
    }
}

/// One file: itself and its options. Several: each as it stands.
fn choices(scenarios: &[Scenario]) -> Vec<Choice<'_>> {
    match scenarios {
        [only] => {
            let base = Choice { name: AS_IT_STANDS.to_owned(), cost: None, plan: &only.plan };
            let options = only.options.iter().map(|option| Choice {
                name: option.name.clone(),
                cost: option.cost,
                plan: &option.plan,
            });
            [base].into_iter().chain(options).collect()
        }
        several => (several.iter())
            .map(|scenario| Choice {
                name: scenario.plan.facts().title.clone(),
                cost: None,
                plan: &scenario.plan,
            })
            .collect(),
    }
}
