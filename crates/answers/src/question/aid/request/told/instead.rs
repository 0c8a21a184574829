//! The command that asks for what can be held, where nothing meets the wish.

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
    let flow = match steps.as_slice() {
        [only] if only.from_first_water_min == 0.0 => typed_flow(only.flow_gpm, scenario.units),
        steps => {
            let step = |one: &FlowFigures| {
                format!("{}@{}", typed_flow(one.flow_gpm, scenario.units), one.from_first_water_min)
            };
            steps.iter().map(step).collect::<Vec<_>>().join(",")
        }
    };
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
    let told = steps.iter().map(|one| match one.from_first_water_min {
        0.0 => say![Piece::Flow(one.flow_gpm)],
        after => {
            say![Piece::Flow(one.flow_gpm), " from ", Piece::Minutes(after), " after first water"]
        }
    });
    let wanted = &scenario.plan.facts().incident.attack_flow;
    let is_all = wanted.last().map(|step| step.flow) == steps.last().map(|step| step.flow_gpm);
    Some(say![
        if is_all { "for all of it, begun with less: " } else { "for what can be held, " },
        joined(told, ", ", ", then "),
        Piece::ByMedium { command: "", page: "; want that in the plan, and ask again" },
        Piece::Within(say![": ", Piece::Command(call)]),
    ])
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
