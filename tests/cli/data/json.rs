//! `--json`: one JSON value with the keys the model page states, and the same bytes for the same
//! seed.

use serde_json::Value;

use super::{bucketline, folder, hay_barn, scenarios};

fn parsed(text: &str, what: &str) -> Value {
    let value: Value = serde_json::from_str(text).unwrap_or_else(|e| panic!("{what}: {e}"));
    assert!(value.is_object(), "{what}");
    value
}

fn number(value: &Value, what: &str) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{what} is {value}, not a number"))
}

/// A chance with its exact interval around it, all between 0 and 1.
fn assert_chance(chance: &Value, key: &str, what: &str) {
    let [low, middle, high] =
        ["ci_low", key, "ci_high"].map(|key| number(&chance[key], &format!("{what}: {key}")));
    assert!(0.0 <= low && low <= middle && middle <= high && high <= 1.0, "{what}: {chance}");
}

#[test]
fn risk_has_every_key_of_a_result() {
    let folder = folder();
    for file in scenarios() {
        let path = file.to_string_lossy().into_owned();
        let arguments = ["risk", &path, "--runs", "300", "--seed", "9", "--json"];
        let json = parsed(&bucketline(folder.path(), &arguments).answered(&path), &path);
        assert_eq!(json["replications"], 300, "{path}");
        assert_eq!(json["seed"], 9, "{path}");
        assert_eq!(json["ended_early"], false, "{path}");
        assert_chance(&json, "interruption_probability", &path);
        for key in ["before_supply", "after_supply", "reserve_touched"] {
            assert_chance(&json[key], "probability", &format!("{path}: {key}"));
        }
        let volume = if json["units"] == "metric" { "l" } else { "gal" };
        let volumes = [format!("unmet_{volume}_mean"), format!("delivered_{volume}_mean")];
        for key in volumes.iter().map(String::as_str).chain(["interrupted_minutes_mean"]) {
            assert!(number(&json[key], key) >= 0.0, "{path}: {key}");
        }
        let established = number(&json["established_share"], "established_share");
        assert!((0.0..=1.0).contains(&established), "{path}");
        if established > 0.0 {
            assert!(number(&json["established_min_mean"], "established_min_mean") > 0.0, "{path}");
        } else {
            assert!(json["established_min_mean"].is_null(), "{path}");
        }
        let causes = json["causes"].as_object().expect("causes");
        let shares: f64 = causes.values().map(|share| number(share, "a cause")).sum();
        let expected = f64::from(u8::from(!causes.is_empty()));
        assert!((shares - expected).abs() < 1e-9, "{path}: causes sum to {shares}");
        assert!(!json["cycle_min"].as_object().expect("cycle_min").is_empty(), "{path}");
        let busy = json["busy"]["fill_positions"].as_array().expect("busy");
        assert!(busy.iter().any(|one| number(&one["share"], "busy") > 0.0), "{path}");
        let minutes = json["level"]["minute"].as_array().expect("level.minute").len();
        assert!(minutes > 1, "{path}");
        assert!(json["level"][format!("drop_tanks_{volume}")].is_array(), "{path}");
        // Minute by minute the 5, 25, 50, 75 and 95% levels, in that order.
        let bands = five_bands(&json["level"][format!("attack_engine_{volume}")], minutes, &path);
        for place in 0..minutes {
            let at: Vec<f64> = bands.iter().map(|band| number(&band[place], "a level")).collect();
            assert!(at.is_sorted(), "{path}: minute {place}: {at:?}");
        }
        assert!(json["would_help"].is_array() && json["told"]["notes"].is_array(), "{path}");
    }
    assert_eq!(super::names_in(folder.path()), [""; 0]);
}

/// The five levels by minute, one list a level.
fn five_bands(value: &Value, minutes: usize, what: &str) -> Vec<Vec<Value>> {
    let bands = ["p5", "p25", "p50", "p75", "p95"]
        .map(|key| value[key].as_array().cloned().unwrap_or_else(|| panic!("{what}: no {key}")));
    assert!(bands.iter().all(|band| band.len() == minutes), "{what}");
    bands.to_vec()
}

#[test]
fn the_other_commands_print_json_too() {
    let folder = folder();
    for file in scenarios() {
        let path = file.to_string_lossy().into_owned();
        let json = |arguments: &[&str]| {
            let mut all = arguments.to_vec();
            all.extend([path.as_str(), "--json"]);
            let what = format!("{arguments:?} {path}");
            parsed(&bucketline(folder.path(), &all).answered(&what), &what)
        };
        let size = json(&["size", "--runs", "300"]);
        let rows = size["fleets"].as_array().expect("rows");
        for (place, row) in rows.iter().enumerate() {
            assert_eq!(row["tanker_count"], place + 1, "{path}");
        }
    }
}

/// The promise in the help of `--seed`.
#[test]
fn the_same_seed_gives_the_same_bytes_on_any_number_of_threads() {
    let folder = folder();
    let file = hay_barn();
    for call in [["risk", "--runs", "1000"], ["size", "--runs", "1500"]] {
        let on = |threads: &str, seed: &str| {
            let mut arguments = call.to_vec();
            arguments.extend([&*file, "--json", "--threads", threads, "--seed", seed]);
            bucketline(folder.path(), &arguments).answered(call[0])
        };
        let one = on("1", "7");
        for threads in ["2", "8"] {
            assert_eq!(on(threads, "7"), one, "{} on {threads} threads", call[0]);
        }
        let other_seed = on("1", "8").replace("\"seed\": 8", "\"seed\": 7");
        assert_ne!(other_seed, one, "{}: the seed does nothing", call[0]);
    }
}
