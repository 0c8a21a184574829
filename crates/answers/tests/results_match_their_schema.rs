//! Results as JSON match the schema that is given out for them, in US and in metric units.

use std::path::{Path, PathBuf};

use answers::json::json;
use answers::question::check::check;
use answers::question::flow::{flow, sheet};
use answers::question::replay::{Which, replay};
use answers::schema::answers_schema;
use answers::{Answer, Reader};
use serde::Serialize;
use shuttle_report::units::Units;

fn files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios").join(folder);
    let entries = std::fs::read_dir(folder).expect("the scenarios are there");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    files.retain(|file| {
        file.extension().is_some_and(|ext| ext == "json")
            && !file.to_string_lossy().ends_with(".schema.json")
    });
    assert!(files.len() >= 2);
    files
}

fn assert_matches<F: Serialize>(
    answer: &Answer<F>,
    validator: &jsonschema::Validator,
    what: &Path,
) {
    for units in [Units::Us, Units::Metric] {
        let result = json(answer, &Reader { units, tender: false });
        if let Err(error) = validator.validate(&result) {
            panic!("{} {}: {error}", answer.question, what.display());
        }
    }
}

#[test]
fn check_and_replay_match_on_every_scenario() {
    let validator = jsonschema::validator_for(&answers_schema()).expect("a schema");
    for file in files("").into_iter().chain(files("drills")) {
        let scenario = scenario_file::load(&file).expect("a sound scenario");
        assert_matches(&check(&scenario), &validator, &file);
        for which in [Which::Planned, Which::Drawn { run: 2, seed: 9 }] {
            assert_matches(&replay(&scenario, which), &validator, &file);
        }
    }
}

#[test]
fn flow_matches_on_every_building() {
    let validator = jsonschema::validator_for(&answers_schema()).expect("a schema");
    for file in files("buildings") {
        let wanted = scenario_file::load_building(&file).expect("a sound building");
        let sheet = sheet(&wanted, wanted.flow.rule).expect("lines carry it");
        assert_matches(&flow(&wanted, &sheet, None), &validator, &file);
    }
}
