//! Whom to ask for: the smallest set of the aid there is that does.

mod figures;
mod pictures;
mod tables;
mod told;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::request::{MOST_SETS, RequestQuestion, smallest_request};

use super::Budget;
use crate::answer::{Answer, Basis};

pub use figures::RequestFigures;

/// Whether the scenario has anyone who could be asked for.
pub fn has_aid(scenario: &Scenario) -> bool {
    !scenario.aid.candidates().is_empty()
}

/// Whom to ask for.
///
/// - Given: a scenario that [`has_aid`]; a budget for each set that is tried; `target`, the chance that the
///   lines run short to stay below.
pub fn request(
    scenario: &Scenario,
    budget: Budget,
    target: f64,
    control: &Control,
) -> Answer<RequestFigures> {
    let aid = &scenario.aid;
    let candidates = aid.candidates();
    let question = RequestQuestion {
        target,
        most_runs: budget.replications,
        luck: budget.same_luck(),
        most_sets: MOST_SETS,
    };
    let found = smallest_request(&aid.everyone, &candidates, question, control);
    let own = aid.everyone.facts().tankers.len() - candidates.len();
    let figures = RequestFigures::new(&found, own, candidates.len());
    let basis = Basis {
        replications: found.replications,
        seed: budget.seed,
        ended_early: found.ended_early,
    };
    Answer {
        question: "request",
        title: scenario.plan.facts().title.clone(),
        told: told::told(scenario, &figures, &basis),
        pictures: pictures::pictures(&figures, &basis, &scenario.plan.facts().title),
        basis,
        figures,
    }
}
