//! How many tankers to ask for.

mod figures;
mod pictures;
mod tables;
mod told;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::doubt::asked::doubt;
use shuttle_report::fleet_size::{SizeQuestion, fewest_with_aid};
use shuttle_report::variation::{in_order_of_arrival, with_fleet_of};

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::shared::doubt::{DoubtFigures, MAY_OVERTURN};
use crate::shared::holding::most_held;

pub use figures::SizeFigures;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Asked {
    /// Chance that the lines run short to stay below.
    pub target: f64,
    /// How many tankers beyond the listed to try, like the last one.
    pub beyond_listed: usize,
}

/// How many tankers to ask for.
///
/// - Given: a budget for each number of tankers.
pub fn size(
    scenario: &Scenario,
    budget: Budget,
    asked: Asked,
    control: &Control,
) -> Answer<SizeFigures> {
    let plan = &scenario.plan;
    let question = SizeQuestion {
        target: asked.target,
        most_runs: budget.replications,
        seed: budget.seed,
        threads: budget.threads,
        beyond_listed: asked.beyond_listed,
    };
    let own = plan.facts().tankers.len();
    // Real aid comes before tankers that nobody has.
    let everyone =
        in_order_of_arrival(&scenario.aid.everyone, own).unwrap_or_else(|_| plan.clone());
    let found = fewest_with_aid(&everyone, own, question, control);
    let in_doubt = |tankers: usize| {
        let plan = with_fleet_of(&everyone, tankers).ok()?;
        let found = doubt(&plan, &[], budget.replications, budget.same_luck(), control)?;
        Some(DoubtFigures::new(&found, Some(asked.target)))
    };
    let of_answer = found.tankers.and_then(in_doubt);
    let misses = |doubt: &DoubtFigures| doubt.misses_target.unwrap_or(0.0);
    let of_one_more = (of_answer.as_ref().zip(found.tankers))
        .filter(|(doubt, _)| misses(doubt) >= MAY_OVERTURN)
        .and_then(|(_, tankers)| in_doubt(tankers + 1));
    let mut figures = SizeFigures::new(&found, &everyone, own);
    figures.one_more_misses_target = of_one_more.as_ref().map(misses);
    figures.doubt = of_answer;
    if figures.tankers.is_none() && figures.perhaps.is_none() && !found.ended_early {
        figures.most_held = Some(most_held(scenario, asked.target, budget, control));
    }
    let basis = Basis {
        replications: figures.row(figures.listed).map_or(0, |row| row.replications),
        seed: budget.seed,
        ended_early: found.ended_early,
    };
    let told = told::told(scenario, &figures, &basis);
    Answer {
        question: "size",
        title: plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        pictures: pictures::pictures(&figures, &told.verdict, budget.seed),
        told,
        basis,
        figures,
    }
}
