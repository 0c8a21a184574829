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
const ANSWERS: [(&str, &str); 64] = [
    ("us", "/units"),
    ("Feed store, Ridge Road", "/title"),
    ("500", "/incident/attack_flow/1/flow"),
    ("150 gpm", "/incident/attack_flow/0/flow"),
    ("8", "/incident/attack_flow/1/from"),
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
    ("99%", "/tankers/0/turnout"),
    ("4 min", "/tankers/0/dump_rate"),
    ("Tanker 5", "/tankers/1/name"),
    ("2,000", "/tankers/1/capacity"),
    ("14", "/tankers/1/response/mean"),
    ("9 in 10", "/tankers/1/turnout"),
    ("", ""),
    ("", ""),
    ("Birch Hill 1", "/aid/0/name"),
    ("Birch Hill", "/aid/0/department"),
    ("yes", "/aid/0/comes_whole"),
    ("3 000", "/aid/0/capacity"),
    ("17", "/aid/0/response/mean"),
    ("4 of 5", "/aid/0/turnout"),
    ("", ""),
    ("", ""),
    ("0", "/aid/0/requested_at"),
    ("Stony Lake 1", "/aid/1/name"),
    ("", ""),
    ("11,000 L", "/aid/1/capacity"),
    ("22", "/aid/1/response/mean"),
    ("", ""),
    ("3", "/aid/1/dump_rate"),
    ("2nd alarm", "/aid/1/alarm"),
    ("4", "/alarms/second"),
    ("", ""),
    ("Quarry pond", "/fill_sites/0/name"),
    ("1000", "/fill_sites/0/flow"),
    ("2", "/fill_sites/0/positions"),
    ("Engine 12", "/fill_sites/0/source_pump/name"),
    ("16", "/fill_sites/0/source_pump/response/mean"),
    ("2.4", ""),
    ("32", "/fill_sites/0/out/stretches/0/mph"),
    ("0.5", "/fill_sites/0/out/stretches/1/miles"),
    ("20", "/fill_sites/0/back/stretches/1/mph"),
    ("30,000", "/fill_sites/0/volume"),
    ("Town hydrant", "/fill_sites/1/name"),
    ("750", "/fill_sites/1/flow"),
    ("1", "/fill_sites/1/positions"),
    ("birch hill 1", "/fill_sites/1/source_pump/brought_by"),
    ("8", "/fill_sites/1/source_pump/setup/mean"),
    ("5 km", "/fill_sites/1/out/miles"),
    ("35", "/fill_sites/1/back/mph"),
    ("", ""),
    ("", ""),
    ("", ""),
    ("tanker 3", "/drop_tanks/0/brought_by"),
    ("3,500 gal", "/drop_tanks/0/capacity"),
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

fn with_answers(folder: &Path, arguments: &[&str], answers: &[&str]) -> Ended {
    let mut call = call(folder, arguments);
    call.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut asked = call.spawn().expect("the program starts");
    let mut input = asked.stdin.take().expect("a pipe");
    let text: String = answers.iter().map(|answer| format!("{answer}\n")).collect();
    // It may end before it has read everything.
    let _ = input.write_all(text.as_bytes());
    drop(input);
    Ended::of(asked.wait_with_output().expect("it ends"))
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
        said.contains("Engine 12 is taken as an engine of its own that drives there."),
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
        // quantity's unit; two numbers in one; a name that is taken; neither yes nor no; no such alarm; a tank brought by
        // nobody.
        answers.extend(match number {
            0 => vec!["yards"],
            1 => vec![""],
            2 => vec!["plenty", "9,999,999"],
            7 => vec!["1250 mi", "1,20,300"],
            15 => vec!["often", "11 in 10"],
            16 => vec!["0"],
            17 => vec!["Tanker 3"],
            25 => vec!["perhaps"],
            38 => vec!["tenth"],
            43 => vec!["1.5"],
            48 => vec!["3"],
            61 => vec!["Tanker 33"],
            _ => vec![],
        });
        answers.push(answer);
    }
    let said = with_answers(folder.path(), &["new", "slips.json", "--ask"], &answers);
    let said = said.answered("new --ask");
    for expected in [
        "write us or metric",
        "needs an answer",
        "does not begin with a number",
        "gpm",
        "is the unit of a distance, where a volume is wanted",
        "more than one way",
        "Tanker 3",
        "write yes or no",
        "write first, second",
        "the gravel is longer than the whole road",
        "they are Engine 4, Engine 8, Tanker 3, Tanker 5, Birch Hill 1, Stony Lake 1",
    ] {
        assert!(said.contains(expected), "{expected}: {said}");
    }
    assert_eq!(said.matches("Not taken:").count(), 14, "{said}");
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
            6 => vec!["2 h", "back", "back", "back", "8", "2 h", "?"],
            // Out of a list: a tanker that is none, and the minute of the one before again.
            32 => vec!["Birch Hill 2", "back", "BACK", "0"],
            58 => vec!["back", "35"],
            _ => vec![],
        });
        answers.push(answer);
    }
    let said = with_answers(folder.path(), &["new", "back.json", "--ask"], &answers);
    let said = said.answered("new --ask");
    assert!(said.contains("This is the first question."), "{said}");
    assert!(said.contains("Enter alone: us") && said.contains("Enter alone: Engine 1"), "{said}");
    with_answers(folder.path(), &["new", "right.json", "--ask"], &right).answered("new --ask");
    let read = |name| fs::read_to_string(folder.path().join(name)).expect("written");
    assert_eq!(read("back.json"), read("right.json"));
}

/// A pump that nobody of the plan brings is told of; a minute that cannot be, too.
#[test]
fn who_pumps_at_a_source_is_no_guess() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "pumps"]).answered("new --csv");
    let sources = folder.path().join("pumps/sources.csv");
    let with = |rows: &str| {
        let head =
            "source,flow,ready at minute,pumped by,road one way,speed,gravel,speed on gravel\n";
        fs::write(&sources, format!("{head}{rows}")).expect("written");
        bucketline(folder.path(), &["import", "pumps", "--force"])
    };
    let said = with("Pond,1000,20,Tnaker 5,2,30,,\n").answered("import");
    assert!(
        said.contains("Tnaker 5, which pumps at Pond, is taken as an engine of its own"),
        "{said}"
    );
    assert!(said.contains("if you mean Tanker 5"), "{said}");
    // Tanker 5 is there at minute 13.
    let setup = |rows: &str| {
        with(rows).answered("import");
        let text = fs::read_to_string(folder.path().join("pumps.json")).expect("written");
        let made: Value = serde_json::from_str(&text).expect("JSON");
        made["fill_sites"][0]["source_pump"]["setup"].clone()
    };
    assert_eq!(setup("Pond,1000,20,tanker 5,2,30,,\n")["mean"], 7);
    assert_eq!(setup("Pond,1000,,tanker 5,2,30,,\n")["likely"], 8);
    let said = with(
        "Pond,1000,12,tanker 5,2,30,,\nCreek,500,,,2,30,,\nMill,500,9,,2,30,3,\nLake,500,9,,2,,1,15\nRun,500,9,,2,30,,15\n",
    );
    let said = said.refused(WRONG_SCENARIO, "import");
    for expected in [
        "row 2, column 'ready at minute', '12': it can fill at minute 12, and Tanker 5",
        "row 3, column 'ready at minute': the cell is blank",
        "row 4, column 'gravel', '3': the gravel is longer than the whole road",
        "row 4, column 'speed on gravel': the speed on the gravel is not said",
        "row 5, column 'speed': the speed on the rest of the road is not said",
        "row 6, column 'gravel': there is a speed on gravel and no gravel",
    ] {
        assert!(said.contains(expected), "{expected}\n{said}");
    }
}

/// A building asked for, and the same one in a file by hand, want the same water.
#[test]
fn a_building_is_asked_for_in_plain_words() {
    let folder = folder();
    let answers = [
        "us",
        "Machinery shed, County Road 14",
        "120",
        "60 ft",
        "",
        "16",
        "back",
        "16 ft",
        "6",
        "20",
        "machinery shed",
        "Workshop",
        "ordinary",
        "",
        "50%",
        "50",
        "1,800 ft2",
        "",
        "2 h",
    ];
    let said = with_answers(folder.path(), &["new", "shed.json", "--building", "--ask"], &answers);
    let said = said.answered("new --building --ask");
    assert!(said.contains("Not taken: write one of: dwelling, apartments"), "{said}");
    assert!(said.contains("shed.json is written. Then:\n  bucketline flow shed.json"), "{said}");
    let made: Value = serde_json::from_str(
        &fs::read_to_string(folder.path().join("shed.json")).expect("written"),
    )
    .expect("JSON");
    assert_eq!(
        made["building"],
        json!({"length": 120, "width": "60 ft", "stories": 1, "height": "16 ft", "ridge": 6, "open_height": 20,
            "use": "workshop", "construction": "ordinary", "contents": "combustible", "involved": "50 %",
            "exposures": [{"distance": 50, "area": "1800 ft2"}]})
    );
    // Area / 3, half of it burning, and a quarter of all of it for the building beside: National Fire Academy.
    let said = bucketline(folder.path(), &["flow", "shed.json"]).answered("flow");
    assert!(said.contains("the attack flow is\n1,800 gpm"), "{said}");
    let half =
        with_answers(folder.path(), &["new", "m.json", "--building", "--ask"], &["metric", "Shed"]);
    assert_eq!(half.code, Some(CANNOT_READ), "{}", half.err);
    assert!(!folder.path().join("m.json").exists());
}

/// What could be bought, in a sheet: each option is what the changed cells make of the plan, and nothing else.
#[test]
fn what_could_be_bought_stands_in_a_sheet() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "buy"]).answered("new --csv");
    let place = folder.path().join("buy");
    let options = |rows: &str| {
        let head =
            "what could be bought or changed,cost,of which unit or source,which column,becomes\n";
        fs::write(place.join("options.csv"), format!("{head}{rows}")).expect("written");
        bucketline(folder.path(), &["import", "buy", "--force"])
    };
    let said = options(
        "bigger pond pump,14000,Quarry pond,flow,1500 gpm\n\
         gravel paved,,quarry pond,of that on gravel,0\n\
         Tanker 6,\"$95,000\",Tanker 5,another one,Tanker 6\n\
         faster dump,3000,Tanker 3,minutes to empty,2\nfaster dump,2000,Tanker 5,minutes to empty,2\n\
         a smaller start,0,,flow at first,100 gpm\n",
    );
    let said = said.answered("import");
    assert!(said.contains("bucketline compare buy.json"), "{said}");
    let text = fs::read_to_string(folder.path().join("buy.json")).expect("written");
    let made: Value = serde_json::from_str(&text).expect("JSON");
    let costs: Vec<&Value> =
        made["options"].as_array().expect("options").iter().map(|one| &one["cost"]).collect();
    assert_eq!(costs, [&json!(14000), &Value::Null, &json!(95000), &json!(5000), &json!(0)]);
    // Held against the sheets changed by hand: a general JSON Patch library makes the one of the other.
    let by_hand = |file: &str, from: &str, to: &str| {
        let path = place.join(file);
        let before = fs::read_to_string(&path).expect("a sheet");
        assert!(before.contains(from), "{file}: {from}");
        fs::write(&path, before.replace(from, to)).expect("written");
        let (bought, aside) = (place.join("options.csv"), folder.path().join("aside.csv"));
        fs::rename(&bought, &aside).expect("moved");
        bucketline(folder.path(), &["import", "buy", "hand.json", "--force"]).answered("by hand");
        fs::rename(&aside, &bought).expect("moved back");
        fs::write(&path, before).expect("written");
        let text = fs::read_to_string(folder.path().join("hand.json")).expect("written");
        let mut made: Value = serde_json::from_str(&text).expect("JSON");
        made.as_object_mut().expect("an object").remove("options");
        made
    };
    let another = "Birch Hill tanker 1,";
    for (place, expected) in [
        (0, by_hand("sources.csv", "\"1,000 gpm\"", "1500 gpm")),
        (
            2,
            by_hand(
                "units.csv",
                another,
                &format!(
                    "Tanker 6,own tanker,Alder Creek,,,\"2,000 gal\",2.5,13,,,\"3,000 gal\",\n{another}"
                ),
            ),
        ),
        (4, by_hand("plan.csv", "150 gpm", "100 gpm")),
    ] {
        let mut with = made.clone();
        with.as_object_mut().expect("an object").remove("options");
        let patch: json_patch::Patch =
            serde_json::from_value(made["options"][place]["changes"].clone()).expect("a patch");
        json_patch::patch(&mut with, &patch).expect("it applies");
        assert_eq!(with, expected, "option {place}");
    }
    bucketline(folder.path(), &["compare", "buy.json", "--runs", "300", "--no-charts"])
        .answered("compare");
    let said = options(
        "a,1,Tanker 99,water,9\nb,1,Tanker 5,road one way,9\nc,1,,water,9\nd,1,Tanker 5,water,\n\
         e,1,Tanker 5,water,9 miles\ng,1,Tanker 5,another one,drop tank 3000 gal\nf,1,Tanker 5,water,\"2,000 gal\"\n",
    );
    let said = said.refused(WRONG_SCENARIO, "import");
    for expected in [
        "options.csv, row 2, column 'of which unit or source', 'Tanker 99': no unit and no source",
        "row 3, column 'which column', 'road one way': the sheet of units has no such column",
        "row 4, column 'which column', 'water': the sheet of the fire has no such column",
        "row 5, column 'becomes': the cell is blank",
        "row 6, column 'becomes', '9 miles'",
        "row 7, column 'becomes', 'drop tank 3000 gal': here stands what the one more is called",
        "row 8, column 'becomes', '2,000 gal': it is what the plan has already",
    ] {
        assert!(said.contains(expected), "{expected}\n{said}");
    }
}

/// A drop tank keeps as much water where its unit is written as where it is not.
#[test]
fn a_unit_behind_a_number_changes_nothing() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "tank"]).answered("new --csv");
    let units = folder.path().join("tank/units.csv");
    let handed_out = fs::read_to_string(&units).expect("written");
    let unusable = |holds: &str| {
        assert!(handed_out.contains("\"3,500 gal\""));
        fs::write(&units, handed_out.replace("\"3,500 gal\"", holds)).expect("written");
        bucketline(folder.path(), &["import", "tank", "--force"]).answered("import");
        let text = fs::read_to_string(folder.path().join("tank.json")).expect("written");
        let made: Value = serde_json::from_str(&text).expect("JSON");
        made["drop_tanks"][0]["unusable"].clone()
    };
    for (bare, with_unit) in [("2100", "2100 gal"), ("3000", "\"3,000 gal\""), ("2642", "10000 L")]
    {
        assert_eq!(unusable(bare), unusable(with_unit), "{with_unit}");
    }
    assert_ne!(unusable("2100"), unusable("3500"));
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
    bucketline(folder.path(), &["new", "mine.json", "--ask"]).refused(CANNOT_WRITE, "new --ask");
    bucketline(folder.path(), &["new"]).refused(WRONG_COMMAND, "new");
    bucketline(folder.path(), &["new", "a.json", "--ask", "--aid"]).refused(WRONG_COMMAND, "new");
    bucketline(folder.path(), &["new", "a.json", "--csv", "b"]).refused(WRONG_COMMAND, "new");
    assert_eq!(names_in(folder.path()), ["mine.json"]);
}

/// The sheets as they are handed out, imported, are a plan with a request that has something to spare.
#[test]
fn the_sheets_as_handed_out_are_a_plan_that_runs() {
    let folder = folder();
    let said = bucketline(folder.path(), &["new", "--csv", "barn"]).answered("new --csv");
    assert!(said.contains("bucketline import barn"), "{said}");
    assert_eq!(
        names_in(&folder.path().join("barn")),
        ["options.csv", "plan.csv", "sources.csv", "units.csv"]
    );
    bucketline(folder.path(), &["new", "--csv", "barn"]).refused(CANNOT_WRITE, "new --csv");
    let said = bucketline(folder.path(), &["import", "barn"]).answered("import");
    assert!(said.starts_with("barn.json is written."), "{said}");
    bucketline(folder.path(), &["import", "barn"]).refused(CANNOT_WRITE, "import");
    bucketline(folder.path(), &["import", "barn", "--force"]).answered("import --force");
    // A folder where one stands: the file lies beside it all the same.
    bucketline(&folder.path().join("barn"), &["import", ".", "--force"]).answered("import .");
    bucketline(folder.path(), &["import", "barn", "other.json"]).answered("import");
    assert_eq!(names_in(folder.path()), ["barn", "barn.json", "other.json"]);
    let said = bucketline(folder.path(), &["request", "barn.json", "--runs", "1000", "--json"]);
    let answer: Value = serde_json::from_str(&said.answered("request")).expect("JSON");
    assert_eq!(answer["meets_target"], true, "{answer:#}");
}

/// Cells as people write them give the file that plain ones give.
#[test]
fn a_spreadsheet_may_be_written_as_people_write() {
    let folder = folder();
    let sheets = |name: &str, units: &str, sources: &str, plan: &str| {
        let place = folder.path().join(name);
        fs::create_dir(&place).expect("a folder");
        for (file, text) in [("units", units), ("sources", sources), ("plan", plan)] {
            fs::write(place.join(format!("{file}.csv")), text).expect("written");
        }
        bucketline(folder.path(), &["import", name]).answered(name);
        fs::read_to_string(place.with_extension("json")).expect("written")
    };
    let plain = sheets(
        "plain",
        "unit,kind,water,minutes to the fire,brings a drop tank of\n\
         Engine 4,attack engine,1250,9,\nTanker 3,own tanker,2500 gal,11,3500\nCounty,aid tanker,11000 L,22.5,\n",
        "source,flow,ready at minute,road one way\nPond,1000,16,2.4\n",
        "fire,flow,how long,kept in the engine\nFeed store,500,120,350\n",
    );
    let typed = sheets(
        "typed",
        "\u{feff}Unit;Kind;Remarks;Water (gal);Minutes to the fire;Brings a drop tank of\r\n\
         Engine 4;Attack Engine;pumps the lines;“1,250”;9;\r\n\r\n\
         Tanker 3;‘own tender’;;2 500 gal;11;3,500\r\nCounty;Aid;;11,000 L;22,5;n/a\r\n",
        "source\tflow\troad\tready\nPond\t$1,000\t2,4\t16\n",
        "fire|flow|how long|reserve|units\nFeed store|500|120|\u{a0}350|US\n",
    );
    assert_eq!(plain, typed);
    // A spreadsheet's own file beside two texts.
    let book = folder.path().join("book");
    fs::create_dir(&book).expect("a folder");
    for (name, bytes) in [
        ("units.xlsx", include_bytes!("first_plan/units.xlsx").as_slice()),
        ("sources.ods", include_bytes!("first_plan/sources.ods")),
        ("plan.csv", b"fire,flow,how long,kept in the engine\nFeed store,500,120,350\n"),
    ] {
        fs::write(book.join(name), bytes).expect("written");
    }
    bucketline(folder.path(), &["import", "book"]).answered("import");
    assert_eq!(fs::read_to_string(book.with_extension("json")).expect("written"), plain);
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
        "source,flow,tankers at once,ready at minute,pumped by,road one way,speed,of that on gravel,speed on gravel,holds\n\
         Quarry pond,1000,2,16,Engine 12,2.4,32,0.5,20,30000\n\
         Town hydrant,750,1,25,BIRCH HILL 1,5 km,35,,,\n",
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

/// How aid is called, in cells that cannot be.
#[test]
fn alarms_and_departments_that_cannot_be_are_told_with_their_cell() {
    let folder = folder();
    let called = bucketline(folder.path(), &["new", "--csv", "calls"]);
    called.answered("new --csv");
    let place = folder.path().join("calls");
    fs::write(
        place.join("units.csv"),
        "unit,kind,department,comes whole,alarm,water,minutes,earliest call\n\
         Engine 3,attack engine,,,,1250,9,\n\
         Tanker 3,own tanker,,,second,2500,11,\n\
         Aid 1,aid tanker,,yes,,2500,17,\n\
         Aid 2,aid tanker,Birch Hill,perhaps,,2500,17,\n\
         Aid 3,aid tanker,,,tenth,2500,17,\n\
         Aid 4,aid tanker,,,third,2500,17,\n\
         Aid 5,aid tanker,,,second,2500,17,5\n\
         Aid 6,aid tanker,,,2,2500,17,6\n\
         Aid 7,aid tanker,,,1,2500,17,3\n",
    )
    .expect("written");
    let said = bucketline(folder.path(), &["import", "calls"]).refused(WRONG_SCENARIO, "import");
    for (expected, cure) in [
        ("row 3, column 'alarm', 'second': only of an aid tanker", "leave the cell blank"),
        ("row 4, column 'comes whole', 'yes'", "department"),
        ("row 5, column 'comes whole', 'perhaps': it is neither yes nor no", "write yes or no"),
        ("row 6, column 'alarm', 'tenth': there is no such alarm", "write first, second"),
        ("row 7, column 'alarm', 'third': nothing says when the third alarm", "'earliest call'"),
        ("row 9, column 'earliest call', '6': another row has the second alarm", "the same minute"),
        ("row 10, column 'earliest call', '3': the first alarm is the alarm itself", "blank"),
    ] {
        let at = said.find(expected).unwrap_or_else(|| panic!("{expected}\n{said}"));
        let told = said[at..].split("\n  cure: ").nth(1).expect("a cure");
        assert!(told.lines().next().is_some_and(|told| told.contains(cure)), "{cure}\n{said}");
    }
    assert!(said.contains("7 mistakes"), "{said}");
}

#[test]
fn every_mistake_in_the_sheets_is_told_at_once_with_its_cell() {
    let folder = folder();
    let place = folder.path().join("wrong");
    fs::create_dir(&place).expect("a folder");
    let write = |name: &str, text: &str| fs::write(place.join(name), text).expect("written");
    write(
        "units.csv",
        "unit,kind,watr,water,minutes to the fire,brings a drop tank of\n\
         Engine 4,attack engine,,1250,,\n\
         Tanker 3,own tankr,,2500,11,\n\
         Tanker 5,own tanker,,25,1:30,9 miles\n\
         Tanker 5,own tanker,,3,000,12,\n\
         Tanker 7,own tanker,,2000,12,\n\
         Tanker 7,aid tanker,,2000,twelve,\n\
         Engine 12,aid engine,,1000,20,\n",
    );
    write("sources.csv", "source,flow,ready at minute\nPond,1.2.3,16\n");
    write(
        "plan.csv",
        "fire,flow,flow at first,how long,units\nShed,500,100,120 gal,yards\nBarn,1,,1,\n",
    );
    let said = bucketline(folder.path(), &["import", "wrong"]).refused(WRONG_SCENARIO, "import");
    for (expected, cure) in [
        ("units.csv, row 1, column 'watr': there is no such column", "did you mean 'water'?"),
        ("units.csv, row 2, column 'minutes to the fire': the cell is blank", "such as 11"),
        ("units.csv, row 3, column 'kind', 'own tankr'", "did you mean 'own tanker'?"),
        ("units.csv, row 4, column 'water', '25'", "missing digits"),
        ("units.csv, row 4, column 'minutes to the fire', '1:30'", "write minutes"),
        ("units.csv, row 4, column 'brings a drop tank of', '9 miles'", "a volume"),
        ("units.csv, row 5: it has 7 cells, and there are 6 headings", "in quotes"),
        ("units.csv, row 7, column 'minutes to the fire', 'twelve'", "write a number"),
        ("units.csv, row 7, column 'unit', 'Tanker 7'", "name"),
        // The nearest word would make it the engine that drafts at the fire.
        ("units.csv, row 8, column 'kind', 'aid engine'", "'pumped by' of the sources"),
        ("sources.csv, row 1: there is no column 'road one way'", "add it"),
        ("sources.csv, row 2, column 'flow', '1.2.3'", "decimal point"),
        ("plan.csv, row 2, column 'units', 'yards'", "metric"),
        ("plan.csv, row 2, column 'how long', '120 gal'", "a time"),
        ("plan.csv, row 2, column 'minutes from first water to full flow': it is blank", "both"),
        ("plan.csv, row 3, column 'fire', 'Barn'", "one row"),
    ] {
        let at = said.find(expected).unwrap_or_else(|| panic!("{expected}\n{said}"));
        let told = said[at..].split("\n  cure: ").nth(1).expect("a cure");
        let told = told.lines().next().expect("a line");
        assert!(told.contains(cure), "{expected}: {cure}: {told}\n{said}");
    }
    assert!(said.contains("16 mistakes; nothing is written"), "{said}");
    assert_eq!(names_in(&place), ["plan.csv", "sources.csv", "units.csv"]);
    // Files that are not there, or are there twice.
    fs::remove_file(place.join("plan.csv")).expect("removed");
    write("units.ods", "no spreadsheet");
    let said = bucketline(folder.path(), &["import", "wrong"]).refused(WRONG_SCENARIO, "import");
    assert!(said.contains("plan.csv: there is no such file"), "{said}");
    assert!(said.contains("units.csv: units.ods is there as well"), "{said}");
    let said = bucketline(folder.path(), &["import", "none"]).refused(WRONG_SCENARIO, "import");
    assert!(
        said.contains("none: there is no such folder") && said.contains("1 mistake;"),
        "{said}"
    );
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
