//! A plan that is there, shown and mended by the questions.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use super::first_plan::with_answers;
use super::first_plan_asked::json_of;
use super::{CANNOT_WRITE, WRONG_SCENARIO, bucketline, folder};

const ANSWERS: [&str; 12] = [
    "us; Elevator, Depot Street; 450; 90",
    "Engine 2; 750; 7; 200",
    "Engine 8; 12",
    "Tanker 6; 3,000; 10; Tanker 8; 2,000 gal; 14",
    "",
    "Creek 1; Creek; 2,500; 21; Creek 2; Creek; 1,800; 24",
    "",
    "0",
    "Depot pond; 800; Engine 9; 14; 1.8; 28; Town hydrant; 500; none; 5; 3; 30",
    "",
    "tanker 6; 3,000;",
    "",
];

/// A file that was made of these sheets is read back as what they say.
pub(super) fn opens_as_imported(sheets: &Path, file: &Path) {
    let text = fs::read_to_string(file).expect("written");
    let imported = plain_plan::read_sheets(sheets).expect("sound sheets").plan;
    let opened = plain_plan::opened(&text);
    match imported.second_supply_engine {
        None => assert_eq!(opened, Ok(imported), "{text}"),
        // A file has no place for its name but a note.
        Some(_) => assert!(opened.is_ok(), "{opened:?}"),
    }
}

pub(super) fn made(folder: &Path) -> Value {
    with_answers(folder, &["new", "mine.json", "--ask", "--force"], &ANSWERS).answered("new --ask");
    json_of(folder, "mine.json")
}

pub(super) fn put(folder: &Path, file: &str, value: &Value) {
    fs::write(folder.join(file), format!("{value:#}")).expect("written");
}

/// Where two values differ, by JSON Pointer.
pub(super) fn differences(one: &Value, other: &Value, at: &str, found: &mut Vec<String>) {
    match (one, other) {
        (Value::Object(one), Value::Object(other)) => {
            let mut keys: Vec<&String> = one.keys().chain(other.keys()).collect();
            keys.sort();
            keys.dedup();
            let null = Value::Null;
            for key in keys {
                let (one, other) = (one.get(key).unwrap_or(&null), other.get(key).unwrap_or(&null));
                differences(one, other, &format!("{at}/{key}"), found);
            }
        }
        (Value::Array(one), Value::Array(other)) if one.len() == other.len() => {
            for (place, (one, other)) in one.iter().zip(other).enumerate() {
                differences(one, other, &format!("{at}/{place}"), found);
            }
        }
        (one, other) if one == other => {}
        _ => found.push(at.to_owned()),
    }
}

/// What is mended changes, and nothing else does.
#[test]
fn what_is_mended_changes_alone() {
    let folder = folder();
    for (answers, changed) in [
        ("1; ; 500", vec!["/incident/attack_flow"]),
        ("engine 2; ; ; 8", vec!["/attack_engine/response/mean"]),
        ("Engine 8; ; 15", vec!["/supply/engine/response/mean"]),
        ("tanker 8; ; 2,500 gal", vec!["/tankers/1/capacity"]),
        ("Tanker 8; ; ; ; 4 in 5", vec!["/tankers/1/turnout"]),
        ("Tanker 8; ; ; ; ; 2.5", vec!["/tankers/1/dump_rate"]),
        ("Creek 2; ; ; ; 26", vec!["/aid/1/response/mean"]),
        ("Creek 2; ; ; ; ; yes", vec!["/aid/1/comes_whole"]),
        ("Depot pond; ; ; ; ; ; 9 in 10", vec!["/fill_sites/0/source_pump/turnout"]),
        ("Town hydrant; ; 600", vec!["/fill_sites/1/flow"]),
        ("8; ; ; ; ; ; ; ; 33", vec!["/fill_sites/0/back/mph", "/fill_sites/0/out/mph"]),
        // What is left of its bottom goes with its size.
        (
            "drop tank of tanker 6; ; 3,500",
            vec!["/drop_tanks/0/capacity", "/drop_tanks/0/unusable"],
        ),
    ] {
        let before = made(folder.path());
        // Enter keeps whatever else is asked, and writes at the end.
        let all = [vec![answers], vec![""; 9]].concat();
        let said = with_answers(folder.path(), &["new", "mine.json", "--ask"], &all);
        let said = said.answered("mended");
        assert!(said.contains("mine.json is written."), "{answers:?}: {said}");
        let mut found = Vec::new();
        differences(&before, &json_of(folder.path(), "mine.json"), "", &mut found);
        assert_eq!(found, changed, "{answers:?}: {said}");
    }
}

/// One figure is mended by its word and value, and its sentence alone is told again.
#[test]
fn one_figure_is_mended_by_its_word() {
    let folder = folder();
    for (answer, value, changed) in [
        ("7 minutes 23", json!(23), "/aid/1/response/mean"),
        ("Creek 2 is there in 23 min", json!("23 min"), "/aid/1/response/mean"),
        ("creek 2: 2,750 gal", json!("2750 gal"), "/aid/1/capacity"),
        ("Creek 1 comes 3 in 4", json!(0.75), "/aid/0/turnout"),
        ("Tanker 6 often 90%", json!("90 %"), "/tankers/0/turnout"),
        ("flow 500", json!(500), "/incident/attack_flow"),
        ("1 flow 500 gpm", json!("500 gpm"), "/incident/attack_flow"),
        ("duration 2 h", json!("2 h"), "/incident/duration"),
        ("reserve 250", json!(250), "/incident/reserve"),
        ("Engine 2 minutes 8", json!(8), "/attack_engine/response/mean"),
        ("Engine 8 there 15", json!(15), "/supply/engine/response/mean"),
        ("Depot pond flow 900", json!(900), "/fill_sites/0/flow"),
        ("9 places 2", json!(2), "/fill_sites/1/positions"),
        ("Depot pond holds 40,000", json!(40000), "/fill_sites/0/volume"),
        ("town hydrant name Depot hydrant", json!("Depot hydrant"), "/fill_sites/1/name"),
    ] {
        let before = made(folder.path());
        let said =
            with_answers(folder.path(), &["new", "mine.json", "--ask"], &[answer, "", "yes"]);
        let said = said.answered("mended");
        let after = json_of(folder.path(), "mine.json");
        let mut found = Vec::new();
        differences(&before, &after, "", &mut found);
        assert_eq!(found, [changed], "{answer}: {said}");
        assert_eq!(after.pointer(changed), Some(&value), "{answer}");
        assert_eq!(said.matches("The plan, as you said it:").count(), 1, "{answer}: {said}");
        // One sentence, which is broken into two lines at most.
        let again = said.rsplit("\n> ").nth(1).expect("what was mended");
        let told = again.lines().filter(|line| line.starts_with("   ")).count();
        assert!((1..=3).contains(&told), "{answer}: {again}");
    }
    // Without a value its question alone is asked; what is not taken is asked for, and what is not known named.
    made(folder.path());
    let answers = [
        "Creek 1 minutes",
        "soon",
        "22",
        "9 often 3 in 4",
        "8 wheels",
        "minutes 5",
        "back",
        "24",
        "",
    ];
    let said = with_answers(folder.path(), &["new", "mine.json", "--ask"], &answers);
    let said = said.answered("mended").split_whitespace().collect::<Vec<_>>().join(" ");
    for expected in [
        "How many minutes after its call is Creek 1 there [21] > soon Not taken",
        "what can be mended there: name, flow, places, pump, ready, road, speed, gravel, holds; write `9 flow`",
        "what can be mended there: name, flow, places, pump, ready, often, road",
        "write a number from 1 to 10, or a name",
        "is Creek 1 there [22] > 24",
    ] {
        assert!(said.contains(expected), "{expected}: {said}");
    }
    assert_eq!(json_of(folder.path(), "mine.json")["aid"][0]["response"]["mean"], 24);
}

/// A smaller flow to begin with is said with the flow, however it is put.
#[test]
fn what_the_lines_begin_with_is_said_with_the_flow() {
    let folder = folder();
    let steps = |first: Value, until: Value, whole: Value| json!([{"from": 0, "flow": first}, {"from": until, "flow": whole}]);
    for (answers, expected) in [
        (["flow 350, beginning with 150", "12"], steps(json!(150), json!(12), json!(350))),
        (
            ["flow 150 at first, then 350 gpm", ""],
            steps(json!("150 gpm"), json!(10), json!("350 gpm")),
        ),
        (
            ["flow 1,350 gpm (starting with 150 gpm)", "5 min"],
            steps(json!("150 gpm"), json!("5 min"), json!("1350 gpm")),
        ),
        (["start 150", "12"], steps(json!(150), json!(12), json!(450))),
        // Two numbers that say nothing of a beginning, and a unit of something else.
        (["flow 350 or 150", "flow 350"], json!(350)),
        (["flow 350 mi, beginning with 150", "flow 400"], json!(400)),
    ] {
        made(folder.path());
        let all = [&answers[..], &["", "yes"]].concat();
        let said = with_answers(folder.path(), &["new", "mine.json", "--ask"], &all);
        let said = said.answered("mended");
        let flow = &json_of(folder.path(), "mine.json")["incident"]["attack_flow"];
        assert_eq!(*flow, expected, "{answers:?}: {said}");
    }
}

/// The plan `two.json`, of sheets with two engines that draft.
pub(super) fn two_that_draft(folder: &Path) -> Value {
    bucketline(folder, &["new", "--csv", "two", "--force"]).answered("new --csv");
    let sheet = folder.join("two/units.csv");
    let units = fs::read_to_string(&sheet).expect("written");
    let second = units.lines().find(|line| line.starts_with("Engine 8,")).expect("one that drafts");
    fs::write(&sheet, format!("{units}{}\n", second.replace("Engine 8,", "Engine 10,")))
        .expect("written");
    bucketline(folder, &["import", "two", "--force"]).answered("import");
    json_of(folder, "two.json")
}

/// A plan with two engines that draft is opened, and what both move stays.
#[test]
fn two_supply_engines_are_kept() {
    let folder = folder();
    let before = two_that_draft(folder.path());
    assert_eq!(before["supply"]["draft_limit"], 2000);
    let said = with_answers(folder.path(), &["new", "two.json", "--ask"], &["flow 375", "", "yes"]);
    let said = said.answered("mended").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.contains("`supply/draft_limit`, `supply/failure`, notes of your own (1)"),
        "{said}"
    );
    let mut found = Vec::new();
    differences(&before, &json_of(folder.path(), "two.json"), "", &mut found);
    assert!(
        found.iter().all(|at| at.starts_with("/incident/attack_flow") || at.starts_with("/notes")),
        "{found:?}"
    );
    let notes = |value: &Value| {
        let mut notes: Vec<String> =
            value["notes"].as_array().expect("notes").iter().map(Value::to_string).collect();
        notes.sort();
        notes
    };
    assert_eq!(notes(&before), notes(&json_of(folder.path(), "two.json")));
}

/// What the questions do not know is named, all of it, and nothing is written.
#[test]
fn what_would_be_lost_is_named() {
    let folder = folder();
    let sound = made(folder.path());
    for (place, value, told) in [
        ("/tankers/0/pump_off", json!(400), "tankers/Tanker 6/pump_off: 400\n"),
        (
            "/tankers/1/response",
            json!({"samples": [12, 13.5, 14]}),
            "tankers/Tanker 8/response: {\"samples\":[12,13.5,14]}",
        ),
        (
            "/handling/fill_connect/mean",
            json!(1.4),
            "handling/fill_connect/mean: 1.4 (the questions write 1.2)",
        ),
        (
            "/fill_sites/0/back/mph",
            json!(25),
            "fill_sites/Depot pond/back/mph: 25 (the questions write 28)",
        ),
        (
            "/drop_tanks/0/unusable",
            json!(150),
            "drop_tanks/Tanker 6/unusable: 150 (the questions write 180)",
        ),
        ("/incident/tolerance", json!(0), "incident/tolerance: 0 (the questions write 0.1)"),
        ("/aid/0/count", json!(2), "aid/Creek 1/count: 2\n"),
        (
            "/whole_fire",
            Value::Null,
            "whole_fire: nothing is stated (the questions write {\"driving_cv\":0.1,",
        ),
    ] {
        let mut changed = sound.clone();
        let (holder, key) = place.rsplit_once('/').expect("a key");
        let fields = changed.pointer_mut(holder).and_then(Value::as_object_mut).expect("an object");
        match value {
            Value::Null => fields.remove(key),
            value => fields.insert(key.to_owned(), value),
        };
        put(folder.path(), "mine.json", &changed);
        bucketline(folder.path(), &["check", "mine.json"]).answered(place);
        let refused = bucketline(folder.path(), &["new", "mine.json", "--ask"]);
        let said = refused.refused(CANNOT_WRITE, place);
        assert!(said.contains(&format!("\n  {told}")), "{told}: {said}");
        assert_eq!(said.matches("\n  ").count(), 2, "that and the cure: {said}");
        assert!(said.contains("bucketline page mine.json") && said.contains("--force"), "{said}");
        assert_eq!(json_of(folder.path(), "mine.json"), changed);
    }
    // A whole other scenario: every field, in the order of the file; begun anew it is another plan.
    bucketline(folder.path(), &["new", "starter.json"]).answered("new");
    let said = bucketline(folder.path(), &["new", "starter.json", "--ask"]);
    assert!(said.refused(CANNOT_WRITE, "a starter").lines().count() > 10);
    with_answers(folder.path(), &["new", "starter.json", "--ask", "--force"], &ANSWERS)
        .answered("--force");
    assert_eq!(json_of(folder.path(), "starter.json"), sound);
    // What is wrong in the file is told as everywhere.
    let mut wrong = sound;
    wrong["tankers"][0]["capacity"] = json!(5);
    put(folder.path(), "mine.json", &wrong);
    let said = bucketline(folder.path(), &["new", "mine.json", "--ask"]);
    assert!(said.refused(WRONG_SCENARIO, "wrong").contains("capacity"));
}

/// Numbers are what they are however they are written; what stands beside the plan stays.
#[test]
fn what_the_questions_need_not_know_is_kept() {
    let folder = folder();
    let mut file = made(folder.path());
    file["incident"]["attack_flow"] = json!(450.0);
    file["notes"].as_array_mut().expect("notes").push(json!("Timed in May."));
    file["options"] = json!([{"name": "a larger tank", "changes": [
        {"op": "replace", "path": "/drop_tanks/0/capacity", "value": 4000}
    ]}]);
    put(folder.path(), "mine.json", &file);
    let before = fs::read(folder.path().join("mine.json")).expect("there");
    let said = with_answers(folder.path(), &["new", "mine.json", "--ask"], &[""]);
    let said = said.answered("opened");
    assert!(said.contains("keeps as it is: `options` (1), notes of your own (1)."), "{said}");
    assert_eq!(fs::read(folder.path().join("mine.json")).expect("there"), before);
    // The option counts on the drop tank by its place.
    let answers = ["drop tank of tanker 6; none", "", "", "tanker 8; none", ""];
    let said = with_answers(folder.path(), &["new", "mine.json", "--ask"], &answers);
    let said = said.answered("mended");
    let told = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains("Not taken: what could be bought or changed, \"a larger tank\""),
        "{said}"
    );
    assert!(told.contains("bucketline compare mine.json"), "{said}");
    let after = json_of(folder.path(), "mine.json");
    assert_eq!(after["options"], file["options"]);
    assert_eq!(after["notes"], file["notes"]);
    assert_eq!(after["tankers"].as_array().map(Vec::len), Some(1));
}

/// What was imported is told as the questions tell it, and opens.
#[test]
fn what_was_imported_is_told_and_opens() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "barn"]).answered("new --csv");
    let options = folder.path().join("barn/options.csv");
    let examples = fs::read_to_string(&options).expect("written");
    fs::write(&options, examples.replace("EXAMPLE ", "")).expect("written");
    let said = bucketline(folder.path(), &["import", "barn"]).answered("import");
    for told in [
        "  Engine 8 drafts from the drop tank. It is there 14 min after the alarm.\n",
        "  Tanker 3 of Alder Creek, your own: 2,500 gal, there 11 min after the alarm.",
        // Six of aid, three departments; what was said of one is told of it.
        "  Stony Lake tanker 2 comes to 80% of fires, is on the second alarm, from minute 4 on.\n",
        "  You could ask Birch Hill: 2 tankers with 5,500 gal in all, there 17 min after the call.\n",
        "  Drop tank of Tanker 5: 3,000 gal.\n",
        "Then:\n  bucketline request barn.json   # whom to ask for\n",
    ] {
        assert!(said.contains(told), "{told}: {said}");
    }
    let before = json_of(folder.path(), "barn.json");
    let answers = ["Stony Lake tanker 1; ; ; 2,750", "", "", "", "", "", "", "", ""];
    with_answers(folder.path(), &["new", "barn.json", "--ask"], &answers).answered("mended");
    let mut found = Vec::new();
    differences(&before, &json_of(folder.path(), "barn.json"), "", &mut found);
    assert_eq!(found.len(), 1, "{found:?}");
    bucketline(folder.path(), &["compare", "barn.json", "--runs", "200"]).answered("compare");
    // Many rows are told in few lines.
    let mut units =
        String::from("unit,kind,department,water,minutes\nEngine 3,attack engine,,1250,9\n");
    for number in 0..40 {
        units += &format!("Tanker {number},own tanker,,2000,{}\n", 10 + number);
        units += &format!("Aid {number},aid tanker,Dept {number},\"2,500\",20\n");
    }
    fs::write(folder.path().join("barn/units.csv"), units).expect("written");
    fs::remove_file(options).expect("removed");
    let said = bucketline(folder.path(), &["import", "barn", "--force"]).answered("import");
    let told = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for expected in [
        "Your own: 40 tankers with 80,000 gal in all, there 10 to 49 min after the alarm or their call.",
        "You could ask 40 departments: 40 tankers with 100,000 gal in all, there 20 min after their call.",
    ] {
        assert!(told.contains(expected), "{expected}: {said}");
    }
    assert!(said.lines().count() < 24, "{said}");
}
