//! The run card: whom to ask and when, where the water comes from, the clock, and the trip wires.

mod calls;
mod figures;
mod lost;
mod sources;
mod tables;
mod told;
mod turns;
mod wires;

#[cfg(test)]
mod tests;

use scenario_file::Scenario;
use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_report::summary::Summary;
use shuttle_report::trip_wires::trip_wires;
use shuttle_report::turnarounds::turnarounds;

use crate::answer::{Answer, Basis};
use crate::question::Budget;

pub use crate::shared::asked::FlowFigures;
pub use crate::shared::brings::BringsFigures;
pub(crate) use calls::MOST_FIRES_OF_HOLD;
pub use calls::{
    CalledLaterFigures, DeadlineFigures, InsteadFigures, deadline_words, held_words, instead_words,
    people_short_words,
};
pub use figures::{CardFigures, ClockFigures, DropTankFigures, Role, UnitFigures};
pub use lost::{
    GoneFigures, NextFigures, ShortFigures, TankerLostFigures, call_next_words, if_lost_words,
    lost_from_words, lost_tanker_words, refuses_words,
};
pub use sources::{Loading, SourceFigures, where_words};
pub use told::{brief_clock_words, clock_words, load_words, no_wire, watch_words};
pub use turns::{DryFigures, TurnAtSiteFigures, TurnFigures};
pub(crate) use turns::{MOST_FIRES as MOST_FIRES_READ, dry};
pub use wires::{CellFigures, Water, WireFigures, WiresFigures};

/// The plan as a card.
pub fn card(scenario: &Scenario, budget: Budget, control: &Control) -> Answer<CardFigures> {
    let plan = &scenario.plan;
    let runs =
        Runs { first: 0, count: budget.replications, seed: budget.seed, threads: budget.threads };
    let summary = Summary::new(plan, &run_batch(plan, runs, Keep::Sums, control), budget.seed);
    let wires = trip_wires(plan, &wires::question(plan, scenario.units), runs, control);
    let short = summary.interruption_probability;
    let read = Runs { count: runs.count.min(turns::MOST_FIRES), ..runs };
    let found = figures::Found {
        tanker_lost: lost::of_plan(scenario, summary.established_min_mean, budget, control),
        turnarounds: turnarounds(plan, read, control),
        deadline: calls::deadline(scenario, short, budget, control),
        instead: calls::instead(scenario, short, budget, control),
        can_be_held: calls::can_be_held(scenario, short, budget, control),
    };
    let basis = Basis {
        replications: summary.replications,
        seed: budget.seed,
        ended_early: wires.fires < budget.replications || control.is_stopped(),
    };
    let figures = CardFigures::new(scenario, &summary, &wires, found);
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
