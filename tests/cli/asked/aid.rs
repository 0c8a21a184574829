//! Aid in every answer, each figure held against a separate run of the plan it is about.

use std::fs;

use serde_json::{Value, json};

use super::{CANNOT_WRITE, bucketline, folder, scenario};

fn answer(arguments: &[&str]) -> Value {
    let text = bucketline(folder().path(), arguments).answered(&arguments.join(" "));
    serde_json::from_str(&text).expect("JSON")
}

/// The share of so many fires in which a plan runs short, asked about with changes.
fn short(file: &str, runs: &Value, asks: &[String]) -> Value {
    let runs = runs.to_string();
    let mut arguments = vec!["risk", file, "--no-help", "--runs", &runs, "--json"];
    arguments.extend(asks.iter().map(String::as_str));
    answer(&arguments)["interruption_probability"].clone()
}

fn without(name: &Value) -> [String; 2] {
    ["--without".to_owned(), name.as_str().expect("a name").to_owned()]
}

/// The scenario that is written has the chance of the request, and every loss of it the chance that is told.
#[test]
fn the_request_is_written_as_a_plan_with_its_chances() {
    let folder = folder();
    let file = scenario("feed_mill_mutual_aid");
    let card = folder.path().join("card.json").display().to_string();
    let arguments =
        ["request", &file, "--target", "10%", "--runs", "4000", "--write", &card, "--json"];
    let found = answer(&arguments);
    assert_eq!(found["meets_target"], true, "{found}");
    let written: Value =
        serde_json::from_str(&fs::read_to_string(&card).expect("the card")).expect("JSON");
    let names = |list: &Value| -> Vec<Value> {
        list.as_array().expect("a list").iter().map(|one| one["name"].clone()).collect()
    };
    let asked = names(&found["ask_for"]);
    for unit in &asked {
        assert!(names(&written["tankers"]).contains(unit), "{unit} in {written}");
    }
    assert_eq!(names(&written["tankers"]).len(), 2 + asked.len());
    let stated = &found["interruption_probability"];
    assert_eq!(short(&card, &found["replications"], &[]), *stated, "{found}");
    let losses = found["spare"]["losses_with_request"].as_array().expect("losses");
    assert!(losses.len() >= asked.len(), "{found}");
    for loss in losses {
        let lost = &loss["lost"];
        let name = lost.pointer("/alike/0/names/0").or(lost.pointer("/name"));
        let Some(name) = name.or(lost.pointer("/supply_engine/name")) else { panic!("{loss}") };
        let then = short(&card, &loss["replications"], &without(name));
        assert_eq!(then, loss["interruption_probability"], "{loss}");
    }
    // It is not written over by mistake.
    let again = bucketline(folder.path(), &arguments);
    assert_eq!(again.code, Some(CANNOT_WRITE), "{}", again.err);
    assert!(again.out.contains("--force"), "{}", again.out);
}

/// With something to spare every loss that is told stays below the target; with nothing the smallest set is named.
#[test]
fn a_request_with_something_to_spare_says_what_it_takes() {
    let file = scenario("feed_mill_mutual_aid");
    let ask = |spare: &str| {
        answer(&["request", &file, "--target", "10%", "--runs", "4000", "--spare", spare, "--json"])
    };
    let (with, bare) = (ask("1"), ask("0"));
    let count = |found: &Value| found["ask_for"].as_array().expect("units").len();
    assert!(count(&with) > count(&bare), "{with}");
    assert_eq!(bare["spare"], Value::Null);
    assert_eq!(with["spare"]["bare"].as_array().expect("names").len(), count(&bare));
    let losses = with["spare"]["losses_with_request"].as_array().expect("losses");
    let all_stand = losses.iter().all(|loss| loss["side_of_target"] == "below");
    assert_eq!(with["spare"]["stands_every_loss"], all_stand, "{with}");
}

/// More than twenty units of all kinds are answered about within seconds.
#[test]
fn many_units_to_ask_take_no_longer() {
    let folder = folder();
    let text = fs::read_to_string(scenario("feed_mill_mutual_aid")).expect("the scenario is there");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    let like = plan["aid"][1].clone();
    for number in 0..18 {
        let mut one = like.clone();
        one["name"] = json!(format!("Far tanker {number}"));
        one["department"] = json!(format!("Department {}", number / 3));
        one["capacity"] = json!(1500 + 50 * number);
        one["response"] = json!({"mean": 20 + number, "cv": 0.2});
        plan["aid"].as_array_mut().expect("aid").push(one);
    }
    let file = folder.path().join("many.json");
    fs::write(&file, plan.to_string()).expect("written");
    let begun = std::time::Instant::now();
    let found = answer(&["request", &file.display().to_string(), "--json"]);
    assert_eq!((&found["aid_tankers"], &found["meets_target"]), (&json!(26), &json!(true)));
    // Generous: other programs may share the machine.
    assert!(begun.elapsed().as_secs() < 120, "{:?}", begun.elapsed());
}

/// `size` counts the aid there is in the order in which it would arrive, then tankers that nobody has.
#[test]
fn size_asks_real_aid_before_it_makes_any_up() {
    let file = scenario("feed_mill_mutual_aid");
    let found = answer(&["size", &file, "--runs", "2000", "--beyond", "2", "--json"]);
    let rows = found["fleets"].as_array().expect("rows");
    let aid: Vec<&Value> = rows.iter().filter(|row| row["of_the_aid"] == true).collect();
    assert_eq!(
        (&found["own_tankers"], &found["aid_tankers"], aid.len()),
        (&json!(2), &json!(8), 8),
        "{found}"
    );
    // Asked for at the alarm 17 minutes away; at minute 3, 21 and 26; at minute 10, 40.
    let order = [
        "Maple Ford Tanker 2",
        "Maple Ford Tanker 4",
        "Birch Hill tanker 1",
        "Birch Hill tanker 2",
        "Stony Lake tanker 1",
        "Stony Lake tanker 2",
        "Stony Lake tanker 3",
        "County tanker",
    ];
    let mut asks: Vec<String> = Vec::new();
    for (row, name) in aid.iter().zip(order) {
        assert_eq!(row["adds"], name);
        asks.extend(["--with".to_owned(), name.to_owned()]);
        let then = short(&file, &row["replications"], &asks);
        assert_eq!(then, row["interruption_probability"], "{row}");
    }
}

#[test]
fn aid_that_is_not_asked_for_is_told_in_one_line_of_every_answer() {
    let file = scenario("feed_mill_mutual_aid");
    for command in ["risk", "lose", "levers"] {
        for (asks, told) in [
            (&[][..], Some("eight tankers of the aid are listed and not asked for")),
            (&["--with", "Birch Hill tanker"], Some("six tankers of the aid are listed")),
            (&["--all-aid"], None),
        ] {
            let arguments = [&[command, &file, "--runs", "300", "--json"], asks].concat();
            let found = answer(&arguments);
            let points = found["told"]["points"].as_array().expect("points");
            let aid = points.iter().find(|point| point["label"] == "aid");
            let says = aid.map(|aid| aid["says"].as_str().expect("words").to_owned());
            assert_eq!(says.is_some(), told.is_some(), "{command} {asks:?}: {says:?}");
            if let (Some(says), Some(told)) = (says, told) {
                assert!(says.starts_with(told), "{command}: {says}");
            }
        }
    }
    // Options are weighed on the plan as it stands; that somebody could be asked is said there too.
    let district = scenario("mill_crossing_addresses");
    for (asks, is_told) in [(&[][..], true), (&["--all-aid"], false)] {
        let arguments = [&["compare", &district, "--runs", "100", "--json"], asks].concat();
        let found = answer(&arguments);
        let points = found["told"]["points"].as_array().expect("points");
        assert_eq!(points.iter().any(|point| point["label"] == "aid"), is_told, "{asks:?}");
    }
}

/// Where nothing meets the wish, `request` and `size` say what can be held, as `hold` does.
#[test]
fn where_nothing_is_enough_the_most_that_can_be_held_is_told() {
    let file = scenario("feed_mill_mutual_aid");
    for command in ["request", "size"] {
        let found = answer(&[command, &file, "--flow", "1500", "--runs", "1500", "--json"]);
        let rows = found["most_held"]["by_minute"].as_array().expect("what holds");
        assert!(rows.iter().any(|row| row["held_gpm"].as_f64().is_some_and(|gpm| gpm > 100.0)));
        let points = found["told"]["points"].as_array().expect("points");
        let hold = points.iter().find(|point| point["label"] == "hold").expect("a line");
        let says = hold["says"].as_str().expect("words");
        assert!(
            says.starts_with("with all 10 tankers you can hold, in 95% of fires, "),
            "{command}: {says}"
        );
    }
}

/// The best pair and the best set for a sum have the chances of a file with their changes.
#[test]
fn options_together_have_the_chances_of_a_file_with_both() {
    let folder = folder();
    let file = scenario("hay_barn_what_to_buy");
    let found = answer(&["compare", &file, "--runs", "8000", "--budget", "1500", "--json"]);
    let text = fs::read_to_string(&file).expect("the scenario is there");
    let plan: Value = serde_json::from_str(&text).expect("JSON");
    for key in ["best_pair", "best_within_budget"] {
        let set = &found["together"][key];
        let mut changed = plan.clone();
        let mut cost = 0.0;
        for option in set["of_options"].as_array().expect("options") {
            let options = plan["options"].as_array().expect("options");
            let stated = options.iter().find(|one| one["name"] == option["name"]).expect("it");
            cost += stated["cost"].as_f64().expect("a cost");
            for change in stated["changes"].as_array().expect("changes") {
                // All of this file that go together replace a value.
                let at = change["path"].as_str().expect("a path");
                if let Some(value) = changed.pointer_mut(at) {
                    *value = change["value"].clone();
                } else {
                    let (above, key) = at.rsplit_once('/').expect("a key");
                    changed.pointer_mut(above).expect("an object")[key] = change["value"].clone();
                }
            }
        }
        assert_eq!(set["cost"], cost, "{key}");
        assert!(key != "best_within_budget" || cost <= 1500.0, "{set}");
        let both = folder.path().join("both.json");
        fs::write(&both, changed.to_string()).expect("written");
        let chance = short(&both.display().to_string(), &json!(20_000), &[]);
        let (told, apart) = (set["interruption_probability"].as_f64(), chance.as_f64());
        let apart = (told.expect("a chance") - apart.expect("a chance")).abs();
        // Three standard errors of a share in 8,000 fires at most.
        assert!(apart <= 3.0 * (0.25_f64 / 8_000.0).sqrt(), "{key}: {set} {chance}");
        assert_eq!(set["effect"], "lower_chance", "{set}");
    }
}
