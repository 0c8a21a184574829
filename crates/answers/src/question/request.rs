//! Whom to ask for: the smallest set of the aid there is that does.

mod figures;
mod pictures;
mod tables;
mod told;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::doubt::asked::doubt;
use shuttle_report::request::{MOST_SETS, RequestAnswer, RequestQuestion, smallest_request};
use shuttle_report::variation::with_tankers;

use super::Budget;
use crate::answer::{Answer, Basis};
use crate::shared::doubt::DoubtFigures;
use crate::shared::luck::SharedLuck;

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
    let luck = SharedLuck::of(&aid.everyone);
    let in_doubt = in_doubt(scenario, &found, budget, control);
    let figures = RequestFigures::new(&found, (own, candidates.len()), in_doubt, luck);
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

/// How far the chance with the request can be trusted.
fn in_doubt(
    scenario: &Scenario,
    found: &RequestAnswer,
    budget: Budget,
    control: &Control,
) -> Option<DoubtFigures> {
    let aid = &scenario.aid;
    let candidates = aid.candidates();
    let comes: Vec<bool> = (aid.everyone.facts().tankers.iter().enumerate())
        .map(|(place, tanker)| {
            !candidates.contains(&place)
                || found.request.iter().any(|unit| unit.name == tanker.name)
        })
        .collect();
    let plan = with_tankers(&aid.everyone, &comes).ok()?;
    let doubt = doubt(&plan, &[], budget.replications, budget.same_luck(), control)?;
    Some(DoubtFigures::new(&doubt, Some(found.target)))
}
