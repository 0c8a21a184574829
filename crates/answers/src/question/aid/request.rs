//! Whom to ask for: the smallest set of the aid there is that does.

mod figures;
mod losses;
mod pictures;
mod sets;
mod tables;
mod told;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::doubt::asked::doubt;
use shuttle_report::request::{
    MOST_SETS, RequestAnswer, RequestQuestion, smallest_request_of_calls,
};
use shuttle_report::stepped_up::begin_lower;
use shuttle_report::variation::with_tankers;

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::shared::doubt::DoubtFigures;
use crate::shared::holding::{USUAL_FIRES, most_held, step_gpm};
use crate::shared::luck::SharedLuck;

pub use figures::{PumpFigures, RequestFigures, UnitFigures};
pub use losses::LossFigures;

/// What the smallest hand line gives, gpm. Common practice: a 1-1/2 or 1-3/4 in line flows 95 gpm or more.
const ONE_LINE_GPM: f64 = 95.0;

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
        units: scenario.units,
    };
    let (calls, departments) = (aid.calls(), aid.departments());
    let found = smallest_request_of_calls(&aid.everyone, &calls, &departments, question, control);
    let own = aid.everyone.facts().tankers.len() - candidates.len();
    let luck = SharedLuck::of(&aid.everyone);
    let in_doubt = in_doubt(scenario, &found, budget, control);
    let called = |name: &str| (aid.department_of(name), aid.alarm_of(name));
    let pumps = PumpFigures::of(&aid.everyone);
    let of_all = (own, candidates.len());
    let mut figures = RequestFigures::new(&found, of_all, pumps, called, in_doubt, luck);
    if !figures.meets_target && figures.perhaps.is_none() && !found.ended_early {
        let held = most_held(scenario, asked.target, budget, control);
        let facts = aid.everyone.facts();
        let lower = begin_lower(
            &aid.everyone,
            1.0 - asked.target,
            step_gpm(scenario.units),
            (budget.replications.min(USUAL_FIRES), budget.same_luck()),
            control,
        );
        // What is wanted in the end is sooner done without at the beginning, as long as one line is left of it.
        figures.ask_instead = match lower.filter(|gpm| *gpm >= ONE_LINE_GPM) {
            Some(gpm) => Some(figures::begun_lower(&facts.incident.attack_flow, gpm)),
            None => figures::instead(&held, facts.first_water_mean()),
        };
        figures.most_held = Some(held);
    }
    let basis = Basis {
        replications: found.replications,
        seed: budget.seed,
        ended_early: found.ended_early,
    };
    let told = told::told(scenario, &figures, asked, &basis);
    Answer {
        question: "request",
        title: scenario.plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        pictures: pictures::pictures(&figures, &basis, &told.verdict),
        told,
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
