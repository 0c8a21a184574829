//! What a person should know and need not fix: in words, in the units of the file, and asked about where the
//! unit is likely another one.

use std::path::Path;

use fireground::told::Unit;
use serde_json::{Value, json};

use crate::tests::{EXAMPLE, changed, mistakes, read_good};
use crate::{Figure, NoteKind, Warning, read};

/// A metric file in which all that can be silent is, and much is odd.
fn odd_metric() -> Value {
    json!({
        "title": "Odd", "units": "metric",
        "incident": {"duration": 60, "attack_flow": [{"from": 0, "flow": 6000}, {"from": 70, "flow": 500}],
                     "tolerance": 7},
        "attack_engine": {"tank": 4000, "response": 5},
        "supply": {"low_water": "lose_prime", "draft_limit": 3000},
        "drop_tanks": [
            {"capacity": 6000, "unusable": 3500, "response": 9},
            {"capacity": 6000, "response": 9}
        ],
        "tankers": [
            {"name": "Small one", "capacity": 3000, "response": 9, "waste": 0.6, "breakdown_per_trip": 0.3},
            {"capacity": 12000, "response": 400}
        ],
        "fill_sites": [
            {"flow": 1000, "volume": 900, "out": {"km": 3, "kmh": 130}, "back": {"km": 3, "kmh": 3}}
        ],
    })
}

fn in_words(warnings: &[Warning]) -> Vec<String> {
    warnings.iter().map(Warning::in_words).collect()
}

#[test]
fn a_metric_file_is_told_nothing_in_us_units_and_nobody_is_told_a_path() {
    let text = serde_json::to_string_pretty(&odd_metric()).unwrap();
    let warnings = read_good(&text).warnings;
    assert!(warnings.len() > 15, "{warnings:#?}");
    // A question may name the other unit.
    let notes: Vec<Warning> = warnings.into_iter().filter(|one| !one.is_doubt()).collect();
    for told in in_words(&notes) {
        let words: Vec<&str> = told.split(|c: char| !c.is_alphanumeric()).collect();
        for us in ["gal", "gallon", "gallons", "gpm", "mi", "mile", "miles", "mph", "ft", "psi"] {
            assert!(!words.contains(&us), "{us}: {told}");
        }
        assert!(!told.contains("s["), "a path: {told}");
        assert!(told.starts_with("line "), "{told}");
    }
}

/// 3,000 L and 6,000 L as stated; 12,000 L less 10% waste are 10,800 L.
#[test]
fn a_note_says_its_kind_and_its_figures() {
    const LITRES: f64 = 3.785_411_784;
    let text = serde_json::to_string_pretty(&odd_metric()).unwrap();
    let warnings = read_good(&text).warnings;
    for (kind, figures) in [
        (NoteKind::SmallTanker, vec![3_000.0 / LITRES, 1_000.0]),
        (NoteKind::SmallDropTank, vec![6_000.0 / LITRES, 10_800.0 / LITRES]),
        (NoteKind::MostlyUnusable, vec![3_500.0 / LITRES, 6_000.0 / LITRES]),
    ] {
        let told = warnings.iter().find(|one| one.kind == kind);
        let told = told.unwrap_or_else(|| panic!("{kind:?}: {warnings:#?}"));
        let got: Vec<f64> = (told.text.figures().into_iter())
            .map(|figure| match figure {
                Figure::Of(value, Unit::Gallons) => value,
                other => panic!("{other:?}"),
            })
            .collect();
        assert_eq!(got.len(), figures.len(), "{told}");
        for (got, expected) in got.iter().zip(&figures) {
            assert!((got - expected).abs() < 1e-6 * expected, "{told}: {got} for {expected}");
        }
    }
    let silent = warnings.iter().find(|one| one.place == "attack_engine.water_on").unwrap();
    let minutes = |value| Figure::Of(value, Unit::Minutes);
    assert_eq!(
        (silent.kind, silent.text.figures()),
        (NoteKind::NotStated, vec![minutes(1.0), minutes(2.0)])
    );
}

#[test]
fn a_note_says_line_and_subject_in_words() {
    let text = serde_json::to_string_pretty(&odd_metric()).unwrap();
    let told = in_words(&read_good(&text).warnings);
    let line = |part: &str| text.lines().position(|line| line.contains(part)).unwrap() + 1;
    for wanted in [
        // 500 gpm are 1,892.7 L/min; the place is the second drop tank, which ends before the tankers.
        "drop tank 2: `transfer` is not stated and counts as 1,890 L/min".to_string(),
        format!(
            "line {}: drop tank 1: more than half of the drop tank cannot be drawn (3,500 L of 6,000 L)",
            line("3500")
        ),
        format!("line {}: Small one: it breaks down after 30% of its trips", line("0.3")),
        format!("line {}: tanker 2: it arrives at about minute 400", line("\"response\": 400")),
        format!(
            "line {}: the incident: lines short of water for less than 7 min",
            line("\"tolerance\"")
        ),
        "fill site 1, the way out: 3 km in 1.4 min is 130 km/h on average, fast for a tanker"
            .to_string(),
        "fill site 1, the way back: 3 km in 60 min is 3 km/h on average, slow for a tanker"
            .to_string(),
        "the incident: `reserve` is not stated and counts as no water; 757 L to 1,890 L is common"
            .to_string(),
    ] {
        assert!(told.iter().any(|told| told.contains(&wanted)), "{wanted}: {told:#?}");
    }
}

/// Garden hose, bucket, walking shoes: figures within the limits that nobody means.
#[test]
fn values_that_nobody_means_are_asked_about_with_the_likely_unit() {
    let rows = [
        (
            "\"flow\": 180",
            "\"flow\": \"20 L/min\"",
            "20 L/min is about what a garden hose gives (common practice: at least 30 gpm): is 20 L/s meant?",
        ),
        ("\"flow\": 180", "\"flow\": \"1.4 gpm\"", "garden hose gives"),
        (
            "\"flow\": 180",
            "\"flow\": 3000",
            "more than tanker shuttles are known to keep up (common practice: at most 2,500 gpm)",
        ),
        (
            "\"tank\": 1250",
            "\"tank\": 3",
            "3 gal is no fire engine's tank (common practice: at least 100 gal): is 3 m3 meant?",
        ),
        (
            "\"capacity\": 1800",
            "\"capacity\": \"1200 L\"",
            "less than a tanker carries (common practice: at least 400 gal): is 1,200 gal meant?",
        ),
        (
            "\"duration\": 120",
            "\"duration\": 2",
            "over before water comes (common practice: at least 5 min): is 2 h meant?",
        ),
        (
            "\"dump_clear\": 0.2",
            "\"dump_clear\": 20",
            "very long for this work (common practice: at most 19 min): is 20 s meant?",
        ),
        (
            "\"nurse_connect\": 1,",
            "\"nurse_connect\": {\"mean\": 45, \"cv\": 0.2},",
            "is 45 s meant?",
        ),
        (
            "\"miles\": 2.4, \"mph\": 35",
            "\"miles\": \"14 m\", \"mph\": 35",
            "a few steps (common practice: at least 0.02 mi): is 14 mi meant?",
        ),
        ("\"draft_limit\": 1000", "\"draft_limit\": 90000", "check the number and its unit"),
        // 1,500 gal that take 50 min to dump: no valve is so small.
        (
            "\"dump_rate\": 1000",
            "\"dump_rate\": 30",
            "through an open dump valve (common practice: at least 100 gpm)",
        ),
    ];
    for (from, to, wanted) in rows {
        let text = changed(from, to).replace("\"reserve\": 500", "\"reserve\": 0");
        let text = if to.contains("tank\"") {
            text
        } else {
            text.replace("\"reserve\": 0", "\"reserve\": 500")
        };
        let doubts: Vec<Warning> =
            read_good(&text).warnings.into_iter().filter(|one| one.is_doubt()).collect();
        assert_eq!(doubts.len(), 1, "{to}: {doubts:?}");
        assert!(doubts[0].text.in_file().contains(wanted), "{to}: {}", doubts[0].text);
    }
    // A lull is none of it, and what is usual is not asked about.
    for text in [EXAMPLE.to_string(), changed("\"flow\": 180", "\"flow\": 0")] {
        assert!(!read_good(&text).warnings.iter().any(|one| one.is_doubt()));
    }
}

/// 12,000 mph is no speed at all: refused, not asked about.
#[test]
fn what_no_road_allows_is_refused() {
    let found = mistakes(&changed("\"mph\": 35", "\"mph\": 12000"));
    assert_eq!(found[0].place, "fill_sites[0].out.mph");
    assert!(found[0].cure.in_file().contains("extra digits"), "{found:?}");
}

#[test]
fn a_doubt_about_an_option_is_told_at_its_change() {
    let mut document: Value = serde_json::from_str(EXAMPLE).unwrap();
    document["options"] = json!([{"name": "bigger pump", "changes":
        [{"op": "replace", "path": "/fill_sites/0/flow", "value": "15 L/min"}]}]);
    let scenario = read(Path::new("plan.json"), &document.to_string()).unwrap();
    assert!(!scenario.warnings.iter().any(|one| one.is_doubt()));
    let doubts: Vec<&Warning> =
        scenario.options[0].warnings.iter().filter(|one| one.is_doubt()).collect();
    assert_eq!(doubts.len(), 1, "{:?}", scenario.options[0].warnings);
    assert!(
        doubts[0]
            .text
            .in_file()
            .contains("with option \"bigger pump\": Quarry pond: 15 L/min is about"),
        "{}",
        doubts[0].text
    );
    assert!(doubts[0].text.in_file().contains("15 L/s meant"), "{}", doubts[0].text);
}
