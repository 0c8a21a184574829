//! Every result is what the schema of results says, for US and metric readers, finished or ended early.
//!
//! The schema is checked and applied by the `jsonschema` crate (JSON Schema 2020-12).

use std::path::Path;
use std::sync::atomic::Ordering;

use answers::json::json;
use answers::question::Budget;
use answers::question::grade::{grade, grade_addresses};
use answers::question::levers::levers;
use answers::question::lose::lose;
use answers::question::reach::{Asked, reach};
use answers::question::risk::risk;
use answers::schema::answers_schema;
use answers::{Answer, Reader};
use scenario_file::{STARTER, Scenario, read};
use serde::Serialize;
use serde_json::Value;
use shuttle_report::batch::Control;
use shuttle_report::units::Units;

const BUDGET: Budget = Budget { replications: 70, seed: 1, threads: 1 };

fn starter() -> Scenario {
    read(Path::new("starter.json"), STARTER).expect("the starter is sound")
}

fn controls() -> [Control; 2] {
    let stopped = Control::default();
    stopped.stop.store(true, Ordering::Relaxed);
    [Control::default(), stopped]
}

/// The answer's result for both readers, checked.
fn fits<F: Serialize>(answer: &Answer<F>, ended_early: bool) {
    let validator = jsonschema::draft202012::new(&answers_schema()).expect("a sound schema");
    for units in [Units::Us, Units::Metric] {
        let result: Value = json(answer, &Reader { units, tender: false });
        assert_eq!(result["ended_early"], ended_early, "{}", answer.question);
        // The schema of this very question and reader, for a message that says what is wrong.
        let id = format!("{}-{}", answer.question, result["units"].as_str().expect("units"));
        let schema = answers_schema();
        let all = schema["oneOf"].as_array().expect("schemas");
        let own = all.iter().find(|one| one["$id"] == id.as_str()).expect("its schema");
        let own = jsonschema::draft202012::new(own).expect("a sound schema");
        let wrong: Vec<String> =
            own.iter_errors(&result).map(|e| format!("{}: {e}", e.instance_path())).collect();
        assert!(wrong.is_empty(), "{id}: {wrong:?}");
        assert!(validator.is_valid(&result), "{id} fits several or none");
    }
}

#[test]
fn every_result_fits_its_schema() {
    let scenarios = [starter()];
    let scenario = &scenarios[0];
    for control in &controls() {
        let early = control.stop.load(Ordering::Relaxed);
        fits(&risk(scenario, BUDGET, true, control), early);
        fits(&lose(scenario, 0.05, BUDGET, control), early);
        fits(&levers(scenario, BUDGET, control), early);
        fits(&grade(&scenarios, &[], 0.9, BUDGET, control).answer, early);
        fits(&grade_addresses(&scenarios, &[], 0.9, BUDGET, control).answer, early);
        for wanted_gpm in [None, Some(200.0)] {
            let asked = Asked { site: 0, wanted_gpm, share: 0.9 };
            fits(&reach(scenario, asked, BUDGET, control), early);
        }
    }
}
