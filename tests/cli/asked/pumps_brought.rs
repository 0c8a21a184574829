//! A source whose pump somebody brings: who brings it is named, and without it nobody is counted there. The plan is made
//! up for the purpose: the hay barn, whose pond needs a pump, and a hydrant far off.

use std::fs;

use serde_json::{Value, json};

use super::{bucketline, folder, scenario};

/// The hay barn with a pump for the pond and a second source; `changed` makes it what is asked about.
fn barn(changed: impl FnOnce(&mut Value)) -> String {
    let text = fs::read_to_string(scenario("hay_barn_two_tankers")).expect("the barn");
    let mut barn: Value = serde_json::from_str(&text).expect("JSON");
    let mut hydrant = barn["fill_sites"][0].clone();
    hydrant["name"] = json!("Far hydrant");
    hydrant["out"] = json!({"miles": 9, "mph": 30});
    hydrant["back"] = hydrant["out"].clone();
    barn["fill_sites"].as_array_mut().expect("sites").push(hydrant);
    barn["fill_sites"][0].as_object_mut().expect("a site").remove("ready");
    let mut aid = barn["tankers"][1].clone();
    aid["name"] = json!("Fox tender");
    aid["requested_at"] = json!(0);
    barn["aid"] = json!([aid]);
    changed(&mut barn);
    barn.to_string()
}

fn asked(text: &str, arguments: &[&str]) -> String {
    let folder = folder();
    fs::write(folder.path().join("barn.json"), text).expect("written");
    bucketline(folder.path(), arguments).answered(&arguments.join(" "))
}

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).expect("JSON")
}

#[test]
fn nobody_is_counted_at_a_source_whose_pump_is_not_asked_for() {
    let text = barn(|barn| {
        barn["fill_sites"][0]["source_pump"] =
            json!({"name": "Portable", "brought_by": "Fox tender", "setup": 4});
    });
    let told = asked(&text, &["check", "barn.json"]);
    assert!(told.contains("Until Fox tender is asked for nobody fills at Quarry pond"), "{told}");
    let sites = |asks: &[&str]| -> Vec<Value> {
        let arguments: Vec<&str> =
            ["check", "barn.json", "--json"].iter().chain(asks).copied().collect();
        let found = parsed(&asked(&text, &arguments));
        let tankers = found["worksheet"]["tankers_by_hand"].as_array().expect("tankers").clone();
        tankers.iter().map(|one| one["fill_site"].clone()).collect()
    };
    assert_eq!(sites(&[]), ["Far hydrant", "Far hydrant"]);
    assert_eq!(sites(&["--with", "Fox tender"]), ["Quarry pond"; 3]);
}

#[test]
fn a_request_says_who_brings_a_pump_and_which_come_by_themselves() {
    let text = barn(|barn| {
        barn["fill_sites"][0]["source_pump"] =
            json!({"name": "Portable", "brought_by": "Fox tender", "setup": 4});
        barn["fill_sites"][1]["source_pump"] =
            json!({"name": "Engine 12", "requested_at": 3, "response": 17, "setup": 4});
        barn["fill_sites"][1].as_object_mut().expect("a site").remove("ready");
    });
    let arguments = ["request", "barn.json", "--spare", "0", "--runs", "1000"];
    let told = asked(&text, &arguments);
    let found = parsed(&asked(&text, &[arguments.as_slice(), &["--json"]].concat()));
    let fox = &found["ask_for"][0];
    assert_eq!(fox["name"], "Fox tender", "{found:#}");
    assert_eq!(fox["brings_drop_tank"], false);
    assert_eq!(fox["brings_pump_to"], json!(["Quarry pond"]));
    assert!(told.contains("3,000 gal and the pump for Quarry pond"), "{told}");
    let pumps = json!([{
        "name": "Engine 12", "fill_site": "Far hydrant", "requested_at_min": 3.0, "response_min": 17.0
    }]);
    assert_eq!(found["pumps"], pumps, "{found:#}");
    let words = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("also, at minute 3, Engine 12, which pumps at Far hydrant"), "{told}");
}

/// What nobody can hold is told with whom to ask, and with the figures that `hold` gives.
#[test]
fn a_request_that_fails_says_what_holds_as_hold_does() {
    let text = barn(|barn| barn["incident"]["attack_flow"] = json!(900));
    // Each in its own number of fires: those of one flow are the same.
    let ask = |command: &str, runs: &[&str]| {
        parsed(&asked(&text, &[&[command, "barn.json", "--json"], runs].concat()))
    };
    let (hold, others) = (ask("hold", &[]), ["--runs", "6000"]);
    let (request, size) = (ask("request", &others), ask("size", &others));
    assert_eq!(request["meets_target"], false, "{request:#}");
    assert_eq!(request["most_held"], hold["with_aid"]);
    assert_eq!(size["most_held"], hold["with_aid"]);
    let told = asked(&text, &["request", "barn.json", "--runs", "2000", "--more"]);
    let (table, hold) = (told.find("Fox tender"), told.find("Hold "));
    assert!(table.is_some() && table < hold, "{told}");
}
