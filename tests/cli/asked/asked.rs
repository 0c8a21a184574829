//! A plan asked about with changes: every command gives the figures of a file written with them, says what was
//! changed in its first line, and refuses what it does not understand by the argument.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use super::{WRONG_COMMAND, bucketline, folder, scenario};

/// The changes, as arguments.
const CHANGES: [&str; 10] = [
    "--without",
    "Town hydrant",
    "--with",
    "Birch Hill tanker 2",
    "--late",
    "4",
    "--set",
    "Mill pond/flow=900 gpm",
    "--without",
    "Stony Lake tanker",
];

/// The same, made in the file by hand.
fn change_file(plan: &mut Value) {
    plan["fill_sites"].as_array_mut().expect("sites").remove(1);
    plan["fill_sites"][0]["flow"] = json!("900 gpm");
    let aid = plan["aid"].as_array_mut().expect("aid");
    for unit in aid.iter_mut() {
        unit["requested_at"] = json!(unit["requested_at"].as_f64().unwrap_or(0.0) + 4.0);
    }
    aid.remove(3);
    let mut second = aid[2].clone();
    second["name"] = json!("Birch Hill tanker 2");
    second.as_object_mut().expect("a tanker").remove("count");
    aid[2]["count"] = json!(1);
    plan["tankers"].as_array_mut().expect("tankers").push(second);
}

fn feed_mill() -> Value {
    let text = fs::read_to_string(scenario("feed_mill_mutual_aid")).expect("the scenario is there");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    plan["options"] = json!([{"name": "bigger", "cost": 100, "changes": [
        {"op": "replace", "path": "tankers/Tanker 7/capacity", "value": 3000}]}]);
    plan
}

fn write(file: &Path, plan: &Value) -> String {
    fs::write(file, serde_json::to_string_pretty(plan).expect("JSON")).expect("written");
    file.display().to_string()
}

/// What the two answers must have in common: everything but words, which name the change and its lines.
fn figures(folder: &Path, arguments: &[&str]) -> Value {
    let text = bucketline(folder, arguments).answered(&arguments.join(" "));
    let mut value: Value = serde_json::from_str(&text).expect("JSON");
    let fields = value.as_object_mut().expect("an object");
    fields.remove("asked");
    fields.remove("told");
    value
}

#[test]
fn every_command_gives_the_figures_of_a_file_with_the_changes() {
    let folder = folder();
    let mut changed = feed_mill();
    let as_it_stands = write(&folder.path().join("plan.json"), &changed);
    change_file(&mut changed);
    let changed = write(&folder.path().join("changed.json"), &changed);
    for command in ["risk", "size", "request", "lose", "levers", "compare", "hold", "reach"] {
        let runs = if command == "risk" { "2000" } else { "300" };
        let whole = |file: &str, asks: &[&str]| {
            let mut arguments = vec![command, file, "--runs", runs, "--json"];
            arguments.extend(asks);
            figures(folder.path(), &arguments)
        };
        assert_eq!(whole(&as_it_stands, &CHANGES), whole(&changed, &[]), "{command}");
        assert_ne!(whole(&as_it_stands, &[]), whole(&changed, &[]), "{command}");
    }
    for arguments in [&["check"][..], &["replay", "--run", "3"], &["grade", "--runs", "300"]] {
        let whole = |file: &str, asks: &[&str]| {
            let arguments = [&[arguments[0], file, "--json"], &arguments[1..], asks].concat();
            figures(folder.path(), &arguments)
        };
        assert_eq!(whole(&as_it_stands, &CHANGES), whole(&changed, &[]), "{arguments:?}");
    }
}

/// Steps of the flow, where the command takes them.
#[test]
fn another_flow_is_that_of_a_file_with_it() {
    let folder = folder();
    let mut plan = feed_mill();
    let file = write(&folder.path().join("plan.json"), &plan);
    plan["incident"]["attack_flow"] = json!([{"from": 0, "flow": 100}, {"from": 25, "flow": 350}]);
    let changed = write(&folder.path().join("changed.json"), &plan);
    for command in ["risk", "size", "request", "lose", "levers", "compare"] {
        let whole = |file: &str, asks: &[&str]| {
            let arguments = [&[command, file, "--runs", "300", "--json"], asks].concat();
            figures(folder.path(), &arguments)
        };
        let asks = ["--flow", "100@0,350@25"];
        assert_eq!(whole(&file, &asks), whole(&changed, &[]), "{command}");
    }
}

#[test]
fn the_first_line_says_what_was_changed_and_the_worst_fire_is_of_that_plan() {
    let folder = folder();
    let file = scenario("feed_mill_mutual_aid");
    let arguments = [&["risk", &file, "--runs", "600", "--no-charts"], &CHANGES[..]].concat();
    let text = bucketline(folder.path(), &arguments).answered("risk");
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let first = "Changed from the file: all who are asked for late or are aid 4 minutes later; with Birch Hill \
                 tanker 2; without Town hydrant; without Stony Lake tanker; Mill pond/flow = 900 gpm, not 1250.";
    assert!(said.starts_with(first), "{text}");
    let json = bucketline(folder.path(), &[&arguments[..], &["--json"]].concat()).answered("json");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(value["told"]["changed"], first);
    assert_eq!(
        value["asked"][2],
        json!({
            "kind": "without", "name": "Town hydrant", "drop_tanks_gone": 0, "pumps_gone_at": [],
            "unassigned": []
        })
    );
    // The command that is offered replays a fire of the plan that was asked about.
    let watch = said.split("bucketline replay ").nth(1).expect("a fire to look at");
    assert!(watch.contains("--without 'Town hydrant'") && watch.contains("--late 4"), "{text}");
    // Nothing is said where nothing is asked.
    let plain = bucketline(folder.path(), &["risk", &file, "--runs", "300", "--json"]);
    let value: Value = serde_json::from_str(&plain.answered("plain")).expect("JSON");
    assert_eq!((&value["asked"], &value["told"]["changed"]), (&json!([]), &Value::Null));
}

#[test]
fn what_is_not_understood_is_refused_by_its_argument_all_at_once() {
    let file = scenario("feed_mill_mutual_aid");
    for command in
        ["check", "risk", "size", "compare", "request", "lose", "levers", "hold", "grade"]
    {
        let arguments = [command, &file, "--without", "Tankr 5", "--set", "Mill pond/flwo=3"];
        let said = bucketline(folder().path(), &arguments).refused(WRONG_COMMAND, command);
        for part in
            ["--without \"Tankr 5\"", "\"Tanker 5\"", "--set \"Mill pond/flwo=3\"", "`flow`"]
        {
            assert!(said.contains(part), "{command}: {part} in {said}");
        }
        for part in ["[0]", "[1]", "/0/", "/1/"] {
            assert!(!said.contains(part), "{command}: {part} in {said}");
        }
    }
}
