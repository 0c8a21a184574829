//! `compare`, `request`, `lose` and `levers`: an answer, a chart, JSON, and a reason where there is
//! nothing to answer.

use serde_json::Value;

use super::{
    CAUTION, WRONG_COMMAND, WRONG_SCENARIO, bucketline, folder, hay_barn, names_in, scenario,
};

/// Command, scenario, its chart, and what the answer says.
fn rows() -> Vec<(&'static str, String, &'static str, &'static str)> {
    vec![
        ("compare", scenario("hay_barn_what_to_buy"), "options", "Helps most: "),
        ("request", scenario("feed_mill_mutual_aid"), "request", "Ask for "),
        ("request", scenario("chapel_late_mutual_aid"), "request", "No request helps"),
        ("lose", scenario("sawmill_two_fill_sites"), "losses", "The plan can spare nothing"),
        ("lose", scenario("grass_fire_nursing_only"), "losses", "lost  "),
        ("levers", hay_barn(), "levers", "Worth most: "),
        ("levers", scenario("orchard_metric"), "levers", " L/min"),
    ]
}

#[test]
fn choices_are_answered_with_a_chart_and_the_same_in_json() {
    for (command, file, chart, telling) in rows() {
        let what = format!("{command} {file}");
        let folder = folder();
        let arguments = [command, &*file, "--runs", "600", "--out", "charts"];
        let text = bucketline(folder.path(), &arguments).answered(&what);
        assert!(text.contains(telling), "{what}: {text}");
        assert_eq!(text.lines().last(), Some(CAUTION), "{what}");
        assert!(text.lines().all(|line| line.chars().count() <= 100), "{what}: {text}");
        for nonsense in ["NaN", "inf ", "-0 ", "-0.0 "] {
            assert!(!text.contains(nonsense), "{what}: {nonsense} in {text}");
        }
        let charts = names_in(&folder.path().join("charts"));
        assert_eq!(charts, [format!("{chart}.png"), format!("{chart}.svg")], "{what}");
        let arguments = [command, &*file, "--runs", "600", "--json"];
        let json = bucketline(folder.path(), &arguments).answered(&what);
        let value: Value = serde_json::from_str(&json).expect("JSON");
        assert_eq!(value["stopped_early"], false, "{what}");
        let one = [command, &*file, "--runs", "600", "--json", "--threads", "1"];
        assert_eq!(json, bucketline(folder.path(), &one).answered(&what), "{what}");
    }
}

#[test]
fn several_scenarios_are_held_against_the_first() {
    let (first, second) = (hay_barn(), scenario("hay_barn_second_drop_tank"));
    let arguments = ["compare", &first, &second, "--runs", "600", "--no-charts"];
    let text = bucketline(folder().path(), &arguments).answered("two files");
    assert!(text.contains("Helps most: Hay barn, Quarry Lane: a second drop tank."), "{text}");
}

#[test]
fn where_there_is_nothing_to_choose_the_cure_is_told() {
    let file = hay_barn();
    let told = bucketline(folder().path(), &["compare", &file]).refused(WRONG_SCENARIO, "compare");
    assert!(told.contains("has no options to compare") && told.contains("cure:"), "{told}");
    let told = bucketline(folder().path(), &["request", &file]).refused(WRONG_SCENARIO, "request");
    assert!(told.contains("nobody who could be asked for") && told.contains("cure:"), "{told}");
    bucketline(folder().path(), &["compare"]).refused(WRONG_COMMAND, "no file");
}
