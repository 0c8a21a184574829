//! Putting values into an existing scenario by their places: each is exchanged, or added to its object; every
//! other byte of the text stays.

use std::path::{Path, PathBuf};

use serde_json::Value as Json;

use super::errors::mistakes::ScenarioError;
use super::errors::position::{Lines, Span};
use super::format::values::rough_values::VALUE;
use super::scenario::{Scenario, read_text};
use super::structure::checked_value::{Node, Value};
use super::structure::file_kind::Holds;
use super::structure::file_text::{text_of, without_mark};
use super::structure::sound_text::sound_structure;

/// A value to be put into a scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct Put {
    /// Path of keys: `fill_sites[0].out`. All but its last key must be there, or be a key of the whole file.
    pub place: String,
    /// What to put there.
    pub value: Json,
    /// Whether it depends on what is there.
    pub only: Only,
}

/// On what it depends whether a value is put.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Only {
    /// On nothing.
    Always,
    /// Only where something is stated there.
    WhereStated,
    /// Only where a number is stated there, not the facts behind it.
    WhereNumber,
}

/// A value that was put.
#[derive(Debug, Clone, PartialEq)]
pub struct PutThere {
    /// Which of the values given.
    pub of: usize,
    /// Path of keys.
    pub place: String,
    /// What stood there, as written; `None` where nothing did.
    pub before: Option<String>,
    /// What stands there now.
    pub after: String,
}

/// A scenario with values put into it.
#[derive(Debug, Clone, PartialEq)]
pub struct WithValues {
    /// The whole new text.
    pub text: String,
    /// Each value that was put, in the order given.
    pub put: Vec<PutThere>,
    /// The scenario as it now reads.
    pub scenario: Scenario,
}

/// The text of a scenario with these values put into it.
///
/// - Given: no place twice, nor one within another.
/// - Errors: what makes the scenario unsound, before or after.
pub fn with_values(path: &Path, values: &[Put]) -> Result<WithValues, ScenarioError> {
    let whole = text_of(path)?;
    let text = without_mark(&whole);
    let mark = &whole[..whole.len() - text.len()];
    read_text(path, text)?;
    let lines = Lines::of(text);
    let (structure, _) = sound_structure(path, text, &lines, |_| Ok(Holds::Scenario))?;
    let mut put = Vec::new();
    let mut edits: Vec<(Span, String)> = Vec::new();
    let mut added: Vec<(String, Vec<(&str, &Json)>)> = Vec::new();
    for (of, one) in values.iter().enumerate() {
        let (node, is_there) = structure.root.reach(&one.place);
        let is_number = is_there && is_a_number(node);
        let stays = match one.only {
            Only::Always => false,
            Only::WhereStated => !is_there,
            Only::WhereNumber => !is_number,
        };
        if stays {
            continue;
        }
        let mut before = None;
        if is_there {
            before = Some(text[node.span.clone()].to_owned());
            edits.push((node.span.clone(), spaced(&one.value)));
        } else {
            let (parent, key) = one.place.rsplit_once('.').unwrap_or(("", &one.place));
            match added.iter_mut().find(|(to, _)| to == parent) {
                Some((_, keys)) => keys.push((key, &one.value)),
                None => added.push((parent.to_owned(), vec![(key, &one.value)])),
            }
        }
        put.push(PutThere { of, place: one.place.clone(), before, after: spaced(&one.value) });
    }
    for (parent, keys) in added {
        edits.push(addition(&structure.root, &parent, &keys, text, &lines));
    }
    // From the end, so that the places before stay where they are.
    edits.sort_by_key(|(span, _)| std::cmp::Reverse(span.start));
    let mut changed = text.to_owned();
    for (span, new) in edits {
        changed.replace_range(span, &new);
    }
    let shown = PathBuf::from(format!("{} as it would be", path.display()));
    let mut scenario = read_text(&shown, &changed)?;
    scenario.path = path.to_path_buf();
    Ok(WithValues { text: format!("{mark}{changed}"), put, scenario })
}

/// A bare number, or one with how rough it is beside it.
fn is_a_number(node: &Node) -> bool {
    match &node.value {
        Value::Number(_) => true,
        Value::Object(_) => node.reach(VALUE).1,
        _ => false,
    }
}

/// Keys added behind the last one of their object, in its manner; where the object itself is not there, it is
/// added to the whole file.
fn addition(
    root: &Node,
    parent: &str,
    keys: &[(&str, &Json)],
    text: &str,
    lines: &Lines<'_>,
) -> (Span, String) {
    let (node, is_there) = if parent.is_empty() { (root, true) } else { root.reach(parent) };
    let fields: Vec<String> =
        keys.iter().map(|(key, value)| format!("\"{key}\": {}", spaced(value))).collect();
    let (node, fields) = if is_there {
        (node, fields)
    } else {
        (root, vec![format!("\"{parent}\": {{{}}}", fields.join(", "))])
    };
    let last = match &node.value {
        Value::Object(object) => {
            object.fields.iter().map(|(_, field)| &field.span).max_by_key(|span| span.end)
        }
        _ => None,
    };
    let Some(last) = last else {
        // An object with nothing in it: behind its bracket.
        let at = node.span.start + 1;
        return (at..at, fields.join(", "));
    };
    let (line, starts) = lines.line_at(last.start);
    let indent: String = line.chars().take_while(|c| *c == ' ' || *c == '\t').collect();
    // Each key on its own line where the last one begins its line.
    let own_line = line[..last.start - starts].trim_start().matches('"').count() == 2
        && starts > node.span.start;
    let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let between = if own_line { format!(",{line_end}{indent}") } else { ", ".to_owned() };
    let added: String = fields.iter().map(|field| format!("{between}{field}")).collect();
    (last.end..last.end, added)
}

/// JSON on one line with a space behind each comma and colon, as scenarios are written.
fn spaced(value: &Json) -> String {
    match value {
        Json::Object(fields) => {
            let all: Vec<String> = fields
                .iter()
                .map(|(key, value)| format!("{}: {}", Json::from(key.as_str()), spaced(value)))
                .collect();
            format!("{{{}}}", all.join(", "))
        }
        Json::Array(values) => {
            format!("[{}]", values.iter().map(spaced).collect::<Vec<_>>().join(", "))
        }
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::STARTER;

    fn with(text: &str, values: &[(&str, Json)]) -> WithValues {
        let folder = std::env::temp_dir().join(format!("with_values_{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let path = folder.join(format!("{}.json", values.len() * 1000 + text.len()));
        std::fs::write(&path, text).expect("a file");
        let values: Vec<Put> = (values.iter())
            .map(|(place, value)| Put {
                place: (*place).to_owned(),
                value: value.clone(),
                only: Only::Always,
            })
            .collect();
        let made = with_values(&path, &values).expect("a scenario");
        std::fs::remove_file(&path).expect("it was there");
        made
    }

    #[test]
    fn what_is_there_is_exchanged_and_what_is_not_is_added_and_nothing_else_moves() {
        let samples = json!({"samples": [1.1, 1.4]});
        let made = with(
            STARTER,
            &[
                ("handling.fill_connect", samples.clone()),
                ("fill_sites[0].out", json!({"minutes": samples})),
                ("tankers[1].dump_rate", json!(850)),
            ],
        );
        assert_eq!(made.put[0].before.as_deref(), Some(r#"{"mean": 1.2, "cv": 0.3}"#));
        assert_eq!(made.put[2].before, None);
        let facts = made.scenario.plan.facts();
        assert_eq!(facts.tankers[0].handling.fill_connect.mean(), 1.25);
        assert_eq!(facts.tankers[1].dump_rate, 850.0);
        assert_eq!(facts.tankers[0].dump_rate, 1_000.0);
        let back = made
            .text
            .replace(
                r#"{"minutes": {"samples": [1.1, 1.4]}}"#,
                r#"{"miles": 2.4, "mph": 35, "cv": 0.15}"#,
            )
            .replace(r#"{"samples": [1.1, 1.4]}"#, r#"{"mean": 1.2, "cv": 0.3}"#)
            .replace(",\n      \"dump_rate\": 850", "");
        assert_eq!(back, STARTER);
    }

    #[test]
    fn keys_on_one_line_stay_on_it_and_an_object_that_is_not_there_is_made() {
        let at = STARTER.find(",\n  \"handling\"").expect("handling");
        let bare = format!("{}\n}}\n", &STARTER[..at]).replace("\"samples\": [1.1, 1.4, 0.9]", "");
        let made = with(
            &bare,
            &[("handling.fill_connect", json!(1.5)), ("handling.dump_clear", json!(0.5))],
        );
        assert!(
            made.text.contains("\n  \"handling\": {\"fill_connect\": 1.5, \"dump_clear\": 0.5}"),
            "{}",
            made.text
        );
        let narrow = STARTER.replace(
            "{\"miles\": 2.4, \"mph\": 30, \"cv\": 0.15}",
            "{\"miles\": 2.4, \"mph\": 30}",
        );
        let made = with(&narrow, &[("fill_sites[0].back.cv", json!(0.2))]);
        assert!(made.text.contains("{\"miles\": 2.4, \"mph\": 30, \"cv\": 0.2}"), "{}", made.text);
    }

    #[test]
    fn what_would_not_be_sound_is_not_made() {
        let folder = std::env::temp_dir();
        let path = folder.join(format!("unsound_{}.json", std::process::id()));
        std::fs::write(&path, STARTER).expect("a file");
        let put = Put {
            place: "fill_sites[0].flow".to_owned(),
            value: json!(-5),
            only: Only::WhereNumber,
        };
        let wrong = with_values(&path, &[put]).expect_err("a flow below zero");
        std::fs::remove_file(&path).expect("it was there");
        assert!(wrong.to_string().contains("as it would be"), "{wrong}");
    }
}
