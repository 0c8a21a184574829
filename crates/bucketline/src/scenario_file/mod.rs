//! Scenario files: reading them, telling what is wrong with them, describing them to editors.
//!
//! One table ([`format`]) describes every object and field. A text is parsed with positions and
//! checked against it ([`structure`]), read into a draft of a plan ([`reading`]), and the draft is
//! checked as a plan; every mistake leads back to its line and column. [`json_schema`] comes from
//! the same table.

mod quantity;

mod units;

mod words;

mod table;

mod format_facts;

mod format_building;

mod format_shuttle;

mod format;

mod position;

mod parsing;

mod mistake;

mod node;

mod single_value;

mod structure;

mod reading;

mod reading_tankers;

mod reading_building;

mod facts;

mod fact_words;

mod schema;

mod building_file;

mod write_flow;

mod equal;

mod options;

mod patching;

mod pointing;

mod aid;

use std::collections::HashSet;
use std::fmt;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use shuttle_report::evidence::Stated;
use shuttle_report::variation::with_tankers;
use shuttle_sim::{Mistake, Plan, oddities_in};

use mistake::{Finding, mistakes_of};
use node::{Entry, Node};
use parsing::{parse, strictly_json};
use position::{Lines, Span};
use reading::{Misfit, Reading, Remark};
use structure::{Holds, Structure};
pub(crate) use words::{in_round_units, in_units, round_flow, round_volume};

pub use aid::Aid;
pub use building_file::{WaterWanted, load_building};
pub use mistake::{FileMistake, FileMistakes, ScenarioError};
pub use options::ScenarioOption;
pub use quantity::Units;
pub use reading_building::{BuildingFlow, Crew, Hose};
pub use schema::{building_schema, json_schema};
pub use write_flow::{Replaced, with_building_flow};

/// A whole scenario that runs, to start a new one from: an invented fire in an invented county.
pub const STARTER: &str = include_str!("starter.json");

/// A file larger than this is no scenario, bytes.
const MOST_BYTES: u64 = 8 * 1024 * 1024;

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
    /// Values worked out from facts, in the order they were needed.
    pub derived: Vec<Derived>,
    /// The building behind the attack flow, if one stands there; of several the first.
    pub building: Option<BuildingFlow>,
    /// Which figures of each listed tanker the file states, those of `aid` behind the others.
    pub stated: Vec<Stated>,
    /// People for the plan.
    pub crew: Crew,
    /// Fill sites that have a pump: all that are no hydrant.
    pub fill_pumps: u32,
    /// Hose in place of tankers.
    pub hose: Hose,
    /// Who could be asked for.
    pub aid: Aid,
    /// What could be changed, in the order of the file.
    pub options: Vec<ScenarioOption>,
}

/// Something in a scenario that is allowed and that a person should know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Warning {
    /// Where by keys, such as `drop_tanks[0].unusable`.
    pub place: String,
    /// Line of the place, or of what would hold it; from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What to know.
    pub text: String,
}

/// `12:5: drop_tanks[0].unusable: ...`, to go behind the name of the file.
impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (line, column) = (self.line, self.column);
        write!(f, "{line}:{column}: {}: {}", self.place, self.text)
    }
}

/// A value worked out from the facts behind it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Derived {
    /// Where by keys, such as `fill_sites[0].flow.hydrant`.
    pub place: String,
    /// The formula with its numbers, in US units.
    pub text: String,
}

/// Reads a scenario file.
///
/// - Errors: [`ScenarioError::Unreadable`] when there is no text to be had; [`ScenarioError::Wrong`]
///   with every mistake at once.
pub fn load(path: &Path) -> Result<Scenario, ScenarioError> {
    read_text(path, &text_of(path)?)
}

/// The text of a file.
fn text_of(path: &Path) -> Result<String, ScenarioError> {
    let unreadable = |problem: String, cure: Option<&str>| ScenarioError::Unreadable {
        path: path.to_path_buf(),
        problem,
        cure: cure.map(str::to_string),
    };
    if path.is_dir() {
        let cure = "give the name of a scenario file in it";
        return Err(unreadable("it is a directory".to_string(), Some(cure)));
    }
    let mut bytes = Vec::new();
    let read = File::open(path).and_then(|file| file.take(MOST_BYTES + 1).read_to_end(&mut bytes));
    if let Err(error) = read {
        return Err(match error.kind() {
            std::io::ErrorKind::NotFound => unreadable(
                "there is no such file".to_string(),
                Some("check the name and the folder"),
            ),
            _ => unreadable(error.to_string(), None),
        });
    }
    if bytes.len() as u64 > MOST_BYTES {
        let problem = "it is larger than 8 MB, too large for a scenario";
        return Err(unreadable(problem.to_string(), None));
    }
    match String::from_utf8(bytes) {
        Ok(text) => Ok(text),
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let before = error.as_bytes()[..at].iter();
            let line = before.filter(|byte| **byte == b'\n').count() + 1;
            let problem = format!("it is not UTF-8 text (line {line})");
            Err(unreadable(problem, Some("save it as UTF-8 in your editor")))
        }
    }
}

/// Reads the text of a scenario; the path only goes into messages.
///
/// - Errors: [`ScenarioError::Wrong`] with every mistake at once.
pub fn read(path_for_messages: &Path, text: &str) -> Result<Scenario, ScenarioError> {
    if text.len() as u64 > MOST_BYTES {
        return Err(ScenarioError::Unreadable {
            path: path_for_messages.to_path_buf(),
            problem: "it is larger than 8 MB, too large for a scenario".to_string(),
            cure: None,
        });
    }
    read_text(path_for_messages, text)
}

fn read_text(path: &Path, text: &str) -> Result<Scenario, ScenarioError> {
    // Some editors put a byte order mark before UTF-8 text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let lines = Lines::of(text);
    let value = parse(text).map_err(|one| mistakes_of(path, &lines, vec![one], false))?;
    if let Some(one) = building_file::not_a_scenario(path, &value) {
        return Err(mistakes_of(path, &lines, vec![one], false).into());
    }
    let mut structure = structure::check(&value, Holds::Scenario);
    if !structure.findings.is_empty() {
        let mut findings = std::mem::take(&mut structure.findings);
        if !structure.given_up {
            findings.extend(options::make_changes(text, &structure.root, &findings).1);
        }
        return Err(mistakes_of(path, &lines, findings, structure.given_up).into());
    }
    strictly_json(text).map_err(|one| mistakes_of(path, &lines, vec![one], false))?;
    let wrong = |findings: Vec<Finding>| -> ScenarioError {
        mistakes_of(path, &lines, findings, false).into()
    };
    let root = Entry::root(&structure.root);
    let Reading { draft, notes, crew, hose, found } = reading::read(&root, structure.units);
    let places = Places { root: &structure.root };
    let units = structure.units;
    let mut findings: Vec<Finding> = findings_of_misfits(found.mistakes, &places);
    let (changed, of_options) = options::make_changes(text, &structure.root, &[]);
    let (everyone, hose) = match (Plan::check(draft), hose) {
        (Ok(plan), Some(hose)) if findings.is_empty() => (plan, hose),
        (checked, _) => {
            findings.extend(findings_of(checked.err().unwrap_or_default(), &places, units));
            findings.extend(of_options);
            return Err(wrong(findings));
        }
    };
    let aid = Aid::of(everyone, places.own_tankers());
    let plan = match with_tankers(&aid.everyone, &aid.comes_anyway()) {
        Ok(plan) => plan,
        Err(mistakes) => return Err(wrong(findings_of(mistakes, &places, units))),
    };
    let warnings = warnings(found.warnings, &plan, &places, &lines, units);
    let at = (&structure.root, &lines);
    let options = options::read(path, at, changed, of_options, &warnings).map_err(&wrong)?;
    Ok(Scenario {
        path: path.to_path_buf(),
        units,
        notes,
        plan,
        warnings,
        derived: found.derived,
        building: found.buildings.into_iter().next(),
        stated: reading_tankers::stated_of_tankers(&root),
        crew,
        fill_pumps: fill_pumps(&root),
        hose,
        aid,
        options,
    })
}

/// A text with its structure sound, and what it was found to hold.
fn checked(
    path: &Path,
    text: &str,
    lines: &Lines<'_>,
    holds: impl Fn(&jsonc_parser::ast::Value<'_>) -> Holds,
) -> Result<(Structure, Holds), ScenarioError> {
    let wrong = |findings: Vec<Finding>, given_up: bool| -> ScenarioError {
        mistakes_of(path, lines, findings, given_up).into()
    };
    let value = parse(text).map_err(|finding| wrong(vec![finding], false))?;
    let holds = holds(&value);
    let mut structure = structure::check(&value, holds);
    if !structure.findings.is_empty() {
        return Err(wrong(std::mem::take(&mut structure.findings), structure.given_up));
    }
    strictly_json(text).map_err(|finding| wrong(vec![finding], false))?;
    Ok((structure, holds))
}

/// Fill sites with a pump of their own: all but hydrants.
fn fill_pumps(root: &Entry<'_>) -> u32 {
    let by_hydrant = |site: &Entry<'_>| {
        site.some_entry("flow").is_some_and(|facts| facts.shape() == "flow_by_hydrant")
    };
    root.list("fill_sites").iter().filter(|site| !by_hydrant(site)).count() as u32
}

fn findings_of_misfits(misfits: Vec<Misfit>, places: &Places<'_>) -> Vec<Finding> {
    (misfits.into_iter())
        .map(|misfit| Finding {
            span: places.mark(&misfit.place),
            place: misfit.place,
            problem: misfit.problem,
            limit: misfit.limit,
            cure: misfit.cure,
        })
        .collect()
}

/// Finds paths of the plan in the text.
struct Places<'n> {
    root: &'n Node,
}

impl Places<'_> {
    /// What to mark for a path: the value, or what would hold it.
    fn mark(&self, place: &str) -> Span {
        self.root.reach(place).0.mark()
    }

    /// How many entries `tankers` has; the plan counts those of `aid` on from there.
    fn own_tankers(&self) -> usize {
        match (self.root.reach("tankers"), &self.root.reach("tankers").0.value) {
            ((_, true), node::Value::List(entries)) => entries.len(),
            _ => 0,
        }
    }

    /// `tankers[7].capacity` as `aid[2].capacity` where the file lists five tankers of its own.
    fn in_aid(&self, place: String) -> String {
        let aid = place.strip_prefix("tankers[").and_then(|rest| {
            let (listed, rest) = rest.split_once(']')?;
            let listed = listed.parse::<usize>().ok()?.checked_sub(self.own_tankers())?;
            Some(format!("aid[{listed}]{rest}"))
        });
        aid.unwrap_or(place)
    }

    /// The path by which the file states a value: handling times of a tanker may stand in the
    /// common `handling`, and a tanker may stand in `aid`.
    fn as_stated(&self, place: String) -> String {
        let place = self.in_aid(place);
        if let (_, false) = self.root.reach(&place)
            && let Some((_, key)) = place.split_once(".handling.")
        {
            let common = format!("handling.{key}");
            let (key, _) = key.split_once('.').unwrap_or((key, ""));
            if let (_, true) = self.root.reach(&format!("handling.{key}")) {
                return common;
            }
        }
        place
    }
}

/// The mistakes of a plan as findings, each once: tankers may share their handling times.
fn findings_of(mistakes: Vec<Mistake>, places: &Places<'_>, units: Units) -> Vec<Finding> {
    let mut seen = HashSet::new();
    let mut findings = Vec::new();
    for mistake in mistakes {
        let place = places.as_stated(mistake.place);
        let span = places.mark(&place);
        let problem = in_units(&mistake.problem, units);
        if seen.insert((place.clone(), problem.clone())) {
            findings.push(Finding {
                place,
                span,
                problem,
                limit: Some(in_units(&mistake.limit, units)),
                cure: mistake.cure.map(|cure| in_units(&cure, units)),
            });
        }
    }
    findings
}

fn warnings(
    remarks: Vec<Remark>,
    plan: &Plan,
    places: &Places<'_>,
    lines: &Lines<'_>,
    units: Units,
) -> Vec<Warning> {
    let handling_said = remarks.iter().any(|remark| remark.place == "handling");
    let odd = (oddities_in(plan.facts()).into_iter())
        // Silent handling times are already told, with what is usual.
        .filter(|oddity| !(handling_said && oddity.place.ends_with(".handling")))
        .map(|oddity| Remark { place: oddity.place, text: oddity.text });
    placed(remarks.into_iter().chain(odd).collect(), places, lines, units)
}

/// Remarks as warnings, in the order of the text.
fn placed(
    remarks: Vec<Remark>,
    places: &Places<'_>,
    lines: &Lines<'_>,
    units: Units,
) -> Vec<Warning> {
    let mut placed: Vec<(Span, Remark)> =
        (remarks.into_iter()).map(|remark| (places.mark(&remark.place), remark)).collect();
    placed.sort_by_key(|(span, _)| span.start);
    (placed.into_iter())
        .map(|(span, remark)| {
            let (line, column) = lines.line_and_column(span.start);
            Warning { place: remark.place, line, column, text: in_units(&remark.text, units) }
        })
        .collect()
}

#[cfg(test)]
mod tests;
