//! `grade --sheet`: what a surveyor is shown.

use std::fs;

use serde_json::Value;

use super::grading::{rows_of, schoolhouse};
use super::{bucketline, folder};

#[test]
fn the_evidence_sheet_marks_what_the_scenario_does_not_state() {
    let folder = folder();
    fs::write(folder.path().join("a.json"), without(&["dump_rate", "waste"]).to_string())
        .expect("a scenario");
    let row = |file: &str| {
        let told = ["grade", file, "--runs", "200", "--rule", "class-8b", "--more"];
        let text = bucketline(folder.path(), &told).answered("grade");
        assert_eq!(rows_of(&text).len(), text.lines().count(), "at most 100 columns:\n{text}");
        let row = text.lines().find(|line| line.starts_with("Tanker 4 ")).expect("its row");
        let words: Vec<String> = row.split_whitespace().take(10).map(str::to_owned).collect();
        (words, text.contains("a assumed, not stated"))
    };
    // Stated figures stand bare, and whose it is stands in neither file; silent ones are the format's 1,000 gpm and the 10% of NFPA 1142.
    let (silent, told) = row("a.json");
    assert_eq!(
        (&silent[2..], told),
        (
            ["own", "a", "3,000", "1,000", "a", "1,000", "10%", "a"].map(str::to_owned).as_slice(),
            true
        )
    );
    let (stated, told) = row(&schoolhouse());
    assert_eq!(
        (&stated[2..], told),
        (
            ["own", "a", "3,000", "1,000", "1,000", "5%", "[", "]"].map(str::to_owned).as_slice(),
            true
        )
    );
    // `listed` counts the group of aid tankers once: each of the three is as its entry states.
    let told = ["grade", "a.json", "--runs", "200", "--rule", "class-8b", "--json"];
    let text = bucketline(folder.path(), &told).answered("grade");
    let found: Value = serde_json::from_str(&text).expect("JSON");
    let tankers = found["evidence"][0]["surveyed_tankers"].as_array().expect("tankers");
    let assumed: Vec<bool> =
        tankers.iter().map(|one| one["discharge_gpm"]["assumed"] == Value::Bool(true)).collect();
    assert_eq!(assumed, [true, false, false, false, false]);
    assert_eq!(tankers[0]["fill_limit_gpm"]["assumed"], Value::Bool(false));
}

/// What a survey asks for (ISO alternative water supply page and a state bureau's checklist for
/// hauled water, seen): each stands on the sheet, filled or as a blank with its name.
#[test]
fn the_sheet_has_all_that_a_survey_asks_for() {
    let folder = folder();
    for file in ["sheet.html", "sheet.txt"] {
        let told = ["grade", &schoolhouse(), "--runs", "200", "--no-charts", "--sheet", file];
        bucketline(folder.path(), &told).answered("grade");
        let sheet = fs::read_to_string(folder.path().join(file)).expect("the sheet");
        let one_line = sheet.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
        for asked in [
            "station to fire, by road",
            "from the fire, by road, one way",
            "pump at the drop tanks",
            "usable 2,750 gal",
            "discharge",
            "fills",
            "quantity",
            "rate",
            "all year, in a 50-year drought",
            "certificate",
            "flow test",
            "witness",
            "last inspected",
            "owner's agreement",
            "written procedures for piped and hauled areas",
            "agreements for automatic and mutual aid",
            "apparatus and people on water, not counted as",
            "people that the water takes",
            "shown in a drill",
            "held in a drill",
            "joint training",
            "fireground communications",
            "response,",
            "drills held",
            "brake set to water shown",
            "edition",
            "to sign",
            "surveyor",
            "river bridge",
            "mill pond",
            "schoolhouse hydrant",
        ] {
            assert!(one_line.contains(asked), "{file}: {asked}: {sheet}");
        }
        assert_eq!(sheet.contains("<html"), file.ends_with("html"));
    }
}

/// People, the main, and what a drill showed of the claim: from the file where it states them, else blanks.
#[test]
fn the_sheet_holds_drills_against_the_claim_and_says_how_long_a_main_lasts() {
    let folder = folder();
    let mut told: Value =
        serde_json::from_str(&fs::read_to_string(schoolhouse()).expect("a scenario"))
            .expect("JSON");
    told["fill_sites"][0]["flow"] = serde_json::json!({
        "hydrant": {"static": 60, "residual": 40, "flow": 500, "at": 20}
    });
    let sheet = |told: &Value| {
        fs::write(folder.path().join("told.json"), told.to_string()).expect("a scenario");
        let file = folder.path().join("told.html");
        let _ = fs::remove_file(&file);
        let asked = ["grade", "told.json", "--runs", "200", "--no-charts", "--sheet", "told.html"];
        let asked = [&asked[..], &["--rule", "us-2h"]].concat();
        bucketline(folder.path(), &asked).answered("grade");
        // What stands between the marks of the page, cell by cell.
        let sheet = fs::read_to_string(&file).expect("the sheet");
        let sheet = sheet.replace("<span class=\"blank\">&nbsp;</span>", "____").to_lowercase();
        let cells: Vec<&str> = (sheet.split('<'))
            .filter_map(|rest| rest.split_once('>').map(|(_, text)| text.trim()))
            .filter(|text| !text.is_empty())
            .collect();
        cells.join("|")
    };
    let silent = sheet(&told);
    for blank in [
        "counted without end; the main gives ____ gpm for ____ h, says",
        ", people ____",
        "____ gpm for 2 hours or longer: the file states no such drill",
    ] {
        assert!(silent.contains(blank), "{blank}\n{silent}");
    }
    told["fill_sites"][0]["survey"]["main_lasts_hours"] = 6.into();
    told["grading"]["people_on_water"] = 9.into();
    // The longest and greatest count together: 90 min is too short, and 200 gpm is less than 260.
    told["grading"]["drills"] = serde_json::json!([
        {"date": "3 May", "flow": 900, "minutes": 90},
        {"date": "4 June", "flow": 260, "minutes": 120},
        {"date": "5 July", "flow": 200, "minutes": 180},
    ]);
    let said = sheet(&told);
    let claimed: f64 = said
        .split("shown in a drill")
        .nth(1)
        .and_then(|rest| rest.split("250 gpm for 2 hours|").nth(1))
        .and_then(|rest| rest.split('|').next())
        .and_then(|word| word.replace(',', "").parse().ok())
        .unwrap_or_else(|| panic!("the claim: {said}"));
    assert!(claimed > 261.0, "{claimed}");
    for filled in [
        "the main gives ____ gpm for 6 h, says".to_owned(),
        ", people 9".to_owned(),
        format!("260 gpm for 2 hours, 4 june: {} gpm less than claimed", claimed - 260.0),
    ] {
        assert!(said.contains(&filled), "{filled}\n{said}");
    }
    told["grading"]["drills"][1]["flow"] = claimed.into();
    let said = sheet(&told);
    assert!(said.contains("4 june: all that is claimed"), "{said}");
}

/// From the sheet alone the credit by 0.65 + 1.70 x miles can be worked again: Mill pond is 1.4 miles away, 3.03 minutes
/// each way; a 3,000-gal tanker fills for 0.983 + 3.143 + 0.6, dumps for 0.967 + 2.793 + 0.267 and makes 2,700 / 14.81.
#[test]
fn the_sheet_has_the_cycles_by_the_travel_rule_and_what_is_not_shown() {
    let folder = folder();
    let told = ["grade", &schoolhouse(), "--set", "grading/edition=\"2026\"", "--runs", "200"];
    let told = [&told[..], &["--no-charts", "--sheet", "sheet.txt"]].concat();
    bucketline(folder.path(), &told).answered("grade");
    let sheet = fs::read_to_string(folder.path().join("sheet.txt")).expect("the sheet");
    let lines: Vec<&str> = sheet.lines().collect();
    let place =
        lines.iter().position(|line| line.starts_with("all at Mill pond,")).expect("Mill pond");
    assert!(lines[place + 2].starts_with("Tanker 4 "), "{sheet}");
    let by_rule: Vec<&str> = lines[place + 3].split_whitespace().collect();
    assert_eq!(by_rule, ["-", "by", "road", "3.0", "3.0", "14.8", "182"], "{sheet}");
    let one_line = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "0.65 + 1.70 x miles each way",
        "claimed: the lower, that rule",
        "OPEN: the flow",
        "Known and not asked about here (--rule): own apparatus, 250 gpm for 30 minutes (own-30min)",
        "accreditation last renewed ________ years ago",
        "edition: the body works by 2026, as the file states.",
        "gives 1,250 gpm there, no more",
    ] {
        assert!(one_line.contains(told), "{told}: {sheet}");
    }
    assert!(!one_line.contains("ask the grading body which edition"), "{sheet}");
}

/// The scenario with a tanker's figures taken out of it.
fn without(keys: &[&str]) -> Value {
    let text = fs::read_to_string(schoolhouse()).expect("the scenario");
    let mut scenario: Value = serde_json::from_str(&text).expect("JSON");
    let tanker = scenario["tankers"][0].as_object_mut().expect("a tanker");
    keys.iter().for_each(|key| assert!(tanker.remove(*key).is_some(), "{key} was stated"));
    scenario
}
