//! Mistakes: all of them at once, each at its line and column with limit and cure.

use std::path::Path;

use crate::read;
use crate::tests::wrong::mistake_rows::{Row, SENSE, structure_rows};
use crate::tests::{EXAMPLE, changed, mistakes};

/// A file with a mistake of each kind; `^` stands before what is to be marked, by place.
const MANY: &str = r#"{
  "title": ^"", ^"tilte": "Ä", "units": "metric",
  "incident": ^{"duration": ^"2 houres", "attack_flow": [{"from": 0, "flow": ^-5}], "tolerance": ^"0.1 gal"},
  "attack_engine": {"tank": ^1e999, "response": ^{"mean": 3}, "intakes": ^1.5, ^"response": 4},
  "supply": {"nurse": ^"yes", "engine": {"response": 3, "setup": 4}, ^"setup": 3, "low_water": ^"throtle"},
  "drop_tanks": [^{"capacity": 8000, "unusable": 500}],
  "tankers": ^{},
  "fill_sites": [{"flow": ^"NaN gal", "positions": ^0, "out": {"miles": ^3}, "back": ^null}],
  ^"waste": 0.1
}"#;

#[test]
fn every_mistake_is_told_at_once_in_its_place() {
    let expected = [
        "title",
        "tilte",
        "incident.attack_flow[0].flow",
        "incident.duration",
        "incident.tolerance",
        "attack_engine.tank",
        "attack_engine.response.cv",
        "attack_engine.intakes",
        "attack_engine.response",
        "supply.nurse",
        "supply.setup",
        "supply.low_water",
        "drop_tanks[0]",
        "tankers",
        "fill_sites[0].flow",
        "fill_sites[0].positions",
        "fill_sites[0].out.miles",
        "fill_sites[0].back",
        "waste",
    ];
    // The brace of the incident is not marked: no key is missing in it.
    let marked = MANY.replacen("\"incident\": ^{", "\"incident\": {", 1);
    let mut places = Vec::new();
    let mut text = String::new();
    for (index, line) in marked.lines().enumerate() {
        let mut column = 1;
        for character in line.chars() {
            if character == '^' {
                places.push((index + 1, column));
            } else {
                text.push(character);
                column += 1;
            }
        }
        text.push('\n');
    }
    let found = mistakes(&text);
    let told: Vec<(usize, usize)> = found.iter().map(|m| (m.line, m.column)).collect();
    assert_eq!(told, places, "{found:#?}");
    let mut named: Vec<&str> = found.iter().map(|m| m.place.as_str()).collect();
    let mut expected = expected.to_vec();
    named.sort_unstable();
    expected.sort_unstable();
    assert_eq!(named, expected);
}

#[test]
fn a_mistake_reads_what_where_line_limit_cure() {
    let text = changed("\"residual\": 0.02", "\"residual\": 2");
    let error = read(Path::new("barn.json"), &text).unwrap_err().to_string();
    assert_eq!(
        error,
        "error: tankers[0].residual: 2 is out of range\n --> barn.json:9:143\n  |\n\
         9 | …imit\": 1000, \"waste\": 0.05, \"residual\": 2},\n  \
         |                                          ^\n  |\n  \
         = allowed: from 0 to below 1\n  \
         = cure: a share, not a percentage: 0.02\n\nbarn.json: 1 mistake"
    );
}

fn assert_told(text: &str, row: &Row) {
    let (_, written, place, problem, cure) = row;
    let found = mistakes(text);
    let told = found.iter().find(|mistake| mistake.place == *place);
    let Some(told) = told else {
        panic!("{written}: {found:#?}");
    };
    let said = format!("{} ({})", told.problem, told.limit.clone().unwrap_or_default());
    assert!(said.contains(problem), "{written}: {said}");
    let said = &told.cure.in_file();
    assert!(said.contains(cure), "{written}: {said}");
    assert!(!said.is_empty(), "{written}: no cure");
}

#[test]
fn each_mistake_of_structure_names_value_limit_and_cure() {
    for (text, row) in structure_rows() {
        assert_told(&text, row);
    }
}

#[test]
fn each_mistake_of_sense_leads_back_to_its_place() {
    for row in SENSE {
        assert_told(&changed(row.0, row.1), row);
    }
}

#[test]
fn mistakes_of_sense_are_told_together() {
    let text = changed("\"reserve\": 500", "\"reserve\": 1251")
        .replace("\"brought_by\": \"Tanker 3\"", "\"brought_by\": \"Tanker 9\"")
        .replace("\"from\": 6", "\"from\": 0");
    let found = mistakes(&text);
    let places: Vec<(&str, usize)> = found.iter().map(|m| (m.place.as_str(), m.line)).collect();
    let expected = [
        ("incident.attack_flow[1].from", 4),
        ("incident.reserve", 4),
        ("drop_tanks[0].brought_by", 7),
    ];
    assert_eq!(places, expected);
}

#[test]
fn a_name_given_twice_is_told_where_it_comes_again() {
    let found =
        mistakes(&changed("\"name\": \"Aid tanker\", \"count\": 2", "\"name\": \"Engine 8\""));
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].place.as_str(), found[0].line), ("tankers[1].name", 10));
}

#[test]
fn a_common_handling_time_is_told_once_and_where_it_stands() {
    let found =
        mistakes(&changed("\"dump_clear\": 0.2", "\"dump_clear\": {\"low\": 2, \"high\": 1}"));
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_eq!((found[0].place.as_str(), found[0].line), ("handling.dump_clear", 13));
}

#[test]
fn a_metric_file_is_told_in_its_own_units() {
    let text = EXAMPLE.replace("\"units\": \"us\"", "\"units\": \"metric\"");
    let found = mistakes(&text);
    // Bare miles and mph have no meaning there.
    let places: Vec<&str> = found.iter().map(|m| m.place.as_str()).collect();
    assert_eq!(places.iter().filter(|p| p.ends_with("miles")).count(), 2, "{places:?}");
    let text = text.replace("miles", "km").replace("mph", "kmh");
    let text = text
        .replace("\"reserve\": 500", "\"reserve\": 1500")
        .replace("\"capacity\": 1800", "\"capacity\": 300");
    let found = mistakes(&text);
    assert_eq!(
        found[0].limit.as_ref().map(crate::Message::in_file).as_deref(),
        Some("from 379 to 189,000 L")
    );
    let text = text.replace("\"capacity\": 300", "\"capacity\": 1800");
    let found = mistakes(&text);
    assert_eq!(
        found[0].limit.as_ref().map(crate::Message::in_file).as_deref(),
        Some("up to the tank, 1,250 L")
    );
    assert!(found[0].problem.in_file().contains("1,500 L"), "{}", found[0].problem);
}

#[test]
fn what_is_not_json_is_told_with_its_place() {
    let rows = [
        ("\"tolerance\": 0.1}", "\"tolerance\": 0.1,}", 4, "trailing commas", "remove"),
        ("\"units\": \"us\",", "\"units\": \"us\"", 3, "expected comma", "add a comma"),
        ("\"units\": \"us\",", "\"units\": \"us\", // US", 3, "comments", "notes"),
        ("\"units\": \"us\",", "\"units\": us,", 3, "unexpected", "quotes"),
        ("\"reserve\": 500", "\"reserve\": NaN", 4, "unexpected", "leave the key out"),
        ("\"reserve\": 500", "\"reserve\": 0500", 4, "expected comma", "write 500"),
        ("Quarry Lane", "Quarry\nLane", 2, "control character", "type the text again"),
        (
            "\"units\": \"us\",",
            "\"units\": \"us\", \"notes\": \"one\nline\",",
            3,
            "control character",
            "\\n",
        ),
    ];
    for (from, to, line, problem, cure) in rows {
        let found = mistakes(&changed(from, to));
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].line, line, "{to}: {found:?}");
        assert!(found[0].problem.in_file().contains(problem), "{to}: {found:?}");
        assert!(found[0].cure.in_file().contains(cure), "{to}: {found:?}");
    }
}
