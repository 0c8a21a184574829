//! From a sound structure to the checked plan of everyone it names, and of those who come.

use std::path::Path;

use shuttle_report::survey::Survey;
use shuttle_report::variation::with_tankers;
use shuttle_sim::Plan;

use super::aid::Aid;
use super::plan_draft::{Reading, draft_of};
use super::reader::Derived;
use super::tankers_and_sites::called;
use crate::errors::finding::Finding;
use crate::errors::mistakes::{ScenarioError, mistakes_of};
use crate::errors::position::Lines;
use crate::quantities::quantity::Units;
use crate::read::beside::crew_and_hose::{Crew, Hose};
use crate::read::facts::building_flow::BuildingFlow;
use crate::structure::checker::Structure;
use crate::structure::entry::Entry;
use crate::structure::sound_text::scenario_structure;
use crate::told::places::{Places, findings_of, findings_of_misfits};
use crate::told::remark::Remark;
use crate::told::subjects::with_subjects;
use crate::told::warnings::{Warning, warnings};

/// A scenario whose plan is sound with everyone it names, those of `aid` too.
pub(crate) struct Everyone {
    pub(crate) aid: Aid,
    pub(crate) notes: Vec<String>,
    pub(crate) crew: Crew,
    pub(crate) hose: Hose,
    pub(crate) survey: Survey,
    pub(crate) derived: Vec<Derived>,
    pub(crate) buildings: Vec<BuildingFlow>,
    remarks: Vec<Remark>,
    units: Units,
}

impl Everyone {
    /// - Errors: every mistake of the scenario beyond its structure.
    pub(crate) fn read(structure: &Structure) -> Result<Everyone, Vec<Finding>> {
        let units = structure.units;
        let Reading { draft, notes, crew, hose, survey, reader } =
            draft_of(&Entry::root(&structure.root), units);
        let root = Entry::root(&structure.root);
        let places = Places { root: &structure.root };
        let mut findings = findings_of_misfits(reader.mistakes, &places);
        match (Plan::check(draft), hose) {
            (Ok(plan), Some(hose)) if findings.is_empty() => Ok(Everyone {
                aid: Aid::of(plan, places.own_tankers(), called(&root)),
                notes,
                crew,
                hose,
                survey,
                derived: reader.derived,
                buildings: reader.buildings,
                remarks: reader.warnings,
                units,
            }),
            (checked, _) => {
                findings.extend(findings_of(checked.err().unwrap_or_default(), &places, units));
                Err(findings)
            }
        }
    }

    /// The plan of those who come anyway, with what a person should know of it.
    ///
    /// - Errors: what is wrong with the plan once nobody of `aid` comes.
    pub(crate) fn who_come(
        &mut self,
        places: &Places<'_>,
        lines: &Lines<'_>,
    ) -> Result<(Plan, Vec<Warning>), Vec<Finding>> {
        let plan = with_tankers(&self.aid.everyone, &self.aid.comes_anyway())
            .map_err(|mistakes| findings_of(mistakes, places, self.units))?;
        let remarks = std::mem::take(&mut self.remarks);
        let warnings = warnings(remarks, &plan, places, lines, self.units);
        Ok((plan, warnings))
    }
}

/// What a changed text comes to.
pub(crate) struct Changed {
    /// Those who come.
    pub(crate) plan: Plan,
    /// Everyone, aid too.
    pub(crate) everyone: Plan,
    /// What is stated for a grading; its addresses are those of the scenario, and left out here.
    pub(crate) survey: Survey,
    pub(crate) warnings: Vec<Warning>,
}

/// The plan of a scenario's text, with what a person should know of it; its options are left aside.
pub(crate) fn plan_of(path: &Path, text: &str) -> Result<Changed, ScenarioError> {
    let lines = Lines::of(text);
    let wrong =
        |findings: Vec<Finding>, given_up: bool| mistakes_of(path, &lines, findings, given_up);
    let mut structure = scenario_structure(path, text).map_err(|one| wrong(vec![one], false))?;
    if !structure.findings.is_empty() {
        let findings = std::mem::take(&mut structure.findings);
        return Err(with_subjects(wrong(findings, structure.given_up), &structure.root).into());
    }
    let wrong = |findings: Vec<Finding>| with_subjects(wrong(findings, false), &structure.root);
    let mut everyone = Everyone::read(&structure).map_err(wrong)?;
    let places = Places { root: &structure.root };
    let (plan, warnings) = everyone.who_come(&places, &lines).map_err(wrong)?;
    let survey = Survey { addresses: Vec::new(), ..everyone.survey };
    Ok(Changed { plan, everyone: everyone.aid.everyone, survey, warnings })
}
