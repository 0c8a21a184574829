//! `report`: the plan as a chief reads it, with what it rests on.

use answers::question::report::{Asked, expected_replications, report};
use scenario_file::load_asked;

use crate::arguments::ReportArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &ReportArguments) -> Result<Exit, Failure> {
    let shared = &arguments.paper;
    let scenario = load_asked(&shared.scenario.file, &shared.changes.asks())?;
    let charts = shared.pages.charts();
    let giving = Giving::new(shared.scenario.showing, Some(&charts), &scenario)?;
    let (control, budget) = (control(), shared.batch.budget());
    let asked = Asked { target: arguments.target };
    let found = with_progress(&control, expected_replications(&scenario, budget), || {
        report(&scenario, asked, budget, &control)
    });
    let format = shared.pages.format(scenario.units);
    giving.give_on_paper(&found.whole, shared.pages.day(), |made| {
        paper::pages::report(&found, format, made)
    })
}
