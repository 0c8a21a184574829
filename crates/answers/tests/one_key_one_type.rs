//! In every result a key has one type, wherever it stands: a program that has met it once knows what it is.

use std::collections::{BTreeMap, BTreeSet};

use answers::schema::answers_schema;
use serde_json::{Map, Value};

/// What a schema lets through, null aside. A tag that tells the shapes of a union apart counts as a word, whichever words
/// it may be; so do the constants at the top of a result, `question` and `units`.
fn type_of(schema: &Value, all: &Map<String, Value>) -> String {
    if schema == &Value::Bool(true) {
        return "any".to_owned();
    }
    if let Some(named) = schema["$ref"].as_str() {
        let name = named.rsplit('/').next().expect("a name");
        return type_of(&all[name], all);
    }
    if schema.get("const").is_some() {
        return "tag".to_owned();
    }
    if let Some(several) = schema["anyOf"].as_array().or(schema["oneOf"].as_array()) {
        let several = || several.iter().filter(|one| one["type"] != "null");
        let mut words = BTreeSet::new();
        if several().all(|one| words_of(one, all, &mut words)) {
            return one_of(&words);
        }
        let types: BTreeSet<String> = several().map(|one| type_of(one, all)).collect();
        return types.into_iter().collect::<Vec<_>>().join(" or ");
    }
    let mut words = BTreeSet::new();
    if words_of(schema, all, &mut words) {
        return one_of(&words);
    }
    let kinds: Vec<&str> = match &schema["type"] {
        Value::Array(kinds) => kinds.iter().filter_map(Value::as_str).collect(),
        kind => kind.as_str().into_iter().collect(),
    };
    match kinds.into_iter().find(|kind| *kind != "null") {
        Some("array") => {
            assert!(schema.get("prefixItems").is_none(), "a row by position: {schema}");
            format!("list of {}", type_of(&schema["items"], all))
        }
        Some("object") => match schema["properties"].as_object() {
            Some(fields) => {
                let keys: BTreeSet<&str> = fields.keys().map(String::as_str).collect();
                format!("{{{}}}", keys.into_iter().collect::<Vec<_>>().join(", "))
            }
            None => {
                format!("{} by {}", schema["additionalProperties"]["type"], schema["propertyNames"])
            }
        },
        Some(kind) => kind.to_owned(),
        None => "null".to_owned(),
    }
}

fn one_of(words: &BTreeSet<String>) -> String {
    format!("one of {}", words.iter().cloned().collect::<Vec<_>>().join(", "))
}

/// Whether it lets through nothing but words of a closed set, which are gathered.
fn words_of(schema: &Value, all: &Map<String, Value>, words: &mut BTreeSet<String>) -> bool {
    if let Some(named) = schema["$ref"].as_str() {
        return words_of(&all[named.rsplit('/').next().expect("a name")], all, words);
    }
    if schema["type"] == "null" {
        return true;
    }
    if let Some(word) = schema["const"].as_str() {
        words.insert(word.to_owned());
        return true;
    }
    if let Some(several) = schema["enum"].as_array() {
        words.extend(several.iter().filter_map(Value::as_str).map(str::to_owned));
        return true;
    }
    let several = schema["anyOf"].as_array().or(schema["oneOf"].as_array());
    several.is_some_and(|several| several.iter().all(|one| words_of(one, all, words)))
}

/// The types of every key, each with a place where it has it.
type Found = BTreeMap<String, BTreeMap<String, String>>;

fn gather(schema: &Value, all: &Map<String, Value>, place: &str, found: &mut Found) {
    match schema {
        Value::Object(fields) => {
            if let Some(keys) = fields.get("properties").and_then(Value::as_object) {
                for (key, of) in keys {
                    let place = format!("{place}.{key}");
                    found.entry(key.clone()).or_default().insert(type_of(of, all), place.clone());
                    gather(of, all, &place, found);
                }
            }
            let others = fields.iter().filter(|(key, _)| *key != "properties" && *key != "$defs");
            others.for_each(|(_, of)| gather(of, all, place, found));
        }
        Value::Array(several) => several.iter().for_each(|one| gather(one, all, place, found)),
        _ => {}
    }
}

/// A metric reader's keys name other units, so that each reader's results are looked at by themselves.
#[test]
fn a_key_has_one_type_in_all_results() {
    let schema = answers_schema();
    for units in ["us", "metric"] {
        let mut found = Found::new();
        for one in schema["oneOf"].as_array().expect("schemas") {
            let name = one["$id"].as_str().expect("a name");
            if name != "refusal" && !name.ends_with(units) {
                continue;
            }
            let none = Map::new();
            let all = one["$defs"].as_object().unwrap_or(&none);
            let mut own = one.as_object().expect("an object").clone();
            own.remove("$defs");
            gather(&own.into(), all, name, &mut found);
            for (of, schema) in all {
                gather(schema, all, &format!("{name}: {of}"), &mut found);
            }
        }
        assert!(found.len() > 500, "the schema has far more keys than {}", found.len());
        let several: Vec<String> = (found.iter())
            .filter(|(_, types)| types.len() > 1)
            .map(|(key, types)| format!("{key}: {types:#?}"))
            .collect();
        assert!(several.is_empty(), "{} keys:\n{}", several.len(), several.join("\n"));
    }
}
