//! `request`: the mutual-aid request.

use answers::question::request::{Asked, UnitFigures, has_aid, request};
use scenario_file::{Asks, Scenario, changed_text, load_asked, shell_quoted};

use crate::arguments::RequestArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::output::print;
use crate::progress::{control, with_progress};
use crate::written_file::{may_write, write_file};

/// Runs the command.
pub fn run(arguments: &RequestArguments) -> Result<Exit, Failure> {
    let file = &arguments.scenario.file;
    let scenario = load_asked(file, &arguments.changes.asks())?;
    if !has_aid(&scenario) {
        return Err(Failure::NobodyToAsk { path: file.clone() });
    }
    let giving = Giving::new(arguments.scenario.showing, Some(&arguments.charts), &scenario)?;
    if let Some(card) = &arguments.write {
        if card.symlink_metadata().is_ok() && !arguments.force {
            return Err(Failure::AlreadyThere { path: card.clone() });
        }
        may_write(card)?;
    }
    let asked = Asked { target: arguments.target, spare: arguments.spare == 1 };
    let control = control();
    let budget = arguments.batch.budget();
    // Most sets are clear after a few hundred fires; how many there will be is not known beforehand.
    let answer = with_progress(&control, budget.replications, || {
        request(&scenario, budget, asked, &control)
    });
    let given = giving.give(&answer)?;
    if let Some(card) = &arguments.write {
        let asks = with_request(&scenario, arguments.changes.asks(), &answer.figures.request);
        write_file(card, changed_text(file, &asks)?.as_bytes())?;
        if !arguments.scenario.showing.json {
            let name = shell_quoted(&card.display().to_string());
            // Whoever writes it on is told once more.
            let short = match (answer.figures.meets_target, &answer.figures.request_instead) {
                (true, _) => "",
                (false, None) => "It does not meet the target: its card will have no orders. ",
                (false, Some(_)) => {
                    "It does not meet the target, and its card will have no orders: the command above, with \
                     --write, makes the one for what can be held. "
                }
            };
            print(&format!(
                "\n{} is written, the plan with them. {short}Then:\n  bucketline card {name}\n",
                card.display()
            ))?;
        }
    }
    Ok(given)
}

/// What was asked, with the units of the request joining; where the file lists no aid, the others that are asked
/// for late staying away.
fn with_request(scenario: &Scenario, mut asks: Asks, request: &[UnitFigures]) -> Asks {
    let is_asked = |name: &String| request.iter().any(|unit| unit.name == *name);
    if scenario.aid.is_listed() {
        asks.with.extend(request.iter().map(|unit| unit.name.clone()));
    } else {
        let tankers = &scenario.aid.everyone.facts().tankers;
        let names = scenario.aid.candidates().into_iter().map(|place| tankers[place].name.clone());
        asks.without.extend(names.filter(|name| !is_asked(name)));
    }
    asks
}
