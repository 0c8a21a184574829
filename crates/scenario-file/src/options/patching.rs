//! Making the changes of an option in the text of a scenario, by JSON Patch (RFC 6902), and what to say
//! where they cannot be made.

use json_patch::{Patch, PatchError, PatchErrorKind, PatchOperation};
use serde_json::Value as Json;

use super::json_equality::is_equal;
use super::option_findings::{called, finding, no_such_change};
use super::pointer_mistakes::{INTO_THE_OPTION, OPTIONS_STAY, leads_nowhere, no_pointer};
use crate::by_name::path_by_name::{Lead, LostWay, lead};
use crate::errors::excerpt::shorten;
use crate::errors::finding::Finding;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, count, key as a_key, says, typed};
use crate::format::options::{OfChange, OfOption, Operation};
use crate::format::takes::Choice;
use crate::format::whole_files::OfScenario;
use crate::structure::checked_value::Node;
use crate::structure::entry::Entry;

/// Largest size of a changed document, bytes: many times any real scenario, and still small in memory.
const MOST_CHANGED_BYTES: u64 = 1_000_000;

/// The changes of one option, which can be made.
pub(super) fn made_in(
    base: &Json,
    changes: Option<&Json>,
    entry: &Entry<'_, OfOption>,
    root: &Node,
) -> Result<Patch, Vec<Finding>> {
    complete(entry, root)?;
    let by_pointer =
        changes.map(|changes| with_pointers(base, changes, entry, root)).transpose()?;
    let patch: Patch =
        by_pointer.and_then(|changes| serde_json::from_value(changes).ok()).ok_or_else(|| {
            // All that makes a patch has been looked at one by one.
            let problem = says![called(entry), ": these changes are no JSON Patch"];
            let cure =
                "write each change as {\"op\": \"replace\", \"path\": \"/a/b\", \"value\": 1}"
                    .into();
            let told = (problem, None, cure);
            vec![finding(root, entry.at(&OfOption::CHANGES), MistakeKind::NoSuchChange, told)]
        })?;
    let patch = one_by_one(base, patch, entry, root)?;
    let mut document = base.clone();
    json_patch::patch(&mut document, &patch)
        .map_err(|error| vec![cannot(&error, &patch, base, entry, root)])?;
    Ok(patch)
}

/// The same changes with every path by name turned into the JSON Pointer it means, in the document as the
/// changes before have left it.
fn with_pointers(
    base: &Json,
    changes: &Json,
    entry: &Entry<'_, OfOption>,
    root: &Node,
) -> Result<Json, Vec<Finding>> {
    let mut changes = changes.clone();
    let mut document = base.clone();
    let mut findings = Vec::new();
    for (place, change) in changes.as_array_mut().into_iter().flatten().enumerate() {
        for key in [OfChange::FROM.key(), OfChange::PATH.key()] {
            let Some(path) = change.get(key).and_then(Json::as_str).filter(|path| is_by_name(path))
            else {
                continue;
            };
            let lost = match lead(&document, path) {
                Ok(Lead { member: Some(_), .. }) => LostWay {
                    problem: "it is one of a group of equal {tankers}".into(),
                    cure: "name the group, or list the {tanker} by itself".into(),
                },
                Ok(there) => {
                    change[key] = there.pointer().into();
                    continue;
                }
                Err(lost) => lost,
            };
            let at = format!("{}[{place}].{key}", entry.at(&OfOption::CHANGES));
            findings.push(no_such_change(root, entry, (at, path), (lost.problem, lost.cure)));
        }
        if !findings.is_empty() {
            return Err(findings);
        }
        // A change that fails is reported where all of them are applied.
        if let Ok(one) = serde_json::from_value::<PatchOperation>(change.clone())
            && document.to_string().len() as u64 <= MOST_CHANGED_BYTES
        {
            let _ = json_patch::patch(&mut document, &[one]);
        }
    }
    Ok(changes)
}

/// Whether a path goes by names: `tankers/Tanker 5/capacity`.
fn is_by_name(path: &str) -> bool {
    !path.is_empty() && !path.starts_with('/') && !path.contains(['[', ']'])
}

/// The changes applied one after the other, each to what those before have left.
///
/// - Copies can double a document again and again, so a changed document is limited in size as a file is.
/// - The library compares numbers as they are written; by RFC 6902, section 4.6, they are equal if their
///   values are. A test that holds by value is returned with the value as the document writes it.
fn one_by_one(
    base: &Json,
    mut patch: Patch,
    entry: &Entry<'_, OfOption>,
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
                    let at = format!("{}[{place}]", entry.at(&OfOption::CHANGES));
                    let problem =
                        says![called(entry), ": with this copy the scenario is too large"];
                    let limit =
                        says!["at most ", count(MOST_CHANGED_BYTES as usize), " bytes of text"];
                    let cure = "copy one entry, not a whole list into itself".into();
                    let told = (problem, Some(limit), cure);
                    return Err(vec![finding(root, at, MistakeKind::TooMuch, told)]);
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
        // A change that fails is reported where all of them are applied.
        if json_patch::patch(&mut document, std::slice::from_ref(change)).is_err() {
            break;
        }
    }
    Ok(patch)
}

/// Each operation with the fields it needs.
fn complete(entry: &Entry<'_, OfOption>, root: &Node) -> Result<(), Vec<Finding>> {
    let mut findings = Vec::new();
    for change in entry.get(&OfOption::CHANGES) {
        let operation = change.get(&OfChange::OP);
        let stated = [
            Some((change.get(&OfChange::PATH), change.at(&OfChange::PATH))),
            change.get(&OfChange::FROM).map(|from| (from, change.at(&OfChange::FROM))),
        ];
        for (pointer, at) in stated.into_iter().flatten() {
            let within = pointer.strip_prefix('/').unwrap_or(pointer);
            if within.split('/').next() == Some(OfScenario::OPTIONS.key()) {
                let why = (OPTIONS_STAY.into(), INTO_THE_OPTION.into());
                findings.push(no_such_change(root, entry, (change.place.clone(), pointer), why));
                break;
            }
            if let Some(no) = no_pointer(pointer).filter(|_| !is_by_name(pointer)) {
                findings.push(no_such_change(root, entry, (at, pointer), (no.problem, no.cure)));
            }
        }
        let (is_there, needs, cure) = match operation {
            Operation::Add | Operation::Replace | Operation::Test => (
                change.states(&OfChange::VALUE),
                OfChange::VALUE.key(),
                "add \"value\": whatever is to stand at the path",
            ),
            Operation::Move | Operation::Copy => (
                change.states(&OfChange::FROM),
                OfChange::FROM.key(),
                "add \"from\": the path of what is taken",
            ),
            Operation::Remove => continue,
        };
        if !is_there {
            let problem = says![called(entry), ": \"", operation.word(), "\" needs ", a_key(needs)];
            let told = (problem, None, cure.into());
            findings.push(finding(root, change.place, MistakeKind::Missing, told));
        }
    }
    if findings.is_empty() { Ok(()) } else { Err(findings) }
}

/// A change that could not be made.
fn cannot(
    error: &PatchError,
    patch: &Patch,
    base: &Json,
    entry: &Entry<'_, OfOption>,
    root: &Node,
) -> Finding {
    let mut place = format!("{}[{}]", entry.at(&OfOption::CHANGES), error.operation);
    // The document as the changes before have left it.
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
    let (at, why, cure) = match (from_where, leads_nowhere(&document, &path, puts)) {
        (Some((nowhere, from)), _) => {
            place.push_str(".from");
            (from, nowhere.problem, nowhere.cure)
        }
        (None, Some(nowhere)) => (path, nowhere.problem, nowhere.cure),
        (None, None) => match (operation, document.pointer(&path)) {
            (Some(PatchOperation::Test(_)), Some(there)) => {
                let why = says!["the value there is ", typed(shorten(&there.to_string()))];
                (path, why, "bring the test and the file into line".into())
            }
            _ => {
                let (why, cure) = why_not(&error.kind, &path);
                (path, why, cure)
            }
        },
    };
    no_such_change(root, entry, (place, &at), (why, cure))
}

/// Why a change whose paths lead somewhere cannot be made, and what to write instead.
fn why_not(kind: &PatchErrorKind, path: &str) -> (Message, Message) {
    match kind {
        PatchErrorKind::CannotMoveInsideItself => (
            "what is moved cannot go into itself".into(),
            "\"copy\" it there, or move it to a path outside".into(),
        ),
        _ if path.is_empty() => (
            "the whole scenario cannot be taken away".into(),
            "name what is to go: \"/drop_tanks/0\"".into(),
        ),
        other => (
            typed(other.to_string()).into(),
            "a path names what stands in the file as the changes before have left it; lists count \
             from 0, \"-\" is the end of a list"
                .into(),
        ),
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
