//! Every command on every scenario that comes with the program.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{CAUTION, bucketline, folder, hay_barn, names_in, scenario, scenarios, write_changed};

/// Widest line of an answer, characters.
const WIDTH: usize = 100;

/// The first eight bytes of every PNG file (ISO/IEC 15948, 5.2).
const PNG_SIGNATURE: [u8; 8] = [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1A, b'\n'];

fn title(file: &Path) -> String {
    let text = fs::read_to_string(file).expect("the scenario is there");
    let value: Value = serde_json::from_str(&text).expect("the scenario is JSON");
    value["title"].as_str().expect("a title").to_owned()
}

/// The headline at the top, the caution at the bottom, nothing too wide.
fn assert_is_an_answer(text: &str, file: &Path, what: &str) {
    let first = text.lines().next().expect("a first line");
    // A long headline is wrapped; the title itself always fits on the first line.
    assert!(first.starts_with(&title(file)), "{what}: {first}");
    assert_eq!(text.lines().last(), Some(CAUTION), "{what}");
    assert!(text.ends_with('\n'), "{what}");
    for line in text.lines() {
        assert!(line.chars().count() <= WIDTH, "{what}: {line}");
    }
    for nonsense in ["NaN", "inf ", "-0 ", "panicked"] {
        assert!(!text.contains(nonsense), "{what}: {nonsense} in {text}");
    }
}

/// These charts and no other file, each as SVG and as PNG.
fn assert_charts(folder: &Path, expected: &[&str], what: &str) {
    let mut names: Vec<String> =
        expected.iter().flat_map(|name| [format!("{name}.png"), format!("{name}.svg")]).collect();
    names.sort();
    assert_eq!(names_in(folder), names, "{what}");
    for name in expected {
        let svg = fs::read_to_string(folder.join(format!("{name}.svg"))).expect("SVG is text");
        assert!(svg.contains("<svg") && svg.trim_end().ends_with("</svg>"), "{what}: {name}.svg");
        let png = fs::read(folder.join(format!("{name}.png"))).expect("the PNG can be read");
        assert!(png.starts_with(&PNG_SIGNATURE), "{what}: {name}.png");
    }
}

/// Runs one command with charts on every scenario.
fn on_every_scenario(command: &str, options: &[&str], charts: &[&str], telling: &str) {
    for file in scenarios() {
        let folder = folder();
        let path = file.to_string_lossy().into_owned();
        let what = format!("{command} {path}");
        let mut arguments = vec![command, &path];
        arguments.extend(options);
        if !charts.is_empty() {
            arguments.extend(["--out", "charts"]);
        }
        let text = bucketline(folder.path(), &arguments).answered(&what);
        assert_is_an_answer(&text, &file, &what);
        assert!(text.contains(telling), "{what}: no {telling:?} in {text}");
        if charts.is_empty() {
            assert_eq!(names_in(folder.path()), [""; 0], "{what}");
        } else {
            let told = ["\nCharts: charts/\n", " Pictures in charts/."];
            assert!(told.iter().any(|told| text.contains(told)), "{what}: {text}");
            assert_eq!(names_in(folder.path()), ["charts"], "{what}");
            let plan = scenario_file::load(&file).expect("a sound scenario").plan;
            // What rests on readings or a guess gives `risk` one chart more.
            let doubt = command == "risk" && !plan.facts().unsure.is_empty();
            let more = if doubt { vec!["in-doubt"] } else { Vec::new() };
            let charts = [charts, more.as_slice()].concat();
            assert_charts(&folder.path().join("charts"), &charts, &what);
        }
    }
}

#[test]
fn risk_answers_on_every_scenario() {
    let charts = ["levels", "first-short-of-water", "cycle"];
    on_every_scenario("risk", &["--runs", "300"], &charts, "\n300 fires. ");
}

#[test]
fn size_answers_on_every_scenario() {
    on_every_scenario("size", &["--runs", "600"], &["tankers"], " fires");
}

/// A name is a name, even one in small letters.
#[test]
fn tender_changes_the_word_and_not_the_names() {
    let folder = folder();
    let file = folder.path().join("names.json");
    write_changed(&file, |value| {
        value["title"] = "A barn, two tankers named".into();
        value["tankers"][0]["name"] = "old tanker 3".into();
        value["drop_tanks"][0]["brought_by"] = "old tanker 3".into();
        value["tankers"][1]["name"] = "new tanker 5".into();
        value["fill_sites"][0]["name"] = "tanker pond".into();
    });
    let names = ["A barn, two tankers named", "old tanker 3", "new tanker 5", "tanker pond"];
    let calls: [(&[&str], &[&str]); 2] = [
        (
            &["risk", "--runs", "2000", "--no-charts"],
            &[", two tenders.\n", "one more tender like new tanker 5:"],
        ),
        (
            &["size", "--runs", "300", "--no-charts"],
            &[
                "It takes three tenders, the two in the plan and one more: ",
                "\ntenders  the last of them",
            ],
        ),
    ];
    for (call, telling) in calls {
        let mut arguments = call.to_vec();
        arguments.extend(["names.json", "--tender"]);
        let text = bucketline(folder.path(), &arguments).answered(call[0]);
        for part in telling {
            assert!(text.contains(part), "{}: no {part:?} in {text}", call[0]);
        }
        // A label may be broken over lines, so runs of blanks count as one.
        let mut rest = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for name in names {
            rest = rest.replace(name, "");
        }
        // "new tanker 5" gives its stem to the tankers tried beyond those listed.
        rest = rest.replace("new tanker", "");
        assert!(!rest.contains("tanker"), "{}: {rest}", call[0]);
        assert!(!text.contains("old tender") && !text.contains("tender pond"), "{text}");
    }
}

#[test]
fn a_target_is_a_percentage_or_a_share() {
    let folder = folder();
    let file = hay_barn();
    let size = |target: &str| {
        bucketline(folder.path(), &["size", &file, "--runs", "300", "--json", "--target", target])
    };
    let percentage = size("10%").answered("10%");
    assert_eq!(percentage, size("0.1").answered("0.1"));
    let json: Value = serde_json::from_str(&percentage).expect("JSON");
    assert_eq!(json["target"], 0.1);
    let default = bucketline(folder.path(), &["size", &file, "--runs", "300", "--json"]);
    assert_eq!(default.answered("left out"), size("5%").answered("5%"));
    for (wrong, telling) in [
        ("5", "for percent write 5%"),
        ("0", "between 0% and 100%"),
        ("100%", "between 0% and 100%"),
        ("-5%", "between 0% and 100%"),
        ("nan", "between 0% and 100%"),
        ("five", "write it as 5% or 0.05"),
        ("", "write it as 5% or 0.05"),
    ] {
        let target = format!("--target={wrong}");
        let ended = bucketline(folder.path(), &["size", &file, &target]);
        let said = ended.refused(super::WRONG_COMMAND, wrong);
        assert!(said.contains(telling), "{wrong}: {said}");
    }
}

#[test]
fn size_names_the_cap_that_holds_the_flow_down_whoever_comes() {
    let folder = folder();
    let file = folder.path().join("narrow.json");
    let size = |flow: u32| {
        write_changed(&file, |plan| plan["fill_sites"][0]["flow"] = flow.into());
        let path = file.display().to_string();
        let text = bucketline(folder.path(), &["size", &path, "--runs", "400", "--no-charts"])
            .answered("size");
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let narrow = size(120);
    assert!(narrow.contains("More tankers alone will not do: "), "{narrow}");
    assert!(
        narrow
            .contains(", by hand; less than the 285 gpm wanted, so more tankers add only the load"),
        "{narrow}"
    );
    assert!(!size(1000).contains("At most"), "enough tankers are found");
}

#[test]
fn risk_warns_of_an_operator_who_never_gates_down_where_the_plan_has_one_who_does() {
    let risk = |name: &str| {
        let arguments = ["risk", &scenario(name), "--runs", "2000", "--no-charts"];
        let text = bucketline(folder().path(), &arguments).answered(name);
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let warning = "With one who never does the lines run short in ";
    let two = risk("hay_barn_two_tankers");
    assert!(two.contains(warning), "{two}");
    // This plan has one who never does: that he might is advice. Nobody drafts in the other.
    let buying = risk("hay_barn_what_to_buy");
    assert!(!buying.contains(warning), "{buying}");
    assert!(buying.contains("the pump operator gating down before prime is lost: "), "{buying}");
    let nursing = risk("grass_fire_nursing_only");
    assert!(!nursing.contains(warning), "{nursing}");
}

/// A tanker that is an hour away when the others' water is gone, and a pond that is not ready before minute 60,
/// are named in the text and in the JSON.
#[test]
fn risk_names_who_was_still_to_come_and_which_source_was_waited_for() {
    let folder = folder();
    let file = folder.path().join("named.json");
    let risk = |change: fn(&mut Value), more: &[&str]| {
        write_changed(&file, change);
        let mut arguments = vec!["risk", "named.json", "--runs", "300", "--no-charts"];
        arguments.extend(more);
        bucketline(folder.path(), &arguments).answered("risk")
    };
    let about = |change| {
        let json: Value = serde_json::from_str(&risk(change, &["--json"])).expect("JSON");
        json["causes_about"][0].clone()
    };
    let late: fn(&mut Value) = |plan| {
        for tanker in 0..2 {
            plan["tankers"][tanker]["response"] = 60.into();
        }
        plan["tankers"][1]["response"] = 61.into();
    };
    let text = risk(late, &[]);
    assert!(text.contains("Why       Tanker 3 had not come"), "{text}");
    assert_eq!(about(late)["cause"], "not_come");
    assert_eq!(about(late)["about"], serde_json::json!({"kind": "tanker", "name": "Tanker 3"}));
    let not_ready: fn(&mut Value) = |plan| plan["fill_sites"][0]["ready"] = 60.into();
    let text = risk(not_ready, &[]);
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("waited for Quarry pond, which was not ready"), "{text}");
    assert_eq!(about(not_ready)["about"]["name"], "Quarry pond");
}
