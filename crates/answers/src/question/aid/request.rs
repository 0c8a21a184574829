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
    MOST_SETS, RequestAnswer, RequestQuestion, held_with_any_one_lost, smallest_request_of_calls,
};
use shuttle_report::stepped_up::{begin_lower, step_up_soonest};
use shuttle_report::variation::with_tankers;
use shuttle_sim::{FlowStep, Plan};

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::question::hold::HeldFigures;
use crate::shared::asked::FlowFigures;
use crate::shared::bottleneck::bottleneck;
use crate::shared::doubt::DoubtFigures;
use crate::shared::holding::{USUAL_FIRES, most_held, step_gpm};
use crate::shared::luck::SharedLuck;

pub use figures::{PumpFigures, RequestFigures, UnitFigures};
pub use losses::LossFigures;
pub use told::{flow_argument, flows};

/// What the smallest hand line gives, gpm. Common practice: a 1-1/2 or 1-3/4 in line flows 95 gpm or more.
const ONE_LINE_GPM: f64 = 95.0;

/// Flows tried for one that stands any one loss, each this part of the one before.
const TRIES: usize = 3;
const LESS: f64 = 0.9;
/// Parts tried of what can be held, from nine tenths down: half of it is another fire.
const PARTS: usize = 4;

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
    let everyone = &scenario.aid.everyone;
    let (found, mut figures) = whom_to_ask(scenario, everyone, budget, asked, control);
    if !figures.meets_target && figures.perhaps.is_none() && !found.ended_early {
        let held = most_held(scenario, asked.target, budget, control);
        let lower = begin_lower(
            everyone,
            1.0 - asked.target,
            step_gpm(scenario.units),
            (budget.replications.min(USUAL_FIRES), budget.same_luck()),
            control,
        );
        // What is wanted in the end is sooner done without at the beginning, as long as one line is left of it.
        let wanted = &everyone.facts().incident.attack_flow;
        let most = wanted.iter().map(|step| step.flow).fold(0.0, f64::max);
        let can_be_had = match lower.filter(|gpm| *gpm >= ONE_LINE_GPM) {
            Some(gpm) => Some(figures::begun_lower(wanted, gpm)),
            None => {
                let later = stepped_up(scenario, &held, most, budget, asked, control);
                figures::instead(&held, everyone.facts().first_water_mean(), most, later)
            }
        };
        figures.most_held = Some(held);
        figures.bottleneck = bottleneck(everyone);
        if let Some(steps) = can_be_had {
            let (steps, instead) = ask_for_less(scenario, steps, budget, asked, control);
            (figures.ask_instead, figures.request_instead) = (Some(steps), instead.map(Box::new));
        }
        if let Some(steps) = figures.ask_instead.as_ref().filter(|_| lacks_spare(&figures)) {
            figures.any_one_lost_flow = any_one_lost(scenario, steps, budget, asked, control);
        }
    }
    let basis = Basis {
        replications: found.replications,
        seed: budget.seed,
        ended_early: found.ended_early,
    };
    let told = told::told(scenario, &figures, asked, &basis);
    let title = told::of_whom(scenario, &figures, &basis).unwrap_or_else(|| told.verdict.clone());
    Answer {
        question: "request",
        title: scenario.plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        pictures: pictures::pictures(figures.told_of(), &basis, &title),
        told,
        basis,
        figures,
    }
}

/// What is found with everyone who could come, and its figures.
fn whom_to_ask(
    scenario: &Scenario,
    everyone: &Plan,
    budget: Budget,
    asked: Asked,
    control: &Control,
) -> (RequestAnswer, RequestFigures) {
    let aid = &scenario.aid;
    let candidates = aid.candidates();
    let question = question(scenario, budget, asked);
    let found =
        smallest_request_of_calls(everyone, &aid.calls(), &aid.departments(), question, control);
    let own = everyone.facts().tankers.len() - candidates.len();
    let in_doubt = in_doubt(everyone, &candidates, &found, budget, control);
    let called = |name: &str| (aid.department_of(name), aid.alarm_of(name));
    let of_all = (own, candidates.len());
    let (pumps, luck) = (PumpFigures::of(everyone), SharedLuck::of(everyone));
    let figures = RequestFigures::new(&found, of_all, pumps, called, in_doubt, luck);
    (found, figures)
}

fn question(scenario: &Scenario, budget: Budget, asked: Asked) -> RequestQuestion {
    RequestQuestion {
        target: asked.target,
        most_runs: budget.replications,
        luck: budget.same_luck(),
        most_sets: MOST_SETS,
        spare: asked.spare,
        units: scenario.units,
    }
}

/// From which minute after the alarm how much more can be had after the first flow that holds.
fn stepped_up(
    scenario: &Scenario,
    held: &HeldFigures,
    most_gpm: f64,
    budget: Budget,
    asked: Asked,
    control: &Control,
) -> Option<(f64, f64)> {
    let first = held.steps.first()?;
    if !first.at_first_water {
        // Then no water is used before the first minute, and what `hold` found of the last one is all there is.
        let gpm = held.stepped_up.as_ref().and_then(|together| together.after_the_first_gpm)?;
        return held.steps.last().map(|step| (step.from_min, gpm));
    }
    let minutes: Vec<f64> = held
        .rows
        .iter()
        .map(|row| row.from_min)
        .filter(|minute| *minute > first.from_min)
        .collect();
    step_up_soonest(
        &scenario.aid.everyone,
        first.flow_gpm,
        (&minutes, most_gpm),
        (1.0 - asked.target, step_gpm(scenario.units)),
        (budget.replications.min(USUAL_FIRES), budget.same_luck()),
        control,
    )
}

/// The request for what can be held; where that leaves nothing to spare, for the greatest part of it that does.
///
/// - Returns: the flow, and whom to ask for; nobody where that is not shown to hold either.
fn ask_for_less(
    scenario: &Scenario,
    most: Vec<FlowFigures>,
    budget: Budget,
    asked: Asked,
    control: &Control,
) -> (Vec<FlowFigures>, Option<RequestFigures>) {
    let request = |steps: &[FlowFigures]| {
        let plan = with_flow(&scenario.aid.everyone, steps)?;
        let found = whom_to_ask(scenario, &plan, budget, asked, control).1;
        (found.meets_target && !control.is_stopped()).then_some(found)
    };
    let stands = |found: &RequestFigures| found.spare.as_ref().is_none_or(|spare| spare.stands);
    let of_most = request(&most);
    if of_most.as_ref().is_none_or(stands) {
        return (most, of_most);
    }
    let step = step_gpm(scenario.units);
    let part = |share: f64| -> Vec<FlowFigures> {
        let less = |one: &FlowFigures| FlowFigures {
            flow_gpm: (share * one.flow_gpm / step).floor() * step,
            ..*one
        };
        most.iter().map(less).collect()
    };
    let parts = std::iter::successors(Some(LESS), |share| Some(share - (1.0 - LESS)))
        .take(PARTS)
        .map(part)
        .take_while(|steps| steps.iter().all(|one| one.flow_gpm >= ONE_LINE_GPM));
    for steps in parts {
        if let Some(found) = request(&steps).filter(stands) {
            return (steps, Some(found));
        }
    }
    (most, of_most)
}

/// Whether the request for what can be held does not stand some loss.
fn lacks_spare(figures: &RequestFigures) -> bool {
    let spare = figures.request_instead.as_ref().and_then(|instead| instead.spare.as_ref());
    spare.is_some_and(|spare| !spare.stands_all())
}

/// A flow of a hand line or more for which a request stands the loss of any one unit or source, as that request was found to:
/// what can be held begun with less, else one flow throughout.
fn any_one_lost(
    scenario: &Scenario,
    can_be_held: &[FlowFigures],
    budget: Budget,
    asked: Asked,
    control: &Control,
) -> Option<Vec<FlowFigures>> {
    let everyone = &scenario.aid.everyone;
    let (departments, of) = (scenario.aid.departments(), question(scenario, budget, asked));
    let most = held_with_any_one_lost(everyone, &departments, &of, control)?;
    let step = step_gpm(scenario.units);
    // That was by shares observed; a request is told by what is sure, for all losses at once.
    let flows = std::iter::successors(Some(most), |gpm| Some(LESS * gpm)).take(TRIES);
    let flows = flows.map(|gpm| (gpm / step).floor() * step).take_while(|gpm| *gpm >= ONE_LINE_GPM);
    let throughout = |flow_gpm: f64| vec![FlowFigures { from_first_water_min: 0.0, flow_gpm }];
    let begun = |flow_gpm: f64| match can_be_held {
        [first, later @ ..] if !later.is_empty() && first.flow_gpm > flow_gpm => {
            Some([&[FlowFigures { flow_gpm, ..*first }], later].concat())
        }
        _ => None,
    };
    let mut tried = flows.flat_map(|gpm| begun(gpm).into_iter().chain([throughout(gpm)]));
    tried.find(|steps| {
        let found = with_flow(everyone, steps)
            .map(|plan| whom_to_ask(scenario, &plan, budget, asked, control).1);
        found.is_some_and(|found| {
            found.meets_target && found.spare.is_none_or(|spare| spare.stands_all())
        })
    })
}

/// The plan with another flow wanted; `None` where nothing else of it allows that.
fn with_flow(plan: &Plan, steps: &[FlowFigures]) -> Option<Plan> {
    let mut facts = plan.facts().clone();
    let step = |one: &FlowFigures| FlowStep { from: one.from_first_water_min, flow: one.flow_gpm };
    facts.incident.attack_flow = steps.iter().map(step).collect();
    Plan::check(facts).ok()
}

/// How far the chance with the request can be trusted.
fn in_doubt(
    everyone: &Plan,
    candidates: &[usize],
    found: &RequestAnswer,
    budget: Budget,
    control: &Control,
) -> Option<DoubtFigures> {
    let comes: Vec<bool> = (everyone.facts().tankers.iter().enumerate())
        .map(|(place, tanker)| {
            !candidates.contains(&place)
                || found.request.iter().any(|unit| unit.name == tanker.name)
        })
        .collect();
    let plan = with_tankers(everyone, &comes).ok()?;
    let doubt = doubt(&plan, &[], budget.replications, budget.same_luck(), control)?;
    Some(DoubtFigures::new(&doubt, Some(found.target)))
}
