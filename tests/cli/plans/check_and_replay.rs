//! `check` and `replay` on every scenario that comes with the program.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{CAUTION, bucketline, folder, hay_barn, names_in, scenario, scenarios, write_changed};

/// Widest line of an answer, characters.
const WIDTH: usize = 100;
/// Lines of a screen, of which the call itself takes one.
const SCREEN: usize = 24;

fn stated(file: &Path) -> Value {
    let text = fs::read_to_string(file).expect("the scenario is there");
    serde_json::from_str(&text).expect("the scenario is JSON")
}

fn title(file: &Path) -> String {
    stated(file)["title"].as_str().expect("a title").to_owned()
}

/// The headline at the top, the caution at the bottom, nothing too wide, no nonsense.
fn assert_is_an_answer(text: &str, file: &Path, what: &str) {
    let first = text.lines().next().expect("a first line");
    assert!(first.starts_with(&format!("{}.", title(file))), "{what}: {first}");
    assert_eq!(text.lines().last(), Some(CAUTION), "{what}");
    for line in text.lines() {
        assert!(line.chars().count() <= WIDTH, "{what}: {line}");
    }
    for nonsense in ["NaN", "inf ", "-0 ", "panicked"] {
        assert!(!text.contains(nonsense), "{what}: {nonsense} in {text}");
    }
}

fn parsed(text: &str, what: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{what}: {error}"))
}

fn number(value: &Value, what: &str) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{what} is {value}, not a number"))
}

/// The volumes of a result are in the units of its file.
fn volume(result: &Value, stem: &str) -> f64 {
    let key = if result["units"] == "metric" { format!("{stem}_l") } else { format!("{stem}_gal") };
    number(&result[&key], &key)
}

#[test]
fn check_answers_on_every_scenario() {
    for file in scenarios() {
        let folder = folder();
        let path = file.to_string_lossy().into_owned();
        let text = bucketline(folder.path(), &["check", &path]).answered(&path);
        assert_is_an_answer(&text, &file, &path);
        assert!(text.contains("The file is in order. By hand "), "{text}");
        let more = bucketline(folder.path(), &["check", &path, "--more"]).answered(&path);
        assert_is_an_answer(&more, &file, &path);
        assert!(more.contains("\nCycle "), "{more}");
        assert_eq!(names_in(folder.path()), [""; 0], "{path}");
        let json = bucketline(folder.path(), &["check", &path, "--json"]).answered(&path);
        let json = parsed(&json, &path);
        assert_eq!(json["sound"], true, "{path}");
        // A sum is that of its parts.
        let sheet = &json["worksheet"];
        let key = if json["units"] == "metric" { "hand_lpm" } else { "hand_gpm" };
        let each = sheet["tankers_by_hand"].as_array().expect("tankers");
        let sum: f64 = each.iter().map(|one| number(&one[key], key)).sum();
        assert!((number(&sheet[key], key) - sum).abs() < 1e-6, "{path}: {sum}");
    }
}

/// Without the notes, which are the file's.
#[test]
fn an_answer_fits_a_screen() {
    for file in scenarios() {
        let folder = folder();
        let path = file.to_string_lossy().into_owned();
        for command in ["check", "replay"] {
            let text = bucketline(folder.path(), &[command, &path]).answered(&path);
            let notes =
                text.split("\nNote ").skip(1).map(|note| note.lines().count()).sum::<usize>();
            let lines = text.lines().count() - notes.min(text.lines().count());
            assert!(lines <= SCREEN, "{command} {path}: {lines} lines\n{text}");
        }
    }
}

#[test]
fn check_shows_a_metric_file_in_metric() {
    let folder = folder();
    let file = scenario("orchard_metric");
    let text = bucketline(folder.path(), &["check", &file, "--more"]).answered("check");
    // 3.6 km at 55 km/h: 60 / 55 x 3.6 = 3.93.
    assert!(text.contains("fill_sites[0].out: 60 / 55 km/h x 3.6 km = 3.9 min\n"), "{text}");
    for us in ["mph", "mile", " gal", " gpm", " ft", " psi"] {
        assert!(!text.contains(us), "{us}: {text}");
    }
    let json = bucketline(folder.path(), &["check", &file, "--json"]).answered("check");
    for us in ["_gal\"", "_gpm\"", "_ft\"", "_mi\"", "_psi\"", "_inches\""] {
        assert!(!json.contains(us), "{us}: {json}");
    }
}

/// With a pencil: the parts of a cycle as they stand there add up to the sum beside them, and that is, to a tenth, the cycle
/// that the rate is worked out with.
#[test]
fn the_parts_of_a_cycle_add_up_as_they_are_shown() {
    let mut sums = 0;
    for file in scenarios() {
        let path = file.to_string_lossy().into_owned();
        let folder = folder();
        let text = bucketline(folder.path(), &["check", &path, "--more"]).answered(&path);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for (at, _) in
            text.match_indices("travel out ").filter(|(at, _)| text[..*at].ends_with(": "))
        {
            let said = text[at..].split(" min").next().expect("minutes");
            let (parts, sum) = said.split_once(" = ").expect("a sum");
            let thousandths = |of: &str| -> i64 {
                let minutes: f64 = of.rsplit(' ').next().expect("a number").parse().expect(of);
                (1_000.0 * minutes).round() as i64
            };
            let added: i64 = parts.split(" · ").map(thousandths).sum();
            assert_eq!(added, thousandths(sum), "{path}: {said}");
            let cycle = text[at..].split("%) / ").nth(1).and_then(|rest| rest.split(" min").next());
            let tenth = (added as f64 / 100.0).round() as i64;
            assert_eq!(tenth * 100, thousandths(cycle.expect("a rate")), "{path}: {said}");
            sums += 1;
        }
    }
    assert!(sums > 10, "{sums}");
}

#[test]
fn replay_answers_on_every_scenario() {
    for file in scenarios() {
        let path = file.to_string_lossy().into_owned();
        for (options, chart, telling) in [
            ([].as_slice(), "replay-run-1", "In fire 1 the lines"),
            (&["--planned"], "replay-planned", "With every duration at its mean"),
        ] {
            let folder = folder();
            let mut all = vec!["replay", &path, "--out", "charts"];
            all.extend(options);
            let text = bucketline(folder.path(), &all).answered(&path);
            assert_is_an_answer(&text, &file, &path);
            assert!(text.contains(telling), "{path}: {text}");
            assert!(text.contains("Pictures in charts/."), "{path}: {text}");
            let drawn = [format!("{chart}.png"), format!("{chart}.svg")];
            assert_eq!(names_in(&folder.path().join("charts")), drawn, "{path}");
        }
    }
}

#[test]
fn a_replay_has_every_line_of_its_story_and_loses_no_gallon() {
    let folder = folder();
    for file in scenarios() {
        let path = file.to_string_lossy().into_owned();
        for options in [["--run", "3"].as_slice(), &["--planned"]] {
            let mut all = vec!["replay", &path, "--json"];
            all.extend(options);
            let replay = parsed(&bucketline(folder.path(), &all).answered(&path), &path);
            // Conservation of mass.
            let parts = ["delivered", "spilled", "remaining", "carried_away"];
            let told: f64 = parts.iter().map(|stem| volume(&replay, stem)).sum();
            assert!((volume(&replay, "arrived") - told).abs() < 4e-3, "{path}: {told}");
            let lines = replay["timeline"].as_array().expect("timeline");
            assert!(lines.len() > 10, "{path}");
            let minutes: Vec<f64> = lines.iter().map(|n| number(&n["at_min"], "at_min")).collect();
            assert!(minutes.is_sorted(), "{path}");
            let happens = |what: &str| lines.iter().filter(|line| line["what"] == what).count();
            assert_eq!((happens("first_water"), happens("watch_ended")), (1, 1), "{path}");
            let counted = replay["interruptions"].as_array().expect("interruptions").len();
            assert!(happens("shortfall_began") >= counted, "{path}");
            // The same lines in words, under `--more`.
            let table = &replay["told"]["more"][0]["rows"];
            assert_eq!(table.as_array().map(Vec::len), Some(lines.len()), "{path}");
        }
    }
}

/// Without `--out` the pictures go to `out/` and the file's name; with `--no-charts` nowhere.
#[test]
fn charts_go_where_the_help_says() {
    let folder = folder();
    let file = hay_barn();
    bucketline(folder.path(), &["replay", &file, "--no-charts"]).answered("no charts");
    assert_eq!(names_in(folder.path()), [""; 0]);
    bucketline(folder.path(), &["replay", &file, "--json"]).answered("JSON");
    assert_eq!(names_in(folder.path()), [""; 0]);
    let text = bucketline(folder.path(), &["replay", &file]).answered("charts");
    assert!(text.contains("Pictures in out/hay_barn_two_tankers/."), "{text}");
    let charts = folder.path().join("out/hay_barn_two_tankers");
    assert_eq!(names_in(&charts), ["replay-run-1.png", "replay-run-1.svg"]);
}

/// A name is a name, even one in small letters; the word is the reader's in text and picture.
#[test]
fn tender_changes_the_word_and_not_the_names() {
    let folder = folder();
    let file = folder.path().join("names.json");
    write_changed(&file, |value| {
        value["title"] = "A barn, two tankers named".into();
        value["tankers"][0]["name"] = "old tanker 3".into();
        value["drop_tanks"][0]["brought_by"] = "old tanker 3".into();
        value["tankers"][1]["name"] = "12".into();
        value["fill_sites"][0]["name"] = "gpm mill tanker pond".into();
    });
    let names = ["A barn, two tankers named", "old tanker 3", "gpm mill tanker pond"];
    for (call, telling) in [
        (["check", "--more"].as_slice(), "By hand two tenders make"),
        (&["replay", "--more", "--out", "charts"], "12: "),
    ] {
        let mut arguments = call.to_vec();
        arguments.extend(["names.json", "--tender"]);
        let text = bucketline(folder.path(), &arguments).answered(call[0]);
        let on_one_line = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(", two tenders.\n") && on_one_line.contains(telling), "{text}");
        let rest = names.iter().fold(on_one_line, |rest, name| {
            assert!(rest.contains(name), "{}: no {name}: {text}", call[0]);
            rest.replace(name, "")
        });
        assert!(!rest.contains("tanker"), "{}: {rest}", call[0]);
    }
    let svg = fs::read_to_string(folder.path().join("charts/replay-run-1.svg")).expect("SVG");
    assert!(svg.contains("what each tender") && svg.contains("old tanker 3"), "{svg}");
}

/// While nothing else is there the lines get nothing; with one nurse of 150 gpm they get that of 285.
#[test]
fn a_replay_says_what_still_comes_when_the_lines_run_short() {
    let folder = folder();
    let file = folder.path().join("slow.json");
    super::write_changed(&file, |plan| {
        plan["tankers"].as_array_mut().expect("tankers").truncate(1);
        plan["tankers"][0]["pump_off"] = 150.into();
    });
    let text =
        bucketline(folder.path(), &["replay", "slow.json", "--planned", "--more", "--no-charts"])
            .answered("replay");
    assert!(text.contains("SHORT OF WATER, 150 gpm comes"), "{text}");
    assert!(text.contains("SHORT OF WATER, nothing comes"), "{text}");
}

/// What every run counts with is told by `check`, and with the change that brings it; other answers are spared it.
#[test]
fn a_note_on_a_drop_tank_is_told_once() {
    let folder = folder();
    let file = folder.path().join("small.json");
    write_changed(&file, |plan| plan["drop_tanks"][0]["capacity"] = 1500.into());
    let file = file.display().to_string();
    let note = "the drop tank holds 1,500 gal, less than the";
    let said = |arguments: &[&str]| {
        let text = bucketline(folder.path(), arguments).answered(arguments[0]);
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let checked = said(&["check", &file]);
    assert_eq!(checked.matches(note).count(), 1, "{checked}");
    for command in ["risk", "size", "lose", "levers", "hold", "reach", "compare"] {
        let arguments = match command {
            "compare" => vec![command, &file, &file, "--runs", "100", "--no-charts"],
            _ => vec![command, &file, "--runs", "100", "--no-charts"],
        };
        assert!(!said(&arguments).contains(note), "{command}");
    }
    for command in ["replay", "card", "handout", "report"] {
        assert!(!said(&[command, &file]).contains(note), "{command}");
    }
    // Asked for beside the file, it is no fact of the file: then it is told.
    let asked = [
        "risk",
        &hay_barn(),
        "--set",
        "drop_tanks/drop tank of Tanker 3/capacity=1500 gal",
        "--runs",
        "100",
    ];
    assert!(said(&asked).contains(note), "{}", said(&asked));
}
