//! What can be held where nothing meets the wish, and the command that asks for it.

use scenario_file::Scenario;
use shuttle_report::units::Units;

use super::super::Asked;
use super::super::figures::RequestFigures;
use super::super::losses::NotMadeUpForFigures;
use crate::say;
use crate::say::{Piece, Sentence, joined};
use crate::shared::asked::{FlowFigures, path_as_argument};
use crate::shared::lost::lost_alone;

/// What `--target` is where it is not asked for.
const USUAL_TARGET: f64 = 0.05;

/// "for what can be held, 240 gpm from 5 minutes after first water: bucketline request barn.json --flow 240@5".
pub(super) fn ask_instead(
    scenario: &Scenario,
    figures: &RequestFigures,
    asked: Asked,
) -> Option<Sentence> {
    let steps = figures.ask_instead.as_ref()?;
    let call = request_of(scenario, steps, asked);
    let first_water = first_water_min(scenario);
    let what = match (&figures.request_instead, begins_with_less(scenario, steps)) {
        (Some(_), _) => match steps.as_slice() {
            [_] => say!["to plan with that"],
            _ => say!["to plan with that, its minutes counted from first water"],
        },
        (None, true) => say!["for all of it, begun with less: ", flows(steps, first_water)],
        (None, false) => say!["for what can be held, ", flows(steps, first_water)],
    };
    Some(say![
        what,
        Piece::ByMedium { command: "", page: "; want that in the plan, and ask again" },
        Piece::Within(say![": ", Piece::Command(call)]),
    ])
}

/// The command that asks for this flow.
fn request_of(scenario: &Scenario, steps: &[FlowFigures], asked: Asked) -> Vec<String> {
    let mut call = vec!["bucketline".to_owned(), "request".to_owned()];
    call.push(path_as_argument(scenario));
    call.extend(words_but_flow(&scenario.asked.words));
    call.extend(["--flow".to_owned(), flow_argument(steps, scenario.units)]);
    if asked.target != USUAL_TARGET {
        call.extend(["--target".to_owned(), format!("{}%", (asked.target * 1e8).round() / 1e6)]);
    }
    if !asked.spare {
        call.extend(["--spare", "0"].map(str::to_owned));
    }
    call
}

/// "the loss of any one unit or source is stood with 125 gpm: bucketline request barn.json --flow 125": where the request for
/// what can be held does not stand it.
pub(super) fn any_one_lost(
    scenario: &Scenario,
    figures: &RequestFigures,
    asked: Asked,
) -> Option<Sentence> {
    let spare = figures.request_instead.as_ref()?.spare.as_ref()?;
    if spare.stands_all() {
        return None;
    }
    let Some(steps) = &figures.any_one_lost_flow else {
        let holds = |one: &&NotMadeUpForFigures| one.holds.as_ref().map_or(0.0, |one| one.flow_gpm);
        let worst = spare.not_made_up_for.iter().min_by(|a, b| holds(a).total_cmp(&holds(b)));
        let worst = worst.map(|one| &one.loss).or(spare.losses.first())?;
        return Some(say![
            "with ",
            lost_alone(&worst.lost),
            " lost, not even one hand line is sure to hold from first water on."
        ]);
    };
    let call = request_of(scenario, steps, asked);
    Some(say![
        "the loss of any one unit or source is stood with ",
        flows(steps, first_water_min(scenario)),
        Piece::ByMedium { command: "", page: "; want that in the plan, and ask again" },
        Piece::Within(say![": ", Piece::Command(call)]),
    ])
}

/// "What can be held is 150 gpm from first water, minute 11, then 320 gpm from minute 31."
///
/// - Given: whether something is to spare then.
pub(super) fn can_be_held(scenario: &Scenario, steps: &[FlowFigures], spare: bool) -> Sentence {
    let flows = flows(steps, first_water_min(scenario));
    if begins_with_less(scenario, steps) {
        let with_spare = if spare { ", with something to spare" } else { "" };
        return say!["All of it is held where it begins with less", with_spare, ": ", flows, "."];
    }
    let with_spare = if spare { ", with something to spare," } else { "" };
    say!["What can be held", with_spare, " is ", flows, "."]
}

/// First water, every time at its mean, minutes after the alarm.
fn first_water_min(scenario: &Scenario) -> f64 {
    scenario.aid.everyone.facts().first_water_mean()
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

/// "190 gpm", or in steps "150 gpm from first water, minute 11, then 320 gpm from minute 31".
///
/// - Given: first water, minutes after the alarm.
pub fn flows(steps: &[FlowFigures], first_water_min: f64) -> Sentence {
    let told = steps.iter().map(|one| match one.from_first_water_min {
        0.0 if steps.len() == 1 => say![Piece::Flow(one.flow_gpm)],
        0.0 => {
            let at = Piece::Clock(first_water_min);
            say![Piece::Flow(one.flow_gpm), " from first water, ", at]
        }
        after => say![Piece::Flow(one.flow_gpm), " from ", Piece::Clock(first_water_min + after)],
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
