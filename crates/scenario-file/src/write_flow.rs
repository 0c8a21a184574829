//! Putting a building into the attack flow of an existing scenario: one value of its text is replaced,
//! every other byte stays.

use std::path::{Path, PathBuf};

use fireground::side_by_side::Rule;
use serde_json::{Value as Json, json};

use super::building_file::WaterWanted;
use super::errors::mistakes::ScenarioError;
use super::errors::position::Lines;
use super::format::description::{Kind, Object};
use super::format::fire::building::{BUILDING, OfFlowByBuilding};
use super::format::fire::incident_and_supply::{OfFlowStep, OfIncident};
use super::format::takes::Choice;
use super::format::whole_files::OfScenario;
use super::quantities::quantity::Units;
use super::scenario::{Scenario, read_text};
use super::structure::checked_value::Value;
use super::structure::file_kind::Holds;
use super::structure::file_text::{text_of, without_mark};
use super::structure::sound_text::sound_structure;

/// What was replaced in a scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct Replaced {
    /// The whole new text.
    pub text: String,
    /// Path of keys.
    pub place: String,
    /// The flow that stood there, gpm.
    pub before: f64,
    /// The flow that the building asks for, gpm.
    pub after: f64,
    /// The scenario as it now reads.
    pub scenario: Scenario,
}

/// The text of a scenario with the greatest step of its attack flow given by a building and a rule.
///
/// - Errors: what makes the scenario unsound, before or after.
pub fn with_building_flow(
    path: &Path,
    wanted: &WaterWanted,
    rule: Rule,
) -> Result<Replaced, ScenarioError> {
    let whole = text_of(path)?;
    let text = without_mark(&whole);
    let mark = &whole[..whole.len() - text.len()];
    let before = read_text(path, text)?;
    let (structure, _) = sound_structure(path, text, &Lines::of(text), |_| Ok(Holds::Scenario))?;
    let steps = &before.plan.facts().incident.attack_flow;
    let greatest = (0..steps.len())
        .max_by(|a, b| steps[*a].flow.total_cmp(&steps[*b].flow).then(b.cmp(a)))
        .unwrap_or(0);
    let all = format!("{}.{}", OfScenario::INCIDENT.key(), OfIncident::ATTACK_FLOW.key());
    let place = match structure.root.reach(&all).0.value {
        Value::List(_) => format!("{all}[{greatest}].{}", OfFlowStep::FLOW.key()),
        _ => all,
    };
    let span = structure.root.reach(&place).0.span.clone();
    let mut building = wanted.stated.clone();
    if wanted.units != before.units {
        give_units(&mut building, &BUILDING, wanted.units);
    }
    let flow = json!({
        OfFlowByBuilding::BUILDING.key(): building,
        OfFlowByBuilding::RULE.key(): rule.word(),
    });
    let mut changed = text.to_string();
    changed.replace_range(span.clone(), &indented(&flow, text, span.start));
    let shown = PathBuf::from(format!("{} as it would be", path.display()));
    let scenario = read_text(&shown, &changed)?;
    let flow_of = |scenario: &Scenario| scenario.plan.facts().incident.attack_flow[greatest].flow;
    Ok(Replaced {
        text: format!("{mark}{changed}"),
        place,
        before: flow_of(&before),
        after: flow_of(&scenario),
        scenario,
    })
}

/// JSON over several lines, indented like the line it begins on, with that text's own line ends.
fn indented(value: &Json, text: &str, at: usize) -> String {
    let (line, _) = Lines::of(text).line_at(at);
    let indent: String = line.chars().take_while(|c| *c == ' ' || *c == '\t').collect();
    let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let lines = serde_json::to_string_pretty(value).unwrap_or_default();
    lines.replace('\n', &format!("{line_end}{indent}"))
}

/// Gives every bare number its unit, for a file in other units.
fn give_units(value: &mut Json, shape: &'static Object, units: Units) {
    let Json::Object(fields) = value else { return };
    for (key, value) in fields {
        if let Some(field) = shape.field(key) {
            give_unit(value, &field.kind, units);
        }
    }
}

fn give_unit(value: &mut Json, kind: &Kind, units: Units) {
    match (kind, value) {
        (Kind::Number(quantity, _), value @ Json::Number(_)) => {
            let unit = quantity.bare_unit(units);
            if !unit.is_empty() {
                *value = json!(format!("{value} {unit}"));
            }
        }
        (Kind::Shapes([shape]), value) => give_units(value, shape, units),
        (Kind::List(element, ..), Json::Array(values)) => {
            values.iter_mut().for_each(|value| give_unit(value, element, units));
        }
        _ => {}
    }
}
