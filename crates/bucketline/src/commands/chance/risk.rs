//! `risk`: how often the attack lines lose water, why, and what would help.

use answers::question::risk::risk;
use scenario_file::load_asked;

use crate::arguments::RiskArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &RiskArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    let control = control();
    let budget = arguments.batch.budget();
    let answer = with_progress(&control, budget.replications, || {
        risk(&scenario, budget, !arguments.no_help, &control)
    });
    giving.give(&answer)
}
