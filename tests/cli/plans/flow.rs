//! `flow`: the worksheet for a building, and writing it into a scenario.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

use super::{CANNOT_READ, CAUTION, WRONG_COMMAND, WRONG_SCENARIO, bucketline, folder, hay_barn};

/// Widest line of an answer, characters.
const WIDTH: usize = 100;

/// A building of the repository.
pub(super) fn building(name: &str) -> String {
    format!("{}/../scenarios/buildings/{name}.json", env!("CARGO_MANIFEST_DIR"))
}

/// Every building that comes with the program.
fn buildings() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/buildings");
    let entries = fs::read_dir(root).expect("the buildings are there");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    files.retain(|file| !file.to_string_lossy().ends_with(".schema.json"));
    files.sort();
    assert!(files.len() >= 2, "only {} buildings", files.len());
    files
}

fn json(folder: &Path, arguments: &[&str]) -> Value {
    let text = bucketline(folder, arguments).answered("flow --json");
    serde_json::from_str(&text).expect("JSON")
}

/// An answer without its line breaks.
pub(super) fn on_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A dwelling of 24,000 ft3 in a folder of its own.
pub(super) fn house(change: impl FnOnce(&mut Value)) -> (tempfile::TempDir, String) {
    let mut value = serde_json::json!({
        "title": "House",
        "building": {
            "length": 40, "width": 30, "stories": 2, "height": 16, "ridge": 8, "use": "dwelling",
            "construction": "wood frame", "dwelling_cap": 1.0, "floors_burning": 1, "involved": 0.25
        },
        "rule": "minimum-supply"
    });
    change(&mut value);
    let folder = folder();
    let file = folder.path().join("house.json");
    fs::write(&file, value.to_string()).expect("the folder can be written to");
    (folder, file.to_string_lossy().into_owned())
}

#[test]
fn every_building_gets_a_worksheet() {
    for file in buildings() {
        let folder = folder();
        let path = file.to_string_lossy().into_owned();
        for standard in ["area", "volume", "minimum-supply", "insurance", "insurance-canada"] {
            let arguments = ["flow", &path, "--standard", standard];
            let text = bucketline(folder.path(), &arguments).answered(&path);
            assert_eq!(text.lines().last(), Some(CAUTION), "{path}");
            for line in text.lines() {
                assert!(line.chars().count() <= WIDTH, "{path}: {line}");
            }
            let told = on_one_line(&text);
            for telling in ["The rules disagree", "* the rule that counts", "authority having"] {
                assert!(told.contains(telling), "{path}: no {telling}: {text}");
            }
            for nonsense in ["NaN", "inf ", "panicked"] {
                assert!(!text.contains(nonsense), "{path}: {nonsense}");
            }
        }
    }
}

/// The rows of a worksheet against values from outside.
#[test]
fn the_rules_stand_side_by_side() {
    let (folder, file) = house(|_| {});
    let told = json(folder.path(), &["flow", &file, "--json"]);
    let rows = [
        // (rule, gpm, source)
        ("area / 3", 100.0, "40 x 30 / 3 x 25%, National Fire Academy"),
        ("volume / 100", 96.0, "40 x 30 x 8 / 100, Iowa State University"),
        ("minimum supply", 500.0, "3,429 gal: 500 gpm, NFPA 1142 (rate from memory)"),
        ("insurance table, older edition", 500.0, "ISO rating schedule, older"),
        ("insurance table, newer edition", 500.0, "ISO rating schedule, newer (from memory)"),
        (
            "insurance flow, Canada",
            5_000.0 / 3.785_411_784,
            "220 x 1.5 x sqrt(223 m2) = 4,928 -> 5,000 L/min, Fire Underwriters Survey 1999 (from memory)",
        ),
    ];
    let found = told["flow_rules"].as_array().expect("rules");
    assert_eq!(found.len(), rows.len());
    for (found, (name, gpm, source)) in found.iter().zip(rows) {
        assert_eq!(found["name"], name);
        assert_eq!(found["flow_gpm"], gpm, "{name}: {source}");
        assert_eq!(found["counts"], name == "minimum supply");
        assert!(found["reference"].as_str().is_some_and(|text| text.len() > 5), "{name}");
    }
    // What each is made for, and how each is worked out.
    for (table, head) in [("points", "made for"), ("more", "how")] {
        let all = told["told"][table].as_array().expect("blocks");
        let with_head = |block: &&Value| {
            block["columns"].as_array().is_some_and(|columns| columns.contains(&head.into()))
        };
        let table = all.iter().find(with_head).expect(head);
        assert_eq!(table["rows"].as_array().expect("rows").len(), rows.len(), "{head}");
    }
    // NFPA 1142 annex: 24,000 ft3, class 7, 1.0 -> 3,429 gal (inputs from memory).
    assert_eq!(told["volume_ft3"], 24_000.0);
    let supply = told["minimum_supply_gal"].as_f64().expect("a volume");
    assert!((supply - 24_000.0 / 7.0).abs() < 1e-9, "{supply}");
    assert_eq!(told["attack_flow_gpm"], 500.0);
    assert_eq!(told["total_water_gal"], 500.0 * 120.0);
    assert_eq!(told["greatest_over_least"], 5_000.0 / 3.785_411_784 / 96.0);
    // Two 2-1/2 in lines of 250 gpm (common practice).
    assert_eq!(told["attack_lines"]["carried_gpm"], 500.0);
}

#[test]
fn an_exposure_asks_for_half_as_much_again_and_moves_along_the_tables() {
    let (folder, file) = house(|value| {
        value["building"]["exposures"] = serde_json::json!([{"distance": 35, "area": 400}]);
    });
    let told = json(folder.path(), &["flow", &file, "--json"]);
    // NFPA 1142 annex: 5,143 gal with the exposure (inputs from memory).
    let supply = told["minimum_supply_gal"].as_f64().expect("a volume");
    assert!((supply - 1.5 * 24_000.0 / 7.0).abs() < 1e-9, "{supply}");
    // 25% of 400 gpm on top of the 100 (National Fire Academy, from memory); 35 ft: 750 gpm in the older
    // table, 500 in the newer (ISO; newer from memory).
    assert_eq!(told["flow_rules"][0]["flow_gpm"], 200.0);
    assert_eq!(
        (&told["flow_rules"][3]["flow_gpm"], &told["flow_rules"][4]["flow_gpm"]),
        (&750.0.into(), &500.0.into())
    );
    assert_eq!(told["exposures"][0]["hazard"], true);
}

#[test]
fn the_standard_of_ones_choice_decides() {
    let (folder, file) = house(|_| {});
    for (standard, gpm) in [("area", 100.0), ("volume", 96.0), ("insurance", 500.0)] {
        let told = json(folder.path(), &["flow", &file, "--standard", standard, "--json"]);
        assert_eq!(told["attack_flow_gpm"], gpm, "{standard}");
    }
    let said = bucketline(folder.path(), &["flow", &file, "--standard", "area"]).answered("flow");
    let first = said.lines().nth(2).expect("the answer");
    assert!(
        first.starts_with("By area / 3, the rule that counts here, the attack flow is 100 gpm.")
    );
    let said = bucketline(folder.path(), &["flow", &file, "--standard", "iowa"])
        .refused(WRONG_COMMAND, "a standard that is not there");
    assert!(said.contains("minimum-supply"), "{said}");
}

#[test]
fn mistakes_are_met_with_line_limit_and_cure() {
    let (folder, file) = house(|value| value["building"]["use"] = "hous".into());
    let said = bucketline(folder.path(), &["flow", &file]).refused(WRONG_SCENARIO, "a wrong use");
    for telling in ["building.use", "house.json:1:", "allowed:", "\"dwelling\""] {
        assert!(said.contains(telling), "{telling}: {said}");
    }
    let said = bucketline(folder.path(), &["flow", &hay_barn()])
        .refused(WRONG_SCENARIO, "a scenario without a building");
    assert!(said.contains("no building stands behind this flow"), "{said}");
    let (folder, file) = house(|value| value["building"]["contents"] = "hay".into());
    let said = bucketline(folder.path(), &["flow", &file]).refused(WRONG_SCENARIO, "hay");
    assert!(said.contains("\"free burning\" is C-4: hay or straw in a barn"), "{said}");
    bucketline(folder.path(), &["flow", "no.json"]).refused(CANNOT_READ, "no file");
    let (folder, file) = house(|value| {
        value["building"]["length"] = 2500.into();
        value["building"]["width"] = 2500.into();
        value["rule"] = "area".into();
    });
    let said = bucketline(folder.path(), &["flow", &file]).refused(WRONG_SCENARIO, "too large");
    assert!(said.contains("master streams"), "{said}");
}

#[test]
fn check_tells_people_and_hose() {
    let folder = folder();
    let file = folder.path().join("plan.json");
    let path = file.to_string_lossy().into_owned();
    let near = |on_hand: u32| {
        super::write_changed(&file, |plan| {
            plan["crew"] = serde_json::json!({"on_hand": 9});
            plan["hose"] = serde_json::json!({"on_hand": on_hand, "engines": 1, "laid_a_minute": 1000, "start": 0});
            plan["fill_sites"][0]["out"]["miles"] = 0.5.into();
            plan["fill_sites"][0]["back"]["miles"] = 0.5.into();
        });
    };
    near(3000);
    let told = json(folder.path(), &["check", &path, "--json"]);
    // Two tankers x 2, a fill site 2 with its pump 1, a dump site 2, a pump 1, one in charge (common
    // practice).
    assert_eq!((&told["people"]["total"], &told["people"]["on_road"]), (&11.into(), &4.into()));
    let lay = &told["hose_instead"][0];
    assert_eq!((&lay["distance_ft"], &lay["can_be_laid"]), (&2640.0.into(), &true.into()));
    // 0.08 x (285 / 100)^2 / 100 psi a foot of 165 psi (pump operator texts): 25,392 ft.
    let spacing = lay["lay"]["greatest_spacing_ft"].as_f64().expect("a length");
    assert!((spacing - 165.0 / (0.08 * 2.85 * 2.85 / 100.0)).abs() < 1e-6, "{spacing}");
    let said = on_one_line(&bucketline(folder.path(), &["check", &path]).answered("check"));
    assert!(said.contains("9 are on hand: 2 too few."), "{said}");
    assert!(said.contains("Hose from Quarry pond, 2,640 ft: a long lay would do"), "{said}");
    near(2000);
    let said = on_one_line(&bucketline(folder.path(), &["check", &path]).answered("check"));
    assert!(said.contains("2,640 ft: no, the hose on hand ends at 2,000 ft."), "{said}");
    let lay = &json(folder.path(), &["check", &path, "--json"])["hose_instead"][0];
    assert_eq!((&lay["can_be_laid"], &lay["ended_by"]), (&false.into(), &"hose_on_hand".into()));
    assert_eq!(lay["shuttle_wins_beyond_ft"], 2000.0);
}

#[test]
fn the_schema_of_buildings_is_the_one_in_the_repository() {
    let folder = folder();
    let printed = bucketline(folder.path(), &["schema", "--building"]).answered("schema");
    let kept = fs::read_to_string(building("building.schema")).expect("the schema");
    assert!(
        kept == printed,
        "run: bucketline schema --building > scenarios/buildings/building.schema.json"
    );
}

/// A barn that is lost: what is left to do, and that no shuttle brings what the rule asks for.
#[test]
fn a_lost_building_is_told_what_is_left_to_do_before_any_number() {
    let (folder, file) = house(|value| {
        value["rule"] = "area".into();
        let building = &mut value["building"];
        (building["length"], building["width"]) = (130.into(), 150.into());
        building["involved"] = 1.0.into();
        building["exposures"] = serde_json::json!([{"distance": 35, "area": 400}]);
    });
    let told = json(folder.path(), &["flow", &file, "--json"]);
    // 130 x 150 / 3 = 6,500 gpm, and 25% of it for the exposure (National Fire Academy; share from memory).
    assert_eq!(told["attack_flow_gpm"], 8_125.0);
    assert_eq!(told["beyond_any_shuttle"], true);
    assert_eq!(told["exposures_only_gpm"], 1_625.0);
    // Two lines of 150 or of 250 gpm (common practice).
    assert_eq!(
        (&told["two_crews_gpm"], &told["two_crews_most_gpm"]),
        (&300.0.into(), &500.0.into())
    );
    // 17 master streams of 500 gpm (common practice), and no hand lines.
    assert_eq!(told["attack_lines"]["groups"].as_array().map(Vec::len), Some(1));
    let group = &told["attack_lines"]["groups"][0];
    assert_eq!((&group["count"], &group["master_stream"]), (&17.into(), &true.into()));
    assert_eq!(group["hose_diameter_inches"], Value::Null);
    let said = bucketline(folder.path(), &["flow", &file]).answered("flow");
    let said = on_one_line(&said);
    let (warning, number) =
        (said.find("Beyond any tanker shuttle"), said.find("the 8,125 gpm that it works out to"));
    assert!(warning.is_some() && warning < number, "{said}");
    assert!(said.find("beyond that expect a defensive fire") < number, "{said}");
    assert!(
        said.contains("Given up to keep the fire from the buildings beside it takes 1,625 gpm"),
        "{said}"
    );
    assert!(!said.contains("2-1/2 in"), "{said}");
    // The rule is made for half involved and 1,000 gpm (National Fire Academy): here it gives no flow.
    assert!(
        said.contains("beyond the range of area / 3, the rule that was to count here"),
        "{said}"
    );
    assert!(!said.contains("the attack flow is") && !said.contains("plan for 8,125"), "{said}");
    assert_eq!(told["flow_rules"][0]["beyond_range"], true);
    assert_eq!(told["flow_rules"][1]["beyond_range"], false);
    // A small fire has none of this before its number, and three hand lines at most.
    let (folder, file) = house(|value| value["rule"] = "area".into());
    let told = json(folder.path(), &["flow", &file, "--json"]);
    assert_eq!(
        (&told["beyond_any_shuttle"], &told["exposures_only_gpm"]),
        (&false.into(), &Value::Null)
    );
    assert_eq!(told["attack_lines"]["groups"][0]["master_stream"], false);
    assert_eq!(told["flow_rules"][0]["beyond_range"], false);
    let said = on_one_line(&bucketline(folder.path(), &["flow", &file]).answered("flow"));
    assert!(said.contains("By area / 3, the rule that counts here, the attack flow is"), "{said}");
}

#[test]
fn a_ridge_that_is_not_stated_and_every_line_of_distance_are_told() {
    let (folder, file) = house(|value| {
        value["building"].as_object_mut().expect("a building").remove("ridge");
        value["rule"] = "insurance".into();
        value["building"]["exposures"] = serde_json::json!([{"distance": 35, "area": 400}]);
    });
    let said = on_one_line(&bucketline(folder.path(), &["flow", &file, "--more"]).answered("flow"));
    assert!(said.contains("`ridge` is not stated and counts as a flat roof"), "{said}");
    // The older table's lines (ISO rating schedule), and the newer one's (from memory).
    for table in [
        "(the table: 1,500 below 11 ft, 1,000 from there, 750 from 31 ft, 500 beyond 100 ft)",
        "(the table: 1,500 below 11 ft, 1,000 from there, 750 from 21 ft, 500 beyond 30 ft)",
    ] {
        assert!(said.contains(table), "{table}: {said}");
    }
    assert!(said.contains("Each rule has a line of its own"), "{said}");
    assert!(said.contains("Fire Underwriters Survey"), "{said}");
}
