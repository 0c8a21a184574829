//! Names are the user's own: whatever they look like, no answer alters them.
//!
//! Every name of a scenario is replaced by one that looks like our words, units and figures, and by a plain
//! one of the same shape. Wherever the plain one stands, the awkward one must stand whole: in text, JSON and every
//! chart.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{bucketline, folder, names_in, scenario};

/// A name that looks like something of ours, and a plain one of the same shape: same length, blanks, first
/// letter and digits, so that lines break and rows sort alike.
const PAIRS: [(&str, &str); 11] = [
    ("Tender 3,000 gal", "Txxxxx 3,000 xxx"),
    ("Stone tanker", "Sxxxx xxxxxx"),
    ("Minutes of 285 gpm", "Mxxxxxx xx 285 xxx"),
    ("Tanker slower", "Txxxxx sxxxxx"),
    ("Birch tankers", "Bxxxx xxxxxxx"),
    ("no tanker 5%", "nx xxxxxx 5%"),
    ("County gallons", "Cxxxxx xxxxxxx"),
    ("L/min tender", "L/xxx xxxxxx"),
    ("11,360 L psi pond", "11,360 x xxx xxxx"),
    ("hydrant ft mi", "hxxxxxx xx xx"),
    ("one more tanker x", "oxx xxxx xxxxxx x"),
];

/// One name of a pair.
type Pick = fn(&(&'static str, &'static str)) -> &'static str;

/// The scenario with its names replaced, in the order they stand there.
fn renamed(file: &str, pick: Pick) -> Value {
    let text = fs::read_to_string(scenario(file)).expect("the scenario is there");
    let mut value: Value = serde_json::from_str(&text).expect("JSON");
    let mut names = Vec::new();
    for list in ["tankers", "aid", "fill_sites"] {
        let units = value[list].as_array().into_iter().flatten();
        names.extend(units.filter_map(|unit| unit["name"].as_str()).map(str::to_owned));
    }
    let engines = [&value["attack_engine"]["name"], &value["supply"]["engine"]["name"]];
    names.extend(engines.into_iter().filter_map(Value::as_str).map(str::to_owned));
    assert!(names.len() <= PAIRS.len(), "{file}: more names than pairs");
    let replace = |text: &str| {
        names.iter().position(|name| name == text).map(|place| pick(&PAIRS[place]).to_owned())
    };
    replace_strings(&mut value, &replace);
    value
}

fn replace_strings(value: &mut Value, replace: &dyn Fn(&str) -> Option<String>) {
    match value {
        Value::String(text) => {
            if let Some(other) = replace(text) {
                *text = other;
            }
        }
        Value::Array(values) => values.iter_mut().for_each(|value| replace_strings(value, replace)),
        Value::Object(fields) => {
            fields.values_mut().for_each(|value| replace_strings(value, replace));
        }
        _ => {}
    }
}

/// Everything a call gives, text and charts, with the awkward names.
fn given(file: &Path, command: &[&str], place: &Path) -> Vec<(String, String)> {
    let path = file.display().to_string();
    let mut all: Vec<&str> = command.to_vec();
    all.push(&path);
    let charts = place.join("charts").display().to_string();
    let draws = !matches!(command[0], "check" | "grade");
    let mut text = all.clone();
    text.extend(["--more", "--tender"]);
    if draws {
        text.extend(["--out", &charts]);
    }
    let mut found =
        vec![("text".to_owned(), bucketline(place, &text).answered(&format!("{text:?}")))];
    all.push("--json");
    found.push(("JSON".to_owned(), bucketline(place, &all).answered(&format!("{all:?}"))));
    if draws {
        for name in names_in(Path::new(&charts)) {
            if name.ends_with(".svg") {
                let svg = fs::read_to_string(Path::new(&charts).join(&name)).expect("SVG is text");
                found.push((name, svg));
            }
        }
    }
    found
}

fn with_awkward_names(text: &str) -> String {
    PAIRS.iter().fold(text.to_owned(), |text, (awkward, plain)| text.replace(plain, awkward))
}

#[test]
fn no_answer_alters_a_name() {
    let commands: [&[&str]; 9] = [
        &["check"],
        &["risk", "--runs", "300"],
        &["size", "--runs", "300"],
        &["lose", "--runs", "300"],
        &["levers", "--runs", "300"],
        // Whose loss is worth a word is a matter of luck, which names key.
        &["request", "--runs", "300", "--spare", "0"],
        &["grade", "--runs", "300"],
        &["reach", "--runs", "300"],
        &["replay", "--planned"],
    ];
    for (file, commands) in
        [("feed_mill_mutual_aid", &commands[..]), ("orchard_metric", &commands[..4])]
    {
        for command in commands {
            let place = folder();
            let path = place.path().join("names.json");
            let picks: [Pick; 2] = [|pair| pair.0, |pair| pair.1];
            let mut both = picks.into_iter().map(|pick| {
                fs::write(&path, renamed(file, pick).to_string()).expect("a file");
                given(&path, command, place.path())
            });
            let (awkward, plain) = (both.next().expect("one"), both.next().expect("two"));
            assert_eq!(awkward.len(), plain.len(), "{file} {command:?}");
            for ((what, awkward), (_, plain)) in awkward.iter().zip(&plain) {
                // A name keys the luck of a tanker, so figures differ; only the plan by its means is the
                // same but for the names.
                if what == "text" && matches!(command[0], "check" | "replay") {
                    assert_eq!(*awkward, with_awkward_names(plain), "{file} {command:?}");
                }
                let (awkward, plain) = (words(awkward), words(plain));
                for (name, other) in PAIRS {
                    assert!(
                        !plain.contains(other) || awkward.contains(name),
                        "{file} {command:?} {what}: no {name:?} in {awkward}"
                    );
                    assert!(!awkward.contains(other), "{file} {command:?} {what}: {other:?}");
                }
            }
        }
    }
}

/// The words of a drawing, without its numbers and places, blanks between them counted as one.
fn words(svg: &str) -> String {
    let mut text = String::new();
    let mut inside = false;
    for letter in svg.chars() {
        match letter {
            '<' => inside = true,
            '>' => {
                inside = false;
                text.push(' ');
            }
            _ if !inside => text.push(letter),
            _ => {}
        }
    }
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
