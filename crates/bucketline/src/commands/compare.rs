//! `compare`: options side by side.

use answers::question::compare::{compare, plans_to_compare};

use crate::arguments::CompareArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &CompareArguments) -> Result<Exit, Failure> {
    let mut scenarios = Vec::new();
    for file in &arguments.files {
        scenarios.push(scenario_file::load(file)?);
    }
    let plans = plans_to_compare(&scenarios);
    if plans < 2 {
        return Err(Failure::NothingToCompare { path: arguments.files[0].clone() });
    }
    let giving = Giving::new(arguments.showing, Some(&arguments.charts), &scenarios[0])?;
    let control = control();
    let budget = arguments.batch.budget();
    let answer = with_progress(&control, budget.replications * plans as u64, || {
        compare(&scenarios, budget, &control)
    });
    giving.give(&answer)
}
