//! Options and aid: read, applied, and wrong in every way.

use std::path::Path;

use serde_json::{Value, json};
use shuttle_sim::{Brought, Plan};

use crate::tests::EXAMPLE;
use crate::{FileMistake, Scenario, ScenarioError, read};

/// The example with something more in it, on lines of its own.
fn with(key: &str, value: &Value) -> String {
    let mut document: Value = serde_json::from_str(EXAMPLE).unwrap();
    document[key] = value.clone();
    serde_json::to_string_pretty(&document).unwrap()
}

fn good(text: &str) -> Scenario {
    read(Path::new("plan.json"), text).unwrap_or_else(|error| panic!("{error}"))
}

fn wrong(text: &str) -> Vec<FileMistake> {
    match read(Path::new("plan.json"), text) {
        Err(ScenarioError::Wrong(mistakes)) => mistakes.list,
        other => panic!("{other:?}"),
    }
}

fn option(name: &str, changes: Value) -> Value {
    json!({"name": name, "changes": changes})
}

#[test]
fn an_option_is_the_scenario_with_its_changes_and_nothing_else() {
    let options = json!([
        {"name": "bigger pond", "cost": 1200, "changes": [
            {"op": "test", "path": "/fill_sites/0/flow", "value": 900},
            {"op": "replace", "path": "/fill_sites/0/flow", "value": "1100 gpm"}
        ]},
        option("no first tanker's drop tank", json!([
            {"op": "remove", "path": "/drop_tanks/0"},
            {"op": "replace", "path": "/supply/nurse", "value": true}
        ])),
        option("one more of the last", json!([
            {"op": "copy", "from": "/tankers/0", "path": "/tankers/-"},
            {"op": "replace", "path": "/tankers/2/name", "value": "Tanker 9"}
        ])),
    ]);
    let scenario = good(&with("options", &options));
    let plain = good(EXAMPLE);
    assert_eq!(scenario.plan, plain.plan, "options change nothing but themselves");
    assert_eq!(scenario.warnings.len(), plain.warnings.len());
    let mut bigger = plain.plan.facts().clone();
    bigger.fill_sites[0].flow = 1100.0;
    assert_eq!(scenario.options[0].plan, Plan::check(bigger).unwrap());
    assert_eq!(scenario.options[0].cost, Some(1200.0));
    assert!(scenario.options[1].plan.facts().drop_tanks.is_empty());
    assert_eq!(scenario.options[1].cost, None);
    let names: Vec<&str> = (scenario.options[2].plan.facts().tankers.iter())
        .map(|tanker| tanker.name.as_str())
        .collect();
    assert_eq!(names, ["Tanker 3", "Aid tanker 1", "Aid tanker 2", "Tanker 9"]);
}

#[test]
fn a_test_compares_numbers_by_their_value_and_changes_nothing() {
    let test = |path: &str, value: Value| json!({"op": "test", "path": path, "value": value});
    let tested = option(
        "tested",
        json!([
            test("/fill_sites/0/flow", json!(900.0)),
            test("/drop_tanks/0/dump_positions", json!(1.0)),
            test("/incident/attack_flow", json!([{"flow": 180.0, "from": 0.0}, {"from": 6, "flow": 5e2}])),
            // What a change before has put there counts.
            {"op": "replace", "path": "/supply/draft_limit", "value": 900.0},
            test("/supply/draft_limit", json!(900)),
        ]),
    );
    let scenario = good(&with("options", &json!([tested])));
    let mut limited = scenario.plan.facts().clone();
    limited.supply.draft_limits[0].flow = 900.0;
    assert_eq!(scenario.options[0].plan, Plan::check(limited).unwrap());
    // A count with a decimal point is as good or bad in an option as in the file.
    let counted = |value: Value| {
        let changes = json!([
            test("/tankers/1/count", json!(2.0)),
            {"op": "replace", "path": "/tankers/1/count", "value": value}
        ]);
        read(Path::new("plan.json"), &with("options", &json!([option("counted", changes)])))
    };
    let mut document: Value = serde_json::from_str(EXAMPLE).unwrap();
    document["tankers"][1]["count"] = json!(3.0);
    let in_the_file = read(Path::new("plan.json"), &document.to_string()).is_ok();
    assert_eq!(counted(json!(3.0)).is_ok(), in_the_file);
    assert!(counted(json!(3)).is_ok());
    // The value there is quoted as written.
    let wrong = wrong(&with(
        "options",
        &json!([option("bad", json!([test("/fill_sites/0/flow", json!(901.0))]))]),
    ));
    assert!(wrong[0].problem.in_file().contains("the value there is 900"), "{}", wrong[0].problem);
}

#[test]
fn an_option_that_makes_a_bad_scenario_is_a_mistake_at_its_place() {
    let replace = |path: &str, value: Value| json!({"op": "replace", "path": path, "value": value});
    // (changes, where the mistake is, words of its problem)
    let rows = [
        (
            json!([
                replace("/fill_sites/0/flow", json!(1000)),
                replace("/tankers/0/capacity", json!(-5))
            ]),
            "options[0].changes[1]",
            "with option \"bad\" tankers[0].capacity is wrong: -5 gal",
        ),
        (
            json!([replace("/incident/duration", json!(0))]),
            "options[0].changes[0]",
            "with option \"bad\" incident.duration is wrong: 0 min",
        ),
        // What the change removes is missing elsewhere.
        (
            json!([{"op": "remove", "path": "/tankers/0"}]),
            "options[0].changes",
            "with option \"bad\" drop_tanks[0].brought_by is wrong: there is no unit called \"Tanker 3\"",
        ),
        (
            json!([{"op": "remove", "path": "/title"}]),
            "options[0].changes[0]",
            "with option \"bad\" title is wrong: a scenario needs `title`",
        ),
        // What is moved away is missed where it stood; another change stands behind it.
        (
            json!([
                {"op": "move", "from": "/title", "path": "/notes"},
                replace("/fill_sites/0/flow", json!(1000))
            ]),
            "options[0].changes[0]",
            "with option \"bad\" title is wrong: a scenario needs `title`",
        ),
        (
            json!([replace("/tankers/7/capacity", json!(2000))]),
            "options[0].changes[0]",
            "option \"bad\": the change at \"/tankers/7/capacity\" cannot be made: \"/tankers\" has 2 \
             entries and counting starts at 0",
        ),
        (
            json!([{"op": "test", "path": "/fill_sites/0/flow", "value": 1}]),
            "options[0].changes[0]",
            "cannot be made: the value there is 900",
        ),
        (
            json!([replace("/fill_sites/0/flwo", json!(1000))]),
            "options[0].changes[0]",
            "\"/fill_sites/0\" has no `flwo`",
        ),
        (
            json!([{"op": "copy", "from": "/tankers/3", "path": "/tankers/-"}]),
            "options[0].changes[0].from",
            "the change at \"/tankers/3\" cannot be made",
        ),
        (json!([{"op": "add", "path": "/tankers/-"}]), "options[0].changes[0]", "needs `value`"),
        (json!([{"op": "copy", "path": "/tankers/-"}]), "options[0].changes[0]", "needs `from`"),
        (json!([replace("/tankers/~2", json!([]))]), "options[0].changes[0].path", "\"~2\" stands"),
        (json!([replace("/tankers/00", json!({}))]), "options[0].changes[0]", "no leading zeros"),
        (json!([{"op": "remove", "path": ""}]), "options[0].changes[0].path", "the text is empty"),
        (
            json!([{"op": "move", "from": "/supply", "path": "/supply/engine/supply"}]),
            "options[0].changes[0]",
            "cannot go into itself",
        ),
        (
            json!([{"op": "swap", "path": "/tankers"}]),
            "options[0].changes[0].op",
            "none of the choices",
        ),
        (json!([replace("/options", json!([]))]), "options[0].changes[0]", "cannot be made"),
    ];
    for (changes, place, words) in rows {
        let text = with("options", &json!([option("bad", changes.clone())]));
        let mistakes = wrong(&text);
        assert_eq!(mistakes.len(), 1, "{changes}: {mistakes:?}");
        let mistake = &mistakes[0];
        assert_eq!(mistake.place, place, "{changes}");
        assert!(mistake.problem.in_file().contains(words), "{changes}: {}", mistake.problem);
        // The line marked is one of the option's own.
        let first = text.lines().position(|line| line.contains("\"options\"")).unwrap() + 1;
        assert!(mistake.line > first, "{changes}: line {}", mistake.line);
    }
    let twice = json!([
        option("same", json!([replace("/fill_sites/0/flow", json!(1000))])),
        option("same", json!([replace("/fill_sites/0/flow", json!(2000))]))
    ]);
    let mistakes = wrong(&with("options", &twice));
    assert_eq!((mistakes.len(), mistakes[0].place.as_str()), (1, "options[1].name"));
}

#[test]
fn changes_that_cannot_be_made_are_told_with_all_that_is_wrong() {
    let nowhere = option("nowhere", json!([{"op": "remove", "path": "/tankers/9"}]));
    let unsound = json!({"name": "unsound", "changes": []});
    let text = with("options", &json!([unsound, nowhere]));
    // A mistake of structure, one of the plan.
    for (key, value, place) in [
        ("title", json!(5), "title"),
        ("drop_tanks", json!([{"capacity": 2000, "unusable": 3000, "setup": 3}]), "drop_tanks"),
    ] {
        let mut document: Value = serde_json::from_str(&text).unwrap();
        document[key] = value;
        let places: Vec<String> =
            wrong(&document.to_string()).into_iter().map(|mistake| mistake.place).collect();
        assert!(places.iter().any(|one| one.starts_with(place)), "{places:?}");
        assert!(places.contains(&"options[0].changes".to_owned()), "{places:?}");
        assert!(places.contains(&"options[1].changes[0]".to_owned()), "{places:?}");
        document["options"].as_array_mut().unwrap().remove(0);
        let places: Vec<String> =
            wrong(&document.to_string()).into_iter().map(|mistake| mistake.place).collect();
        assert!(places.iter().any(|one| one.starts_with(place)), "{places:?}");
        assert!(places.contains(&"options[0].changes[0]".to_owned()), "{places:?}");
    }
}

#[test]
fn what_is_odd_with_an_option_is_told_at_its_change_unless_it_is_odd_without() {
    let flow = json!({"op": "replace", "path": "/fill_sites/0/flow", "value": 1000});
    let kept = json!({"op": "replace", "path": "/incident/reserve", "value": 1250});
    let tank = json!({"op": "add", "path": "/drop_tanks/0",
        "value": {"capacity": 4000, "unusable": 200, "response": 9, "setup": 3, "transfer": 500}});
    let small = json!({"op": "add", "path": "/drop_tanks/-",
        "value": {"capacity": 2500, "unusable": 200, "response": 9, "setup": 3, "transfer": 500}});
    let text = with(
        "options",
        &json!([
            option("all of it kept", json!([flow, kept])),
            option("nothing odd", json!([flow])),
            option("a tank before the small one", json!([tank])),
            option("a second small tank", json!([small])),
        ]),
    );
    let scenario = good(&text);
    assert_eq!(scenario.warnings.len(), 1, "its drop tank is smaller than the aid tankers' load");
    let [kept, flow, tank, small] = [0, 1, 2, 3].map(|place| &scenario.options[place].warnings);
    assert_eq!((kept.len(), kept[0].place.as_str()), (1, "options[0].changes[1]"));
    let said = "with option \"all of it kept\": the incident: the reserve is the attack engine's";
    assert!(kept[0].text.in_file().starts_with(said), "{}", kept[0].text);
    let line = text.lines().nth(kept[0].line - 1).unwrap();
    assert!(line.contains("/incident/reserve"), "{line}");
    // Behind another drop tank the small one is used otherwise, which is odd in another way.
    assert_eq!((flow.len(), tank.len()), (0, 1), "{flow:?} {tank:?}");
    assert_eq!((small.len(), small[0].place.as_str()), (1, "options[3].changes[0]"), "{small:?}");
    assert!(
        small[0].text.in_file().contains("drop tank 2: the drop tank holds"),
        "{}",
        small[0].text
    );
}

#[test]
fn aid_comes_only_when_it_is_asked_for() {
    let aid = json!([
        {"name": "Maple Ford tanker", "count": 2, "capacity": 2000, "requested_at": 3, "response": 20},
    ]);
    let scenario = good(&with("aid", &aid));
    assert_eq!(scenario.plan, good(EXAMPLE).plan);
    let everyone = &scenario.aid.everyone.facts().tankers;
    let asked: Vec<&str> =
        scenario.aid.candidates().iter().map(|place| everyone[*place].name.as_str()).collect();
    assert_eq!(asked, ["Maple Ford tanker 1", "Maple Ford tanker 2"]);
    // Without a list, the candidates are those not requested at the alarm.
    let plain = good(EXAMPLE);
    let everyone = &plain.aid.everyone.facts().tankers;
    let asked: Vec<&str> =
        plain.aid.candidates().iter().map(|place| everyone[*place].name.as_str()).collect();
    assert_eq!(asked, ["Aid tanker 1", "Aid tanker 2"]);
    // A drop tank that aid brings comes with it.
    let mut document: Value = serde_json::from_str(&with("aid", &aid)).unwrap();
    let tank =
        json!({"capacity": 2000, "unusable": 200, "brought_by": "Maple Ford tanker 2", "setup": 3});
    document["drop_tanks"].as_array_mut().unwrap().push(tank);
    let scenario = good(&document.to_string());
    assert_eq!(scenario.plan, plain.plan);
    let tanks = &scenario.aid.everyone.facts().drop_tanks;
    assert_eq!(tanks[1].brought, Brought::ByTanker(4));
    // Mistakes in it lead to it.
    let bad = json!([{"name": "Tanker 3", "capacity": 2000, "response": 20, "waste": 0.1}]);
    let mistakes = wrong(&with("aid", &bad));
    assert_eq!((mistakes.len(), mistakes[0].place.as_str()), (1, "aid[0].name"));
}
