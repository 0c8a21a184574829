//! A building asked for question by question.

use std::fs;

use serde_json::{Value, json};

use super::first_plan::with_answers;
use super::{CANNOT_READ, WRONG_SCENARIO, bucketline, folder};

/// A building asked for, and the same one in a file by hand, want the same water.
#[test]
fn a_building_is_asked_for_in_plain_words() {
    let folder = folder();
    let answers = [
        "us",
        "Machinery shed, County Road 14",
        "machinery shed",
        "Repair garage",
        "120",
        "60 ft",
        "",
        "16",
        "back",
        "16 ft",
        "6",
        "20",
        "brick",
        "",
        "1",
        "half",
        "50",
        "1,800 ft2",
        "",
        "2 h",
        "",
    ];
    let said = with_answers(folder.path(), &["new", "shed.json", "--building", "--ask"], &answers);
    let said = said.answered("new --building --ask");
    assert!(said.contains("Not taken: write one of: dwelling, apartments"), "{said}");
    assert!(said.contains("Not taken: it can be a share or a percentage"), "{said}");
    for taken in ["Repair garage is taken as workshop", "brick is taken as ordinary"] {
        assert!(said.contains(taken), "{taken}: {said}");
    }
    assert!(said.contains("shed.json is written. Then:\n  bucketline flow shed.json"), "{said}");
    let made: Value = serde_json::from_str(
        &fs::read_to_string(folder.path().join("shed.json")).expect("written"),
    )
    .expect("JSON");
    assert_eq!(
        made["building"],
        json!({"length": 120, "width": "60 ft", "stories": 1, "height": "16 ft", "ridge": 6, "open_height": 20,
            "use": "workshop", "construction": "ordinary", "contents": "combustible", "involved": "50 %",
            "exposures": [{"distance": 50, "area": "1800 ft2"}]})
    );
    // Area / 3, half of it burning, and a quarter of all of it for the building beside: National Fire Academy.
    let said = bucketline(folder.path(), &["flow", "shed.json"]).answered("flow");
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("the 1,800 gpm that it works out to"), "{said}");
    let half =
        with_answers(folder.path(), &["new", "m.json", "--building", "--ask"], &["metric", "Shed"]);
    assert_eq!(half.code, Some(CANNOT_READ), "{}", half.err);
    assert!(!folder.path().join("m.json").exists());
}

/// One that is there is shown, mended by a word and its value, and keeps what is not asked for.
#[test]
fn a_building_that_is_there_is_mended() {
    let folder = folder();
    bucketline(folder.path(), &["new", "barn.json", "--building"]).answered("new --building");
    let file = folder.path().join("barn.json");
    let starter = fs::read_to_string(&file).expect("written");
    let mend = |answers: &[&str]| {
        with_answers(folder.path(), &["new", "barn.json", "--building", "--ask"], answers)
    };
    let said = mend(&[""]);
    let said = said.answered("nothing changed");
    assert!(said.contains("Nothing was changed, and nothing is written"), "{said}");
    assert_eq!(fs::read_to_string(&file).expect("there"), starter);
    let json = |text: &str| -> Value { serde_json::from_str(text).expect("JSON") };
    let said =
        mend(&["length 84", "2", "dwelling", "eaves: much", "stories: 2 of them", "Stories 2", ""]);
    let said = said.answered("mended");
    assert!(said.contains("barn.json is written. Then:\n  bucketline flow barn.json"), "{said}");
    assert_eq!(said.matches("The building, as you said it:").count(), 1, "{said}");
    let (before, after) = (json(&starter), json(&fs::read_to_string(&file).expect("there")));
    let mut expected = before.clone();
    expected["building"]["length"] = json!(84);
    expected["building"]["use"] = json!("dwelling");
    expected["building"]["stories"] = json!(2);
    assert_eq!(after, expected, "{said}");
    // What is no building is told, not overwritten.
    fs::write(&file, "{\"title\": 3}").expect("written");
    let said = mend(&[""]);
    assert_eq!(said.code, Some(WRONG_SCENARIO), "{}", said.err);
    assert_eq!(fs::read_to_string(&file).expect("there"), "{\"title\": 3}");
}

/// A duration that is not stated stays so, until one is said; and may be taken out again.
#[test]
fn a_building_without_a_duration_stays_without() {
    let folder = folder();
    let own = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/buildings/ridge_house.json");
    let file = folder.path().join("house.json");
    let own = fs::read_to_string(own).expect("it comes with the program");
    let mut expected: Value = serde_json::from_str(&own).expect("JSON");
    assert_eq!(expected["duration"], Value::Null);
    fs::write(&file, own).expect("written");
    for (answers, key, value, told) in [
        (vec!["width 31", ""], "/building/width", json!(31), "duration: not said"),
        (
            vec!["duration", "", ""],
            "/duration",
            Value::Null,
            "For how long is the flow wanted [not said]",
        ),
        (vec!["duration 90", ""], "/duration", json!(90), "13 duration: 90 min"),
        (vec!["duration none", ""], "/duration", Value::Null, "13 duration: not said"),
    ] {
        let said =
            with_answers(folder.path(), &["new", "house.json", "--building", "--ask"], &answers);
        let said = said.answered("mended").split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(told), "{told}: {said}");
        let (holder, key) = key.rsplit_once('/').expect("a key");
        let fields = expected.pointer_mut(holder).and_then(Value::as_object_mut).expect("fields");
        match value {
            Value::Null => fields.remove(key),
            value => fields.insert(key.to_owned(), value),
        };
        let mended: Value =
            serde_json::from_str(&fs::read_to_string(&file).expect("there")).expect("JSON");
        assert_eq!(mended, expected, "{answers:?}");
    }
}
