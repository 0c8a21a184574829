//! A whole scenario: its file read, its plan checked, its options made.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use shuttle_report::evidence::Stated;
use shuttle_report::survey::Survey;
use shuttle_sim::Plan;

use super::asked::together::Base;
use super::asked::{Asked, Asks, with_changes};
use super::errors::finding::Finding;
use super::errors::mistakes::{ScenarioError, mistakes_of};
use super::errors::position::Lines;
use super::options::scenario_options::{ScenarioOption, make_changes, with_each};
use super::quantities::quantity::Units;
use super::read::aid::Aid;
use super::read::beside::address_names::{sites_as_written, wrong_names};
use super::read::beside::crew_and_hose::{Crew, Hose};
use super::read::checked_plan::Everyone;
use super::read::facts::building_flow::BuildingFlow;
use super::read::reader::Derived;
use super::read::tankers_and_sites::{fill_pumps, stated_of_tankers};
use super::structure::checker::Structure;
use super::structure::entry::Entry;
use super::structure::file_text::{MOST_BYTES, SMALLER, TOO_LARGE, text_of, without_mark};
use super::structure::sound_text::scenario_structure;
use super::told::places::Places;
use super::told::subjects::with_subjects;
use super::told::warnings::{self, Warning};

/// A scenario that may run.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// The file it was read from.
    pub path: PathBuf,
    /// The units of its bare numbers, and of reports.
    pub units: Units,
    /// Its notes, one by one.
    pub notes: Vec<String>,
    /// What may run.
    pub plan: Plan,
    /// What a person should know and need not fix, in the order of the text.
    pub warnings: Vec<Warning>,
    /// Values worked out from facts, in the order of reading.
    pub derived: Vec<Derived>,
    /// The building behind the attack flow, if one stands there; of several the first.
    pub building: Option<BuildingFlow>,
    /// Which figures of each listed tanker the file states, those of `aid` behind the others.
    pub stated: Vec<Stated>,
    /// People for the plan.
    pub crew: Crew,
    /// Fill sites that need a pump: all but hydrants.
    pub fill_pumps: u32,
    /// Hose in place of tankers.
    pub hose: Hose,
    /// Who could be asked for.
    pub aid: Aid,
    /// What is stated for a grading.
    pub survey: Survey,
    /// What could be changed, in the order of the file.
    pub options: Vec<ScenarioOption>,
    /// What was changed beside the file.
    pub asked: Asked,
    /// What its options are applied to.
    pub(crate) base: Base,
}

/// Reads a scenario file.
///
/// - Errors: [`ScenarioError::Unreadable`] when the file cannot be read as text; [`ScenarioError::Wrong`]
///   with every mistake at once.
pub fn load(path: &Path) -> Result<Scenario, ScenarioError> {
    read_text(path, &text_of(path)?)
}

/// Reads a scenario file with what is asked for beside it.
///
/// - Errors: as [`load`]; [`ScenarioError::Asked`] with every mistake in what is asked for.
pub fn load_asked(path: &Path, asks: &Asks) -> Result<Scenario, ScenarioError> {
    read_asked(path, &text_of(path)?, asks)
}

/// The text of a scenario with what is asked for beside it; the path only goes into messages.
///
/// - Errors: as [`load_asked`].
pub fn read_asked(path: &Path, text: &str, asks: &Asks) -> Result<Scenario, ScenarioError> {
    let text = without_mark(text);
    let as_stated = read_text(path, text)?;
    if asks.is_empty() {
        return Ok(as_stated);
    }
    with_changes::changed(path, text, as_stated, asks)
}

/// The text of a scenario file with what is asked for, its options and notes as they were.
///
/// - Errors: as [`load_asked`].
pub fn changed_text(path: &Path, asks: &Asks) -> Result<String, ScenarioError> {
    let text = text_of(path)?;
    let text = without_mark(&text);
    read_text(path, text)?;
    with_changes::changed_text(path, text, asks)
}

/// Reads the text of a scenario; the path only goes into messages.
///
/// - Errors: [`ScenarioError::Wrong`] with every mistake at once.
pub fn read(path_for_messages: &Path, text: &str) -> Result<Scenario, ScenarioError> {
    if text.len() as u64 > MOST_BYTES {
        return Err(ScenarioError::Unreadable {
            path: path_for_messages.to_path_buf(),
            problem: TOO_LARGE.into(),
            cure: SMALLER.into(),
        });
    }
    read_text(path_for_messages, text)
}

/// Values in the text of a scenario that nobody means, also where the text may not run as it is: one is told at once
/// and not when all the rest is put right. None of a text that is no scenario at all.
pub fn doubts_of(path_for_messages: &Path, text: &str) -> Vec<Warning> {
    let text = without_mark(text);
    let Ok(structure) = scenario_structure(path_for_messages, text) else { return Vec::new() };
    let places = Places { root: &structure.root };
    warnings::placed(Vec::new(), &places, &Lines::of(text), structure.units)
}

/// Reads the text of a file that is not too large.
pub(crate) fn read_text(path: &Path, text: &str) -> Result<Scenario, ScenarioError> {
    let text = without_mark(text);
    let lines = Lines::of(text);
    let wrong = |findings: Vec<Finding>| mistakes_of(path, &lines, findings, false);
    // Wherever else something is wrong, so that all is told at once.
    let of_addresses = |structure: &Structure| {
        let sites = sites_as_written(&structure.root, text);
        wrong_names(&structure.root, sites.as_ref(), structure.units)
    };
    let mut structure = scenario_structure(path, text).map_err(|one| wrong(vec![one]))?;
    if !structure.findings.is_empty() {
        let mut findings = std::mem::take(&mut structure.findings);
        if !structure.given_up {
            findings.extend(make_changes(text, &structure.root, &findings).1);
            findings.extend(of_addresses(&structure));
        }
        let mistakes = mistakes_of(path, &lines, findings, structure.given_up);
        return Err(with_subjects(mistakes, &structure.root).into());
    }
    let wrong = |findings: Vec<Finding>| with_subjects(wrong(findings), &structure.root);
    let (changed, of_options) = make_changes(text, &structure.root, &[]);
    let base = changed.base.clone();
    let mut everyone = match Everyone::read(&structure) {
        Ok(everyone) => everyone,
        Err(mut findings) => {
            findings.extend(of_options);
            findings.extend(of_addresses(&structure));
            return Err(wrong(findings).into());
        }
    };
    let places = Places { root: &structure.root };
    let and_of_addresses = |mut findings: Vec<Finding>| {
        findings.extend(of_addresses(&structure));
        wrong(findings)
    };
    let who_come = everyone.who_come(&places, &lines);
    let (plan, warnings) = who_come.map_err(and_of_addresses)?;
    let at = (&structure.root, &lines);
    let options = with_each(path, at, changed, of_options, &warnings).map_err(and_of_addresses)?;
    let sites = all_sites(&everyone, &options);
    let of_names = wrong_names(&structure.root, Some(&sites), structure.units);
    if !of_names.is_empty() {
        return Err(wrong(of_names).into());
    }
    let root = Entry::root(&structure.root);
    Ok(Scenario {
        path: path.to_path_buf(),
        units: structure.units,
        notes: everyone.notes,
        plan,
        warnings,
        derived: everyone.derived,
        building: everyone.buildings.into_iter().next(),
        stated: stated_of_tankers(&root),
        crew: everyone.crew,
        fill_pumps: fill_pumps(&root),
        hose: everyone.hose,
        aid: everyone.aid,
        survey: everyone.survey,
        options,
        asked: Asked::default(),
        base: Base { json: base, asks: Asks::default() },
    })
}

/// The fill sites of the scenario and of its options.
fn all_sites(everyone: &Everyone, options: &[ScenarioOption]) -> HashSet<String> {
    let plans = options.iter().map(|option| &option.plan).chain([&everyone.aid.everyone]);
    plans.flat_map(|plan| &plan.facts().fill_sites).map(|site| site.name.clone()).collect()
}
