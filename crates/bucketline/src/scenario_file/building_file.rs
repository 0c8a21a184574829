//! A building by its file, or by the scenario in whose attack flow it stands.

use std::path::{Path, PathBuf};

use fireground::side_by_side::{Asked, Building, Rule};
use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use super::mistake::{Finding, ScenarioError, mistakes_of};
use super::node::{Entry, Node};
use super::position::Lines;
use super::quantity::Units;
use super::reading::{Found, notes};
use super::reading_building::{BuildingFlow, Hose, rule_of};
use super::structure::Holds;
use super::{Places, Scenario, Warning, checked, findings_of_misfits, placed, read_text, text_of};

/// A building, and what is wanted for it.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterWanted {
    /// The file it was read from.
    pub path: PathBuf,
    /// What it is called in reports.
    pub title: String,
    /// The notes of the file, one by one.
    pub notes: Vec<String>,
    /// The units of its bare numbers, and of reports.
    pub units: Units,
    /// The building, the rule that counts, and what every rule asks for.
    pub flow: BuildingFlow,
    /// How long the flow is wanted, minutes.
    pub duration: f64,
    /// Hose in place of tankers.
    pub hose: Hose,
    /// What a person should know and need not fix.
    pub warnings: Vec<Warning>,
    /// The scenario, if the file is one.
    pub scenario: Option<Scenario>,
    /// The building as the file states it, in the units of the file.
    pub(super) stated: serde_json::Value,
}

impl WaterWanted {
    /// The building.
    pub fn building(&self) -> &Building {
        &self.flow.building
    }
}

impl BuildingFlow {
    /// What a rule asks for.
    pub fn asked(&self, rule: Rule) -> &Asked {
        match self.rows.iter().find(|row| row.rule == rule && row.taken) {
            Some(row) => row,
            None => unreachable!("{rule:?} is not among the rows of the building"),
        }
    }
}

/// Reads a building file, or a scenario whose attack flow is given by a building.
///
/// - Errors: as [`super::load`]; a scenario whose attack flow carries no building.
pub fn load_building(path: &Path) -> Result<WaterWanted, ScenarioError> {
    let text = text_of(path)?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    let lines = Lines::of(text);
    let (structure, holds) = checked(path, text, &lines, what_it_holds)?;
    let root = &structure.root;
    match holds {
        Holds::Scenario => {
            let scenario = read_text(path, text)?;
            let Some(flow) = scenario.building.clone() else {
                let place = "incident.attack_flow".to_string();
                let finding = Finding {
                    span: root.reach(&place).0.mark(),
                    place,
                    problem: "no building stands behind this flow".to_string(),
                    limit: Some("a building file, or a scenario with a building".to_string()),
                    cure: Some(
                        "write {\"building\": {...}, \"rule\": \"area\"} for the flow, or give a building \
                         file and add --write with this scenario"
                            .to_string(),
                    ),
                };
                return Err(mistakes_of(path, &lines, vec![finding], false).into());
            };
            let at = format!("{}.building", flow.place);
            Ok(WaterWanted {
                path: path.to_path_buf(),
                title: scenario.plan.facts().title.clone(),
                notes: scenario.notes.clone(),
                units: scenario.units,
                duration: scenario.plan.facts().incident.duration,
                hose: scenario.hose,
                warnings: scenario.warnings.clone(),
                stated: stated(text, root, &at),
                flow,
                scenario: Some(scenario),
            })
        }
        Holds::Building => {
            let entry = Entry::root(root);
            let mut found = Found::new(structure.units);
            let rule = rule_of(&entry.text("rule"));
            let flow = found.building_and_rule(&entry, rule);
            let hose = found.hose(&entry.entry("hose"));
            let places = Places { root };
            match (flow, hose) {
                (Some(flow), Some(hose)) => Ok(WaterWanted {
                    path: path.to_path_buf(),
                    title: entry.text_stated("title"),
                    notes: notes(&entry),
                    units: structure.units,
                    flow,
                    duration: entry.number("duration"),
                    hose,
                    warnings: placed(found.warnings, &places, &lines, structure.units),
                    scenario: None,
                    stated: stated(text, root, "building"),
                }),
                _ => {
                    let findings = findings_of_misfits(found.mistakes, &places);
                    Err(mistakes_of(path, &lines, findings, false).into())
                }
            }
        }
    }
}

/// A building file has a building at its top and no incident.
fn what_it_holds(value: &ast::Value<'_>) -> Holds {
    let has = |key: &str| {
        (value.as_object())
            .is_some_and(|root| root.properties.iter().any(|p| p.name.as_str() == key))
    };
    if has("building") && !has("incident") { Holds::Building } else { Holds::Scenario }
}

/// What is wrong where a scenario is wanted and the file is of a building: that, and no list of all that a
/// scenario would have.
pub(super) fn not_a_scenario(path: &Path, value: &ast::Value<'_>) -> Option<Finding> {
    let root = value.as_object().filter(|_| what_it_holds(value) == Holds::Building)?;
    let building = root.properties.iter().find(|p| p.name.as_str() == "building")?;
    let range = building.name.range();
    Some(Finding {
        place: String::new(),
        span: range.start..range.end,
        problem: "this is a building file, not a scenario".to_string(),
        limit: Some("a scenario, which has an `incident`".to_string()),
        cure: Some(format!("use `bucketline flow {}`", path.display())),
    })
}

/// The text at a place as JSON. The whole text has been checked to be JSON.
fn stated(text: &str, root: &Node, place: &str) -> serde_json::Value {
    let (node, there) = root.reach(place);
    debug_assert!(there, "{place}");
    serde_json::from_str(&text[node.span.clone()]).unwrap_or_default()
}
