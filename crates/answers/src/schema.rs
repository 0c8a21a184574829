//! The JSON Schema of every question's results, and of what is printed in place of one.

use serde_json::{Value, json};

use crate::json::schemas;
use crate::question::card::CardFigures;
use crate::question::check::CheckFigures;
use crate::question::compare::CompareFigures;
use crate::question::drill::DrillFigures;
use crate::question::flow::FlowFigures;
use crate::question::grade::{AddressFigures, GradeFigures};
use crate::question::handout::HandoutFigures;
use crate::question::hold::HoldFigures;
use crate::question::levers::LeverFigures;
use crate::question::lose::LossFigures;
use crate::question::reach::ReachFigures;
use crate::question::replay::ReplayFigures;
use crate::question::report::ReportFigures;
use crate::question::request::RequestFigures;
use crate::question::risk::RiskFigures;
use crate::question::size::SizeFigures;

/// One schema for the results of all questions: the one of its `question` and `units` holds, or that of a
/// refusal.
pub fn answers_schema() -> Value {
    let mut all: Vec<Value> = [
        schemas::<RiskFigures>("risk"),
        schemas::<CheckFigures>("check"),
        schemas::<FlowFigures>("flow"),
        schemas::<ReplayFigures>("replay"),
        schemas::<LossFigures>("lose"),
        schemas::<LeverFigures>("levers"),
        schemas::<GradeFigures>("grade"),
        schemas::<AddressFigures>("grade_addresses"),
        schemas::<ReachFigures>("reach"),
        schemas::<SizeFigures>("size"),
        schemas::<RequestFigures>("request"),
        schemas::<CompareFigures>("compare"),
        schemas::<DrillFigures>("drill"),
        schemas::<HoldFigures>("hold"),
        schemas::<CardFigures>("card"),
        schemas::<HandoutFigures>("handout"),
        schemas::<ReportFigures>("report"),
    ]
    .concat();
    all.push(crate::refusal::schema());
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Results of bucketline, as printed with --json",
        "oneOf": all,
    })
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use serde::Serialize;
    use shuttle_report::batch::Control;

    use super::*;
    use crate::question::{Budget, compare, request, size};
    use crate::{Answer, Reader};

    fn assert_holds<F: Serialize>(schema: &Value, answer: &Answer<F>, reader: &Reader) {
        let result = crate::json::json(answer, reader);
        if let Err(error) = jsonschema::validate(schema, &result) {
            panic!("{} of {}: {error}", answer.question, answer.title);
        }
    }

    #[test]
    fn the_schema_holds_for_what_is_answered() {
        let schema = answers_schema();
        let budget = Budget { replications: 200, seed: 1, threads: 1 };
        let control = Control::default();
        let scenarios = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios");
        for name in ["feed_mill_mutual_aid", "orchard_metric", "hay_barn_what_to_buy"] {
            let path = scenarios.join(name).with_extension("json");
            let scenario = scenario_file::load(&path).expect("a scenario");
            let reader = Reader { units: scenario.units, tender: false };
            let asked = size::Asked { target: 0.05, beyond_listed: 2 };
            assert_holds(&schema, &size::size(&scenario, budget, asked, &control), &reader);
            if request::has_aid(&scenario) {
                let answer = {
                    let asked = request::Asked { target: 0.05, spare: true };
                    request::request(&scenario, budget, asked, &control)
                };
                assert_holds(&schema, &answer, &reader);
            }
            let scenarios = [scenario];
            if compare::plans_to_compare(&scenarios) > 1 {
                let answer = compare::compare(&scenarios, Some(3_000.0), budget, &control);
                assert_holds(&schema, &answer, &reader);
            }
        }
    }

    #[test]
    fn a_metric_result_has_metric_keys() {
        let schema = answers_schema();
        let all = schema["oneOf"].as_array().expect("schemas");
        let keys = |place: usize| all[place]["properties"].as_object().expect("keys").clone();
        assert!(keys(0).contains_key("unmet_gal_mean") && !keys(0).contains_key("unmet_l_mean"));
        assert!(keys(1).contains_key("unmet_l_mean") && !keys(1).contains_key("unmet_gal_mean"));
    }
}
