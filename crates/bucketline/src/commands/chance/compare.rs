//! `compare`: options side by side.

use answers::question::compare::{compare, plans_to_compare};
use scenario_file::load_asked;

use crate::arguments::CompareArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &CompareArguments) -> Result<Exit, Failure> {
    let asks = arguments.changes.asks();
    let mut scenarios = Vec::new();
    for file in &arguments.files {
        scenarios.push(load_asked(file, &asks)?);
    }
    let plans = plans_to_compare(&scenarios);
    if plans < 2 {
        return Err(Failure::NothingToCompare { path: arguments.files[0].clone() });
    }
    let giving = Giving::new(arguments.showing, Some(&arguments.charts), &scenarios[0])?;
    let control = control();
    let budget = arguments.batch.budget();
    let answer = with_progress(&control, budget.replications * plans as u64, || {
        compare(&scenarios, arguments.budget, budget, &control)
    });
    giving.give(&answer)
}
