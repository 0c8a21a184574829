//! `lose`: what the plan cannot do without.

use answers::question::lose::lose;
use scenario_file::load_asked;
use shuttle_report::losses::losses;

use crate::arguments::LoseArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &LoseArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    let control = control();
    let budget = arguments.batch.budget();
    let expected = budget.replications * (1 + losses(&scenario.plan).len() as u64);
    let answer =
        with_progress(&control, expected, || lose(&scenario, arguments.target, budget, &control));
    giving.give(&answer)
}
