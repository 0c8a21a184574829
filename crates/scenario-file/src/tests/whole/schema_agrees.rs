//! The JSON Schema against the reader, by an independent validator.

use std::path::Path;

use serde_json::{Value, json};

use crate::format::description::reachable;
use crate::format::schema::in_units;
use crate::format::whole_files::SCENARIO;
use crate::quantities::quantity::Units;
use crate::tests::EXAMPLE;
use crate::tests::wrong::mistake_rows;
use crate::{STARTER, json_schema, page_schema, read};

fn validator() -> jsonschema::Validator {
    jsonschema::draft202012::new(&json_schema()).unwrap()
}

#[test]
fn the_schema_is_a_schema_of_its_draft() {
    jsonschema::draft202012::meta::validate(&json_schema()).unwrap();
}

/// A page has boxes with their units, and no file, editor or command line.
#[test]
fn a_page_describes_every_field_in_plain_words() {
    for (tender, units) in [(false, Units::Us), (true, Units::Us), (true, Units::Metric)] {
        let schema = page_schema(tender, units);
        let mut described = Vec::new();
        for object in std::iter::once(&schema).chain(schema["$defs"].as_object().unwrap().values())
        {
            described.extend(object["description"].as_str());
            let fields = object["properties"].as_object().unwrap().iter();
            described.extend(fields.filter_map(|(key, field)| {
                field["description"].as_str().filter(|_| key != "$schema")
            }));
        }
        assert!(described.len() > 300, "{}", described.len());
        let of_the_file = [
            "`",
            "{",
            "_",
            "--",
            "bucketline",
            "Silen",
            "bare number",
            "JSON",
            "metric file",
            " string",
        ];
        let wrong = described.iter().filter(|told| {
            // Names of tankers that the file gives no name stay as the answers have them.
            let unnamed = ["\"Tanker\"", "Aid tanker 1", "Tanker 5"]
                .iter()
                .fold((**told).to_owned(), |told, name| told.replace(name, ""));
            of_the_file.iter().any(|word| told.contains(word))
                || (tender && unnamed.to_lowercase().contains("tanker"))
        });
        assert_eq!(wrong.collect::<Vec<_>>(), Vec::<&&str>::new());
    }
    let capacity = &page_schema(true, Units::Metric)["$defs"]["tanker"]["properties"]["capacity"];
    assert_eq!(capacity["description"], "Its tank. From 379 to 189,000 L.");
    let nurse = &page_schema(true, Units::Us)["$defs"]["supply"]["properties"]["nurse"];
    assert_eq!(
        nurse["description"],
        "Whether a tender may pump straight into the attack engine until the pump first draws from the drop tank. Left empty: yes."
    );
}

#[test]
fn the_schema_takes_what_the_reader_takes() {
    for text in [EXAMPLE, STARTER] {
        let value: Value = serde_json::from_str(text).unwrap();
        let errors: Vec<String> = validator().iter_errors(&value).map(|e| e.to_string()).collect();
        assert!(errors.is_empty(), "{errors:?}");
    }
}

#[test]
fn the_schema_refuses_mistakes_of_structure() {
    let validator = validator();
    for (text, row) in mistake_rows::structure_rows() {
        // The schema cannot know units, so ranges of numbers with units are left to the reader.
        if row.1.contains("1e300") || row.1.contains("1e999") {
            continue;
        }
        let value: Value = serde_json::from_str(&text).unwrap();
        assert!(!validator.is_valid(&value), "{}", row.1);
    }
}

#[test]
fn every_key_of_the_table_is_in_the_schema_with_a_description() {
    let schema = json_schema();
    for object in reachable(&SCENARIO) {
        let described =
            if object.def == "scenario" { &schema } else { &schema["$defs"][object.def] };
        assert_eq!(described["additionalProperties"], json!(false), "{}", object.def);
        let keys = described["properties"].as_object().unwrap();
        assert_eq!(keys.len(), object.fields.len(), "{}", object.def);
        for field in object.fields {
            let text = keys[field.key]["description"].as_str().unwrap();
            let about = in_units(&field.about().in_file(), Units::Us);
            assert!(text.starts_with(&about) && text.len() > 5, "{}", field.key);
        }
    }
}

#[test]
fn every_default_in_the_schema_is_one_that_the_schema_takes() {
    let schema = json_schema();
    let mut tried = 0;
    let objects = schema["$defs"].as_object().unwrap().values().chain([&schema]);
    for object in objects {
        for (key, field) in object["properties"].as_object().unwrap() {
            let Some(default) = field.get("default").filter(|default| !default.is_object()) else {
                continue;
            };
            let mut alone = field.clone();
            alone["$defs"] = schema["$defs"].clone();
            let validator = jsonschema::draft202012::new(&alone).unwrap();
            assert!(validator.is_valid(default), "{key}: {default}");
            tried += 1;
        }
    }
    assert!(tried > 30, "{tried}");
}

/// Every value of a document by its path.
fn pointers(value: &Value, at: &str, found: &mut Vec<String>) {
    found.push(at.to_string());
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                pointers(value, &format!("{at}/{key}"), found);
            }
        }
        Value::Array(values) => {
            for (index, value) in values.iter().enumerate() {
                pointers(value, &format!("{at}/{index}"), found);
            }
        }
        _ => {}
    }
}

#[test]
fn with_any_value_exchanged_the_reader_never_takes_what_the_schema_refuses() {
    let taken = exchange_every_value(&serde_json::from_str(STARTER).unwrap());
    assert!(taken > 200, "{taken}");
}

#[test]
fn nor_with_the_facts_of_buildings_tanks_ponds_people_and_hose() {
    let mut whole: Value = serde_json::from_str(EXAMPLE).unwrap();
    whole["incident"]["attack_flow"][1]["flow"] = json!({"rule": "area", "building": {
        "length": 60, "width": "11 m", "stories": 2, "height": 18, "ridge": 6, "open_height": 9,
        "use": "store", "hazard_class": 5, "construction": "ordinary", "dwelling_cap": 1,
        "contents": "limited", "floors_burning": 1, "involved": "40%", "exposure_charge": 0.1,
        "communication_charge": 0, "dwelling_table": "newer",
        "exposures": [{"distance": 30, "area": 500, "hazard_class": 6}]}});
    whole["drop_tanks"][0]["capacity"] = json!({"length": 12, "width": 10, "depth": 2.5, "slope": 0.02,
        "strainer_depth": 5, "strainer_from_low_side": 1});
    whole["fill_sites"][0]["volume"] =
        json!({"length": 90, "width": 40, "mean_depth": 6, "usable_depth": 3});
    whole["crew"] = json!({"tanker": 2, "fill_site": 2, "dump_site": 2, "pump": 1, "officer": 1, "on_hand": 20});
    whole["hose"] = json!({"diameter": 5, "lines": 1, "on_hand": 3000, "engines": 2, "distance": 2500,
        "elevation": -20, "rated": 1000, "pump_pressure": 150, "intake_pressure": 20,
        "laid_a_minute": 200, "hookup": 4, "start": 12});
    let taken = exchange_every_value(&whole);
    assert!(taken > 300, "{taken}");
}

/// Replaces each value of a scenario by each of a list of others; what the reader accepts the schema must
/// accept, and nothing may panic. Returns how many the reader accepted.
fn exchange_every_value(whole: &Value) -> u32 {
    let validator = validator();
    let mut paths = Vec::new();
    pointers(whole, "", &mut paths);
    let others = [
        json!(null),
        json!(-1),
        json!(0),
        json!(0.5),
        json!(3),
        json!(1e300),
        json!(true),
        json!(""),
        json!("us"),
        json!("x"),
        json!("5 gal"),
        json!("400 GPM"),
        json!("3 min"),
        json!("Engine 3"),
        json!([]),
        json!([1]),
        json!({}),
        json!({"mean": 3, "cv": 0.1}),
        json!({"miles": "3 km"}),
        json!({"minutes": 4}),
        json!("+7e1 us gal"),
    ];
    let mut taken = 0;
    for path in &paths {
        for other in &others {
            let mut document = whole.clone();
            *document.pointer_mut(path).unwrap() = other.clone();
            if read(Path::new("plan.json"), &document.to_string()).is_ok() {
                taken += 1;
                assert!(validator.is_valid(&document), "{path}: {other}");
            }
        }
    }
    taken
}
