//! `request`: the mutual-aid request.

use answers::question::request::{has_aid, request};

use crate::arguments::RequestArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &RequestArguments) -> Result<Exit, Failure> {
    let file = &arguments.scenario.file;
    let scenario = scenario_file::load(file)?;
    if !has_aid(&scenario) {
        return Err(Failure::NobodyToAsk { path: file.clone() });
    }
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    let control = control();
    let budget = arguments.batch.budget();
    // Most sets are clear after a few hundred fires; how many there will be is not known beforehand.
    let answer = with_progress(&control, budget.replications, || {
        request(&scenario, budget, arguments.target, &control)
    });
    giving.give(&answer)
}
