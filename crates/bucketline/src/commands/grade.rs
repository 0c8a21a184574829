//! `grade`: fill sites compared for an insurance grading, with the evidence.

use answers::question::grade::{expected_replications, grade};
use scenario_file::Scenario;
use shuttle_report::grading_rules::GradingRule;

use crate::arguments::GradeArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &GradeArguments) -> Result<Exit, Failure> {
    let scenarios: Vec<Scenario> =
        arguments.files.iter().map(|file| scenario_file::load(file)).collect::<Result<_, _>>()?;
    // The command line asks for at least one file.
    let giving = Giving::new(arguments.showing, None, &scenarios[0])?;
    // In the order asked: the first one ranks.
    let rules: Vec<&'static GradingRule> =
        arguments.rule.iter().filter_map(|key| GradingRule::named(key)).collect();
    let control = control();
    let budget = arguments.hold.budget();
    let answer = with_progress(&control, expected_replications(&scenarios, &rules), || {
        grade(&scenarios, &rules, arguments.hold.share, budget, &control)
    });
    giving.give(&answer)
}
