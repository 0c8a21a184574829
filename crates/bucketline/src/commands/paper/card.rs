//! `card`: the run card, to laminate.

use answers::question::card::card;
use scenario_file::load_asked;

use crate::arguments::PaperArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &PaperArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let charts = arguments.pages.charts();
    let giving = Giving::new(arguments.scenario.showing, Some(&charts), &scenario)?;
    let (control, budget) = (control(), arguments.batch.budget());
    let answer =
        with_progress(&control, 2 * budget.replications, || card(&scenario, budget, &control));
    let format = arguments.pages.format(scenario.units);
    giving.give_on_paper(&answer, arguments.pages.day(), |made| {
        Ok(paper::pages::card(&answer, format, made))
    })
}
