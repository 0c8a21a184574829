//! `check`: is the scenario sound, and what does a hand calculation say.

use answers::question::check::check;
use scenario_file::load_asked;

use crate::arguments::CheckArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;

/// Runs the command.
pub fn run(arguments: &CheckArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    Giving::new(arguments.scenario.showing, None, &scenario)?.give(&check(&scenario))
}
