//! The spreadsheet of what could be bought or changed.

use std::fs;

use serde_json::{Value, json};

use super::{WRONG_SCENARIO, bucketline, folder};

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

/// The rows that show how an option looks are left out as long as they say that they are examples, and each of them is an
/// option of the sheets handed out with it once the word is gone.
#[test]
fn example_options_are_left_out_until_the_mark_is_gone() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "barn"]).answered("new --csv");
    let said = bucketline(folder.path(), &["import", "barn"]).answered("import");
    assert!(said.contains("6 rows of the options begin with EXAMPLE and are left out"), "{said}");
    assert!(!said.contains("bucketline compare"), "{said}");
    let made = || -> Value {
        let text = fs::read_to_string(folder.path().join("barn.json")).expect("written");
        serde_json::from_str(&text).expect("JSON")
    };
    assert_eq!(made()["options"], Value::Null);
    let sheet = folder.path().join("barn/options.csv");
    let text = fs::read_to_string(&sheet).expect("written");
    fs::write(&sheet, text.replace("EXAMPLE ", "")).expect("written");
    let said = bucketline(folder.path(), &["import", "barn", "--force"]).answered("import");
    assert!(said.contains("bucketline compare barn.json") && !said.contains("EXAMPLE"), "{said}");
    let names: Vec<Value> = (made()["options"].as_array().expect("options").iter())
        .map(|one| one["name"].clone())
        .collect();
    assert_eq!(
        names,
        [
            "a larger drop tank on Tanker 5",
            "a third tanker",
            "a bigger pump at the pond",
            "a second engine at the pond",
            "a second supply engine"
        ]
    );
    bucketline(folder.path(), &["compare", "barn.json", "--runs", "300", "--no-charts"])
        .answered("compare");
}

/// One more engine: at the fire it drafts, at a source it is one more place to fill there. Held against what a general
/// JSON Patch library makes of the option.
#[test]
fn one_more_engine_is_an_option() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "buy"]).answered("new --csv");
    let place = folder.path().join("buy");
    let with = |option: usize| -> Value {
        let text = fs::read_to_string(folder.path().join("buy.json")).expect("written");
        let mut made: Value = serde_json::from_str(&text).expect("JSON");
        let patch: json_patch::Patch =
            serde_json::from_value(made["options"][option]["changes"].clone()).expect("a patch");
        json_patch::patch(&mut made, &patch).expect("it applies");
        made
    };
    let head =
        "what could be bought or changed,cost,of which unit or source,which column,becomes\n";
    let options = |rows: &str| {
        fs::write(place.join("options.csv"), format!("{head}{rows}")).expect("written");
        bucketline(folder.path(), &["import", "buy", "--force"])
    };
    options("pond engine,60000,engine 12,another one,Engine 14\nsecond,1,Engine 8,another one,Engine 9\n")
        .answered("import");
    let pond = with(0);
    let sites = pond["fill_sites"].as_array().expect("sites");
    assert_eq!(sites.len(), 3);
    // The same road and flow; its own engine.
    assert_eq!(sites[2]["name"], "Quarry pond by Engine 14");
    assert_eq!(sites[2]["source_pump"]["name"], "Engine 14");
    for key in ["flow", "out", "back", "positions"] {
        assert_eq!(sites[2][key], sites[0][key], "{key}");
    }
    // Two pumps that each move 1,000 gpm.
    let both = with(1);
    assert_eq!(both["supply"]["draft_limit"], 2000);
    assert_eq!(both["supply"]["engine"]["name"], "Engine 8");
    // A failed pump costs what it takes to hook the other one up.
    assert_eq!(both["supply"]["failure"]["repair"], both["supply"]["engine"]["setup"]);
    // Without a supply engine one more engine is the one that drafts.
    let units = fs::read_to_string(place.join("units.csv")).expect("written");
    let lines: Vec<&str> = units.lines().filter(|line| !line.starts_with("Engine 8")).collect();
    fs::write(place.join("units.csv"), lines.join("\n")).expect("written");
    options("supply engine,1,Engine 3,another one,Engine 8\n").answered("import");
    assert_eq!(with(0)["supply"]["engine"]["name"], "Engine 8");
    // A pond that holds so much is no larger for a second engine.
    let sources = fs::read_to_string(place.join("sources.csv")).expect("written");
    let limited = sources.replace("20 mph,,An example", "20 mph,30000,An example");
    assert_ne!(sources, limited);
    fs::write(place.join("sources.csv"), limited).expect("written");
    let said = options("pond engine,1,Engine 12,another one,Engine 14\n");
    let said = said.refused(WRONG_SCENARIO, "import");
    assert!(said.contains("Engine 12 pumps at a source that holds so much water"), "{said}");
}
