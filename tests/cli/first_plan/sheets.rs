//! A plan from spreadsheets: what cells may say, and every mistake in them.

use std::fs;

use serde_json::Value;

use super::{CANNOT_WRITE, WRONG_SCENARIO, bucketline, folder, names_in};

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
        said.contains("Tnaker 5, which pumps at Pond, is taken as an engine that drives there"),
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

/// How often an engine comes that pumps at a source; of a unit that brings the pump it stands with that.
#[test]
fn how_often_an_engine_at_a_source_comes_is_a_column() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "often"]).answered("new --csv");
    let with = |rows: &str| {
        let head =
            "source,flow,ready at minute,pumped by,how often the engine comes,road one way,speed\n";
        let file = folder.path().join("often/sources.csv");
        fs::write(file, format!("{head}{rows}")).expect("written");
        bucketline(folder.path(), &["import", "often", "--force"])
    };
    let said = with("Pond,1000,20,Engine 12,4 in 5,2,30\nMill,500,9,Engine 13,always,3,30\n");
    let said = said.answered("import").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("to pump and comes to 80% of fires"), "{said}");
    let text = fs::read_to_string(folder.path().join("often.json")).expect("written");
    let made: Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(made["fill_sites"][0]["source_pump"]["turnout"], 0.8);
    assert_eq!(made["fill_sites"][1]["source_pump"]["turnout"], Value::Null);
    let said = with(
        "Pond,1000,20,tanker 5,90%,2,30\nMill,500,9,,90%,3,30\nRun,500,9,Engine 13,120%,3,30\n\
         Lake,500,9,Engine 14,7,3,30\n",
    );
    let said = said.refused(WRONG_SCENARIO, "import");
    for expected in [
        "row 2, column 'how often the engine comes', '90%': Tanker 5 brings the pump",
        "row 3, column 'how often the engine comes', '90%': nothing says which engine pumps there",
        "row 4, column 'how often the engine comes', '120%'",
        "row 5, column 'how often the engine comes', '7': it does not say how often",
    ] {
        assert!(said.contains(expected), "{expected}\n{said}");
    }
    assert!(said.contains("4 mistakes"), "{said}");
}

/// Two rows that stand for one thing: none of them takes the other's place in silence.
#[test]
fn what_is_said_twice_is_told() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "twice"]).answered("new --csv");
    let place = folder.path().join("twice");
    fs::write(
        place.join("units.csv"),
        "unit,kind,water,minutes\nEngine 3,attack engine,1250,9\nTanker 3,own tanker,2500,11\n\
         TANKER  3,own tanker,3000,15\nengine 3,aid tanker,2000,20\n",
    )
    .expect("written");
    let said = bucketline(folder.path(), &["import", "twice"]).refused(WRONG_SCENARIO, "import");
    for expected in [
        "row 4, column 'unit', 'TANKER  3': there is a unit called Tanker 3 already",
        "row 5, column 'unit', 'engine 3': there is a unit called Engine 3 already",
    ] {
        assert!(said.contains(expected), "{expected}\n{said}");
    }
    assert!(said.contains("2 mistakes"), "{said}");
    bucketline(folder.path(), &["new", "--csv", "twice", "--force"]).answered("new --csv");
    fs::write(
        place.join("options.csv"),
        "what could be bought or changed,cost,of which unit or source,which column,becomes\n\
         bigger,1,Tanker 5,water,3000\nbigger,1,tanker 5,water,4000\n",
    )
    .expect("written");
    let said = bucketline(folder.path(), &["import", "twice"]).refused(WRONG_SCENARIO, "import");
    let expected = "row 3, column 'which column', 'water': row 2 of this option changes the same";
    assert!(said.contains(expected), "{said}");
}

/// What no shuttle has is taken, and told with its cell and what may be meant.
#[test]
fn cells_that_no_shuttle_has_are_told() {
    let folder = folder();
    bucketline(folder.path(), &["new", "--csv", "odd"]).answered("new --csv");
    let place = folder.path().join("odd");
    let change = |file: &str, from: &str, to: &str| {
        let text = fs::read_to_string(place.join(file)).expect("written");
        assert!(text.contains(from), "{file}: {from}");
        fs::write(place.join(file), text.replace(from, to)).expect("written");
    };
    change("units.csv", "\"2,000 gal\",2.5,13", "\"2,000 gal\",\"1,500\",13");
    change("sources.csv", "3.1 mi", "400 mi");
    change("units.csv", "4 in 5", "80");
    let said = bucketline(folder.path(), &["import", "odd"]).answered("import");
    for expected in [
        // 2,000 gal in 1,500 min are 1.3 gpm.
        "Careful: units.csv, row 5, column 'minutes to empty', '1,500': 1,500 min to dump 2,000 gal is 1.333 gpm",
        "(or is 1.5 meant?)",
        "Careful: sources.csv, row 3, column 'road one way', '400 mi': 400 mi is very far to haul water",
    ] {
        assert!(said.contains(expected), "{expected}\n{said}");
    }
    let text = fs::read_to_string(folder.path().join("odd.json")).expect("written");
    let made: Value = serde_json::from_str(&text).expect("JSON");
    // A percentage without its sign can be nothing else; what can be both is asked back.
    assert_eq!(made["aid"][5]["turnout"], "80 %");
    change("units.csv", "22,80,4", "22,2,4");
    let said = bucketline(folder.path(), &["import", "odd", "--force"]);
    let said = said.refused(WRONG_SCENARIO, "import");
    assert!(said.contains("'2': it does not say how often"), "{said}");
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
        ("units.xlsx", include_bytes!("units.xlsx").as_slice()),
        ("sources.ods", include_bytes!("sources.ods")),
        ("plan.csv", b"fire,flow,how long,kept in the engine\nFeed store,500,120,350\n"),
    ] {
        fs::write(book.join(name), bytes).expect("written");
    }
    bucketline(folder.path(), &["import", "book"]).answered("import");
    assert_eq!(fs::read_to_string(book.with_extension("json")).expect("written"), plain);
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
