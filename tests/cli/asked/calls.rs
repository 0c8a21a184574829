//! Calls that bring several: departments that come whole, alarms; what each call, and failing to turn out, costs.
//!
//! Every chance is held against `risk` of a file that is written or changed, on the same luck.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use super::{WRONG_SCENARIO, bucketline, folder, scenario};

/// Fires of every answer here.
const FIRES: &str = "1500";

/// The feed mill, changed.
fn feed_mill(folder: &Path, name: &str, change: impl FnOnce(&mut Value)) {
    let text = fs::read_to_string(scenario("feed_mill_mutual_aid")).expect("the scenario is there");
    let mut made: Value = serde_json::from_str(&text).expect("JSON");
    change(&mut made);
    fs::write(folder.join(name), format!("{made:#}")).expect("the folder can be written to");
}

/// Departments by the names of their units, without a group: each unit can be told from the others.
fn with_departments(made: &mut Value) {
    let units = [
        ("Maple Ford 2", "Maple Ford", 3000, 0, 17),
        ("Maple Ford 4", "Maple Ford", 1800, 0, 17),
        ("Birch Hill 1", "Birch Hill", 2500, 3, 21),
        ("Birch Hill 2", "Birch Hill", 2400, 3, 21),
        ("Stony Lake 1", "Stony Lake", 2000, 3, 26),
        ("Stony Lake 2", "Stony Lake", 1900, 3, 26),
    ];
    made["aid"] = (units.iter())
        .map(|(name, department, capacity, at, minutes)| {
            json!({"name": name, "department": department, "capacity": capacity, "requested_at": at,
                "response": {"mean": minutes, "cv": 0.2}, "waste": 0.06, "residual": 0.02})
        })
        .collect();
    made["drop_tanks"][1]["brought_by"] = json!("Maple Ford 2");
}

fn asked(folder: &Path, arguments: &[&str]) -> Value {
    let mut all = arguments.to_vec();
    all.extend(["--runs", FIRES, "--no-charts", "--json"]);
    let said = bucketline(folder, &all).answered(arguments[0]);
    serde_json::from_str(&said).expect("JSON")
}

fn chance(figures: &Value) -> f64 {
    figures["interruption_probability"].as_f64().expect("a chance")
}

/// Whether the chance of a change, run beside the request, can be that of a run of its own: with fewer fires it is put
/// together of the request's chance in all its fires and the difference in these.
fn near(change: &Value, run: f64) -> bool {
    let (said, fires) = (chance(change), change["replications"].as_f64().expect("fires"));
    let middle = (said + run) / 2.0;
    // Four standard errors, and a fire either way.
    (said - run).abs() <= 4.0 * (middle * (1.0 - middle) / fires).sqrt() + 1.0 / fires
}

fn names(request: &Value) -> Vec<(usize, String)> {
    let units = request.as_array().expect("units").iter();
    units
        .map(|unit| {
            let call = unit["call"].as_u64().expect("a call") as usize;
            (call, unit["name"].as_str().expect("a name").to_owned())
        })
        .collect()
}

#[test]
fn a_department_that_comes_whole_is_never_asked_for_in_part() {
    let folder = folder();
    feed_mill(folder.path(), "units.json", with_departments);
    feed_mill(folder.path(), "whole.json", |made| {
        with_departments(made);
        // One unit that says so is enough.
        for place in [1, 2, 5] {
            made["aid"][place]["comes_whole"] = json!(true);
        }
    });
    let by_unit = asked(folder.path(), &["request", "units.json", "--spare", "0"]);
    assert!(
        names(&by_unit["ask_for"]).iter().map(|(call, _)| call).collect::<Vec<_>>().is_sorted()
    );
    let arguments = ["request", "whole.json", "--spare", "0", "--write", "card.json"];
    let whole = asked(folder.path(), &arguments);
    assert_eq!(whole["meets_target"], true);
    let called = names(&whole["ask_for"]);
    for department in ["Maple Ford", "Birch Hill", "Stony Lake"] {
        let of: Vec<_> = called.iter().filter(|(_, name)| name.starts_with(department)).collect();
        assert!(of.is_empty() || of.len() == 2 && of[0].0 == of[1].0, "{called:?}");
    }
    // By unit three do; whole departments bring four.
    assert_eq!(by_unit["ask_for"].as_array().map(Vec::len), Some(3), "{by_unit:#}");
    assert_eq!(called.len(), 4, "{called:?}");
    let card = asked(folder.path(), &["risk", "card.json", "--no-help"]);
    assert_eq!(chance(&whole), chance(&card));
    // Without a call: all of it stays away.
    for unit in whole["ask_for"].as_array().expect("units") {
        let of: Vec<&str> = (called.iter())
            .filter(|(call, _)| unit["call"] == *call)
            .map(|(_, name)| name.as_str())
            .collect();
        let mut without = vec!["risk", "card.json", "--no-help"];
        of.iter().for_each(|name| without.extend(["--without", name]));
        let run = chance(&asked(folder.path(), &without));
        assert!(near(&unit["without_it"], run), "{of:?}: {}, by itself {run}", unit["without_it"]);
    }
    let said =
        bucketline(folder.path(), &["request", "whole.json", "--runs", "300", "--no-charts"]);
    assert!(said.answered("request").contains("Together: with the one above or not at all."));
}

/// What `request` says of a loss is what `lose` says of the file it writes, and what `risk` says of that file without it:
/// units, sources, whole departments, departments in name only, and what no request makes up for with its cures.
#[test]
fn a_loss_is_the_same_in_request_lose_and_risk() {
    let folder = folder();
    for (file, comes_whole) in [("whole.json", true), ("named.json", false)] {
        feed_mill(folder.path(), file, |made| {
            with_departments(made);
            for place in [0, 2, 4] {
                made["aid"][place]["comes_whole"] = json!(comes_whole);
            }
        });
        let found = asked(folder.path(), &["request", file, "--write", "card.json", "--force"]);
        let lose = asked(folder.path(), &["lose", "card.json"]);
        let spare = &found["spare"];
        let list = |key: &str| spare[key].as_array().expect("a list").clone();
        let (losses, departments) = (list("losses_with_request"), list("departments_at_home"));
        let aside = list("not_made_up_for");
        let is_department = |one: &&Value| one["lost"]["kind"] == "department";
        let in_losses = losses.iter().filter(is_department).count();
        assert_eq!(
            (in_losses >= 2, departments.len() >= 2),
            (comes_whole, !comes_whole),
            "{spare:#}"
        );
        assert_eq!(aside.len(), 2, "the pond and the drop tank's tanker: {spare:#}");
        for one in losses.iter().chain(&departments).chain(&aside) {
            let row = (lose["losses"].as_array().expect("losses").iter())
                .find(|row| row["lost"] == one["lost"])
                .unwrap_or_else(|| panic!("{one} is not told by lose"));
            for key in ["replications", "interruption_probability", "side_of_target"] {
                assert_eq!(row[key], one[key], "{one}");
            }
        }
        for one in losses.iter().chain(&departments).filter(is_department) {
            assert_eq!(one["lost"]["comes_whole"], comes_whole, "{one}");
            let tankers = one["lost"]["tanker_names"].as_array().expect("names");
            assert_eq!(tankers.len(), 2, "{one}");
            let without = tankers.iter().flat_map(|name| ["--without", name.as_str().expect("it")]);
            let run = run_as_often(folder.path(), "card.json", one, without);
            assert_eq!(run, chance(one), "{one}");
            // "Without" of the first of them is the same loss.
            let unit = found["ask_for"].as_array().expect("units").iter();
            let unit = unit.clone().find(|unit| unit["name"] == tankers[0]).expect("asked for");
            assert_eq!(
                unit["without_it"]["interruption_probability"] == one["interruption_probability"],
                comes_whole
            );
        }
        let lost = |name: &str| {
            let is_it = |one: &&Value| {
                one["lost"]["name"] == name || one["lost"]["alike"][0]["names"][0] == name
            };
            aside.iter().find(is_it).unwrap_or_else(|| panic!("{name}: {aside:#?}"))
        };
        // A file in which Tanker 7 brings the drop tank, and one with a second place to fill.
        let text = fs::read_to_string(folder.path().join("card.json")).expect("written");
        let card: Value = serde_json::from_str(&text).expect("JSON");
        let with = |change: &dyn Fn(&mut Value)| {
            let mut changed = card.clone();
            change(&mut changed);
            fs::write(folder.path().join("changed.json"), changed.to_string()).expect("written");
        };
        let tried = |one: &Value, is: &dyn Fn(&Value) -> bool| {
            let all = one["cures_tried"].as_array().expect("a list").clone();
            all.into_iter().find(|tried| is(&tried["remedy"])).unwrap_or_else(|| panic!("{one:#}"))
        };
        let on_seven = tried(lost("Tanker 5"), &|cure| {
            cure["kind"] == "drop_tank_on" && cure["tanker"] == "Tanker 7"
        });
        with(&|file| file["drop_tanks"][0]["brought_by"] = json!("Tanker 7"));
        let run = run_as_often(folder.path(), "changed.json", &on_seven, ["--without", "Tanker 5"]);
        assert_eq!(run, chance(&on_seven), "{on_seven}");
        let position =
            tried(lost("Mill pond"), &|cure| cure["change"]["input"]["kind"] == "fill_positions");
        assert_eq!(position["side_of_target"], "below", "{position}");
        with(&|file| {
            let site = (file["fill_sites"].as_array_mut().expect("sites").iter_mut())
                .find(|site| site["name"] == "Town hydrant");
            let site = site.expect("it is there");
            site["positions"] = json!(site["positions"].as_u64().unwrap_or(1) + 1);
        });
        let run =
            run_as_often(folder.path(), "changed.json", &position, ["--without", "Mill pond"]);
        assert_eq!(run, chance(&position), "{position}");
        // The flow that then holds does so in a run of its own, and one step more does not.
        let holds = &lost("Tanker 5")["then_holds"];
        let gpm = holds["flow_gpm"].as_f64().expect("a flow");
        let run_at = |gpm: f64| {
            // The file wants 150 gpm at first, and 600 gpm ten minutes later.
            let flow = format!("150@0,{gpm}@10");
            run_as_often(
                folder.path(),
                "card.json",
                holds,
                ["--without", "Tanker 5", "--flow", &flow],
            )
        };
        assert_eq!(run_at(gpm), chance(holds), "{holds}");
        assert!(run_at(gpm + 25.0) > 0.03, "{holds}");
    }
}

/// The share of fires that run short in `risk`, in as many fires as were simulated for this.
fn run_as_often<'a>(
    folder: &Path,
    file: &str,
    of: &Value,
    asks: impl IntoIterator<Item = &'a str>,
) -> f64 {
    let runs = of["replications"].to_string();
    let asks: Vec<&str> = asks.into_iter().collect();
    let as_often = ["risk", file, "--no-help", "--no-charts", "--json", "--runs", &runs];
    let arguments = [&as_often[..], &asks].concat();
    let said = bucketline(folder, &arguments).answered("risk");
    chance(&serde_json::from_str(&said).expect("JSON"))
}

#[test]
fn an_alarm_is_struck_with_all_its_units_at_its_minute() {
    let folder = folder();
    let on_alarms = |made: &mut Value| {
        with_departments(made);
        made["alarms"] = json!({"second": 2, "third": "6 min"});
        for (place, alarm) in
            ["second", "second", "second", "third", "third", "third"].iter().enumerate()
        {
            let unit = made["aid"][place].as_object_mut().expect("a unit");
            unit.remove("requested_at");
            unit.insert("alarm".to_owned(), json!(alarm));
        }
    };
    feed_mill(folder.path(), "alarms.json", on_alarms);
    feed_mill(folder.path(), "minutes.json", |made| {
        with_departments(made);
        for (place, minute) in [2, 2, 2, 6, 6, 6].into_iter().enumerate() {
            made["aid"][place]["requested_at"] = json!(minute);
        }
    });
    for change in [vec!["--all-aid"], vec!["--all-aid", "--late", "7"]] {
        let risk = |file| {
            let mut arguments = vec!["risk", file, "--no-help"];
            arguments.extend(&change);
            chance(&asked(folder.path(), &arguments))
        };
        assert_eq!(risk("alarms.json"), risk("minutes.json"), "{change:?}");
    }
    let struck = asked(folder.path(), &["request", "alarms.json", "--spare", "0"]);
    let units = struck["ask_for"].as_array().expect("units");
    assert!(units.len() == 3 || units.len() == 6, "{units:?}");
    for unit in units {
        let (alarm, at) = (&unit["alarm"], unit["requested_at_min"].as_f64());
        assert_eq!(at, Some(if *alarm == "second" { 2.0 } else { 6.0 }), "{unit}");
        assert_eq!(unit["call"], if *alarm == "second" { 1 } else { 2 });
    }
    let said =
        bucketline(folder.path(), &["request", "alarms.json", "--runs", "300", "--no-charts"]);
    let said = said.answered("request");
    assert!(said.contains("second alarm, minute 2  "), "{said}");
    // An alarm that is never struck, and a department that is not said.
    feed_mill(folder.path(), "wrong.json", |made| {
        on_alarms(made);
        made["alarms"] = json!({"second": 2, "first": 0});
        made["aid"][0]["comes_whole"] = json!(true);
        made["aid"][0].as_object_mut().expect("a unit").remove("department");
    });
    let said = bucketline(folder.path(), &["check", "wrong.json"]).refused(WRONG_SCENARIO, "check");
    assert!(said.contains("the first alarm is the alarm itself"), "{said}");
    assert!(said.contains("add `department`"), "{said}");
    feed_mill(folder.path(), "wrong.json", |made| {
        on_alarms(made);
        made["alarms"] = json!({"second": 2});
    });
    let said = bucketline(folder.path(), &["check", "wrong.json"]).refused(WRONG_SCENARIO, "check");
    assert!(said.contains("it is on the third alarm"), "{said}");
    assert!(said.contains("add \"alarms\": {\"third\": 5}"), "{said}");
    assert!(said.ends_with("3 mistakes\n"), "{said}");
}

/// Two tankers of one department that comes whole are both there or neither, as often as the one that comes least.
#[test]
fn a_department_that_comes_whole_stays_away_whole() {
    let folder = folder();
    let shed = |comes_whole: bool| {
        move |made: &mut Value| {
            with_departments(made);
            for unit in made["aid"].as_array_mut().expect("aid") {
                unit["turnout"] = json!(0.9);
            }
            if comes_whole {
                made["aid"][1]["comes_whole"] = json!(true);
                made["aid"][1]["turnout"] = json!(0.5);
            }
        }
    };
    feed_mill(folder.path(), "whole.json", shed(true));
    let check = bucketline(folder.path(), &["check", "whole.json", "--all-aid", "--more"])
        .answered("check");
    let told = check.split_whitespace().collect::<Vec<_>>().join(" ");
    let odd =
        "comes only with all of Maple Ford, and that is as often as the one that comes least: 50%";
    assert!(told.contains(odd), "{check}");
    let fires = |file: &str, without: &[&str]| {
        let mut arguments = vec!["risk", file, "--all-aid", "--no-help"];
        without.iter().for_each(|name| arguments.extend(["--without", name]));
        chance(&asked(folder.path(), &arguments))
    };
    // A fire of the whole plan is one with both or one with neither: by total probability, from separate runs of files in
    // which both surely come and in which neither does.
    feed_mill(folder.path(), "both.json", |made| {
        shed(true)(made);
        for place in [0, 1] {
            made["aid"][place]["turnout"] = json!(1);
        }
    });
    let file: Value = serde_json::from_str(
        &std::fs::read_to_string(folder.path().join("whole.json")).expect("written"),
    )
    .expect("JSON");
    let maple: Vec<&str> = (file["aid"].as_array().expect("aid").iter())
        .filter(|unit| unit["department"] == "Maple Ford")
        .filter_map(|unit| unit["name"].as_str())
        .collect();
    assert_eq!(maple.len(), 2, "{maple:?}");
    let (both, neither) = (fires("both.json", &[]), fires("whole.json", &maple));
    let mixed = 0.5 * both + 0.5 * neither;
    let whole = fires("whole.json", &[]);
    // Four standard errors of 1,500 fires at most.
    let off = 4.0 * (0.25_f64 / 1_500.0).sqrt();
    assert!((whole - mixed).abs() < off, "{whole}; of {both} and {neither} it is {mixed}");
    // Without the one that comes least the other comes no more often.
    let [one, other] = [maple[0], maple[1]];
    feed_mill(folder.path(), "no_more.json", |made| {
        shed(true)(made);
        made["aid"][0]["turnout"] = json!(0.5);
    });
    assert_eq!(fires("whole.json", &[other]), fires("no_more.json", &[other]), "{one} alone");
    // Each for itself they are a help more often.
    feed_mill(folder.path(), "each.json", |made| {
        shed(false)(made);
        made["aid"][1]["turnout"] = json!(0.5);
    });
    let each = fires("each.json", &[]);
    assert!(whole - each > 0.02, "together {whole}, each for itself {each}");
}

#[test]
fn what_failing_to_turn_out_costs_is_that_of_a_file_where_all_come() {
    let folder = folder();
    let may_stay_away = |turnout: f64| {
        move |made: &mut Value| {
            with_departments(made);
            for list in ["tankers", "aid"] {
                for unit in made[list].as_array_mut().expect("units") {
                    unit["turnout"] = json!(turnout);
                }
            }
        }
    };
    feed_mill(folder.path(), "some.json", may_stay_away(0.9));
    let arguments =
        ["request", "some.json", "--target", "20%", "--spare", "0", "--write", "card.json"];
    let some = asked(folder.path(), &arguments);
    let text = fs::read_to_string(folder.path().join("card.json")).expect("written");
    fs::write(folder.path().join("all.json"), text.replace("\"turnout\": 0.9", "\"turnout\": 1"))
        .expect("the folder can be written to");
    let run = chance(&asked(folder.path(), &["risk", "all.json", "--no-help"]));
    assert!(near(&some["all_come"], run), "{}, by itself {run}", some["all_come"]);
    assert!(run + 0.02 < chance(&some), "that some stay away costs something");
    let told =
        bucketline(folder.path(), &["request", "some.json", "--target", "20%", "--no-charts"]);
    assert!(told.answered("request").contains("No-shows  were every unit sure to come, short in "));
    // Where all are sure to come there is nothing to say.
    feed_mill(folder.path(), "sure.json", may_stay_away(1.0));
    let sure = asked(folder.path(), &["request", "sure.json", "--spare", "0"]);
    assert_eq!(sure["all_come"], Value::Null);
}

/// The same set is said to be short as often wherever it stands in an answer.
#[test]
fn one_set_has_one_chance() {
    let folder = folder();
    feed_mill(folder.path(), "mill.json", |_| ());
    let found = asked(folder.path(), &["request", "mill.json", "--spare", "0"]);
    let called = names(&found["ask_for"]);
    let mut seen = 0;
    for unit in found["ask_for"].as_array().expect("units") {
        let others: Vec<&String> =
            called.iter().map(|(_, name)| name).filter(|name| unit["name"] != **name).collect();
        for row in found["sizes"].as_array().expect("rows") {
            let of = row["names"].as_array().expect("names");
            if of.len() == others.len()
                && of.iter().all(|name| others.iter().any(|one| *name == **one))
            {
                assert_eq!(chance(row), chance(&unit["without_it"]));
                assert_eq!(row["replications"], unit["without_it"]["replications"]);
                seen += 1;
            }
        }
    }
    assert!(seen > 0, "the best set of one fewer is one of them: {found:#}");
}

#[test]
fn the_request_fits_a_screen() {
    let folder = folder();
    let said = bucketline(folder.path(), &["request", &scenario("feed_mill_mutual_aid")]);
    let said = said.answered("request");
    assert!(said.lines().count() <= 24, "{said}");
}
