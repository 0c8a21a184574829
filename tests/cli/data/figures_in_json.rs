//! A reader of the JSON finds every figure and every sentence of the text in it: of every question on scenarios of all
//! kinds, by default and with `--more`.
//!
//! A figure of the text is looked for among the numbers of the result, rounded as it is printed: as it is, as a share of
//! a hundred, as one fire of so many, as hours, in metric units to the digits a planning figure has. What is not there
//! by right is listed in [`OURS`], each with the reason.

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;

use super::{bucketline, folder, scenario, scenarios};

/// Words with figures in them that are no figures of the plan, each with the reason why no result has them.
const OURS: [(&str, &str); 21] = [
    (" of 100", "the unit in which chances are said"),
    ("95% interval", "what every interval holds at, as the schema says of each"),
    ("at 95%", "the same"),
    ("of 95% ", "the same, in the head of a table"),
    (" 95% ", "the same"),
    ("9 runs of 10", "what the band of a day holds, as the schema says of it"),
    ("19 of 20 runs", "the same"),
    ("80 of 100 cases", "what the range of doubt holds, as the schema says of it"),
    ("NFPA 1142", "the name of a rule"),
    ("1999 edition", "the name of an edition"),
    ("class 3 or 4", "the name of a hazard class"),
    ("worst 5%", "the name of a quantile, which is in the key"),
    ("less 10%", "the deduction of the hand formula, as the schema says of it"),
    ("without 10% off", "the same"),
    ("at 150 psi", "the pressure that pumps are rated at, as the schema says of each"),
    ("at 1,034 kPa", "the same"),
    (
        "up to 185 psi",
        "the pressure of a lay that is not made: of one that is, it is in the result",
    ),
    (
        "about 90 m a minute",
        "the speed of laying, of which the result has the US figure turned exactly",
    ),
    ("elevation 0.434 x", "the pressure of a foot of water"),
    ("50-year drought", "the name of a condition"),
    ("0.65 + 1.70 x", "the travel rule itself, which the schema names"),
];

/// Files, what is asked of them, and how many fires: few, for nothing here is about chances.
const QUESTIONS: [(&str, &[&str]); 10] = [
    ("check", &[]),
    ("risk", &["--runs", "300"]),
    ("size", &["--runs", "100"]),
    ("hold", &["--runs", "60"]),
    ("lose", &["--runs", "100"]),
    ("levers", &["--runs", "100"]),
    ("reach", &["--runs", "40"]),
    ("replay", &["--run", "7"]),
    ("compare", &["--runs", "100"]),
    ("request", &["--runs", "100"]),
];

/// Every text of a value, keys aside.
fn texts<'a>(value: &'a Value, into: &mut Vec<&'a str>) {
    match value {
        Value::String(text) => into.push(text),
        Value::Array(all) => all.iter().for_each(|one| texts(one, into)),
        Value::Object(fields) => fields.values().for_each(|one| texts(one, into)),
        _ => {}
    }
}

/// Every number of a value; how many there are of a list is one too. A long list of numbers is a curve: only its last
/// point is told in words.
fn numbers(value: &Value, into: &mut Vec<f64>) {
    const CURVE: usize = 40;
    match value {
        Value::Number(number) => into.extend(number.as_f64()),
        Value::Array(all) if all.len() > CURVE && all.iter().all(Value::is_number) => {
            into.extend(all.last().and_then(Value::as_f64));
        }
        Value::Array(all) => {
            into.push(all.len() as f64);
            all.iter().for_each(|one| numbers(one, into));
        }
        Value::Object(fields) => fields.values().for_each(|one| numbers(one, into)),
        _ => {}
    }
}

/// The text as one line, without what is a user's own or a name of ours.
fn without_names(text: &str, own: &[&str]) -> String {
    let mut line = one_line(text);
    let mut own: Vec<String> = (own.iter())
        .filter(|text| text.chars().any(|c| c.is_ascii_digit()))
        .map(|text| one_line(text))
        .collect();
    // A name that is broken in a cell of a table stands there with its first words: "410 River" of "410 River Road".
    let firsts: Vec<String> = (own.iter())
        .filter(|text| text.starts_with(|c: char| c.is_ascii_digit()))
        .filter_map(|text| text.match_indices(' ').nth(1).map(|(end, _)| text[..end].to_owned()))
        .collect();
    own.extend(firsts);
    own.sort_by_key(|text| std::cmp::Reverse(text.len()));
    for text in own {
        line = line.replace(&text, "~");
    }
    for (ours, _) in OURS {
        line = line.replace(ours, "~");
    }
    line
}

/// A figure as it is printed, with the words around it.
struct Printed {
    value: f64,
    decimals: i32,
    is_percent: bool,
    is_one_of: bool,
    /// Whether more, or less, than it is told: "over 99", "under 1".
    beyond: Option<std::cmp::Ordering>,
    around: String,
}

fn printed(line: &str) -> Vec<Printed> {
    let letters: Vec<char> = line.chars().collect();
    let is_part = |place: usize| {
        let here = letters[place];
        here.is_ascii_digit()
            || (matches!(here, ',' | '.')
                && place > 0
                && letters[place - 1].is_ascii_digit()
                && letters.get(place + 1).is_some_and(char::is_ascii_digit))
    };
    let mut all = Vec::new();
    let mut place = 0;
    while place < letters.len() {
        // A digit behind a letter or a hyphen within a word belongs to a name: "ft2", "8B".
        let begins = letters[place].is_ascii_digit()
            && (place == 0 || !(letters[place - 1].is_alphanumeric() || letters[place - 1] == '^'));
        if !begins {
            place += 1;
            continue;
        }
        let end = (place..letters.len()).find(|at| !is_part(*at)).unwrap_or(letters.len());
        let written: String = letters[place..end].iter().filter(|c| **c != ',').collect();
        let before: String = letters[place.saturating_sub(40)..place].iter().collect();
        let after: String = letters[end..(end + 25).min(letters.len())].iter().collect();
        if let Ok(value) = written.parse() {
            all.push(Printed {
                value,
                decimals: written.split_once('.').map_or(0, |(_, part)| part.len() as i32),
                is_percent: after.starts_with('%'),
                is_one_of: before.ends_with("1 fire of "),
                beyond: if before.ends_with('>') || before.ends_with("over ") {
                    Some(std::cmp::Ordering::Greater)
                } else if before.ends_with('<') || before.ends_with("under ") {
                    Some(std::cmp::Ordering::Less)
                } else {
                    None
                },
                around: format!("{before}[{written}]{after}"),
            });
        }
        place = end;
    }
    all
}

impl Printed {
    /// Whether a number is printed so.
    fn is(&self, number: f64) -> bool {
        let step = 10f64.powi(-self.decimals);
        (number.abs() - self.value).abs() <= 0.500_001 * step
    }

    /// Whether a metric quantity is printed so: flows and pressures to tens from 1,000 on, volumes to three figures.
    fn is_rounded_metric(&self, number: f64) -> bool {
        let number = number.abs();
        // A hose is called by its trade size: 127 mm are "125 mm".
        let is_hose = self.around.contains("] mm");
        let three_figures = 10f64.powf(number.max(1.0).log10().floor() - 2.0).max(1.0);
        let steps = [three_figures, if number < 1_000.0 { 1.0 } else { 10.0 }];
        let steps = steps.into_iter().chain(is_hose.then_some(5.0));
        steps.into_iter().any(|step| ((number / step).round() * step - self.value).abs() < 0.5)
    }

    /// Whether a figure of the US trade is told so in metric: "about 1,300 kPa" for 185 psi, to two figures.
    fn is_about(&self, number: f64) -> bool {
        let number = number.abs();
        let step = 10f64.powf(number.max(1.0).log10().floor() - 1.0).max(1.0);
        self.around.contains("about [") && ((number / step).round() * step - self.value).abs() < 0.5
    }

    /// Whether a share is told so: "1 fire of 270", "all but 1 fire of 500".
    fn is_one_of(&self, share: f64) -> bool {
        [share, 1.0 - share].into_iter().filter(|share| *share > 0.0).any(|share| {
            let one_in = 1.0 / share;
            let step = 10f64.powf(one_in.log10().floor() - 1.0).max(1.0);
            ((one_in / step).round() * step - self.value).abs() < 0.5
        })
    }

    fn is_in(&self, numbers: &[f64], is_metric: bool) -> bool {
        numbers.iter().any(|number| {
            let is_share = number.abs() <= 1.0;
            self.is(*number)
                || is_share && (self.is(100.0 * number) || self.is(100.0 * (1.0 - number)))
                || self.is_percent && self.is(100.0 * number)
                || is_share && self.beyond == (100.0 * number).partial_cmp(&self.value)
                || self.is_one_of && is_share && self.is_one_of(*number)
                // Times are told in hours where they are whole ones, and lengths of steps in seconds.
                || self.is(number / 60.0)
                || self.is(number * 60.0)
                || is_metric && (self.is_rounded_metric(*number) || self.is_about(*number))
        })
    }
}

/// What stands behind a label in the text and is no text of the result: "Why", "Careful", "Note", the advice. Of an advice
/// the figures behind it stand in fields of their own.
fn unsaid(text: &str, result: &Value) -> Vec<String> {
    /// Where what a label is about begins.
    const INDENT: usize = 10;
    let mut told = Vec::new();
    texts(&result["told"], &mut told);
    let mut told: Vec<String> = told.iter().map(|text| one_line(text).to_lowercase()).collect();
    told.sort_by_key(|text| std::cmp::Reverse(text.len()));
    let is_label =
        |head: &str| head == "note" || head == "best" || told.iter().any(|of| of == head);
    let mut blocks: Vec<String> = Vec::new();
    let mut is_open = false;
    for line in text.lines() {
        let head: String = line.chars().take(INDENT).collect();
        let rest: String = line.chars().skip(INDENT).collect();
        let label = head.trim().to_lowercase();
        if label.is_empty() && !rest.is_empty() && is_open {
            let block = blocks.last_mut().expect("one is open");
            block.push(' ');
            block.push_str(&rest);
        } else {
            let begins = head.starts_with(char::is_uppercase) && head.ends_with(' ');
            is_open = begins && !rest.starts_with(' ') && is_label(&label);
            if is_open {
                blocks.push(rest);
            }
        }
    }
    assert!(!blocks.is_empty() || told.iter().all(|text| text != "why"), "{text}");
    (blocks.into_iter())
        .filter(|block| {
            let mut left = one_line(block).to_lowercase();
            for text in told.iter().filter(|text| text.len() > 2) {
                left = left.replace(text.as_str(), " ");
            }
            // The arrow of an advice, and the line of a note, which stands in a field of its own.
            let ours = ["line", "none", "under", "over", "of", "cost"];
            left.split(|c: char| !c.is_alphabetic())
                .any(|word| !word.is_empty() && !ours.contains(&word))
        })
        .collect()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The figures of the text that are not in the result, each with the words around it.
fn missing(text: &str, result: &Value, own: &[&str]) -> Vec<String> {
    let mut found = Vec::new();
    numbers(result, &mut found);
    // Sentences are what is looked at: only names and citations are taken out of them.
    let mut told = Vec::new();
    texts(&result["told"], &mut told);
    let told: BTreeSet<&str> = told.into_iter().collect();
    let mut names = Vec::new();
    texts(result, &mut names);
    names.retain(|text| !told.contains(text));
    names.extend(own);
    // A note is what the file's check says, in its own words and of values that the file has; its line and its field
    // are data.
    let notes = result["told"]["notes"].as_array().expect("notes");
    names.extend(notes.iter().filter_map(|note| note["says"].as_str()));
    let line = without_names(text, &names);
    (printed(&line).into_iter())
        .filter(|figure| !figure.is_in(&found, result["units"] == "metric"))
        .map(|figure| figure.around)
        .collect()
}

/// Asks both ways; `false` where the file has no answer to this.
///
/// - Given: the files whose texts are a user's own; other texts that are.
fn holds(call: &[&str], files: &[&str], others: &[String], wrong: &mut Vec<String>) -> bool {
    let folder = folder();
    let mut own: Vec<Value> = Vec::new();
    for file in files {
        let text = fs::read_to_string(file).expect("a file");
        own.extend(serde_json::from_str::<Value>(&text));
    }
    let mut names: Vec<&str> = files.to_vec();
    own.iter().for_each(|file| texts(file, &mut names));
    names.extend(others.iter().map(String::as_str));
    let json = bucketline(folder.path(), &[call, &["--json"]].concat());
    if json.code != Some(0) {
        return false;
    }
    let result: Value = serde_json::from_str(&json.out).expect("JSON");
    for more in [&[][..], &["--more"]] {
        let what = format!("{} {}", call.join(" "), more.join(" "));
        let text = bucketline(folder.path(), &[call, more].concat()).answered(&what);
        let missing = missing(&text, &result, &names);
        wrong.extend(missing.into_iter().map(|figure| format!("{what}: {figure}")));
        wrong.extend(unsaid(&text, &result).into_iter().map(|said| format!("{what}: {said}")));
        for one in ["headline", "verdict", "caution"] {
            let says = one_line(result["told"][one].as_str().expect("a sentence")).to_lowercase();
            if !one_line(&text).to_lowercase().contains(&says) {
                wrong.push(format!("{what}: {says}"));
            }
        }
    }
    true
}

#[test]
fn every_figure_and_sentence_of_a_plan_is_in_the_json() {
    /// Of so many files each question but the first two is asked one, in turns: all of all takes minutes, and what a
    /// question says differs less from file to file than from question to question.
    const ONE_OF: usize = 3;
    let (mut answered, mut wrong) = ([0; QUESTIONS.len()], Vec::new());
    for (place, file) in scenarios().iter().enumerate() {
        let file = file.to_string_lossy().into_owned();
        for (nth, (question, with)) in QUESTIONS.into_iter().enumerate() {
            if nth >= 2 && (place + nth) % ONE_OF != 0 {
                continue;
            }
            let charts = if question == "check" { &[][..] } else { &["--no-charts"] };
            let call = [&[question, file.as_str()][..], with, charts].concat();
            answered[nth] += usize::from(holds(&call, &[&file], &[], &mut wrong));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    let few: Vec<&str> = (QUESTIONS.iter().zip(answered))
        .filter(|(_, answered)| *answered < 1)
        .map(|((question, _), _)| *question)
        .collect();
    assert!(few.is_empty(), "asked in vain: {few:?}");
    assert!(answered[..2].iter().all(|all| *all == scenarios().len()), "{answered:?}");
}

#[test]
fn every_figure_and_sentence_of_a_grading_is_in_the_json() {
    let mut wrong = Vec::new();
    for file in ["schoolhouse_three_fill_sites", "mill_crossing_addresses", "orchard_metric"] {
        let file = scenario(file);
        let call = ["grade", &file, "--runs", "40", "--no-charts"];
        assert!(holds(&call, &[&file], &[], &mut wrong), "{file}");
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_figure_and_sentence_of_a_building_is_in_the_json() {
    let mut wrong = Vec::new();
    for name in ["buildings/hay_barn", "buildings/ridge_house"] {
        let file = scenario(name);
        assert!(holds(&["flow", &file], &[&file], &[], &mut wrong), "{file}");
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_figure_and_sentence_of_a_drill_is_in_the_json() {
    let mut wrong = Vec::new();
    let plan = scenario("logs/quarry_lane_drill");
    for log in ["spring_drill", "night_drill"] {
        let log = plan.replace("quarry_lane_drill.json", &format!("{log}.csv"));
        let cells = fs::read_to_string(&log).expect("a log");
        let mut cells: Vec<String> = cells.split([',', '\n']).map(str::to_owned).collect();
        cells.retain(|cell| cell.chars().any(char::is_alphabetic));
        let call = ["drill", &log, &plan, "--runs", "60", "--no-charts"];
        assert!(holds(&call, &[&plan, &log], &cells, &mut wrong), "{log}");
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
