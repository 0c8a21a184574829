//! Tests of the reader as a whole, through its public functions.

use std::path::Path;

use super::{FileMistake, Scenario, ScenarioError, read};

mod asked;

mod facts;

mod options_and_aid;

mod whole;

mod wrong;

/// The example of the model's description: a barn fire in an invented county.
const EXAMPLE: &str = include_str!("tests/example.json");

fn read_good(text: &str) -> Scenario {
    match read(Path::new("plan.json"), text) {
        Ok(scenario) => scenario,
        Err(error) => panic!("{error}"),
    }
}

fn mistakes(text: &str) -> Vec<FileMistake> {
    match read(Path::new("plan.json"), text) {
        Ok(_) => panic!("read without a mistake: {text}"),
        Err(ScenarioError::Wrong(mistakes)) => mistakes.list,
        Err(other) => panic!("{other}"),
    }
}

/// The example with one piece of text replaced.
fn changed(from: &str, to: &str) -> String {
    assert_eq!(EXAMPLE.matches(from).count(), 1, "{from}");
    EXAMPLE.replace(from, to)
}
