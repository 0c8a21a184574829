//! What one minute or one hundred gpm is worth.

mod figures;
mod inputs;
mod pictures;
mod tables;
mod told;

#[cfg(test)]
mod tests;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::levers::{LeverAnswer, LeverRow, Moved, what_each_is_worth};
use shuttle_report::options_compared::Verdict;
use shuttle_report::side_by_side::SameLuck;
use shuttle_report::statistics::binomial::exact_interval;

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::say::Chances;

use self::inputs::is_demand;

pub use figures::{LeverFigure, LeverFigures, MovedFigures};

/// Moves every input a little and says what each is worth.
pub fn levers(scenario: &Scenario, budget: Budget, control: &Control) -> Answer<LeverFigures> {
    let luck = SameLuck { seed: budget.seed, threads: budget.threads };
    let (plan, units) = (&scenario.plan, scenario.units);
    let mut found = what_each_is_worth(plan, units, budget.replications, luck, control);
    // Ended before its first fire, a move has nothing to say.
    for row in &mut found.rows {
        for moved in [&mut row.better, &mut row.worse] {
            moved.take_if(|moved| moved.replications == 0);
        }
    }
    found.rows.retain(|row| moves(row).next().is_some());
    let told = told::told(scenario, &found);
    Answer {
        question: "levers",
        title: found.title.clone(),
        asked: scenario.asked.clone(),
        basis: Basis {
            replications: found.replications,
            seed: found.seed,
            ended_early: found.ended_early,
        },
        figures: LeverFigures::new(&found),
        pictures: pictures::pictures(found, &told.verdict),
        told,
    }
}

/// What the inputs are told by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measure {
    /// How often the lines run short.
    Chance,
    /// How long: where no input but the flow wanted shows in how often.
    Minutes,
}

impl Measure {
    fn of(found: &LeverAnswer) -> Measure {
        // A lower flow shows even where every fire is dry; nobody can buy it.
        let moves_the_chance = (found.rows.iter().filter(|row| !is_demand(row)))
            .flat_map(moves)
            .any(|moved| matches!(moved.verdict, Verdict::LowerChance | Verdict::HigherChance));
        if moves_the_chance { Measure::Chance } else { Measure::Minutes }
    }

    /// Whether a difference shows in it.
    fn shows(self, moved: &Moved) -> bool {
        match self {
            Measure::Chance => {
                matches!(moved.verdict, Verdict::LowerChance | Verdict::HigherChance)
            }
            Measure::Minutes => moved.verdict != Verdict::NotToldApart,
        }
    }
}

/// An input moved to the side that should help, then to the other, as far as it can be.
fn moves(row: &LeverRow) -> impl Iterator<Item = &Moved> {
    row.better.iter().chain(&row.worse)
}

/// Hurts although it is moved to the side that should help.
fn is_unexpected(row: &LeverRow, moved: &Moved) -> bool {
    row.better.as_ref().is_some_and(|better| better.way == moved.way)
        && matches!(moved.verdict, Verdict::HigherChance | Verdict::MoreMinutes)
}

/// How often the lines run short as it stands.
fn as_it_stands(found: &LeverAnswer) -> Chances {
    Chances::of(found.interruption_probability, found.replications)
}

/// The exact 95% interval of that.
fn interval(found: &LeverAnswer) -> (f64, f64) {
    let short = (found.interruption_probability * found.replications as f64).round() as u64;
    exact_interval(short, found.replications, 0.95)
}

/// Decimal places of minutes short a fire: few minutes differ in hundredths.
fn minutes_digits(found: &LeverAnswer) -> usize {
    if found.interrupted_minutes_mean < 10.0 { 2 } else { 1 }
}

/// How often with an input moved.
fn chances(moved: &Moved) -> Chances {
    Chances::of(moved.interruption_probability, moved.replications)
}
