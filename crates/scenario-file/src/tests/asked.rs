//! What is asked for beside a file: the same plan as a file written with the change has, and every mistake by
//! its argument.

use std::path::Path;

use serde_json::{Value as Json, json};

use crate::scenario::Scenario;
use crate::{AskedChange, Asks, Gone, ScenarioError};

fn base() -> Json {
    serde_json::from_str(include_str!("../../../../scenarios/feed_mill_mutual_aid.json")).unwrap()
}

fn asked_of(file: &Json, asks: &Asks) -> Result<Scenario, ScenarioError> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.json");
    std::fs::write(&path, serde_json::to_string_pretty(file).unwrap()).unwrap();
    crate::load_asked(&path, asks)
}

fn asked(asks: Asks) -> Scenario {
    asked_of(&base(), &asks).unwrap_or_else(|error| panic!("{asks:?}: {error}"))
}

/// The plan of the file rewritten by hand.
fn written(change: impl Fn(&mut Json)) -> shuttle_sim::Plan {
    let mut file = base();
    change(&mut file);
    let text = file.to_string();
    let read = crate::read(Path::new("written.json"), &text);
    read.unwrap_or_else(|error| panic!("{error}")).plan
}

fn take(file: &mut Json, list: &str, place: usize) -> Json {
    file[list].as_array_mut().unwrap().remove(place)
}

fn join(file: &mut Json, place: usize) {
    let unit = take(file, "aid", place);
    file["tankers"].as_array_mut().unwrap().push(unit);
}

/// Facts without the place of an entry in its list, which a file spelled out otherwise may count otherwise.
fn facts(plan: &shuttle_sim::Plan) -> shuttle_sim::PlanDraft {
    let mut facts = plan.facts().clone();
    for tanker in &mut facts.tankers {
        tanker.listed = 0;
    }
    facts
}

fn texts(of: &[&str]) -> Vec<String> {
    of.iter().map(|text| (*text).to_owned()).collect()
}

type Row = (&'static str, Asks, Box<dyn Fn(&mut Json)>);

fn rows() -> Vec<Row> {
    let none = Asks::default;
    vec![
        (
            "one flow",
            Asks { flow: Some("400".into()), ..none() },
            Box::new(|file| file["incident"]["attack_flow"] = json!(400)),
        ),
        (
            "a flow in other units",
            Asks { flow: Some("1500 L/min".into()), ..none() },
            Box::new(|file| file["incident"]["attack_flow"] = json!("1500 L/min")),
        ),
        (
            "steps",
            Asks { flow: Some("150@0, 500@20".into()), ..none() },
            Box::new(|file| {
                file["incident"]["attack_flow"] =
                    json!([{"from": 0, "flow": 150}, {"from": 20, "flow": 500}]);
            }),
        ),
        (
            "a tanker left out takes its drop tank along",
            Asks { without: texts(&["Tanker 5"]), with: texts(&["Maple Ford Tanker 2"]), ..none() },
            Box::new(|file| {
                join(file, 0);
                take(file, "tankers", 0);
                take(file, "drop_tanks", 0);
            }),
        ),
        (
            "one of a group joins",
            Asks { with: texts(&["Stony Lake tanker 2"]), ..none() },
            Box::new(|file| {
                join(file, 3);
                file["tankers"][2]["name"] = json!("Stony Lake tanker 2");
                file["tankers"][2].as_object_mut().unwrap().shift_remove("count");
            }),
        ),
        (
            "a whole group joins",
            Asks { with: texts(&["Stony Lake tanker"]), ..none() },
            Box::new(|file| join(file, 3)),
        ),
        (
            "all aid but one, later",
            Asks {
                all_aid: true,
                without: texts(&["Stony Lake tanker 1"]),
                late: Some(7.0),
                ..none()
            },
            Box::new(|file| {
                for place in 0..5 {
                    let at = file["aid"][place]["requested_at"].as_f64().unwrap_or(0.0);
                    file["aid"][place]["requested_at"] = json!(at + 7.0);
                }
                for _ in 0..5 {
                    join(file, 0);
                }
                let group = take(file, "tankers", 5);
                for name in ["Stony Lake tanker 3", "Stony Lake tanker 2"] {
                    let mut one = group.clone();
                    one["name"] = json!(name);
                    one.as_object_mut().unwrap().shift_remove("count");
                    file["tankers"].as_array_mut().unwrap().insert(5, one);
                }
            }),
        ),
        (
            "a source left out",
            Asks { without: texts(&["Mill pond"]), ..none() },
            Box::new(|file| {
                take(file, "fill_sites", 0);
            }),
        ),
        (
            "the supply engine left out",
            Asks { without: texts(&["Engine 9"]), ..none() },
            Box::new(|file| {
                let setup = file["supply"]["engine"]["setup"].clone();
                file["supply"].as_object_mut().unwrap().shift_remove("engine");
                file["supply"]["setup"] = setup;
            }),
        ),
        (
            "values by name",
            Asks {
                set: texts(&[
                    "fill_sites/Mill pond/flow=400 gpm",
                    "Tanker 7/capacity=2500",
                    "supply/low_water=lose_prime",
                    "Town hydrant/ready={\"mean\": 3, \"cv\": 0.1}",
                    "whole_fire/driving_cv=0.1",
                ]),
                ..none()
            },
            Box::new(|file| {
                file["fill_sites"][0]["flow"] = json!("400 gpm");
                file["tankers"][1]["capacity"] = json!(2500);
                file["supply"]["low_water"] = json!("lose_prime");
                file["fill_sites"][1]["ready"] = json!({"mean": 3, "cv": 0.1});
                file["whole_fire"] = json!({"driving_cv": 0.1});
            }),
        ),
        (
            "a value of one of a group that joins",
            Asks {
                set: texts(&["Birch Hill tanker 2/capacity=3000"]),
                with: texts(&["Birch Hill tanker 2"]),
                ..none()
            },
            Box::new(|file| {
                join(file, 2);
                file["tankers"][2]["name"] = json!("Birch Hill tanker 2");
                file["tankers"][2]["capacity"] = json!(3000);
                file["tankers"][2].as_object_mut().unwrap().shift_remove("count");
            }),
        ),
        (
            "a drop tank by who brings it",
            Asks { without: texts(&["drop tank of Tanker 5"]), ..none() },
            Box::new(|file| {
                take(file, "drop_tanks", 0);
            }),
        ),
    ]
}

#[test]
fn what_is_asked_is_the_plan_of_a_file_written_so() {
    for (what, asks, change) in rows() {
        assert_eq!(facts(&asked(asks).plan), facts(&written(change)), "{what}");
    }
}

#[test]
fn what_was_changed_is_told_with_what_goes_too() {
    let scenario = asked(Asks {
        flow: Some("300".into()),
        without: texts(&["Tanker 5"]),
        set: texts(&["Mill pond/flow=400 gpm"]),
        ..Asks::default()
    });
    let [AskedChange::Flow(steps), without, set] = scenario.asked.changes.as_slice() else {
        panic!("{:?}", scenario.asked)
    };
    assert_eq!((steps.len(), steps[0].flow), (1, 300.0));
    let name = "Tanker 5".to_owned();
    assert_eq!(*without, AskedChange::Without { name, goes_too: vec![Gone::DropTank] });
    let (path, value) = ("Mill pond/flow".to_owned(), "400 gpm".to_owned());
    assert_eq!(*set, AskedChange::Set { path, value, before: Some(json!(1250)) });
    let words = ["--flow", "300", "--without", "Tanker 5", "--set", "Mill pond/flow=400 gpm"];
    assert_eq!(scenario.asked.words, words);
    let again = Asks { flow: Some("300".into()), ..Asks::default() };
    assert_ne!(asked(again).plan, scenario.plan);
}

#[test]
fn every_mistake_names_its_argument_and_a_cure() {
    let rows: [(Asks, &str, &str, &str); 12] = [
        (
            Asks { without: texts(&["Tankr 5"]), ..Asks::default() },
            "--without \"Tankr 5\"",
            "no unit, source or drop tank",
            "\"Tanker 5\"",
        ),
        (
            Asks { without: texts(&["Engine 5"]), ..Asks::default() },
            "--without \"Engine 5\"",
            "the attack engine",
            "leave out a tanker",
        ),
        (
            Asks { with: texts(&["Birch Hil tanker"]), ..Asks::default() },
            "--with \"Birch Hil tanker\"",
            "no aid is called",
            "\"Birch Hill tanker\"",
        ),
        (
            Asks { with: texts(&["Tanker 7"]), ..Asks::default() },
            "--with \"Tanker 7\"",
            "comes anyway",
            "Birch Hill tanker",
        ),
        (
            Asks { flow: Some("1,500".into()), ..Asks::default() },
            "--flow 1,500",
            "no minute",
            "thousands",
        ),
        (Asks { flow: Some("-5".into()), ..Asks::default() }, "--flow -5", "-5", "sign"),
        (
            Asks { flow: Some("150@0,500@soon".into()), ..Asks::default() },
            "--flow 150@0,500@soon",
            "soon",
            "",
        ),
        (
            Asks { set: texts(&["Mill pond/flwo=400"]), ..Asks::default() },
            "--set \"Mill pond/flwo=400\"",
            "flwo",
            "flow",
        ),
        (
            Asks { set: texts(&["Mill pnd/flow=400"]), ..Asks::default() },
            "--set \"Mill pnd/flow=400\"",
            "Mill pnd",
            "\"Mill pond\"",
        ),
        (
            Asks { set: texts(&["Mill pond/flow"]), ..Asks::default() },
            "--set \"Mill pond/flow\"",
            "no \"=\"",
            "Otter pond/flow=400 gpm",
        ),
        (
            Asks { set: texts(&["Mill pond/flow=many"]), ..Asks::default() },
            "--set \"Mill pond/flow=many\"",
            "many",
            "",
        ),
        (
            Asks { without: texts(&["Tanker 5", "Tanker 7"]), ..Asks::default() },
            "--without \"Tanker 7\"",
            "the list is empty",
            "",
        ),
    ];
    for (asks, argument, problem, cure) in rows {
        let Err(ScenarioError::Asked(wrong)) = asked_of(&base(), &asks) else {
            panic!("{asks:?} is refused")
        };
        let one = &wrong.list[0];
        assert_eq!(one.argument, argument, "{wrong}");
        assert!(
            one.problem.in_file().contains(problem) && one.cure.in_file().contains(cure),
            "{wrong}"
        );
        assert!(!wrong.to_string().contains("[0]"), "{wrong}");
    }
    // All of them at once.
    let asks = Asks {
        flow: Some("x@y".into()),
        without: texts(&["Tankr 5"]),
        set: texts(&["Mill pnd/flow=400", "nothing"]),
        ..Asks::default()
    };
    let Err(ScenarioError::Asked(wrong)) = asked_of(&base(), &asks) else { panic!("refused") };
    // Two of the values set, the name, and both numbers of the flow.
    assert_eq!(wrong.list.len(), 5, "{wrong}");
}

/// Options go by names too, and are tried with what is asked: the order of lists does not matter.
#[test]
fn options_by_name_are_tried_with_what_is_asked() {
    let mut file = base();
    file["options"] = json!([
        {"name": "bigger", "changes": [
            {"op": "replace", "path": "tankers/Tanker 7/capacity", "value": 4000}]},
        {"name": "counted", "changes": [
            {"op": "replace", "path": "/tankers/1/capacity", "value": 4000}]},
    ]);
    for asks in [Asks::default(), Asks { without: texts(&["Tanker 5"]), ..Asks::default() }] {
        let scenario = asked_of(&file, &asks).unwrap_or_else(|error| panic!("{error}"));
        for option in &scenario.options {
            let tankers = &option.plan.facts().tankers;
            let seven = tankers.iter().find(|tanker| tanker.name == "Tanker 7").unwrap();
            assert_eq!(seven.capacity, 4000.0, "{}", option.name);
            assert_eq!(tankers.len(), scenario.plan.facts().tankers.len());
        }
    }
    file["options"][0]["changes"][0]["path"] = json!("tankers/Tanker 8/capacity");
    let Err(ScenarioError::Wrong(wrong)) = asked_of(&file, &Asks::default()) else {
        panic!("refused")
    };
    assert_eq!(wrong.list[0].place, "options[0].changes[0].path", "{wrong}");
    assert!(
        wrong.list[0].problem.in_file().contains("nothing in `tankers` is called \"Tanker 8\"")
    );
    assert!(
        wrong.list[0].line > 1 && wrong.list[0].cure.in_file().contains("\"Tanker 7\""),
        "{wrong}"
    );
}

/// A remark keeps its line where entries before it are left out; one about what was asked names the argument.
#[test]
fn remarks_keep_their_lines() {
    let mut file = base();
    file["drop_tanks"][1].as_object_mut().unwrap().shift_remove("unusable");
    file["drop_tanks"][1].as_object_mut().unwrap().shift_remove("brought_by");
    file["drop_tanks"][1]["response"] = json!(5);
    let line = |asks: &Asks| {
        let scenario = asked_of(&file, asks).unwrap_or_else(|error| panic!("{error}"));
        let of = |one: &&crate::Warning| one.text.in_file().contains("`unusable`");
        scenario.warnings.iter().find(of).map(|one| (one.line, one.place.clone())).unwrap()
    };
    let without = Asks { without: texts(&["Tanker 5"]), ..Asks::default() };
    assert_eq!(line(&Asks::default()), line(&without));
    let set = Asks { set: texts(&["Tanker 7/capacity=150"]), ..Asks::default() };
    let scenario = asked(set);
    let doubt = scenario.warnings.iter().find(|one| one.text.in_file().contains("--set")).unwrap();
    assert_eq!(doubt.line, 0);
}
