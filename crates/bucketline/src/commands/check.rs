//! `check`: is the scenario sound, and what does a hand calculation say.

use answers::question::check::check;

use crate::arguments::CheckArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;

/// Runs the command.
pub fn run(arguments: &CheckArguments) -> Result<Exit, Failure> {
    let scenario = scenario_file::load(&arguments.scenario.file)?;
    Giving::new(arguments.scenario.showing, None, &scenario)?.give(&check(&scenario))
}
