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
use shuttle_report::losses::{LossRow, Lost, what_a_loss_does};
use shuttle_report::side_by_side::SameLuck;

use super::Budget;
use crate::answer::{Answer, Basis};
use crate::say;
use crate::say::{Chances, Piece, Sentence, list, name};
use crate::shared::luck::SharedLuck;

pub use figures::{Fails, LossFigures, LossRowFigures, Stands};

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
    let mut found = what_a_loss_does(&scenario.plan, target, budget.replications, luck, control);
    // Ended before its first fire, a loss has nothing to say.
    found.losses.retain(|row| row.replications > 0 || row.verdict == Verdict::CannotWork);
    let basis = Basis {
        replications: found.whole.replications,
        seed: found.seed,
        ended_early: found.ended_early,
    };
    Answer {
        question: "lose",
        title: found.title.clone(),
        told: told::told(scenario, &found),
        basis,
        figures: LossFigures::new(&found, SharedLuck::of(&scenario.plan)),
        pictures: pictures::pictures(found),
    }
}

/// What is lost, in words.
fn words_of_loss(row: &LossRow) -> Sentence {
    row.lost.as_ref().map_or_else(Sentence::default, words_of)
}

fn words_of(lost: &Lost) -> Sentence {
    match lost {
        Lost::OneTankerOf { names, drop_tanks } => match names.as_slice() {
            [only] if only.len() == 1 => say![name(&only[0]), its_tanks(*drop_tanks)],
            several => say!["one of ", named_together(several), its_tanks(*drop_tanks)],
        },
        Lost::FillSite { name: site } => say![name(site)],
        Lost::HalfTheFlow { site } => say!["half the flow at ", name(site)],
        Lost::DropTank { of: 1, .. } => say!["the drop tank"],
        Lost::DropTank { place, .. } => {
            say!["drop tank ", Piece::Number((place + 1) as f64, 0)]
        }
        Lost::SupplyEngine { name: engine, drop_tanks } => {
            say![name(engine), its_tanks(*drop_tanks)]
        }
    }
}

/// "Tanker 1 to Tanker 3 and Tanker 5": those listed one behind the other by the first and last of them.
fn named_together(names: &[Vec<String>]) -> Sentence {
    list(names.iter().map(|run| match run.as_slice() {
        [first, .., last] => say![name(first), " to ", name(last)],
        one => list(one.iter().map(|one| say![name(one)])),
    }))
}

fn its_tanks(drop_tanks: usize) -> &'static str {
    match drop_tanks {
        0 => "",
        1 => ", with the drop tank it brings",
        _ => ", with the drop tanks it brings",
    }
}

/// How often the lines run short without it.
fn chances(row: &LossRow) -> Chances {
    Chances::of(row.interruption_probability, row.replications)
}
