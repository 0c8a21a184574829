//! `size`: how many tankers to ask for.

use answers::question::Budget;
use answers::question::size::{Asked, size};
use scenario_file::load_asked;

use crate::arguments::{SizeArguments, threads_or_all};
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &SizeArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    let control = control();
    let budget = Budget {
        replications: arguments.runs,
        seed: arguments.seed,
        threads: threads_or_all(arguments.threads),
    };
    let asked = Asked { target: arguments.target, beyond_listed: usize::from(arguments.beyond) };
    let answer =
        with_progress(&control, budget.replications, || size(&scenario, budget, asked, &control));
    giving.give(&answer)
}
