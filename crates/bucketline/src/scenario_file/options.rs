//! Options of a scenario: the same scenario with something changed, written as JSON Patch (RFC 6902)
//! against the text of the file.
//!
//! An option is applied to the scenario as written, without its `options`, and read like any other
//! scenario. What is then wrong leads back to the change that made it so, and else to the option.

use std::path::Path;

use json_patch::{Patch, PatchError, PatchOperation};
use serde_json::Value as Json;
use shuttle_sim::Plan;

use super::equal::is_equal;
use super::mistake::Finding;
use super::node::{Entry, Node, Value};
use super::pointing::leads_nowhere;
use super::position::{Lines, Span};
use super::quantity::Quantity;
use super::table::{Field, Kind, Object};
use super::words::shorten;
use super::{Scenario, ScenarioError, Warning, read_text};

/// Most options in one file.
const MOST_OPTIONS: usize = 50;
/// Most changes in one option.
const MOST_CHANGES: usize = 100;
/// The longest path of a change, characters.
const LONGEST_PATH: usize = 1_000;
/// Costs, in any money: generous.
const COST: Kind = Kind::Number(
    Quantity::Plain,
    (std::ops::Bound::Included(0.0), std::ops::Bound::Included(1e12)),
);

/// What a scenario may hold in `options`.
pub(super) const OPTIONS: Kind = Kind::List(&Kind::Shapes(&[&OPTION]), 0, MOST_OPTIONS);

static OPTION: Object = Object {
    what: "an option",
    def: "option",
    doc: "The same scenario with something changed, for `bucketline compare`; other commands leave it aside.",
    fields: &[
        Field::required("name", Kind::Text(Plan::LIMITS.name_length), "What it is called."),
        Field::optional(
            "cost",
            COST,
            "Silent: its cost is not known.",
            "What it costs beyond the scenario as it stands, in any money, the same for all options.",
        ),
        Field::required(
            "changes",
            Kind::List(&Kind::Shapes(&[&CHANGE]), 1, MOST_CHANGES),
            "JSON Patch (RFC 6902): what to change in the file as it is written, one after the other.",
        ),
    ],
    rules: &[],
    strays: &[("change", "`changes` is a list of changes"), ("patch", "write `changes`")],
};

static CHANGE: Object = Object {
    what: "a change",
    def: "change",
    doc: "One operation of JSON Patch.",
    fields: &[
        Field::required(
            "op",
            Kind::Choice(&[
                ("add", "Puts `value` there; in a list, before what is there (\"-\": at the end)."),
                ("remove", "Takes away what is there."),
                ("replace", "Puts `value` in the place of what is there."),
                ("move", "Takes what is at `from` there."),
                ("copy", "Puts what is at `from` there too."),
                ("test", "The option is wrong unless `value` is there."),
            ]),
            "What is done.",
        ),
        Field::required(
            "path",
            Kind::Text(LONGEST_PATH),
            "Where, as a JSON Pointer (RFC 6901): \"/drop_tanks/0/capacity\", lists counted from 0.",
        ),
        Field::optional(
            "from",
            Kind::Text(LONGEST_PATH),
            "Silent: only move and copy need it.",
            "Where from, as a JSON Pointer.",
        ),
        Field::optional(
            "value",
            Kind::Anything,
            "Silent: only add, replace and test need it.",
            "Whatever is to stand there.",
        ),
    ],
    rules: &[],
    strays: &[],
};

/// An option of a scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct ScenarioOption {
    /// What it is called.
    pub name: String,
    /// What it costs beyond the scenario as it stands, in the file's own money.
    pub cost: Option<f64>,
    /// The plan with it.
    pub plan: Plan,
    /// What a person should know of that plan and not of the scenario as it stands, at the change behind it.
    pub warnings: Vec<Warning>,
}

/// An option whose changes could be made in the text of the file.
pub(super) struct Changed<'n> {
    entry: Entry<'n>,
    patch: Patch,
    document: Json,
}

impl Changed<'_> {
    /// The change behind a place of the changed document, or else all changes of the option.
    fn change_behind(&self, place: &str) -> String {
        let changes = self.entry.at("changes");
        match blamed(&self.patch, place) {
            Some(at) => format!("{changes}[{at}]"),
            None => changes,
        }
    }
}

/// Makes the changes of every option whose own structure is sound, whatever else is wrong with the
/// file, and tells of those that cannot be made.
///
/// - Given: `text`, of the file; `root`, its structure; `unsound`, what is wrong with that.
pub(super) fn make_changes<'n>(
    text: &str,
    root: &'n Node,
    unsound: &[Finding],
) -> (Vec<Changed<'n>>, Vec<Finding>) {
    let (mut made, mut findings) = (Vec::new(), Vec::new());
    // Not strictly JSON: told elsewhere.
    let Ok(mut base) = serde_json::from_str::<Json>(text) else {
        return (made, findings);
    };
    let stated = base.as_object_mut().and_then(|fields| fields.remove("options"));
    let is_sound = |place: &str| !unsound.iter().any(|finding| begins_with(&finding.place, place));
    let mut names: Vec<String> = Vec::new();
    for entry in sound_entries(root, is_sound) {
        let name = entry.text_stated("name");
        if names.contains(&name) {
            findings.push(finding(
                root,
                entry.at("name"),
                format!("a second option is called \"{name}\""),
                Some("each option by a name of its own".to_owned()),
                Some("give it another name".to_owned()),
            ));
        }
        names.push(name);
        let changes = stated.as_ref().and_then(|stated| {
            let index = entry.place.strip_prefix("options[")?.strip_suffix(']')?;
            stated.get(index.parse::<usize>().ok()?)?.get("changes")
        });
        match made_in(&base, changes, &entry, root) {
            Ok((patch, document)) => made.push(Changed { entry, patch, document }),
            Err(wrong) => findings.extend(wrong),
        }
    }
    (made, findings)
}

/// The options in which nothing is wrong.
fn sound_entries(root: &Node, is_sound: impl Fn(&str) -> bool) -> Vec<Entry<'_>> {
    let stated = match &root.value {
        Value::Object(_) => Entry::root(root).stated("options"),
        _ => None,
    };
    let Some(Value::List(nodes)) = stated.map(|node| &node.value) else {
        return Vec::new();
    };
    (nodes.iter().enumerate())
        .map(|(index, node)| (node, format!("options[{index}]")))
        .filter(|(node, place)| matches!(node.value, Value::Object(_)) && is_sound(place))
        .map(|(node, place)| Entry::of(node, place))
        .collect()
}

/// Whether a path is another one or lies below it.
fn begins_with(path: &str, above: &str) -> bool {
    path.strip_prefix(above).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}

/// The plans with the changes, of a scenario that is sound itself.
///
/// - Given: `findings`, what is wrong with other options; `own`, the warnings of the scenario itself.
pub(super) fn read(
    path: &Path,
    (root, lines): (&Node, &Lines<'_>),
    made: Vec<Changed<'_>>,
    mut findings: Vec<Finding>,
    own: &[Warning],
) -> Result<Vec<ScenarioOption>, Vec<Finding>> {
    let mut options: Vec<ScenarioOption> = Vec::new();
    for changed in made {
        let name = changed.entry.text_stated("name");
        let cost = changed.entry.some_number("cost");
        match scenario_of(path, &changed, root) {
            Ok(Scenario { plan, warnings, .. }) => {
                let at_its_change = |one: Warning| {
                    let place = changed.change_behind(&one.place);
                    let (line, column) = lines.line_and_column(mark(root, &place).start);
                    let text =
                        format!("with {} {}: {}", called(&changed.entry), one.place, one.text);
                    Warning { place, line, column, text }
                };
                let warnings = new_ones(warnings, own).into_iter().map(at_its_change).collect();
                options.push(ScenarioOption { name, cost, plan, warnings });
            }
            Err(wrong) => findings.extend(wrong),
        }
    }
    if findings.is_empty() { Ok(options) } else { Err(findings) }
}

/// The warnings that are not among those of the scenario as it stands. An entry of a list may have another
/// place by now, and its text is the same.
fn new_ones(mut warnings: Vec<Warning>, own: &[Warning]) -> Vec<Warning> {
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

/// "option "bigger pond"".
fn called(entry: &Entry<'_>) -> String {
    format!("option \"{}\"", shorten(&entry.text_stated("name")))
}

/// The greatest weight of a changed document: many times any scenario, and nothing to a computer.
const MOST_CHANGED_BYTES: u64 = 1_000_000;

/// The document with the changes of one option.
fn made_in(
    base: &Json,
    changes: Option<&Json>,
    entry: &Entry<'_>,
    root: &Node,
) -> Result<(Patch, Json), Vec<Finding>> {
    complete(entry, root)?;
    let patch: Patch = changes
        .and_then(|changes| serde_json::from_value(changes.clone()).ok())
        .ok_or_else(|| {
            let problem = format!("{}: these changes are no JSON Patch", called(entry));
            let cure =
                "a path is empty or begins with \"/\": \"/drop_tanks/0/capacity\"".to_owned();
            vec![finding(root, entry.at("changes"), problem, None, Some(cure))]
        })?;
    let patch = one_by_one(base, patch, entry, root)?;
    let mut document = base.clone();
    json_patch::patch(&mut document, &patch)
        .map_err(|error| vec![cannot(&error, &patch, base, entry, root)])?;
    Ok((patch, document))
}

/// The changes looked at one after the other, each on what the changes before have left.
///
/// - Copies can double a document again and again: what a file may not weigh, its changed document may not.
/// - The library compares numbers as they are written; by RFC 6902, section 4.6, they are equal if their
///   values are. A test that holds by its values is returned with the value as it is written there.
fn one_by_one(
    base: &Json,
    mut patch: Patch,
    entry: &Entry<'_>,
    root: &Node,
) -> Result<Patch, Vec<Finding>> {
    let mut document = base.clone();
    for (place, change) in patch.0.iter_mut().enumerate() {
        match change {
            PatchOperation::Copy(copy) => {
                let copied =
                    document.pointer(copy.from.as_str()).map_or(0, |one| one.to_string().len());
                let weight = (document.to_string().len() + copied) as u64;
                if weight > MOST_CHANGED_BYTES {
                    let at = format!("{}[{place}]", entry.at("changes"));
                    let problem =
                        format!("{}: with this copy the scenario is too large", called(entry));
                    let limit = format!("at most {MOST_CHANGED_BYTES} bytes of text");
                    let cure = "copy one entry, not a whole list into itself".to_owned();
                    return Err(vec![finding(root, at, problem, Some(limit), Some(cure))]);
                }
            }
            PatchOperation::Test(test) => {
                let there = document.pointer(test.path.as_str());
                if let Some(there) = there.filter(|there| is_equal(there, &test.value)) {
                    test.value = there.clone();
                }
            }
            _ => {}
        }
        // A change that cannot be made is told where all are made.
        if json_patch::patch(&mut document, std::slice::from_ref(change)).is_err() {
            break;
        }
    }
    Ok(patch)
}

/// The scenario with the changes of one option.
fn scenario_of(path: &Path, changed: &Changed<'_>, root: &Node) -> Result<Scenario, Vec<Finding>> {
    let Changed { entry, document, .. } = changed;
    match read_text(path, &document.to_string()) {
        Ok(scenario) => Ok(scenario),
        Err(ScenarioError::Wrong(mistakes)) => Err(mistakes
            .list
            .into_iter()
            .map(|mistake| {
                let place = changed.change_behind(&mistake.place);
                let at = if mistake.place.is_empty() { "the scenario" } else { &mistake.place };
                let problem = format!("with {} {at} is wrong: {}", called(entry), mistake.problem);
                finding(root, place, problem, mistake.limit, mistake.cure)
            })
            .collect()),
        Err(ScenarioError::Unreadable { problem, cure, .. }) => {
            Err(vec![finding(root, entry.at("changes"), problem, None, cure)])
        }
    }
}

/// Each operation with the fields it needs.
fn complete(entry: &Entry<'_>, root: &Node) -> Result<(), Vec<Finding>> {
    let mut findings = Vec::new();
    for change in entry.list("changes") {
        let op = change.text_stated("op");
        for key in ["path", "from"] {
            if change.stated(key).is_none() {
                continue;
            }
            let pointer = change.text_stated(key);
            if pointer == "/options" || pointer.starts_with("/options/") {
                let problem = format!(
                    "{}: the change at \"{pointer}\" cannot be made: an option cannot change `options`",
                    called(entry)
                );
                let cure = "write the change into the option itself".to_owned();
                findings.push(finding(root, change.place.clone(), problem, None, Some(cure)));
                break;
            }
        }
        let needs = match op.as_str() {
            "add" | "replace" | "test" => "value",
            "move" | "copy" => "from",
            _ => continue,
        };
        if change.stated(needs).is_none() {
            let problem = format!("{}: \"{op}\" needs `{needs}`", called(entry));
            let cure = match needs {
                "from" => "add \"from\": the path of what is taken",
                _ => "add \"value\": whatever is to stand at the path",
            };
            findings.push(finding(root, change.place, problem, None, Some(cure.to_owned())));
        }
    }
    if findings.is_empty() { Ok(()) } else { Err(findings) }
}

/// A change that could not be made.
fn cannot(
    error: &PatchError,
    patch: &Patch,
    base: &Json,
    entry: &Entry<'_>,
    root: &Node,
) -> Finding {
    let mut place = format!("{}[{}]", entry.at("changes"), error.operation);
    // What the changes before have made of the file.
    let mut document = base.clone();
    let before = Patch(patch.0[..error.operation.min(patch.0.len())].to_vec());
    let _ = json_patch::patch(&mut document, &before);
    let operation = patch.0.get(error.operation);
    let from = match operation {
        Some(PatchOperation::Move(one)) => Some(one.from.to_string()),
        Some(PatchOperation::Copy(one)) => Some(one.from.to_string()),
        _ => None,
    };
    let from_where = from.and_then(|from| Some((leads_nowhere(&document, &from, false)?, from)));
    let puts = matches!(
        operation,
        Some(PatchOperation::Add(_) | PatchOperation::Move(_) | PatchOperation::Copy(_))
    );
    let path = error.path.to_string();
    let usual = "a path names what stands in the file as the changes before have left it; lists count \
                 from 0, \"-\" is the end of a list";
    let (at, why, cure) = match (from_where, leads_nowhere(&document, &path, puts)) {
        (Some((nowhere, from)), _) => {
            place.push_str(".from");
            (from, nowhere.problem, nowhere.cure)
        }
        (None, Some(nowhere)) => (path, nowhere.problem, nowhere.cure),
        (None, None) => match (operation, document.pointer(&path)) {
            (Some(PatchOperation::Test(_)), Some(there)) => {
                let why = format!("the value there is {}", shorten(&there.to_string()));
                (path, why, "bring the test and the file into line".to_owned())
            }
            _ => (path, error.kind.to_string(), usual.to_owned()),
        },
    };
    let problem = format!("{}: the change at \"{at}\" cannot be made: {why}", called(entry));
    finding(root, place, problem, None, Some(cure))
}

/// The last change that puts or takes something on the way to a wrong place, or below it.
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
        // What was moved away is missed where it stood.
        let left = match change {
            PatchOperation::Move(one) => Some(one.from.as_str()),
            _ => None,
        };
        meets(change.path().as_str()) || left.is_some_and(meets)
    })
}

fn finding(
    root: &Node,
    place: String,
    problem: String,
    limit: Option<String>,
    cure: Option<String>,
) -> Finding {
    Finding { span: mark(root, &place), place, problem, limit, cure }
}

/// What to mark for a place among the options.
fn mark(root: &Node, place: &str) -> Span {
    let (node, _) = root.reach(place);
    match (&node.value, node.stated_path()) {
        (Value::Object(_), Some(path)) => path,
        _ => node.mark(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    /// RFC 6902 (April 2013), appendix A: each of its examples that bears on what a file may ask for,
    /// as target document, patch, and result (`None`: an error).
    fn examples() -> Vec<(&'static str, Json, Json, Option<Json>)> {
        vec![
            (
                "A.1 adding an object member",
                json!({"foo": "bar"}),
                json!([{"op": "add", "path": "/baz", "value": "qux"}]),
                Some(json!({"baz": "qux", "foo": "bar"})),
            ),
            (
                "A.2 adding an array element",
                json!({"foo": ["bar", "baz"]}),
                json!([{"op": "add", "path": "/foo/1", "value": "qux"}]),
                Some(json!({"foo": ["bar", "qux", "baz"]})),
            ),
            (
                "A.3 removing an object member",
                json!({"baz": "qux", "foo": "bar"}),
                json!([{"op": "remove", "path": "/baz"}]),
                Some(json!({"foo": "bar"})),
            ),
            (
                "A.4 removing an array element",
                json!({"foo": ["bar", "qux", "baz"]}),
                json!([{"op": "remove", "path": "/foo/1"}]),
                Some(json!({"foo": ["bar", "baz"]})),
            ),
            (
                "A.5 replacing a value",
                json!({"baz": "qux", "foo": "bar"}),
                json!([{"op": "replace", "path": "/baz", "value": "boo"}]),
                Some(json!({"baz": "boo", "foo": "bar"})),
            ),
            (
                "A.6 moving a value",
                json!({"foo": {"bar": "baz", "waldo": "fred"}, "qux": {"corge": "grault"}}),
                json!([{"op": "move", "from": "/foo/waldo", "path": "/qux/thud"}]),
                Some(json!({"foo": {"bar": "baz"}, "qux": {"corge": "grault", "thud": "fred"}})),
            ),
            (
                "A.7 moving an array element",
                json!({"foo": ["all", "grass", "cows", "eat"]}),
                json!([{"op": "move", "from": "/foo/1", "path": "/foo/3"}]),
                Some(json!({"foo": ["all", "cows", "eat", "grass"]})),
            ),
            (
                "A.8 testing a value: success",
                json!({"baz": "qux", "foo": ["a", 2, "c"]}),
                json!([
                    {"op": "test", "path": "/baz", "value": "qux"},
                    {"op": "test", "path": "/foo/1", "value": 2}
                ]),
                Some(json!({"baz": "qux", "foo": ["a", 2, "c"]})),
            ),
            (
                "A.9 testing a value: error",
                json!({"baz": "qux"}),
                json!([{"op": "test", "path": "/baz", "value": "bar"}]),
                None,
            ),
            (
                "A.10 adding a nested member object",
                json!({"foo": "bar"}),
                json!([{"op": "add", "path": "/child", "value": {"grandchild": {}}}]),
                Some(json!({"foo": "bar", "child": {"grandchild": {}}})),
            ),
            (
                "A.12 adding to a nonexistent target",
                json!({"foo": "bar"}),
                json!([{"op": "add", "path": "/baz/bat", "value": "qux"}]),
                None,
            ),
            (
                "A.14 ~ escape ordering",
                json!({"/": 9, "~1": 10}),
                json!([{"op": "test", "path": "/~01", "value": 10}]),
                Some(json!({"/": 9, "~1": 10})),
            ),
            (
                "A.15 comparing strings and numbers",
                json!({"/": 9, "~1": 10}),
                json!([{"op": "test", "path": "/~01", "value": "10"}]),
                None,
            ),
            (
                "A.16 adding an array value",
                json!({"foo": ["bar"]}),
                json!([{"op": "add", "path": "/foo/-", "value": ["abc", "def"]}]),
                Some(json!({"foo": ["bar", ["abc", "def"]]})),
            ),
        ]
    }

    #[test]
    fn changes_do_what_the_standard_says() {
        for (name, mut document, patch, expected) in examples() {
            let patch: Patch = serde_json::from_value(patch).unwrap();
            let made = json_patch::patch(&mut document, &patch);
            assert_eq!(made.is_ok(), expected.is_some(), "{name}: {made:?}");
            if let Some(expected) = expected {
                assert_eq!(document, expected, "{name}");
            }
        }
    }
}
