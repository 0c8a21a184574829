//! `grade`: fill sites compared for an insurance grading, with the evidence.

use answers::question::grade::{
    AddressesGraded, Grading, expected_replications, expected_replications_of_addresses, grade,
    grade_addresses,
};
use scenario_file::{Scenario, load_asked};
use shuttle_report::grading_rules::{GradingRule, RULES};

use crate::arguments::GradeArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::output;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &GradeArguments) -> Result<Exit, Failure> {
    let asks = arguments.changes.asks();
    let scenarios: Vec<Scenario> =
        arguments.files.iter().map(|file| load_asked(file, &asks)).collect::<Result<_, _>>()?;
    // The command line asks for at least one file.
    let giving = Giving::new(arguments.showing, Some(&arguments.charts), &scenarios[0])?;
    // In the order asked: the first one ranks.
    let rules = rules(&arguments.rule, &scenarios)?;
    if arguments.csv || scenarios.iter().any(|one| !one.survey.addresses.is_empty()) {
        return addresses(arguments, &scenarios, &rules, &giving);
    }
    let control = control();
    let budget = arguments.hold.budget();
    let Grading { answer, sheets } =
        with_progress(&control, expected_replications(&scenarios, &rules), || {
            grade(&scenarios, &rules, arguments.hold.share, budget, &control)
        });
    let exit = giving.give(&answer)?;
    if let Some(file) = &arguments.sheet {
        giving.write_sheet(file, &answer, &sheets)?;
    }
    Ok(exit)
}

/// Many addresses: one row each.
fn addresses(
    arguments: &GradeArguments,
    scenarios: &[Scenario],
    rules: &[GradingRule],
    giving: &Giving,
) -> Result<Exit, Failure> {
    let control = control();
    let expected = expected_replications_of_addresses(scenarios, rules);
    let AddressesGraded { answer, csv } = with_progress(&control, expected, || {
        let budget = arguments.hold.budget();
        grade_addresses(scenarios, rules, arguments.hold.share, budget, &control)
    });
    if let Some(file) = &arguments.sheet {
        // The sheet is that of the scenario's own fire.
        let budget = arguments.hold.budget();
        let Grading { answer, sheets } =
            grade(scenarios, rules, arguments.hold.share, budget, &control);
        giving.write_sheet(file, &answer, &sheets)?;
    }
    if arguments.csv {
        output::print(&csv)?;
        return Ok(if answer.basis.ended_early { Exit::EndedEarly } else { Exit::Answered });
    }
    giving.give(&answer)
}

/// The rules of these names: those that are known, and the scenarios' own.
fn rules(asked: &[String], scenarios: &[Scenario]) -> Result<Vec<GradingRule>, Failure> {
    let own = || scenarios.iter().flat_map(|scenario| &scenario.survey.rules);
    let named = |key: &String| {
        (RULES.iter().chain(own()).find(|rule| rule.key == *key).cloned()).ok_or_else(|| {
            Failure::NoSuchRule {
                asked: key.clone(),
                there: RULES.iter().chain(own()).map(|rule| rule.key.to_string()).collect(),
            }
        })
    };
    asked.iter().map(named).collect()
}
