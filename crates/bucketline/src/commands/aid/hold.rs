//! `hold`: what flow can be held, and from which minute.

use answers::question::hold::{Asked, expected_replications, hold};
use scenario_file::load_asked;

use crate::arguments::HoldArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &HoldArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    let control = control();
    let mut minutes = arguments.from.clone();
    minutes.sort_by(f64::total_cmp);
    minutes.dedup();
    let asked = Asked { minutes, share: arguments.hold.share };
    let answer = with_progress(&control, expected_replications(&scenario, &asked), || {
        hold(&scenario, &asked, arguments.hold.budget(), &control)
    });
    giving.give(&answer)
}
