//! What stands around a picture: the answer for a title, and at the foot of what and when it was made.

use std::fs;

use serde_json::Value;

use super::{bucketline, folder, hay_barn, names_in};

/// The text of the element of the whole chart.
fn told(svg: &str, element: &str) -> String {
    let (open, close) = (format!("<{element}>"), format!("</{element}>"));
    let after = svg.split_once(&open).expect("the element").1;
    after.split_once(&close).expect("its end").0.to_owned()
}

fn svg(folder: &tempfile::TempDir, name: &str) -> String {
    fs::read_to_string(folder.path().join(format!("charts/{name}.svg"))).expect("a chart")
}

fn answered(folder: &tempfile::TempDir, arguments: &[&str]) -> Value {
    let json = bucketline(folder.path(), &[arguments, &["--json"]].concat()).answered("JSON");
    serde_json::from_str(&json).expect("JSON")
}

#[test]
fn a_picture_says_its_answer_and_where_it_comes_from() {
    let folder = folder();
    let file = hay_barn();
    let risk = ["risk", &file, "--runs", "400", "--seed", "7", "--out", "charts"];
    let json = answered(&folder, &risk);
    let chance = json["interruption_probability"].as_f64().expect("a chance");
    let first = svg(&folder, "first-short-of-water");
    // The title has the figure of the answer.
    let title = told(&first, "title");
    assert!(title.contains(&format!("in {:.0} fires of 100", 100.0 * chance)), "{title}");
    for name in ["levels", "first-short-of-water", "cycle"] {
        let foot = told(&svg(&folder, name), "desc");
        for part in [
            json["title"].as_str().expect("a title"),
            "File hay_barn_two_tankers.json.",
            "400 fires, luck number 7.",
            &format!("bucketline {}.", json["version"].as_str().expect("a version")),
        ] {
            assert!(foot.contains(part), "{name}: no {part:?} in {foot}");
        }
        // The day, ISO 8601.
        let is_day = |word: &str| {
            let digits = word.trim_end_matches('.').split('-').map(str::len).collect::<Vec<_>>();
            digits == [4, 2, 2] && word.starts_with("20")
        };
        assert!(foot.split_whitespace().any(is_day), "{name}: {foot}");
        // No folder of this machine.
        assert!(!foot.contains('/'), "{name}: {foot}");
    }
}

#[test]
fn a_picture_of_moved_inputs_says_how_many_fires_were_run() {
    let folder = folder();
    let file = hay_barn();
    let levers = ["levers", &file, "--runs", "3000", "--out", "charts"];
    let json = answered(&folder, &levers);
    let foot = told(&svg(&folder, "levers"), "desc");
    let moved: Vec<u64> = (json["levers_moved"].as_array().expect("levers").iter())
        .flat_map(|lever| ["better", "worse"].map(|side| lever[side]["replications"].as_u64()))
        .flatten()
        .collect();
    let (fewest, most) = (moved.iter().min().expect("some"), moved.iter().max().expect("some"));
    let thousands = |count: u64| match count {
        1_000.. => format!("{},{:03}", count / 1_000, count % 1_000),
        _ => count.to_string(),
    };
    let each = if fewest == most {
        thousands(*most)
    } else {
        format!("{} to {}", thousands(*fewest), thousands(*most))
    };
    let said = format!("3,000 fires as it stands, {each} of each input moved, luck number 1");
    assert!(foot.contains(&said), "{said}: {foot}");
    // What is left out is told.
    assert!(foot.contains("make no difference that shows"), "{foot}");
}

/// A3 is 420 by 297 mm (ISO 216).
#[test]
fn a_wall_picture_is_as_large_as_a3_and_has_the_same_name() {
    let folder = folder();
    let file = hay_barn();
    let arguments = ["lose", &file, "--runs", "300", "--out", "charts"];
    bucketline(folder.path(), &arguments).answered("lose");
    assert!(svg(&folder, "losses").contains("width=\"680\""));
    bucketline(folder.path(), &[&arguments[..], &["--wall"]].concat()).answered("lose --wall");
    assert_eq!(names_in(&folder.path().join("charts")), ["losses.png", "losses.svg"]);
    let svg = svg(&folder, "losses");
    let side = |name: &str| -> f64 {
        let after = svg.split_once(&format!(" {name}=\"")).expect("a size").1;
        after.split_once("mm\"").expect("millimetres").0.parse().expect("a number")
    };
    let (wide, high) = (side("width"), side("height"));
    let fits = |a: f64, b: f64| wide <= a && high <= b && (wide > 0.9 * a || high > 0.85 * b);
    assert!(fits(390.0, 267.1) || fits(267.1, 390.0), "{wide} by {high} mm");
}
