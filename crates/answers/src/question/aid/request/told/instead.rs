//! What can be held where nothing meets the wish, and the command that asks for it.

use scenario_file::Scenario;
use shuttle_report::units::Units;

use super::super::Asked;
use super::super::figures::RequestFigures;
use crate::say;
use crate::say::{Piece, Sentence, joined};
use crate::shared::asked::{FlowFigures, path_as_argument};

/// What `--target` is where it is not asked for.
const USUAL_TARGET: f64 = 0.05;

/// "for what can be held, 240 gpm from 5 minutes after first water: bucketline request barn.json --flow 240@5".
pub(super) fn ask_instead(
    scenario: &Scenario,
    figures: &RequestFigures,
    asked: Asked,
) -> Option<Sentence> {
    let steps = figures.ask_instead.as_ref()?;
    let flow = flow_argument(steps, scenario.units);
    let mut call = vec!["bucketline".to_owned(), "request".to_owned()];
    call.push(path_as_argument(scenario));
    call.extend(words_but_flow(&scenario.asked.words));
    call.extend(["--flow".to_owned(), flow]);
    if asked.target != USUAL_TARGET {
        call.extend(["--target".to_owned(), format!("{}%", (asked.target * 1e8).round() / 1e6)]);
    }
    if !asked.spare {
        call.extend(["--spare", "0"].map(str::to_owned));
    }
    let what = match (&figures.request_instead, begins_with_less(scenario, steps)) {
        (Some(_), _) => say!["to plan with that"],
        (None, true) => say!["for all of it, begun with less: ", flows(steps)],
        (None, false) => say!["for what can be held, ", flows(steps)],
    };
    Some(say![
        what,
        Piece::ByMedium { command: "", page: "; want that in the plan, and ask again" },
        Piece::Within(say![": ", Piece::Command(call)]),
    ])
}

/// "What can be held is 190 gpm, then 200 gpm from 11 minutes after first water."
pub(super) fn can_be_held(scenario: &Scenario, steps: &[FlowFigures]) -> Sentence {
    if begins_with_less(scenario, steps) {
        return say!["All of it is held where it begins with less: ", flows(steps), "."];
    }
    say!["What can be held is ", flows(steps), "."]
}

/// What is typed behind `--flow`: "330@0,520@11", or "190" for one flow from first water on.
pub fn flow_argument(steps: &[FlowFigures], units: Units) -> String {
    let flow = |one: &FlowFigures| typed_flow(one.flow_gpm, units);
    match steps {
        [only] if only.from_first_water_min == 0.0 => flow(only),
        steps => {
            let step = |one: &FlowFigures| format!("{}@{}", flow(one), one.from_first_water_min);
            steps.iter().map(step).collect::<Vec<_>>().join(",")
        }
    }
}

/// "190 gpm, then 200 gpm from 11 minutes after first water".
pub fn flows(steps: &[FlowFigures]) -> Sentence {
    let told = steps.iter().map(|one| match one.from_first_water_min {
        0.0 => say![Piece::Flow(one.flow_gpm)],
        after => {
            say![Piece::Flow(one.flow_gpm), " from ", Piece::Minutes(after), " after first water"]
        }
    });
    say![joined(told, ", ", ", then ")]
}

/// Whether all that is wanted is had in the end.
fn begins_with_less(scenario: &Scenario, steps: &[FlowFigures]) -> bool {
    let wanted = &scenario.plan.facts().incident.attack_flow;
    wanted.last().map(|step| step.flow) == steps.last().map(|step| step.flow_gpm)
}

/// A flow as a bare number of the file's units, no greater than it is.
fn typed_flow(gpm: f64, units: Units) -> String {
    // What was tried is a whole number of either; a hair below it is no other flow.
    format!("{}", (units.flow(gpm) + 1e-6).floor())
}

/// What was asked for beside the file, without another flow.
fn words_but_flow(words: &[String]) -> Vec<String> {
    let mut kept = Vec::new();
    let mut words = words.iter();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--flow" => {
                words.next();
            }
            one if one.starts_with("--flow=") => {}
            one => kept.push(one.to_owned()),
        }
    }
    kept
}
