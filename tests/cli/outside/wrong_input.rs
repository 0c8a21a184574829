//! Scenarios that are wrong: each mistake with file, line, column, what is allowed and a cure.

use std::fs;

use serde_json::{Value, json};

use super::{WRONG_SCENARIO, bucketline, folder, hay_barn, names_in, scenario, write_changed};

/// What every command says about the file `wrong.json` with this text.
fn said_about(text: &[u8]) -> String {
    let folder = folder();
    fs::write(folder.path().join("wrong.json"), text).expect("the folder can be written to");
    let said = ["check", "risk", "size", "replay"].map(|command| {
        let said = bucketline(folder.path(), &[command, "wrong.json"])
            .refused(WRONG_SCENARIO, &format!("{command}: {}", String::from_utf8_lossy(text)));
        assert_eq!(names_in(folder.path()), ["wrong.json"], "{command} left something behind");
        said
    });
    assert!(said.iter().all(|one| *one == said[0]), "the commands differ: {said:?}");
    said[0].clone()
}

/// What is said about the thin-margin scenario with a change.
fn said_about_changed(change: impl FnOnce(&mut Value)) -> String {
    let folder = folder();
    let file = folder.path().join("changed.json");
    write_changed(&file, change);
    said_about(&fs::read(file).expect("the file was just written"))
}

fn assert_says(said: &str, parts: &[&str]) {
    for part in parts {
        assert!(said.contains(part), "no {part:?} in {said}");
    }
}

#[test]
fn what_is_no_json_object_is_told_at_its_place() {
    let rows: [(&[u8], &[&str]); 9] = [
        (b"hello", &["this is not JSON", "wrong.json:1:1"]),
        (b"", &["the file holds nothing", "wrong.json:1:1", "cure: start from a scenario"]),
        (b" \n\n", &["the file holds nothing"]),
        (b"[]", &["a list does not belong here", "wrong.json:1:1", "an object in braces"]),
        (b"null", &["null does not belong here", "wrong.json:1:1", "an object in braces"]),
        (b"{\n  \"title\": \"A\",\n}", &["wrong.json:2:", "cure: remove the comma"]),
        (b"{\n  \"title\": \"A\"\n  \"units\": \"us\"\n}", &["wrong.json:", "cure: add a comma"]),
        (b"{\n  // a remark\n}", &["wrong.json:2:3", "`notes`"]),
        (b"{\"title\": 'A'}", &["wrong.json:1:11", "this is not JSON"]),
    ];
    for (text, parts) in rows {
        let said = said_about(text);
        assert_says(&said, parts);
        assert!(said.ends_with("wrong.json: 1 mistake\n"), "{said}");
    }
}

#[test]
fn a_building_file_is_called_one_where_a_scenario_is_wanted() {
    let text = fs::read_to_string(scenario("buildings/hay_barn")).expect("the building is there");
    let line = text.lines().position(|line| line.contains("\"building\":")).expect("its key") + 1;
    let folder = folder();
    fs::write(folder.path().join("barn.json"), &text).expect("the folder can be written to");
    for command in [
        "check", "risk", "size", "compare", "request", "lose", "levers", "grade", "reach", "replay",
    ] {
        let said =
            bucketline(folder.path(), &[command, "barn.json"]).refused(WRONG_SCENARIO, command);
        assert!(said.contains("error: this is a building file, not a scenario\n"), "{said}");
        assert_says(&said, &[&format!("barn.json:{line}:3\n"), "allowed: a scenario"]);
        assert!(said.contains("cure: use `bucketline flow barn.json`\n"), "{said}");
        assert!(said.ends_with("barn.json: 1 mistake\n"), "{command}: {said}");
    }
    assert_eq!(names_in(folder.path()), ["barn.json"]);
    // With an incident it is a scenario with a building in the wrong place, and `flow` says the same.
    let text = br#"{"building": {}, "incident": {}}"#;
    let said = said_about(text);
    assert_says(&said, &["a scenario has no `building`", "a scenario needs `tankers`"]);
    fs::write(folder.path().join("wrong.json"), text).expect("the folder can be written to");
    let of_flow =
        bucketline(folder.path(), &["flow", "wrong.json"]).refused(WRONG_SCENARIO, "flow");
    assert_eq!(of_flow, said);
}

#[test]
fn missing_and_unknown_keys_are_told_with_a_suggestion() {
    let said = said_about(b"{}");
    for key in ["incident", "attack_engine", "tankers", "fill_sites"] {
        assert_says(&said, &[&format!("a scenario needs `{key}`"), "wrong.json:1:1"]);
    }
    let said = said_about_changed(|value| {
        let tankers = value["tankers"].take();
        let scenario = value.as_object_mut().expect("an object");
        scenario.remove("tankers");
        scenario.insert("tnakers".to_owned(), tankers);
        value["incident"]["durration"] = 3.into();
    });
    assert_says(
        &said,
        &[
            "a scenario has no `tnakers`",
            "a field with a similar name exists: `tankers`",
            "incident.durration: the incident has no `durration`",
            "a field with a similar name exists: `duration`",
        ],
    );
    let said = said_about_changed(|value| {
        let tanker = value["tankers"][1].as_object_mut().expect("an object");
        tanker.remove("capacity");
    });
    assert_says(&said, &["a tanker needs `capacity`", "tankers[1].capacity"]);
}

/// Each line and column is counted here from the text itself.
#[test]
fn many_mistakes_are_all_told_at_once() {
    let original = fs::read_to_string(hay_barn()).expect("the scenario is there");
    let changes = [
        ("\"duration\": 120", "\"duration\": -120", "-120", "incident.duration"),
        ("\"tank\": 1250", "\"tank\": \"plenty\"", "\"plenty\"", "attack_engine.tank"),
        ("\"dump_rate\": 1000", "\"dump_rate\": 1e300", "1e300", "tankers[0].dump_rate"),
        ("\"flow\": 900", "\"flow\": 0", "0", "fill_sites[0].flow"),
        ("\"miles\": 2.4", "\"miles\": -2.4", "-2.4", "fill_sites[0].out.miles"),
    ];
    let mut text = original;
    for (right, wrong, _, _) in changes {
        assert!(text.contains(right), "{right}");
        text = text.replacen(right, wrong, 1);
    }
    let said = said_about(text.as_bytes());
    for (_, wrong, value, place) in changes {
        let at = text.find(wrong).expect("just put there") + wrong.len() - value.len();
        let line = text[..at].matches('\n').count() + 1;
        let column = at - text[..at].rfind('\n').map_or(0, |end| end + 1) + 1;
        assert_says(
            &said,
            &[&format!("error: {place}: "), &format!("wrong.json:{line}:{column}\n")],
        );
    }
    assert!(said.ends_with("wrong.json: 5 mistakes\n"), "{said}");
}

#[test]
fn absurd_values_are_refused_with_what_is_allowed() {
    let rows: [(&str, Value, &[&str]); 14] = [
        ("/tankers/0/capacity", json!(-3000), &["-3,000 gal is out of range", "check the sign"]),
        ("/tankers/0/capacity", json!(0), &["tankers[0].capacity", "allowed: from 100"]),
        ("/tankers/0/capacity", json!(1e300), &["1e300 gal is out of range", "50,000 gal"]),
        ("/tankers/0/capacity", json!("1e300 gal"), &["1e300 gal is out of range"]),
        ("/tankers/0/capacity", json!("NaN gal"), &["does not begin with a number", "cure:"]),
        ("/tankers/0/capacity", json!("inf gal"), &["does not begin with a number", "cure:"]),
        ("/tankers/0/capacity", json!(null), &["null does not belong here"]),
        ("/tankers/0/capacity", json!("3000 mph"), &["tankers[0].capacity", "mph", "cure:"]),
        ("/tankers/0/count", json!(1_000_000), &["1000000 is out of range", "from 1 to 1,000"]),
        ("/fill_sites/0/flow", json!(0), &["0 gpm is out of range", "from 1 to"]),
        ("/fill_sites/0/out/miles", json!(0), &["fill_sites[0].out.miles", "allowed:"]),
        ("/tankers", json!([]), &["tankers: the list is empty", "from 1 to 1000"]),
        ("/fill_sites", json!([]), &["fill_sites: the list is empty", "from 1 to 100"]),
        ("/incident/attack_flow", json!([]), &["incident.attack_flow: the list is empty"]),
    ];
    for (pointer, wrong, parts) in rows {
        let said = said_about_changed(|value| {
            let (holder, key) = pointer.rsplit_once('/').expect("a pointer");
            let holder = value.pointer_mut(holder).expect("the holder is there");
            holder[key] = wrong;
        });
        assert_says(&said, parts);
        assert_says(&said, &["wrong.json:"]);
    }
}

/// A number that JSON can write and no floating-point number can hold.
#[test]
fn a_number_beyond_all_bounds_is_refused() {
    let text = fs::read_to_string(hay_barn()).expect("the scenario is there");
    for huge in ["1e999", "-1e999"] {
        let text = text.replacen("\"capacity\": 3500", &format!("\"capacity\": {huge}"), 1);
        let said = said_about(text.as_bytes());
        assert_says(&said, &["drop_tanks[0].capacity", huge, "wrong.json:", "allowed:"]);
    }
}

/// Neither a hundred thousand brackets nor a thousand trucks too many upset the program.
#[test]
fn a_deep_or_long_file_is_refused_in_good_order() {
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    let said = said_about(deep.as_bytes());
    assert_says(&said, &["wrong.json:1:"]);
    let said = said_about_changed(|value| {
        let tanker = value["tankers"][0].clone();
        value["tankers"] = vec![tanker; 1001].into();
    });
    assert_says(&said, &["tankers", "1000"]);
}
