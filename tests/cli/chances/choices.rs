//! `compare` and `request`: an answer, a chart, JSON, and a reason where there is
//! nothing to answer.

use serde_json::Value;
use shuttle_report::units::percent;

use super::{
    CAUTION, WRONG_COMMAND, WRONG_SCENARIO, bucketline, folder, hay_barn, names_in, scenario,
};

/// Command, scenario, its chart, and what the answer says.
fn rows() -> Vec<(&'static str, String, &'static str, &'static str)> {
    vec![
        ("compare", scenario("hay_barn_what_to_buy"), "options", "Worth their money, "),
        ("request", scenario("feed_mill_mutual_aid"), "request", "Ask for "),
        ("request", scenario("chapel_late_mutual_aid"), "request", "No request helps"),
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
        let ended = value.get("ended_early").unwrap_or(&value["stopped_early"]);
        assert_eq!(*ended, false, "{what}");
        let one = [command, &*file, "--runs", "600", "--json", "--threads", "1"];
        assert_eq!(json, bucketline(folder.path(), &one).answered(&what), "{what}");
    }
}

#[test]
fn several_scenarios_are_held_against_the_first() {
    let (first, second) = (hay_barn(), scenario("hay_barn_second_drop_tank"));
    let arguments = ["compare", &first, &second, "--runs", "600", "--no-charts"];
    let text = bucketline(folder().path(), &arguments).answered("two files");
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let best = "Best is Hay barn, Quarry Lane: a second drop tank: the lines then run short in ";
    assert!(said.contains(best), "{text}");
}

#[test]
fn files_that_ask_for_another_fire_are_said_to() {
    let folder = folder();
    let longer = folder.path().join("longer.json");
    super::write_changed(&longer, |plan| {
        plan["incident"]["attack_flow"][1]["flow"] = 300.into();
        plan["incident"]["duration"] = 150.into();
    });
    let (file, longer) = (hay_barn(), longer.display().to_string());
    let arguments = ["compare", &file, &longer, "--runs", "600", "--no-charts"];
    let unlike = "These files ask for different flows (285 and 300 gpm) and durations (2 hours and 2.5 \
                  hours): the difference is partly the fire's, not the plan's.";
    let text = bucketline(folder.path(), &arguments).answered("two fires");
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains(unlike), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    let json = bucketline(folder.path(), &[&arguments[..], &["--json"]].concat()).answered("json");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    let points = value["told"]["points"].as_array().expect("points");
    assert!(points.iter().any(|point| point["says"] == unlike), "{value}");
    assert_eq!(value["unlike"]["peak_flows_gpm"], serde_json::json!([285.0, 300.0]));
    assert_eq!(value["unlike"]["durations_min"], serde_json::json!([120.0, 150.0]));
    let bigger = folder.path().join("bigger.json");
    super::write_changed(&bigger, |plan| plan["fill_sites"][0]["flow"] = 1000.into());
    let same = ["compare", &file, &bigger.display().to_string(), "--runs", "600", "--json"];
    let json = bucketline(folder.path(), &same).answered("the same fire");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    assert!(value["unlike"].is_null(), "{value}");
}

#[test]
fn what_is_odd_with_an_option_is_told_with_its_name() {
    let folder = folder();
    let path = folder.path().join("odd.json");
    super::write_changed(&path, |plan| {
        let change = |path: &str, value: u32| serde_json::json!([{"op": "replace", "path": path, "value": value}]);
        plan["options"] = serde_json::json!([
            {"name": "keep it all", "changes": change("/incident/reserve", 1250)},
            {"name": "more flow", "changes": change("/fill_sites/0/flow", 1000)}
        ]);
    });
    let told =
        "with option \"keep it all\": the incident: the reserve is the attack engine's whole tank";
    let path = path.display().to_string();
    let arguments = ["compare", &path, "--runs", "600", "--no-charts"];
    let text = bucketline(folder.path(), &arguments).answered("odd");
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains(told) && said.matches("Note ").count() == 1, "{text}");
    let json = bucketline(folder.path(), &[&arguments[..], &["--json"]].concat()).answered("json");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    let notes = value["told"]["notes"].as_array().expect("a list");
    assert!(notes.len() == 1 && notes[0]["says"].as_str().expect("text").contains(told), "{value}");
    // `check` tells the same.
    let text = bucketline(folder.path(), &["check", &path]).answered("check");
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains(told) && said.matches("Note line ").count() == 1, "{text}");
    let json = bucketline(folder.path(), &["check", &path, "--json"]).answered("check");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    assert!(value["told"]["notes"][0]["says"].as_str().expect("text").contains(told), "{value}");
}

#[test]
fn what_is_odd_with_a_file_compared_is_told_with_its_name() {
    let folder = folder();
    let path = folder.path().join("odd.json");
    super::write_changed(&path, |plan| plan["incident"]["reserve"] = 1250.into());
    let (file, odd) = (hay_barn(), path.display().to_string());
    let arguments = ["compare", &file, &odd, "--runs", "600", "--no-charts", "--json"];
    let json = bucketline(folder.path(), &arguments).answered("odd");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    let judged = "These files judge by different reserves (400 and 1,250 gal): ";
    let points = value["told"]["points"].as_array().expect("points").iter();
    let said: Vec<&str> = points.filter_map(|point| point["says"].as_str()).collect();
    assert!(said.iter().any(|said| said.starts_with(judged)), "{said:?}");
    let notes = value["told"]["notes"].as_array().expect("notes").iter();
    let notes: Vec<&str> = notes.filter_map(|note| note["says"].as_str()).collect();
    let told = "the reserve is the attack engine's whole tank";
    let of_this_file =
        |note: &&str| note.starts_with(&format!("{odd}, line ")) && note.contains(told);
    assert!(notes.iter().any(of_this_file), "{notes:?}");
}

#[test]
fn a_worse_plan_is_called_worse() {
    let (first, second) = (hay_barn(), scenario("hay_barn_second_drop_tank"));
    let arguments = ["compare", &second, &first, "--runs", "600", "--no-charts", "--more"];
    let text = bucketline(folder().path(), &arguments).answered("two files");
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let worse =
        "It gets worse with Hay barn, Quarry Lane: two tankers: the lines then run short in ";
    assert!(said.contains(worse), "{said}");
    assert!(said.contains(" percentage points more, 95% interval "), "{said}");
}

/// The hay barn with options to buy, its lines asking for so much that nothing can supply them.
fn hopeless(folder: &std::path::Path) -> String {
    let text = std::fs::read_to_string(scenario("hay_barn_what_to_buy")).expect("a scenario");
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    file["incident"]["attack_flow"] = serde_json::json!(1500);
    let path = folder.join("hopeless.json");
    std::fs::write(&path, file.to_string()).expect("a file");
    path.display().to_string()
}

#[test]
fn where_nothing_saves_the_plan_nothing_is_sold() {
    let folder = folder();
    let file = hopeless(folder.path());
    let arguments = ["compare", &file, "--runs", "600", "--no-charts"];
    let text = bucketline(folder.path(), &arguments).answered("compare");
    assert!(text.contains("None of these saves the plan"), "{text}");
    assert!(!text.contains("Worth") && !text.contains("Buy") && !text.contains("Best"), "{text}");
    let arguments = ["risk", &file, "--runs", "600", "--no-charts", "--more"];
    let text = bucketline(folder.path(), &arguments).answered("risk");
    // Clopper-Pearson for 600 of 600: 0.025^(1/600) = 99.39%.
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("95% interval 99.4% to 100.0%"), "{text}");
    assert!(text.contains("no single change makes that rarer") && text.contains("size"), "{text}");
    let arguments = ["compare", &scenario("hay_barn_what_to_buy"), "--runs", "600", "--no-charts"];
    let text = bucketline(folder.path(), &arguments).answered("compare");
    assert!(text.contains("\nWorth their money, "), "{text}");
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

/// Two own tankers, lines that want so much at first and so much later, and one unit of aid.
fn with_aid(folder: &std::path::Path, flows: [u32; 2], aid: Value) -> String {
    let scenario = serde_json::json!({
        "title": "One unit of aid", "incident": {"duration": 60, "reserve": 200,
            "attack_flow": [{"from": 0, "flow": flows[0]}, {"from": 6, "flow": flows[1]}]},
        "attack_engine": {"name": "Engine 3", "tank": 1000, "response": 9,
            "water_on": {"mean": 1.5, "cv": 0.3}},
        "supply": {"nurse": true, "setup": 4},
        "drop_tanks": [{"capacity": 2500, "unusable": 200, "brought_by": "Own 1", "setup": 3}],
        "tankers": [{"name": "Own", "count": 2, "capacity": 2500,
            "response": {"mean": 11, "cv": 0.3}}],
        "fill_sites": [{"name": "Pond", "flow": 900, "positions": 1, "ready": 5,
            "out": {"miles": 2.5, "mph": 30, "cv": 0.3},
            "back": {"miles": 2.5, "mph": 30, "cv": 0.3}}],
        "aid": [aid]
    });
    let path = folder.join("aid.json");
    std::fs::write(&path, scenario.to_string()).expect("a file");
    path.display().to_string()
}

#[test]
fn a_unit_that_surely_makes_it_worse_is_not_called_no_gain() {
    // It holds the only fill position for 40 minutes and the only dump position as long.
    let slow = serde_json::json!({"name": "Slow", "capacity": 4000, "response": 12,
        "dump_rate": 100, "fill_limit": 100});
    let folder = folder();
    let file = with_aid(folder.path(), [150, 200], slow);
    let arguments =
        ["request", &file, "--target", "30%", "--runs", "2048", "--no-charts", "--spare", "0"];
    let text = bucketline(folder.path(), &arguments).answered("a slow unit");
    assert!(
        text.contains("Worse     Slow: it is in the way;") && !text.contains("No gain"),
        "{text}"
    );
}

#[test]
fn an_interval_never_takes_back_what_an_earlier_look_decided() {
    // With this seed the set was surely below at an early look, and later runs were less lucky.
    let aid = serde_json::json!({"name": "A", "capacity": 2500, "response": 15});
    let folder = folder();
    let file = with_aid(folder.path(), [180, 230], aid);
    let arguments =
        ["request", &file, "--target", "9.5%", "--seed", "36", "--runs", "20000", "--spare", "0"];
    let json = bucketline(folder.path(), &[&arguments[..], &["--json"]].concat()).answered("36");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(value["meets_target"], true, "{value}");
    assert!(value["ci_high"].as_f64().expect("a number") < 0.095, "{value}");
}

/// Where nothing meets the wish, whom to ask for is told for what can be held: the figures of the command that stands there,
/// typed as it is.
#[test]
fn what_can_be_held_is_asked_for_as_the_command_that_is_told_does() {
    let folder = folder();
    let file = scenario("feed_mill_mutual_aid");
    for (flow, begins) in [
        ("1500", "What can be held is "),
        ("150@0,1500@20", "What can be held is "),
        // Too much at first: all of it in the end is had by beginning with less.
        ("500@0,700@20", "All of it is held where it begins with less"),
    ] {
        let asked =
            ["request", &file, "--runs", "4000", "--no-charts", "--spare", "0", "--flow", flow];
        let text = bucketline(folder.path(), &asked).answered("request");
        let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let told = said.split(begins).nth(1).unwrap_or_else(|| panic!("{begins}: {said}"));
        assert!(told.contains(", then ") && told.contains(" Ask for "), "{told}");
        let command = told.split(": bucketline ").nth(1).expect("a command");
        let command = command.split(" --spare 0").next().expect("its words");
        let words: Vec<&str> = command.split(' ').collect();
        assert_eq!(words[..3], ["request", &*file, "--flow"], "{said}");
        assert!(words[3].contains('@'), "{said}");
        assert_eq!(words[3].ends_with("700@20"), flow.ends_with("700@20"), "{said}");
        let json = |words: &[&str]| -> Value {
            let told = bucketline(folder.path(), &[words, &["--json"]].concat()).answered("json");
            serde_json::from_str(&told).expect("JSON")
        };
        let wished = json(&asked);
        assert_eq!(wished["meets_target"], false, "{flow}");
        let again = json(&[&words[..], &asked[2..7]].concat());
        assert_eq!(again["meets_target"], true, "{command}: {}", again["interruption_probability"]);
        let instead = wished["request_instead"].as_object().expect("a request");
        assert!(instead["ask_for"].as_array().is_some_and(|asked| !asked.is_empty()), "{flow}");
        for (key, value) in instead {
            assert_eq!(*value, again[key], "{key} of {command}");
        }
    }
    // Nothing is told where the wish is met.
    let met = ["request", &file, "--runs", "2000", "--spare", "0", "--json"];
    let met: Value =
        serde_json::from_str(&bucketline(folder.path(), &met).answered("met")).expect("JSON");
    assert_eq!((&met["ask_instead"], &met["request_instead"]), (&Value::Null, &Value::Null));
}

/// The request and what a unit of it is worth are told from different runs: a difference of the one added
/// to the other is a chance that no run showed.
#[test]
fn without_a_unit_the_chance_is_what_those_runs_showed() {
    let folder = folder();
    let file = scenario("feed_mill_mutual_aid");
    let arguments = ["request", &file, "--target", "2%", "--spare", "0", "--out", "charts"];
    let json = bucketline(folder.path(), &[&arguments[..], &["--json"]].concat()).answered("json");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    let text = bucketline(folder.path(), &arguments).answered("request");
    let chart = std::fs::read_to_string(folder.path().join("charts/request.svg")).expect("a chart");
    let number = |value: &Value| value.as_f64().expect("a number");
    let count = |value: &Value| value.as_u64().expect("a count");
    let units = value["ask_for"].as_array().expect("units");
    let mut sums_that_differ = 0;
    for unit in units {
        let without = &unit["without_it"];
        let chance = number(&without["interruption_probability"]);
        let said = percent(chance, count(&without["replications"]));
        let (name, away) = (unit["name"].as_str().expect("a name"), number(&unit["response_min"]));
        let mut lines = text.lines().filter(|line| line.contains(name));
        let of_a_hundred = format!(" {away:.0} {:.0}", 100.0 * chance);
        let told = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(lines.any(|line| told(line).ends_with(&of_a_hundred)), "{of_a_hundred}: {text}");
        assert!(chart.contains(&format!(">{said}<")), "{said}");
        let sum = number(&value["interruption_probability"]) + number(&without["higher_by"]["by"]);
        sums_that_differ += u32::from(percent(sum, count(&value["replications"])) != said);
    }
    // One set, one figure: where the table of sizes has the request less a unit, it says the same.
    let names = |units: &Value| -> Vec<String> {
        let units = units.as_array().expect("units").iter();
        let name = |unit: &Value| unit.get("name").unwrap_or(unit).as_str().map(str::to_owned);
        units.map(|unit| name(unit).expect("a name")).collect()
    };
    let mut met = 0;
    for unit in units {
        let mut rest = names(&value["ask_for"]);
        rest.retain(|name| *name != unit["name"]);
        for row in value["sizes"].as_array().expect("rows") {
            let mut tried = names(&row["names"]);
            tried.sort();
            rest.sort();
            if tried == rest {
                let of = |value: &Value| value["interruption_probability"].clone();
                assert_eq!(of(row), of(&unit["without_it"]), "{row}");
                met += 1;
            }
        }
    }
    assert!(met > 0, "{value}");
    assert!(units.len() > 1 && sums_that_differ > 0, "{value}");
}

#[test]
fn copies_that_double_the_scenario_are_refused_before_they_fill_the_memory() {
    let text = std::fs::read_to_string(hay_barn()).expect("a scenario");
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    let copy = serde_json::json!({"op": "copy", "from": "/tankers", "path": "/tankers/-"});
    file["options"] = serde_json::json!([{"name": "boom", "changes": vec![copy; 100]}]);
    let folder = folder();
    let path = folder.path().join("boom.json").display().to_string();
    std::fs::write(&path, file.to_string()).expect("a file");
    let said = bucketline(folder.path(), &["check", &path]).refused(WRONG_SCENARIO, "boom");
    assert!(said.contains("\"boom\": with this copy the scenario is too large"), "{said}");
}

#[test]
fn an_option_that_adds_options_is_refused() {
    let text = std::fs::read_to_string(hay_barn()).expect("a scenario");
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    let nested = serde_json::json!({"op": "add", "path": "/options", "value": []});
    file["options"] = serde_json::json!([{"name": "nested", "changes": [nested]}]);
    let folder = folder();
    let path = folder.path().join("nested.json").display().to_string();
    std::fs::write(&path, file.to_string()).expect("a file");
    let said = bucketline(folder.path(), &["check", &path]).refused(WRONG_SCENARIO, "nested");
    assert!(said.contains("an option cannot change `options`"), "{said}");
}

/// Options end as soon as they are clear: what is said of them rests on their own fires, not on the plan's.
#[test]
fn an_option_that_was_clear_early_tells_its_own_number_of_fires() {
    let arguments = ["compare", &scenario("hay_barn_what_to_buy"), "--json"];
    let json = bucketline(folder().path(), &arguments).answered("compare");
    let value: Value = serde_json::from_str(&json).expect("JSON");
    let fires = |one: &Value| one["replications"].as_u64().expect("a count");
    let options = value["options"].as_array().expect("options");
    assert_eq!(fires(&options[0]), fires(&value));
    assert!(options[1..].iter().all(|one| fires(one) <= fires(&value)), "{value}");
    assert!(options[1..].iter().any(|one| fires(one) < fires(&value)), "{value}");
}
