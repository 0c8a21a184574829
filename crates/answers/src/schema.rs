//! The JSON Schema of every question's results.

use serde_json::{Value, json};

use crate::json::schemas;
use crate::question::check::CheckFigures;
use crate::question::flow::FlowFigures;
use crate::question::grade::GradeFigures;
use crate::question::levers::LeverFigures;
use crate::question::lose::LossFigures;
use crate::question::reach::ReachFigures;
use crate::question::replay::ReplayFigures;
use crate::question::risk::RiskFigures;

/// One schema for the results of all questions: the one of its `question` and `units` holds.
pub fn answers_schema() -> Value {
    let all: Vec<Value> = [
        schemas::<RiskFigures>("risk"),
        schemas::<CheckFigures>("check"),
        schemas::<FlowFigures>("flow"),
        schemas::<ReplayFigures>("replay"),
        schemas::<LossFigures>("lose"),
        schemas::<LeverFigures>("levers"),
        schemas::<GradeFigures>("grade"),
        schemas::<ReachFigures>("reach"),
    ]
    .concat();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Results of bucketline, as printed with --json",
        "oneOf": all,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_metric_result_has_metric_keys() {
        let schema = answers_schema();
        let all = schema["oneOf"].as_array().expect("schemas");
        let keys = |place: usize| all[place]["properties"].as_object().expect("keys").clone();
        assert!(keys(0).contains_key("unmet_gal_mean") && !keys(0).contains_key("unmet_l_mean"));
        assert!(keys(1).contains_key("unmet_l_mean") && !keys(1).contains_key("unmet_gal_mean"));
    }
}
