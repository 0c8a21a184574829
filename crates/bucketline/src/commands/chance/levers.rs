//! `levers`: what one minute or one hundred gpm is worth.

use shuttle_report::moved_inputs;

use answers::question::levers::levers;
use scenario_file::load_asked;

use crate::arguments::LeversArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &LeversArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    let control = control();
    let budget = arguments.batch.budget();
    // Every input is moved to both sides.
    let moves = 2 * moved_inputs::levers(&scenario.plan, scenario.units).len() as u64;
    let answer = with_progress(&control, budget.replications * (1 + moves), || {
        levers(&scenario, budget, &control)
    });
    giving.give(&answer)
}
