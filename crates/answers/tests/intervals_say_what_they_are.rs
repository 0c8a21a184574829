//! In every result an interval says what its 95% are of: of it alone, or of all of its kind at once.

use answers::schema::answers_schema;
use serde_json::{Value, json};

/// Every object of a schema that has an interval, by its keys, with what it says of it.
fn intervals<'s>(schema: &'s Value, found: &mut Vec<(&'s Value, &'s Value)>) {
    match schema {
        Value::Object(fields) => {
            if let Some(keys) = fields.get("properties").filter(|keys| keys.get("ci_low").is_some())
            {
                found.push((keys, schema));
            }
            fields.values().for_each(|one| intervals(one, found));
        }
        Value::Array(all) => all.iter().for_each(|one| intervals(one, found)),
        _ => {}
    }
}

#[test]
fn every_interval_says_of_what_its_confidence_is() {
    let schema = answers_schema();
    for one in schema["oneOf"].as_array().expect("schemas") {
        let mut found = Vec::new();
        intervals(one, &mut found);
        if one["$id"] == "risk-us" {
            assert!(found.len() > 3, "{}", found.len());
        }
        for (keys, whole) in found {
            let name = &one["$id"];
            assert_eq!(keys["interval"]["$ref"], "#/$defs/Interval", "{name}: {whole}");
            let required = whole["required"].as_array().expect("required keys");
            assert!(required.contains(&json!("interval")), "{name}: {whole}");
            let words: Vec<&str> = (one["$defs"]["Interval"]["oneOf"].as_array().into_iter())
                .flatten()
                .filter_map(|word| word["const"].as_str())
                .collect();
            assert_eq!(words, ["single", "all_at_once"], "{name}");
        }
    }
}
