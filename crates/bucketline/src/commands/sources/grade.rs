//! `grade`: fill sites compared for an insurance grading, with the evidence.

use std::path::Path;

use answers::question::grade::{
    AddressesGraded, Grading, at_address, expected_replications,
    expected_replications_of_addresses, grade, grade_addresses,
};
use scenario_file::{Scenario, load_asked};
use shuttle_report::grading_rules::{GradingRule, RULES};

use crate::address_table;
use crate::arguments::GradeArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::output;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &GradeArguments) -> Result<Exit, Failure> {
    let asks = arguments.changes.asks();
    if let Some(path) = arguments.sheet.as_ref().filter(|path| !is_sheet(path)) {
        return Err(Failure::SheetKind { path: path.clone() });
    }
    let mut scenarios: Vec<Scenario> =
        arguments.files.iter().map(|file| load_asked(file, &asks)).collect::<Result<_, _>>()?;
    // The command line asks for at least one file.
    let giving = Giving::new(arguments.showing, Some(&arguments.charts), &scenarios[0])?;
    if let Some(path) = &arguments.addresses {
        let [only] = scenarios.as_mut_slice() else { return Err(Failure::AddressesOfWhich) };
        let table =
            drill_log::open(path).map_err(|error| Failure::Log { path: path.clone(), error })?;
        let more = address_table::addresses(&table, only)
            .map_err(|mistakes| Failure::Addresses { path: path.clone(), mistakes })?;
        only.survey.addresses.extend(more);
    }
    if !arguments.address.is_empty() {
        scenarios = at_addresses(&arguments.address, &scenarios)?;
    }
    // In the order asked: the first one ranks.
    let rules = rules(&arguments.rule, &scenarios)?;
    if arguments.csv || scenarios.iter().any(|one| !one.survey.addresses.is_empty()) {
        if arguments.sheet.is_some() {
            return Err(Failure::SheetOfWhich);
        }
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

/// Whether a sheet is written into files of this kind.
fn is_sheet(path: &Path) -> bool {
    path.extension().is_none_or(|ending| {
        ["html", "htm", "txt"].iter().any(|known| ending.eq_ignore_ascii_case(known))
    })
}

/// The scenarios as they are at these addresses, in the order asked.
fn at_addresses(asked: &[String], scenarios: &[Scenario]) -> Result<Vec<Scenario>, Failure> {
    let there = || scenarios.iter().flat_map(|one| &one.survey.addresses);
    (asked.iter())
        .map(|name| {
            let found = scenarios
                .iter()
                .find(|one| one.survey.addresses.iter().any(|address| address.name == *name));
            let Some(scenario) = found else {
                let there = there().map(|one| one.name.clone()).collect();
                return Err(Failure::NoSuchAddress { asked: name.clone(), there });
            };
            at_address(scenario, name).ok_or_else(|| Failure::NotServed { address: name.clone() })
        })
        .collect()
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
