//! What the plan cannot do without.

mod figures;
mod pictures;
mod tables;
mod told;

#[cfg(test)]
mod tests;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::{LossRow, what_a_loss_does};
use shuttle_report::side_by_side::SameLuck;

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::say::{Chances, Sentence};
pub use crate::shared::lost::lost_words;
use crate::shared::luck::SharedLuck;

pub use crate::shared::target::Side;
pub use figures::{LossFigures, LossRowFigures, Stands};

/// Takes away one thing at a time and says which losses the plan does not stand.
///
/// - Given: `target`, the share of fires in which the lines may run short.
pub fn lose(
    scenario: &Scenario,
    target: f64,
    budget: Budget,
    control: &Control,
) -> Answer<LossFigures> {
    let luck = SameLuck { seed: budget.seed, threads: budget.threads };
    let departments = scenario.aid.departments();
    let (plan, runs) = (&scenario.plan, budget.replications);
    let mut found = what_a_loss_does(plan, &departments, target, runs, luck, control);
    // Ended before its first fire, a loss has nothing to say.
    found.losses.retain(|row| row.replications > 0 || row.verdict == Verdict::CannotWork);
    let basis = Basis {
        replications: found.whole.replications,
        seed: found.seed,
        ended_early: found.ended_early,
    };
    let told = told::told(scenario, &found);
    Answer {
        question: "lose",
        title: found.title.clone(),
        asked: scenario.asked.clone(),
        basis,
        figures: LossFigures::new(&found, SharedLuck::of(&scenario.plan)),
        pictures: pictures::pictures(found, &told.verdict),
        told,
    }
}

/// What is lost, in words.
fn words_of_loss(row: &LossRow) -> Sentence {
    row.lost.as_ref().map_or_else(Sentence::default, lost_words)
}

/// How often the lines run short without it.
fn chances(row: &LossRow) -> Chances {
    Chances::of(row.interruption_probability, row.replications)
}
