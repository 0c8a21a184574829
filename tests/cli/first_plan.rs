//! From nothing to a plan: asked question by question, from three spreadsheets, from a starter.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::Stdio;

use serde_json::{Value, json};

use super::{
    CANNOT_READ, CANNOT_WRITE, Ended, WRONG_COMMAND, WRONG_SCENARIO, bucketline, call, folder,
    names_in,
};

/// The answers to every question, each with the field it must come back in; empty: Enter alone.
const ANSWERS: [(&str, &str); 93] = [
    ("us", "/units"),
    ("Feed store, Ridge Road", "/title"),
    ("500", "/incident/attack_flow/1/flow"),
    ("2 h", "/incident/duration"),
    ("Engine 4", "/attack_engine/name"),
    ("1,250", "/attack_engine/tank"),
    ("9", "/attack_engine/response/mean"),
    ("350", "/incident/reserve"),
    ("Engine 8", "/supply/engine/name"),
    ("13", "/supply/engine/response/mean"),
    ("Tanker 3", "/tankers/0/name"),
    ("2500", "/tankers/0/capacity"),
    ("11", "/tankers/0/response/mean"),
    ("Tanker 5", "/tankers/1/name"),
    ("2,000", "/tankers/1/capacity"),
    ("14", "/tankers/1/response/mean"),
    ("", ""),
    ("Birch Hill 1", "/aid/0/name"),
    ("Birch Hill", "/aid/0/department"),
    ("3 000", "/aid/0/capacity"),
    ("17", "/aid/0/response/mean"),
    ("Stony Lake 1", "/aid/1/name"),
    ("none", ""),
    ("11,000 L", "/aid/1/capacity"),
    ("22", "/aid/1/response/mean"),
    ("", ""),
    // From when they can be called.
    ("", ""),
    ("Quarry pond", "/fill_sites/0/name"),
    ("1000", "/fill_sites/0/flow"),
    ("Engine 12", "/fill_sites/0/source_pump/name"),
    ("16", "/fill_sites/0/source_pump/response/mean"),
    ("2.4", ""),
    ("32", "/fill_sites/0/out/stretches/0/mph"),
    ("Town hydrant", "/fill_sites/1/name"),
    ("750", "/fill_sites/1/flow"),
    ("birch hill 1", "/fill_sites/1/source_pump/brought_by"),
    ("8", "/fill_sites/1/source_pump/setup/mean"),
    ("5 km", "/fill_sites/1/out/miles"),
    ("35", "/fill_sites/1/back/mph"),
    ("", ""),
    ("tanker 3", "/drop_tanks/0/brought_by"),
    ("3,500 gal", "/drop_tanks/0/capacity"),
    ("", ""),
    // The summary: the fire starts with less.
    ("1", ""),
    ("", ""),
    ("", ""),
    ("150 gpm", "/incident/attack_flow/0/flow"),
    ("8", "/incident/attack_flow/1/from"),
    ("", ""),
    // How often they come, how long they dump.
    ("Tanker 3", ""),
    ("", ""),
    ("", ""),
    ("", ""),
    ("99%", "/tankers/0/turnout"),
    ("4 min", "/tankers/0/dump_rate"),
    ("5", ""),
    ("", ""),
    ("", ""),
    ("", ""),
    ("9 in 10", "/tankers/1/turnout"),
    ("", ""),
    // How aid is called.
    ("birch hill 1", ""),
    ("", ""),
    ("", ""),
    ("", ""),
    ("", ""),
    ("yes", "/aid/0/comes_whole"),
    ("4 of 5", "/aid/0/turnout"),
    ("", ""),
    ("", ""),
    ("0", "/aid/0/requested_at"),
    ("Stony Lake 1", ""),
    ("", ""),
    ("", ""),
    ("", ""),
    ("", ""),
    ("", ""),
    ("3", "/aid/1/dump_rate"),
    ("2nd alarm", "/aid/1/alarm"),
    ("4", "/alarms/second"),
    // What else there is to say of a pond; then it is right.
    ("Quarry pond", ""),
    ("", ""),
    ("", ""),
    ("2", "/fill_sites/0/positions"),
    ("", ""),
    ("", ""),
    ("95%", "/fill_sites/0/source_pump/turnout"),
    ("", ""),
    ("", ""),
    ("0.5", "/fill_sites/0/out/stretches/1/miles"),
    ("20", "/fill_sites/0/back/stretches/1/mph"),
    ("30,000", "/fill_sites/0/volume"),
    ("", ""),
];

/// What an answer becomes in the file.
fn in_the_file(answer: &str) -> Value {
    match answer {
        "1,250" => json!(1250),
        "2,000" => json!(2000),
        "3 000" => json!(3000),
        "30,000" => json!(30000),
        "11,000 L" => json!("11000 L"),
        "3,500 gal" => json!("3500 gal"),
        "yes" => json!(true),
        "2nd alarm" => json!("second"),
        // Named as the unit is, not as it was typed.
        "tanker 3" => json!("Tanker 3"),
        "birch hill 1" => json!("Birch Hill 1"),
        "99%" => json!("99 %"),
        "95%" => json!("95 %"),
        "9 in 10" => json!(0.9),
        "4 of 5" => json!(0.8),
        // 2,500 gal in 4 minutes; 11,000 L in 3.
        "4 min" => json!(625),
        "3" => json!("3667 L/min"),
        other => other.parse::<f64>().map_or_else(|_| json!(other), number),
    }
}

fn number(value: f64) -> Value {
    if value.fract() == 0.0 { json!(value as i64) } else { json!(value) }
}

pub(super) fn with_answers(folder: &Path, arguments: &[&str], answers: &[&str]) -> Ended {
    let is_new = arguments.get(1).is_some_and(|file| !folder.join(file).exists());
    let mut call = call(folder, arguments);
    call.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut asked = call.spawn().expect("the program starts");
    let mut input = asked.stdin.take().expect("a pipe");
    let text: String = answers.iter().map(|answer| format!("{answer}\n")).collect();
    // It may end before it has read everything.
    let _ = input.write_all(text.as_bytes());
    drop(input);
    let ended = Ended::of(asked.wait_with_output().expect("it ends"));
    // Whatever is asked for and written can be opened again.
    if let ["new", file, "--ask"] = arguments
        && is_new
        && ended.code == Some(super::ANSWERED)
    {
        opens_again(folder, file, &text);
    }
    ended
}

/// A plan of these answers is read back as it was said, and where nothing is mended nothing is written.
fn opens_again(folder: &Path, file: &str, answers: &str) {
    let path = folder.join(file);
    let written = fs::read_to_string(&path).expect("written");
    let said = plain_plan::ask(answers.as_bytes(), std::io::sink(), true).expect("a plan");
    assert_eq!(plain_plan::opened(&written), Ok(said), "{written}");
    let mut call = call(folder, &["new", file, "--ask"]);
    call.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut asked = call.spawn().expect("the program starts");
    // It is right, also what looks like a slip.
    let _ = asked.stdin.take().expect("a pipe").write_all(b"\nyes\n");
    let ended = Ended::of(asked.wait_with_output().expect("it ends"));
    let shown = ended.answered("the same command once more");
    assert!(shown.contains("Nothing was changed, and nothing is written"), "{shown}");
    assert_eq!(fs::read_to_string(&path).expect("still there"), written);
}

#[test]
fn what_is_answered_stands_in_the_file_and_the_plan_can_be_asked() {
    let folder = folder();
    let answers = ANSWERS.map(|(answer, _)| answer);
    let said = with_answers(folder.path(), &["new", "mine.json", "--ask"], &answers);
    let said = said.answered("new --ask");
    assert!(
        said.contains("mine.json is written.") && said.contains("bucketline request mine.json")
    );
    let text = fs::read_to_string(folder.path().join("mine.json")).expect("written");
    let made: Value = serde_json::from_str(&text).expect("JSON");
    for (answer, place) in ANSWERS.iter().filter(|(_, place)| !place.is_empty()) {
        assert_eq!(made.pointer(place), Some(&in_the_file(answer)), "{place}");
    }
    assert_eq!(made["aid"][1]["department"], Value::Null);
    // Of 2.4 miles 0.5 are gravel.
    assert_eq!(made["fill_sites"][0]["back"]["stretches"][0]["miles"], 1.9);
    assert!(
        said.contains(
            "Engine 12 is taken as an engine that drives there and does nothing but pump."
        ),
        "{said}"
    );
    assert_eq!(made["fill_sites"][1]["volume"], Value::Null);
    bucketline(folder.path(), &["check", "mine.json"]).answered("check");
    bucketline(folder.path(), &["request", "mine.json", "--runs", "500"]).answered("request");
}

#[test]
fn a_wrong_answer_is_explained_and_asked_again() {
    let folder = folder();
    let mut answers = Vec::new();
    for (number, (answer, _)) in ANSWERS.iter().enumerate() {
        // Before the right ones: no unit system; nothing where something is needed; no number; too much; another
        // quantity's unit; two numbers in one; a name that is taken, and the same in capitals; a tank brought by nobody;
        // no line of the summary, and no there is no yes; no share; no time; neither yes nor no; no such alarm; half a
        // tanker; more gravel than road.
        answers.extend(match number {
            0 => vec!["yards"],
            1 => vec![""],
            2 => vec!["plenty", "9,999,999"],
            // An amount where a name is asked.
            4 => vec!["300 gal"],
            5 => vec!["1250 mi", "1,20,300"],
            13 => vec!["Tanker 3", "TANKER  3"],
            40 => vec!["Tanker 33"],
            43 => vec!["99", "no"],
            53 => vec!["often", "11 in 10"],
            54 => vec!["0"],
            66 => vec!["perhaps"],
            78 => vec!["tenth"],
            83 => vec!["1.5"],
            89 => vec!["3"],
            _ => vec![],
        });
        answers.push(answer);
    }
    let said = with_answers(folder.path(), &["new", "slips.json", "--ask"], &answers);
    let said = said.answered("new --ask").split_whitespace().collect::<Vec<_>>().join(" ");
    for expected in [
        "write us or metric",
        "needs an answer",
        "does not begin with a number",
        "gpm",
        "is the unit of a distance, where a volume is wanted",
        "more than one way",
        "300 gal reads like an amount, and a name is asked for here",
        "there is a unit called Tanker 3 already",
        "write a number from 1 to 10, or a name as it stands there",
        "write yes or no",
        "write first, second",
        "the gravel is longer than the whole road",
        "they are Engine 4, Engine 8, Tanker 3, Tanker 5, Birch Hill 1, Stony Lake 1",
        // Beside a plan that is read no second time.
        "Not taken: write a number from 1 to 10, or a name as it stands there; Enter alone writes the plan. Is it right?",
    ] {
        assert!(said.contains(expected), "{expected}: {said}");
    }
    assert_eq!(said.matches("Not taken:").count(), 18, "{said}");
    let right = ANSWERS.map(|(answer, _)| answer);
    with_answers(folder.path(), &["new", "right.json", "--ask"], &right).answered("new --ask");
    let read = |name| fs::read_to_string(folder.path().join(name)).expect("written");
    assert_eq!(read("slips.json"), read("right.json"));
}

/// A wrong answer is seen when the next question stands there.
#[test]
fn one_can_go_back_and_ask_what_can_be_answered() {
    let folder = folder();
    let right = ANSWERS.map(|(answer, _)| answer);
    let mut answers = vec!["back", "?"];
    for (number, answer) in right.iter().enumerate() {
        answers.extend(match number {
            // The engine was called what was meant for the question before: three steps back from the one behind it.
            4 => vec!["120", "back", "back", "back", "500", "2 h", "?"],
            // Out of a list: a tanker that is none, and the minutes of the one before again.
            21 => vec!["Birch Hill 2", "back", "BACK", "17"],
            39 => vec!["back", "35"],
            // From the summary, and out of what is mended there.
            43 => vec!["back", "", "1", "Feed store", "back", "Feed store, Ridge Road", "", "", ""],
            92 => vec!["back", "30,000"],
            _ => vec![],
        });
        answers.push(answer);
    }
    let said = with_answers(folder.path(), &["new", "back.json", "--ask"], &answers);
    let said = said.answered("new --ask");
    assert!(said.contains("This is the first question."), "{said}");
    // What was answered there stands in the brackets, if it was wrong too.
    assert!(said.contains("Enter alone: us") && said.contains("Enter alone: 120."), "{said}");
    with_answers(folder.path(), &["new", "right.json", "--ask"], &right).answered("new --ask");
    let read = |name| fs::read_to_string(folder.path().join(name)).expect("written");
    assert_eq!(read("back.json"), read("right.json"));
}

#[test]
fn answers_that_end_early_write_nothing() {
    let folder = folder();
    let answers = ANSWERS.map(|(answer, _)| answer);
    for answered in [0, 1, 7, 20, 44, 60] {
        let ended =
            with_answers(folder.path(), &["new", "half.json", "--ask"], &answers[..answered]);
        assert_eq!(ended.code, Some(CANNOT_READ), "{}", ended.err);
        assert!(ended.err.contains("nothing is written"), "{}", ended.err);
        assert_eq!(names_in(folder.path()), [""; 0]);
    }
    // Enter alone is an answer wherever something stands in brackets.
    let mut taken = [""; 50];
    taken[1] = "Taken as usual";
    with_answers(folder.path(), &["new", "usual.json", "--ask"], &taken).answered("new --ask");
    bucketline(folder.path(), &["check", "usual.json"]).answered("check");
}

#[test]
fn in_litres_the_usual_figures_are_round_ones_in_litres() {
    let folder = folder();
    let mut answers = [""; 50];
    (answers[0], answers[1]) = ("metric", "Packing shed");
    with_answers(folder.path(), &["new", "metric.json", "--ask"], &answers).answered("new --ask");
    let text = fs::read_to_string(folder.path().join("metric.json")).expect("written");
    let made: Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(made["units"], "metric");
    assert_eq!(made["incident"]["attack_flow"], "1500 L/min");
    assert_eq!(made["fill_sites"][0]["out"]["km"], "3 km");
    bucketline(folder.path(), &["risk", "metric.json", "--runs", "200"]).answered("risk");
}

#[test]
fn a_file_that_is_there_is_not_asked_for_in_vain() {
    let folder = folder();
    fs::write(folder.path().join("mine.json"), "mine").expect("the folder can be written to");
    // What is no scenario, or no building, has its own mistakes.
    bucketline(folder.path(), &["new", "mine.json", "--ask"]).refused(WRONG_SCENARIO, "new --ask");
    let building = ["new", "mine.json", "--building", "--ask"];
    bucketline(folder.path(), &building).refused(WRONG_SCENARIO, "new --building --ask");
    bucketline(folder.path(), &["new", "mine.json"]).refused(CANNOT_WRITE, "new");
    bucketline(folder.path(), &["new"]).refused(WRONG_COMMAND, "new");
    bucketline(folder.path(), &["new", "a.json", "--ask", "--aid"]).refused(WRONG_COMMAND, "new");
    bucketline(folder.path(), &["new", "a.json", "--csv", "b"]).refused(WRONG_COMMAND, "new");
    assert_eq!(names_in(folder.path()), ["mine.json"]);
}

/// What is answered and what stands in the sheets is one plan.
#[test]
fn the_sheets_and_the_questions_make_the_same_file() {
    let folder = folder();
    let answers = ANSWERS.map(|(answer, _)| answer);
    with_answers(folder.path(), &["new", "asked.json", "--ask"], &answers).answered("new --ask");
    let place = folder.path().join("sheets");
    fs::create_dir(&place).expect("a folder");
    let write = |name: &str, text: &str| fs::write(place.join(name), text).expect("written");
    write(
        "units.csv",
        "unit,kind,department,department comes whole,alarm,water,minutes to empty,minutes to the fire,how often it comes,earliest call,brings a drop tank of\n\
         Engine 4,attack engine,,,,1250,,9,,,\nEngine 8,supply engine,,,,,,13,,,\n\
         Tanker 3,own tanker,,,,2500,4,11,99%,,3500 gal\nTanker 5,own tanker,,,,2000,,14,0.9,,\n\
         Birch Hill 1,aid tanker,Birch Hill,yes,,3000,,17,4 in 5,0,\nStony Lake 1,aid tanker,,no,second,11000 L,3 min,22,,4,\n",
    );
    write(
        "sources.csv",
        "source,flow,tankers at once,ready at minute,pumped by,how often the engine comes,road one way,speed,\
         of that on gravel,speed on gravel,holds\n\
         Quarry pond,1000,2,16,Engine 12,95%,2.4,32,0.5,20,30000\n\
         Town hydrant,750,1,25,BIRCH HILL 1,,5 km,35,,,\n",
    );
    write(
        "plan.csv",
        "fire,flow,flow at first,minutes until full flow,how long,kept in the engine,units\n\
         \"Feed store, Ridge Road\",500,150 gpm,8,2 h,350,us\n",
    );
    bucketline(folder.path(), &["import", "sheets", "sheets.json"]).answered("import");
    let read = |name| fs::read_to_string(folder.path().join(name)).expect("written");
    assert_eq!(read("asked.json"), read("sheets.json"));
}

#[test]
fn each_starter_answers_the_question_it_is_for() {
    let folder = folder();
    for (option, next) in [("--building", "flow"), ("--options", "compare"), ("--aid", "request")] {
        let file = format!("starter{option}.json");
        let said = bucketline(folder.path(), &["new", &file, option]).answered(option);
        assert!(said.contains(&format!("bucketline {next} {file}")), "{said}");
        let mut asked = vec![next, &file, "--json"];
        if next != "flow" {
            asked.extend(["--runs", "1000"]);
        }
        let said = bucketline(folder.path(), &asked).answered(next);
        let answer: Value = serde_json::from_str(&said).expect("JSON");
        if next == "request" {
            assert_eq!(answer["meets_target"], true);
        }
    }
}
