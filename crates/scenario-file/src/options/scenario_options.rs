//! Options of a scenario: the same scenario with something changed, written as JSON Patch (RFC 6902)
//! against the text of the file.
//!
//! An option is applied to the scenario as written, without its `options`, and read like any other
//! scenario. A mistake is traced to the change that caused it, or else to the option.

use std::path::Path;

use json_patch::{Patch, PatchOperation};
use serde_json::Value as Json;
use shuttle_report::survey::Survey;
use shuttle_sim::Plan;

use super::option_findings::{called, finding, mark, with_option};
use super::patching::made_in;
use crate::errors::finding::Finding;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, on_file, on_page, says, typed, whole_name};
use crate::errors::mistakes::ScenarioError;
use crate::errors::position::Lines;
use crate::format::options::OfOption;
use crate::format::takes::Nested;
use crate::format::whole_files::OfScenario;
use crate::read::checked_plan::{Changed as ChangedPlan, plan_of};
use crate::structure::checked_value::{Node, Value};
use crate::structure::entry::Entry;
use crate::structure::reads::Reads;
use crate::told::warnings::Warning;

/// An option of a scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct ScenarioOption {
    /// What it is called.
    pub name: String,
    /// What it costs beyond the scenario as it stands, in the file's own currency.
    pub cost: Option<f64>,
    /// The plan with it.
    pub plan: Plan,
    /// The plan with it and with everyone, aid too.
    pub everyone: Plan,
    /// What is stated for a grading with it; the addresses are the scenario's.
    pub survey: Survey,
    /// What a person should know about that plan and not of the scenario as it stands, at the change behind
    /// it.
    pub warnings: Vec<Warning>,
    /// Its changes, against the text of the file without its options.
    pub(crate) patch: Patch,
}

/// An option whose changes apply to the text of the file.
pub(crate) struct Changed<'n> {
    entry: Entry<'n, OfOption>,
    patch: Patch,
}

/// The options whose changes apply, and what they apply to. The changed documents are made one at a time: fifty
/// of them at once would take fifty times the memory of the file.
pub(crate) struct Made<'n> {
    pub(crate) base: Json,
    changed: Vec<Changed<'n>>,
}

impl Changed<'_> {
    /// The change behind a place of the changed document, or else all changes of the option.
    fn change_behind(&self, place: &str) -> String {
        let changes = self.entry.at(&OfOption::CHANGES);
        match blamed(&self.patch, place) {
            Some(at) => format!("{changes}[{at}]"),
            None => changes,
        }
    }
}

/// Applies the changes of every option whose own structure is sound, whatever else is wrong with the file,
/// and reports those that cannot be applied.
///
/// - Given: `text`, of the file; `root`, its structure; `unsound`, what is wrong with that.
pub(crate) fn make_changes<'n>(
    text: &str,
    root: &'n Node,
    unsound: &[Finding],
) -> (Made<'n>, Vec<Finding>) {
    let (mut changed, mut findings) = (Vec::new(), Vec::new());
    // Not strictly JSON, which is reported elsewhere.
    let mut base = serde_json::from_str::<Json>(text).unwrap_or_default();
    let stated = base.as_object_mut().and_then(|fields| fields.remove(OfScenario::OPTIONS.key()));
    let is_sound = |place: &str| !unsound.iter().any(|finding| begins_with(&finding.place, place));
    let mut names: Vec<String> = Vec::new();
    for entry in sound_entries(root, is_sound) {
        let name = entry.get(&OfOption::NAME).to_owned();
        if names.contains(&name) {
            let told = (
                says!["a second option is called ", whole_name(&name)],
                Some("each option by a name of its own".into()),
                "give it another name".into(),
            );
            findings.push(finding(root, entry.at(&OfOption::NAME), MistakeKind::Taken, told));
        }
        names.push(name);
        let changes = stated.as_ref().and_then(|stated| {
            let index = entry.place.strip_prefix("options[")?.strip_suffix(']')?;
            stated.get(index.parse::<usize>().ok()?)?.get(OfOption::CHANGES.key())
        });
        match made_in(&base, changes, &entry, root) {
            Ok(patch) => changed.push(Changed { entry, patch }),
            Err(wrong) => findings.extend(wrong),
        }
    }
    (Made { base, changed }, findings)
}

/// The options in which nothing is wrong.
fn sound_entries(root: &Node, is_sound: impl Fn(&str) -> bool) -> Vec<Entry<'_, OfOption>> {
    let stated = root.child(OfScenario::OPTIONS.key()).map(|node| &node.value);
    let Some(Value::List(nodes)) = stated else {
        return Vec::new();
    };
    (nodes.iter().enumerate())
        .map(|(index, node)| (node, format!("{}[{index}]", OfScenario::OPTIONS.key())))
        .filter(|(_, place)| is_sound(place))
        .filter_map(|(node, place)| Nested::<OfOption>::read(node, &|| place.clone()))
        .collect()
}

/// Whether a path is another one or lies below it.
fn begins_with(path: &str, above: &str) -> bool {
    path.strip_prefix(above).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}

/// The plans with the changes, of a scenario that is sound itself.
///
/// - Given: `findings`, what is wrong with other options; `own`, the warnings of the scenario itself.
pub(crate) fn with_each(
    path: &Path,
    (root, lines): (&Node, &Lines<'_>),
    made: Made<'_>,
    mut findings: Vec<Finding>,
    own: &[Warning],
) -> Result<Vec<ScenarioOption>, Vec<Finding>> {
    let mut options: Vec<ScenarioOption> = Vec::new();
    for changed in made.changed {
        let name = changed.entry.get(&OfOption::NAME).to_owned();
        let cost = changed.entry.get(&OfOption::COST);
        match plan_with(path, &made.base, &changed, root) {
            Ok(changed_plan) => {
                let ChangedPlan { plan, everyone, survey, warnings } = changed_plan;
                let at_its_change = |one: Warning| {
                    let place = changed.change_behind(&one.place);
                    let (line, column) = lines.line_and_column(mark(root, &place).start);
                    let text = with_option(changed.entry.get(&OfOption::NAME), one.said());
                    // It comes with the option, so it is told where options are.
                    let (subject, is_counted) = (Message::default(), false);
                    Warning { place, line, column, subject, kind: one.kind, text, is_counted }
                };
                let warnings = new_ones(warnings, own).into_iter().map(at_its_change).collect();
                let patch = changed.patch;
                options.push(ScenarioOption {
                    name,
                    cost,
                    plan,
                    everyone,
                    survey,
                    warnings,
                    patch,
                });
            }
            Err(wrong) => findings.extend(wrong),
        }
    }
    if findings.is_empty() { Ok(options) } else { Err(findings) }
}

/// The warnings that the scenario as it stands does not have. An entry of a list may have moved; its text
/// is then the same.
pub(crate) fn new_ones(mut warnings: Vec<Warning>, own: &[Warning]) -> Vec<Warning> {
    let mut own: Vec<&Warning> = own.iter().collect();
    let same = [
        |a: &Warning, b: &Warning| a.place == b.place && a.text == b.text,
        |a: &Warning, b: &Warning| a.text == b.text,
    ];
    for same in same {
        warnings.retain(|one| match own.iter().position(|other| same(one, other)) {
            Some(known) => {
                own.remove(known);
                false
            }
            None => true,
        });
    }
    warnings
}

/// The plan with the changes of one option.
fn plan_with(
    path: &Path,
    base: &Json,
    changed: &Changed<'_>,
    root: &Node,
) -> Result<ChangedPlan, Vec<Finding>> {
    let Changed { entry, patch } = changed;
    let mut document = base.clone();
    if let Err(error) = json_patch::patch(&mut document, patch) {
        unreachable!("{}: the changes have been made before: {error}", entry.place);
    }
    let text = document.to_string();
    drop(document);
    match plan_of(path, &text) {
        Ok(plan) => Ok(plan),
        Err(ScenarioError::Wrong(mistakes)) => Err(mistakes
            .list
            .into_iter()
            .map(|mistake| {
                let place = changed.change_behind(&mistake.place);
                let at = if mistake.place.is_empty() {
                    "the scenario".into()
                } else {
                    says![on_file(typed(mistake.place)), on_page(mistake.subject)]
                };
                let problem =
                    says!["with ", called(entry), " ", at, " is wrong: ", mistake.problem];
                finding(root, place, mistake.kind, (problem, mistake.limit, mistake.cure))
            })
            .collect()),
        Err(ScenarioError::Asked(asked)) => unreachable!("nothing is asked for: {asked}"),
        Err(ScenarioError::Unreadable { problem, cure, .. }) => {
            let told = (problem, None, cure);
            Err(vec![finding(root, entry.at(&OfOption::CHANGES), MistakeKind::TooMuch, told)])
        }
    }
}

/// The last change that touches the path of a mistake, above it or below.
fn blamed(patch: &Patch, place: &str) -> Option<usize> {
    let wrong: Vec<&str> = (place.split(['.', '[', ']'])).filter(|step| !step.is_empty()).collect();
    if wrong.is_empty() {
        return None;
    }
    let meets = |path: &str| {
        // The end of a list may be any of its entries.
        let meet = |(step, wrong): (&str, &&str)| step == *wrong || step == "-";
        path.split('/').skip(1).zip(&wrong).all(meet)
    };
    patch.0.iter().rposition(|change| {
        // A move also leaves a gap where the value stood.
        let left = match change {
            PatchOperation::Move(one) => Some(one.from.as_str()),
            _ => None,
        };
        meets(change.path().as_str()) || left.is_some_and(meets)
    })
}
