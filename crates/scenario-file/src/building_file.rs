//! A building from its own file, or from the scenario whose attack flow names it.

use std::path::{Path, PathBuf};

use fireground::surveyed_building::Building;

use super::errors::finding::Finding;
use super::errors::kinds::MistakeKind;
use super::errors::mistakes::{ScenarioError, mistakes_of};
use super::errors::position::Lines;
use super::format::fire::building::{OfBuilding, OfFlowByBuilding};
use super::format::fire::incident_and_supply::OfIncident;
use super::format::whole_files::{OfBuildingFile, OfScenario};
use super::quantities::quantity::Units;
use super::read::beside::crew_and_hose::Hose;
use super::read::facts::building_flow::BuildingFlow;
use super::read::plan_draft::notes;
use super::read::reader::Reader;
use super::scenario::{Scenario, read_text};
use super::structure::checked_value::Node;
use super::structure::entry::Entry;
use super::structure::file_kind::{Holds, building_or_scenario};
use super::structure::file_text::{text_of, without_mark};
use super::structure::sound_text::sound_structure;
use super::told::places::{Places, findings_of_misfits};
use super::told::subjects::with_subjects;
use super::told::warnings::{Warning, placed};

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

    /// Whether the file says how much of the building burns; where it does not, all of it counts.
    pub fn says_what_burns(&self) -> bool {
        self.stated.get(OfBuilding::INVOLVED.key()).is_some()
    }
}

/// Reads a building file, or a scenario whose attack flow is given by a building.
///
/// - Errors: as [`super::load`]; a scenario whose attack flow names no building.
pub fn load_building(path: &Path) -> Result<WaterWanted, ScenarioError> {
    read_building(path, &text_of(path)?)
}

/// The same from the text of a file.
///
/// - Given: the path it is told by.
/// - Errors: as [`load_building`], but that the file cannot be read.
pub fn read_building(path: &Path, text: &str) -> Result<WaterWanted, ScenarioError> {
    let text = without_mark(text);
    let lines = Lines::of(text);
    let (structure, holds) = sound_structure(path, text, &lines, building_or_scenario)?;
    let root = &structure.root;
    match holds {
        Holds::Scenario => {
            let scenario = read_text(path, text)?;
            let Some(flow) = scenario.building.clone() else {
                let place =
                    format!("{}.{}", OfScenario::INCIDENT.key(), OfIncident::ATTACK_FLOW.key());
                let finding = Finding {
                    span: root.reach(&place).0.mark(),
                    place,
                    kind: MistakeKind::Missing,
                    problem: "no building stands behind this flow".into(),
                    limit: Some("a building file, or a scenario with a building".into()),
                    cure: "write {\"building\": {...}, \"rule\": \"area\"} for the flow, or give a building \
                           file and add --write with this scenario"
                        .into(),
                };
                return Err(mistakes_of(path, &lines, vec![finding], false).into());
            };
            let at = format!("{}.{}", flow.place, OfFlowByBuilding::BUILDING.key());
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
            let entry = Entry::<OfBuildingFile>::root(root);
            let mut reader = Reader::new(structure.units);
            let rule = entry.get(&OfBuildingFile::RULE);
            let building = entry.get(&OfBuildingFile::BUILDING);
            let flow = reader.building_and_rule(&entry.place, building, rule);
            let hose = reader.hose(&entry.get(&OfBuildingFile::HOSE));
            let places = Places { root };
            match (flow, hose) {
                (Some(flow), Some(hose)) => Ok(WaterWanted {
                    path: path.to_path_buf(),
                    title: entry.get(&OfBuildingFile::TITLE).to_owned(),
                    notes: notes(entry.get(&OfBuildingFile::NOTES)),
                    units: structure.units,
                    flow,
                    duration: entry.get(&OfBuildingFile::DURATION),
                    hose,
                    warnings: placed(reader.warnings, &places, &lines, structure.units),
                    scenario: None,
                    stated: stated(text, root, OfBuildingFile::BUILDING.key()),
                }),
                _ => {
                    let findings = findings_of_misfits(reader.mistakes, &places);
                    Err(with_subjects(mistakes_of(path, &lines, findings, false), root).into())
                }
            }
        }
    }
}

/// The value at a place, as JSON. The whole text has been checked to be JSON.
fn stated(text: &str, root: &Node, place: &str) -> serde_json::Value {
    let (node, there) = root.reach(place);
    debug_assert!(there, "{place}");
    serde_json::from_str(&text[node.span.clone()]).unwrap_or_default()
}
