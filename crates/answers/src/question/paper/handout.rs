//! A sheet for a drill night: the cycle to time, three findings, four questions with their answers.

mod answers;
mod figures;
mod questions;
mod told;
mod words;

use scenario_file::Scenario;
use shuttle_report::batch::Control;

use crate::answer::Answer;
use crate::question::card::card;
use crate::question::check::check;
use crate::question::risk::risk;
use crate::question::{Budget, card::CardFigures, check::CheckFigures, risk::RiskFigures};

pub use answers::answer_words;
pub use figures::{Finding, HandoutFigures};
pub use questions::{DrillQuestion, MOST_CYCLES};
pub use words::{finding_words, place_words, question_words};

/// What a crew can learn from the plan, and check with a watch.
pub fn handout(scenario: &Scenario, budget: Budget, control: &Control) -> Answer<HandoutFigures> {
    let risk: Answer<RiskFigures> = risk(scenario, budget, true, control);
    let by_hand: Answer<CheckFigures> = check(scenario);
    let card: Answer<CardFigures> = card(scenario, budget, control);
    let mut basis = risk.basis.clone();
    basis.ended_early |= card.basis.ended_early;
    let figures = HandoutFigures::new(&risk, &by_hand.figures, &card.figures, scenario.units);
    Answer {
        question: "handout",
        title: risk.title,
        asked: scenario.asked.clone(),
        told: told::told(scenario, &figures, &basis),
        basis,
        figures,
        pictures: risk.pictures.into_iter().filter(|picture| picture.name == "cycle").collect(),
    }
}

/// About how many fires that simulates: for a progress bar.
pub fn expected_replications(budget: Budget) -> u64 {
    3 * budget.replications
}
