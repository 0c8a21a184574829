//! One scenario in US units, in metric units and in strings with units is one plan.

use fireground::hose::HoseSize;
use shuttle_sim::PlanDraft;

use crate::Units;
use crate::quantities::quantity::Quantity;
use crate::read::facts::worked_facts::nominal;
use crate::tests::read_good;

// Exact by definition (NIST SP 811, appendix B).
const LITRES: f64 = 3.785411784;
const KILOMETRES: f64 = 1.609344;
const METRES: f64 = 0.3048;
const MILLIMETRES: f64 = 25.4;
const KILOPASCALS: f64 = 6.894757293168361;

/// A scenario that uses every quantity; the first word of each pair is its kind.
const TEMPLATE: &str = r#"{
  "title": "Both ways", "units": "@units",
  "whole_fire": {"driving_cv": 0.15, "handling_cv": 0.1, "response_cv": 0.2},
  "incident": {"duration": 120, "attack_flow": [{"from": 0, "flow": @flow 200@}, {"from": 5, "flow": @flow 450@}], "reserve": @gal 300@},
  "attack_engine": {"tank": @gal 1000@, "response": 9, "water_on": 1, "tank_refill": @flow 400@},
  "supply": {"engine": {"response": {"mean": 14, "cv": 0.2}, "setup": 5, "turnout": "95%"},
    "failure": {"chance": 0.02, "repair": "0.25 h"},
    "draft_limit": @flow 900@, "restart_level": @gal 700@, "reprime": 1,
    "pump": {"rated": @flow 1250@, "lift": @ft 12.5@, "altitude": @ft 1500@},
    "lay": {"diameter": @in 4@, "length": @ft 800@, "lines": 2, "elevation": @ft -20@, "pump_pressure": @psi 140@,
            "intake_pressure": @psi 25@, "appliances": @psi 5@, "dry": true}},
  "drop_tanks": [{"capacity": @gal 3000@, "unusable": @gal 150@, "brought_by": "Tanker 1", "setup": 4},
                 {"capacity": @gal 2500@, "unusable": @gal 150@, "response": 20, "setup": 4, "transfer": @flow 600@}],
  "tankers": [{"capacity": @gal 2100@, "response": 11, "dump_rate": @flow 1100@, "pump_off": @flow 480@, "fill_limit": @flow 950@, "waste": 0.1}],
  "fill_sites": [
    {"flow": {"hydrant": {"static": @psi 80@, "residual": @psi 45@, "flow": @flow 700@, "at": @psi 22@}}, "volume": @gal 90000@,
     "recharge": @flow 15@, "out": {@miles 2.4@, @mph 35@}, "back": {@miles 2.6@, "cv": 0.1}},
    {"name": "Plug", "flow": {"hydrant": {"pitot": @psi 18@, "outlet": @in 2.5@}}, "out": {@miles 1.1@}, "back": {@miles 1.1@}}]
}"#;

/// The template with each `@kind number@` written by a rule.
fn written(units: &str, write: impl Fn(&str, f64) -> String) -> String {
    let template = TEMPLATE.replace("@units", units);
    let mut text = String::new();
    for (index, piece) in template.split('@').enumerate() {
        match piece.split_once(' ') {
            Some((kind, number)) if index % 2 == 1 => text += &write(kind, number.parse().unwrap()),
            _ => text += piece,
        }
    }
    text
}

fn us() -> String {
    written("us", |kind, number| match kind {
        "miles" | "mph" => format!("\"{kind}\": {number}"),
        _ => number.to_string(),
    })
}

fn assert_same(got: &PlanDraft, expected: &PlanDraft) {
    let (got, expected) = (format!("{got:?}"), format!("{expected:?}"));
    let word_ends = |c: char| !(c.is_alphanumeric() || "._-".contains(c));
    let (got, expected): (Vec<&str>, Vec<&str>) =
        (got.split(word_ends).collect(), expected.split(word_ends).collect());
    assert_eq!(got.len(), expected.len());
    let mut numbers = 0;
    for (got, expected) in got.into_iter().zip(expected) {
        match (got.parse::<f64>(), expected.parse::<f64>()) {
            (Ok(got), Ok(expected)) => {
                numbers += 1;
                let off = (got - expected).abs();
                assert!(off <= 1e-9 * expected.abs().max(1.0), "{got} for {expected}");
            }
            _ => assert_eq!(got, expected),
        }
    }
    assert!(numbers > 70, "{numbers} numbers compared");
}

#[test]
fn a_metric_file_gives_the_same_plan() {
    let metric = written("metric", |kind, number| match kind {
        "gal" | "flow" => (number * LITRES).to_string(),
        "ft" => (number * METRES).to_string(),
        "in" => (number * MILLIMETRES).to_string(),
        "psi" => (number * KILOPASCALS).to_string(),
        "miles" => format!("\"km\": {}", number * KILOMETRES),
        "mph" => format!("\"kmh\": {}", number * KILOMETRES),
        other => panic!("{other}"),
    });
    let scenario = read_good(&metric);
    assert_eq!(scenario.units, Units::Metric);
    assert_same(scenario.plan.facts(), read_good(&us()).plan.facts());
}

#[test]
fn strings_with_units_give_the_same_plan_in_either_file() {
    let us = read_good(&us());
    for units in ["us", "metric"] {
        let strings = written(units, |kind, number| match kind {
            "gal" => format!("\"{} L\"", number * LITRES),
            "flow" => format!("\"{} L/s\"", number * LITRES / 60.0),
            "ft" => format!("\"{}m\"", number * METRES),
            "in" => format!("\" {} cm \"", number * MILLIMETRES / 10.0),
            "psi" => format!("\"{} bar\"", number * KILOPASCALS / 100.0),
            "miles" => format!("\"miles\": \"{} km\"", number * KILOMETRES),
            "mph" => format!("\"mph\": \"{} KM/H\"", number * KILOMETRES),
            other => panic!("{other}"),
        });
        assert_same(read_good(&strings).plan.facts(), us.plan.facts());
    }
}

/// What an answer calls a hose can be written into a file.
#[test]
fn every_size_of_hose_is_read_by_its_metric_name() {
    for size in HoseSize::ALL {
        let text = size.metric_name().split(" (").next().unwrap();
        let inches = Quantity::Diameter.read_text(text, Units::Us).unwrap();
        assert_eq!(nominal(inches), size.diameter_in(), "{text}");
        let millimetres: f64 = text.trim_end_matches(" mm").parse().unwrap();
        let exact = MILLIMETRES * size.diameter_in();
        assert!((millimetres / exact - 1.0).abs() < 0.03, "{text} for {exact} mm");
    }
}

#[test]
fn metric_hose_sizes_are_the_inch_sizes_they_stand_for() {
    // Common practice: 65 mm is 2-1/2 in hose, 100 mm 4 in, 125 mm 5 in.
    for (inches, millimetres) in [(2.5, 65), (4.0, 100), (5.0, 125), (6.0, 150)] {
        let plan = |diameter: String| {
            let text = us().replace("\"diameter\": 4", &format!("\"diameter\": {diameter}"));
            read_good(&text).plan.facts().supply.clone()
        };
        assert_eq!(plan(format!("\"{millimetres} mm\"")), plan(inches.to_string()));
    }
}
