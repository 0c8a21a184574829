//! Whom to ask for: the smallest set of the aid there is that does.

mod figures;
mod pictures;
mod tables;
mod told;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::request::{MOST_SETS, RequestQuestion, smallest_request};

use super::Budget;
use super::hold::HeldFigures;
use crate::answer::{Answer, Basis};
use crate::shared::holding::most_held;

pub use figures::{RequestFigures, UnitFigures};

/// Whether the scenario has anyone who could be asked for.
pub fn has_aid(scenario: &Scenario) -> bool {
    !scenario.aid.candidates().is_empty()
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// Chance that the lines run short to stay below.
    pub target: f64,
    /// Whether the request is to stand the loss of any one unit or source as well.
    pub spare: bool,
}

/// Whom to ask for.
///
/// - Given: a scenario that [`has_aid`]; a budget for each set that is tried.
pub fn request(
    scenario: &Scenario,
    budget: Budget,
    asked: Asked,
    control: &Control,
) -> Answer<RequestFigures> {
    let aid = &scenario.aid;
    let candidates = aid.candidates();
    let question = RequestQuestion {
        target: asked.target,
        most_runs: budget.replications,
        luck: budget.same_luck(),
        most_sets: MOST_SETS,
        spare: asked.spare,
    };
    let found = smallest_request(&aid.everyone, &candidates, question, control);
    let own = aid.everyone.facts().tankers.len() - candidates.len();
    let mut figures =
        RequestFigures::new(&found, own, candidates.len(), |name| aid.department_of(name));
    if !figures.meets_target && figures.perhaps.is_none() && !found.ended_early {
        let held = most_held(&aid.everyone, scenario.units, asked.target, budget, control);
        figures.most_held = Some(HeldFigures::of(&held));
    }
    let basis = Basis {
        replications: found.replications,
        seed: budget.seed,
        ended_early: found.ended_early,
    };
    Answer {
        question: "request",
        title: scenario.plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        told: told::told(scenario, &figures, &basis),
        pictures: pictures::pictures(&figures, &basis, &scenario.plan.facts().title),
        basis,
        figures,
    }
}
