//! `replay`: one simulated fire, minute by minute.

use answers::question::replay::{Which, replay};
use scenario_file::load_asked;

use crate::arguments::ReplayArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;

/// Runs the command.
pub fn run(arguments: &ReplayArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    let which = if arguments.planned {
        Which::Planned
    } else if arguments.typical {
        Which::typical(&scenario.plan, arguments.seed)
    } else {
        Which::Drawn { run: arguments.run, seed: arguments.seed }
    };
    giving.give(&replay(&scenario, which))
}
