//! The run card: whom to ask and when, where the water comes from, the clock, and the trip wires.

mod figures;
mod lost;
mod tables;
mod told;
mod wires;

#[cfg(test)]
mod tests;

use scenario_file::Scenario;
use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_report::summary::Summary;
use shuttle_report::trip_wires::trip_wires;

use crate::answer::{Answer, Basis};
use crate::question::Budget;

pub use figures::{
    BringsFigures, CardFigures, ClockFigures, DropTankFigures, FlowFigures, Loading, Role,
    SourceFigures, UnitFigures,
};
pub use lost::{NextFigures, ShortFigures, TankerLostFigures, call_next_words, lost_tanker_words};
pub use told::{clock_words, load_words, no_wire, watch_words};
pub use wires::{CellFigures, Water, WireFigures, WiresFigures};

/// The plan as a card.
pub fn card(scenario: &Scenario, budget: Budget, control: &Control) -> Answer<CardFigures> {
    let plan = &scenario.plan;
    let runs =
        Runs { first: 0, count: budget.replications, seed: budget.seed, threads: budget.threads };
    let summary = Summary::new(plan, &run_batch(plan, runs, Keep::Sums, control), budget.seed);
    let wires = trip_wires(plan, &wires::question(plan, scenario.units), runs, control);
    let lost = lost::of_plan(scenario, summary.established_min_mean, budget, control);
    let basis = Basis {
        replications: summary.replications,
        seed: budget.seed,
        ended_early: wires.fires < budget.replications || control.is_stopped(),
    };
    let figures = CardFigures::new(scenario, &summary, &wires, lost);
    Answer {
        question: "card",
        title: plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        told: told::told(scenario, &figures, &basis),
        basis,
        figures,
        pictures: Vec::new(),
    }
}
