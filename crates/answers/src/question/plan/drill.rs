//! What a drill measured, whether the plan holds with these times, how the day compares, and what to train.

mod course;
mod day;
mod figures;
mod pictures;
mod played;
mod tables;
mod timed;
mod told;
mod train;

#[cfg(test)]
mod tests;

use std::path::PathBuf;

use scenario_file::{Scenario, WithValues};
use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_report::doubt::asked::doubt;
use shuttle_report::side_by_side::SameLuck;
use shuttle_report::tally::Tally;

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::shared::doubt::DoubtFigures;

pub use course::course;
pub use day::from_alarm_to_log;
pub use figures::DrillFigures;
pub use timed::{ENOUGH, Timed, Value, timed};

use played::{Lost, Played};
use train::Training;

/// What else is asked of a drill.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asked {
    /// The alarm as a time of the day, seconds; `None`: worked out from who came first.
    pub alarm: Option<f64>,
    /// A tanker of the plan, by its place among everyone, and the minute after the alarm from which it is lost.
    pub lost: Option<(usize, f64)>,
    /// The file that the measured times were written into.
    pub written: Option<PathBuf>,
}

/// All that was found.
struct Found<'a> {
    /// The scenario as it was.
    scenario: &'a Scenario,
    timed: &'a Timed,
    /// The scenario with the measured times.
    with: &'a WithValues,
    /// The same with what was asked for beside the file.
    planned: &'a Scenario,
    asked: &'a Asked,
    /// Runs with the measured times.
    tally: Tally,
    in_doubt: Option<DoubtFigures>,
    played: Option<Played>,
    training: Training,
}

/// Answers what a drill tells.
///
/// - Given: what was timed; the scenario with the values of it put in, and the same with what was asked for beside
///   the file: the day is played back as the file has it.
pub fn drill(
    scenario: &Scenario,
    timed: &Timed,
    (with, planned): (&WithValues, &Scenario),
    asked: &Asked,
    budget: Budget,
    control: &Control,
) -> Answer<DrillFigures> {
    let luck = SameLuck { seed: budget.seed, threads: budget.threads };
    let day = day::day(&with.scenario, timed, asked.alarm);
    let lost = asked.lost.map(|(tanker, minute)| Lost { tanker, minute });
    let played = played::played(day, lost, luck, control);
    let runs =
        Runs { first: 0, count: budget.replications, seed: budget.seed, threads: budget.threads };
    let tally = run_batch(&planned.plan, runs, Keep::Counts, control).tally;
    let training = train::training(planned, timed, budget, control);
    let in_doubt = doubt(&planned.plan, &[], budget.replications, luck, control)
        .map(|found| DoubtFigures::new(&found, None));
    let found = Found { scenario, timed, with, planned, asked, tally, in_doubt, played, training };
    Answer {
        question: "drill",
        title: planned.plan.facts().title.clone(),
        asked: planned.asked.clone(),
        told: told::told(&found),
        basis: Basis {
            replications: found.tally.runs,
            seed: budget.seed,
            ended_early: control.is_stopped(),
        },
        figures: DrillFigures::new(&found),
        pictures: pictures::pictures(&found, budget.seed),
    }
}
