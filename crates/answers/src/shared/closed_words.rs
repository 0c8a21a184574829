//! Words of results that come from a closed set, as schemas: each from the list that the words themselves are of, so
//! that a new one is in the schema by itself.

use scenario_file::Alarm;
use schemars::{Schema, SchemaGenerator, json_schema};
use serde_json::Value;
use shuttle_sim::{Cause, CauseKind, Part};

fn causes() -> Vec<&'static str> {
    Cause::ALL.iter().map(|cause| cause.key()).collect()
}

/// One of these words.
pub fn one_of(words: &[&'static str]) -> Schema {
    json_schema!({"type": "string", "enum": words})
}

/// One of these words, or null.
pub fn one_of_or_null(words: &[&'static str]) -> Schema {
    let with_null: Vec<Value> =
        words.iter().map(|word| Value::from(*word)).chain([Value::Null]).collect();
    json_schema!({"type": ["string", "null"], "enum": with_null})
}

/// Several of these words.
pub fn some_of(words: &[&'static str]) -> Schema {
    json_schema!({"type": "array", "items": one_of(words)})
}

/// Numbers under these words.
fn numbers_by(words: &[&'static str]) -> Schema {
    json_schema!({
        "type": "object",
        "propertyNames": {"enum": words},
        "additionalProperties": {"type": "number", "format": "double"},
    })
}

/// Why the lines run short.
pub fn cause(_: &mut SchemaGenerator) -> Schema {
    one_of(&causes())
}

/// The same, or null.
pub fn cause_or_null(_: &mut SchemaGenerator) -> Schema {
    one_of_or_null(&causes())
}

/// Several causes.
pub fn some_causes(_: &mut SchemaGenerator) -> Schema {
    some_of(&causes())
}

/// A number a cause.
pub fn by_cause(_: &mut SchemaGenerator) -> Schema {
    numbers_by(&causes())
}

fn of_which_words() -> Vec<&'static str> {
    CauseKind::ALL.iter().map(|kind| kind.key()).collect()
}

/// What held within a cause.
pub fn of_which(_: &mut SchemaGenerator) -> Schema {
    one_of(&of_which_words())
}

/// The same, or null.
pub fn of_which_or_null(_: &mut SchemaGenerator) -> Schema {
    one_of_or_null(&of_which_words())
}

/// The alarm that a unit is on, or null.
pub fn alarm_or_null(_: &mut SchemaGenerator) -> Schema {
    one_of_or_null(&Alarm::ALL.map(Alarm::key))
}

fn parts() -> Vec<&'static str> {
    Part::ALL.iter().map(|part| part.key()).collect()
}

/// A part of a tanker's cycle.
pub fn part(_: &mut SchemaGenerator) -> Schema {
    one_of(&parts())
}

/// A number a part of a cycle.
pub fn by_part(_: &mut SchemaGenerator) -> Schema {
    numbers_by(&parts())
}

/// A place in a list as people count it, from 1.
pub fn from_one<S: serde::Serializer>(place: &usize, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_u64(*place as u64 + 1)
}

/// The same where there may be none.
pub fn from_one_or_null<S: serde::Serializer>(
    place: &Option<usize>,
    to: S,
) -> Result<S::Ok, S::Error> {
    match place {
        Some(place) => to.serialize_some(&(place + 1)),
        None => to.serialize_none(),
    }
}

/// Places in a list, from 1.
pub fn all_from_one<S: serde::Serializer>(places: &[usize], to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(places.iter().map(|place| place + 1))
}
