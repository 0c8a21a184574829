//! `lose` and `levers`: an answer on a screen, a chart, and all that is told as figures in JSON.

use serde_json::Value;

use super::{CAUTION, bucketline, folder, hay_barn, names_in, scenario, write_changed};

/// Command, scenario, its chart, and how the answer begins.
fn rows() -> Vec<(&'static str, String, &'static str, &'static str)> {
    vec![
        (
            "lose",
            scenario("sawmill_two_fill_sites"),
            "losses",
            "\nEven with everything in service ",
        ),
        (
            "lose",
            scenario("grass_fire_nursing_only"),
            "losses",
            "\nEven with everything in service ",
        ),
        (
            "lose",
            scenario("schoolhouse_three_fill_sites"),
            "losses",
            "\nThe plan can lose any one thing",
        ),
        ("levers", hay_barn(), "levers", "\nWorth most: "),
        ("levers", scenario("orchard_metric"), "levers", " L/min"),
    ]
}

fn json(arguments: &[&str]) -> Value {
    let text = bucketline(folder().path(), arguments).answered("json");
    serde_json::from_str(&text).expect("JSON")
}

#[test]
fn an_answer_has_a_chart_and_the_same_in_json() {
    for (command, file, chart, telling) in rows() {
        let what = format!("{command} {file}");
        let folder = folder();
        let arguments = [command, &*file, "--runs", "600", "--out", "charts"];
        let text = bucketline(folder.path(), &arguments).answered(&what);
        assert!(text.contains(telling), "{what}: {text}");
        assert_eq!(text.lines().last(), Some(CAUTION), "{what}");
        assert!(text.lines().all(|line| line.chars().count() <= 100), "{what}: {text}");
        for nonsense in ["NaN", "inf ", "-0 ", "-0.0 ", "points", "95%", "touched"] {
            assert!(!text.contains(nonsense), "{what}: {nonsense} in {text}");
        }
        let charts = names_in(&folder.path().join("charts"));
        assert_eq!(charts, [format!("{chart}.png"), format!("{chart}.svg")], "{what}");
        let arguments = [command, &*file, "--runs", "600", "--json"];
        let value = json(&arguments);
        assert_eq!(value["ended_early"], false, "{what}");
        assert_eq!(value["question"], command, "{what}");
        let told = value["told"]["verdict"].as_str().expect("a verdict");
        let first: String = text.lines().skip(2).take(3).collect::<Vec<_>>().join(" ");
        assert!(first.starts_with(told), "{what}: {told}");
        let one = json(&[&arguments[..], &["--threads", "1"]].concat());
        assert_eq!(value, one, "{what}");
    }
}

#[test]
fn what_the_plan_cannot_lose_is_named() {
    let file = scenario("hay_barn_second_drop_tank");
    let arguments = ["lose", &file, "--runs", "600", "--target", "55%", "--no-charts"];
    let text = bucketline(folder().path(), &arguments).answered("lose");
    assert!(text.contains("\nThe plan can't lose Quarry pond; "), "{text}");
    assert!(text.contains("\nSpare     it can lose, one at a time, "), "{text}");
    let found = json(&["lose", &file, "--runs", "600", "--target", "55%", "--json"]);
    assert_eq!(found["stands"], "not_any_one");
    let worst = &found["losses"][0];
    assert_eq!(worst["lost"]["name"], "Quarry pond");
    assert_eq!((&worst["side_of_target"], &worst["replications"]), (&"above".into(), &512.into()));
    let (low, high) = (worst["ci_low"].as_f64(), worst["ci_high"].as_f64());
    assert!(low > Some(0.9) && high >= low, "{worst}");
}

#[test]
fn the_tables_and_small_print_are_for_who_asks_for_more() {
    for (command, file, _, _) in rows() {
        let arguments = [command, &file, "--runs", "600", "--no-charts"];
        let short = bucketline(folder().path(), &arguments).answered(command);
        let more = [&arguments[..], &["--more"]].concat();
        let long = bucketline(folder().path(), &more).answered(command);
        assert!(long.lines().count() > short.lines().count(), "{command} {file}");
        assert!(long.contains("95% interval"), "{command} {file}: {long}");
        assert!(long.lines().all(|line| line.chars().count() <= 100), "{command} {file}: {long}");
    }
}

#[test]
fn a_metric_file_gets_no_us_unit() {
    let file = scenario("orchard_metric");
    for command in ["lose", "levers", "grade"] {
        let arguments = [command, &file, "--runs", "300", "--more"];
        let text = bucketline(folder().path(), &arguments).answered(command);
        let found = json(&[command, &file, "--runs", "300", "--json"]);
        assert_eq!(found["units"], "metric");
        for sign in ["gpm", "gal", "mi", "mph", "ft", "psi"] {
            let is_word =
                |text: &str| text.split(|c: char| !c.is_alphanumeric()).any(|w| w == sign);
            assert!(!is_word(&text), "{command}: {sign} in {text}");
            assert!(!is_word(&found.to_string()), "{command}: {sign} in {found}");
        }
    }
}

/// Names with units, digits and our own words in them are the user's: no reader's units or words alter them.
#[test]
fn names_stay_whole_whatever_is_in_them() {
    let folder = folder();
    let path = folder.path().join("names.json");
    let text = std::fs::read_to_string(scenario("orchard_metric")).expect("the scenario");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    plan["title"] = "Tanker 500 gal at 2 mi".into();
    plan["tankers"][0]["name"] = "Tender 3,000 gal".into();
    plan["drop_tanks"][0]["brought_by"] = "Tender 3,000 gal".into();
    plan["tankers"][1]["name"] = "Stone tanker".into();
    plan["fill_sites"][0]["name"] = "gpm mill".into();
    std::fs::write(&path, plan.to_string()).expect("a file");
    let file = path.display().to_string();
    let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    for (command, names) in [
        ("lose", ["Tender 3,000 gal", "Stone tanker", "gpm mill"].as_slice()),
        ("levers", &["gpm mill"]),
        ("grade", &["Tender 3,000 gal", "Stone tanker", "gpm mill"]),
        ("reach", &["gpm mill"]),
    ] {
        let call = [command, &file, "--runs", "100", "--tender"];
        let told = bucketline(folder.path(), &[&call[..], &["--more"]].concat()).answered(command);
        let found = json(&[&call[..], &["--json"]].concat()).to_string();
        for name in [&["Tanker 500 gal at 2 mi"], names].concat() {
            assert!(one_line(&told).contains(name), "{command}: {name} in {told}");
            assert!(found.contains(name), "{command}: {name} in {found}");
        }
        let altered = ["Tender 500 gal", "Tanker 3,000 gal", "Stone tender", "11,3"];
        for altered in altered {
            assert!(!one_line(&told).contains(altered), "{command}: {altered} in {told}");
            assert!(!found.contains(altered), "{command}: {altered} in {found}");
        }
    }
}

/// A pump that is lost at a source is named with where it pumps, or with who brings it.
#[test]
fn the_pump_that_is_lost_at_a_source_is_named() {
    let folder = folder();
    let file = folder.path().join("pump.json");
    for (pump, expected, by) in [
        (
            serde_json::json!({"name": "Engine 12", "response": 15, "setup": 3}),
            "Engine 12, which pumps at Quarry pond",
            Value::Null,
        ),
        (
            serde_json::json!({"name": "Portable pump", "brought_by": "Tanker 5", "setup": 4}),
            "Portable pump, which Tanker 5 brings",
            "Tanker 5".into(),
        ),
    ] {
        write_changed(&file, |plan| {
            let site = plan["fill_sites"][0].as_object_mut().expect("a fill site");
            site.remove("ready");
            site.insert("source_pump".to_owned(), pump);
        });
        let file = file.display().to_string();
        let arguments = ["lose", &file, "--runs", "300", "--no-charts"];
        let said = bucketline(folder.path(), &arguments).answered("lose");
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(expected), "{expected}: {said}");
        let told = bucketline(folder.path(), &[&arguments[..], &["--json"]].concat());
        let told: Value = serde_json::from_str(&told.answered("lose --json")).expect("JSON");
        let losses = told["losses"].as_array().expect("losses");
        let pump = losses.iter().find(|one| one["lost"]["kind"] == "source_pump").expect("a pump");
        assert_eq!(pump["lost"]["pump_brought_by"], by, "{pump}");
    }
}
