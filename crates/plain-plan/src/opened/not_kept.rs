//! What a plan said question by question cannot say of a scenario: every field that the scenario made of it has
//! otherwise.

use std::fmt;

use scenario_file::is_equal;
use serde_json::Value;

/// The longest value that is told in full, characters; of a longer one its beginning.
const LONGEST: usize = 60;

/// A field of a scenario that would be lost or changed.
#[derive(Debug, Clone, PartialEq)]
pub struct NotKept {
    /// Its path by names, as `--set` takes it: `tankers/Tanker 3/waste`.
    pub path: String,
    /// What the file has there; `None`: nothing.
    pub value: Option<Value>,
    /// What would stand there; `None`: nothing.
    pub instead: Option<Value>,
}

impl fmt::Display for NotKept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.value {
            Some(value) => write!(f, "{}: {}", self.path, shortened(value))?,
            None => write!(f, "{}: nothing is stated", self.path)?,
        }
        match &self.instead {
            Some(instead) => write!(f, " (the questions write {})", shortened(instead)),
            None => Ok(()),
        }
    }
}

fn shortened(value: &Value) -> String {
    let told = value.to_string();
    if told.chars().count() <= LONGEST {
        return told;
    }
    let begun: String = told.chars().take(LONGEST).collect();
    format!("{begun}...")
}

/// Every field of the file that is another, or is not there, in what was made.
pub(super) fn not_kept(file: &Value, made: &Value) -> Vec<NotKept> {
    let mut lost = Vec::new();
    compare(Some(file), Some(made), "", &mut lost);
    lost
}

fn compare(file: Option<&Value>, made: Option<&Value>, path: &str, lost: &mut Vec<NotKept>) {
    let below =
        |step: &str| if path.is_empty() { step.to_owned() } else { format!("{path}/{step}") };
    match (file, made) {
        // Notes may be in any order, and more may stand there.
        (Some(Value::Array(old)), Some(Value::Array(new))) if path == "notes" => {
            lost.extend(old.iter().filter(|note| !new.contains(note)).map(|note| NotKept {
                path: path.to_owned(),
                value: Some(note.clone()),
                instead: None,
            }));
        }
        (Some(old), Some(new)) if is_equal(old, new) => {}
        // An object in place of another of its kind; of durations that are stated in two ways both are told whole.
        (Some(Value::Object(old)), Some(Value::Object(new)))
            if path.is_empty() || old.keys().any(|key| new.contains_key(key)) =>
        {
            for (key, value) in old {
                compare(Some(value), new.get(key), &below(key), lost);
            }
            for (key, value) in new.iter().filter(|(key, _)| !old.contains_key(*key)) {
                compare(None, Some(value), &below(key), lost);
            }
        }
        (Some(Value::Array(old)), Some(Value::Array(new)))
            if is_of_objects(old) && is_of_objects(new) =>
        {
            for place in 0..old.len().max(new.len()) {
                let (one, other) = (old.get(place), new.get(place));
                let name = one.or(other).and_then(name_of);
                let step = name.map_or_else(|| (place + 1).to_string(), str::to_owned);
                compare(one, other, &below(&step), lost);
            }
        }
        (file, made) => lost.push(NotKept {
            path: path.to_owned(),
            value: file.cloned(),
            instead: made.cloned(),
        }),
    }
}

fn is_of_objects(list: &[Value]) -> bool {
    list.iter().all(Value::is_object)
}

/// What an entry of a list is named by: of a drop tank by who brings it.
fn name_of(entry: &Value) -> Option<&str> {
    entry["name"].as_str().or_else(|| entry["brought_by"].as_str())
}
