//! What flow can be held, and from which minute after the alarm.

mod figures;
mod pictures;
mod tables;
mod told;

#[cfg(test)]
mod tests;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::by_minute::USUAL_MINUTES;

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::shared::holding::held;

pub use crate::shared::holding::stepped_up_words;
pub use figures::{HeldFigures, HoldFigures, StepFigures};

/// Simulated fires that one search usually takes.
const USUAL_REPLICATIONS: u64 = 2_000;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// Minutes after the alarm from which the flow is asked for, in rising order; empty: the usual ones.
    pub minutes: Vec<f64>,
    /// Share of fires in which it must hold.
    pub share: f64,
}

/// The greatest flow that holds to the end of the watch, by the minute it is asked for from: as the plan stands,
/// and with all aid that the file lists.
pub fn hold(
    scenario: &Scenario,
    asked: &Asked,
    budget: Budget,
    control: &Control,
) -> Answer<HoldFigures> {
    let minutes = Some(asked.minutes.clone()).filter(|minutes| !minutes.is_empty());
    let found = held(scenario, minutes, asked.share, budget, control);
    let figures = HoldFigures::new(&found);
    let told = told::told(scenario, &found, &figures);
    Answer {
        question: "hold",
        title: found.title.clone(),
        asked: scenario.asked.clone(),
        basis: Basis {
            replications: found.replications,
            seed: found.seed,
            ended_early: found.ended_early,
        },
        figures,
        pictures: pictures::pictures(found, &told.verdict),
        told,
    }
}

/// About how many fires that simulates: for a progress bar.
pub fn expected_replications(scenario: &Scenario, asked: &Asked) -> u64 {
    let minutes = if asked.minutes.is_empty() { USUAL_MINUTES.len() } else { asked.minutes.len() };
    USUAL_REPLICATIONS * minutes as u64 * if scenario.aid.is_listed() { 2 } else { 1 }
}
