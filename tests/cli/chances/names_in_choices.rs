//! Names with units, digits and our own words in them: each stays as it was written, in text, JSON and
//! pictures, and nothing else there is in another unit or word than the reader's.

use serde_json::{Value, json};

use super::{bucketline, folder, scenario};

const TITLE: &str = "gpm mill, 12 tankers";
const OWN: [&str; 2] = ["Stone tanker", "12"];
const AID: [&str; 2] = ["Tender 3,000 gal", "tanker of 5 gallons"];
const OPTIONS: [&str; 2] = ["tanker pump, 500 gpm", "none of the tankers"];
const SITE: &str = "gallons of tanker";

/// The metric packing shed with these names, aid to ask for and options to compare.
fn awkward(folder: &std::path::Path) -> String {
    let text = std::fs::read_to_string(scenario("orchard_metric")).expect("a scenario");
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    file["title"] = TITLE.into();
    file["fill_sites"][0]["name"] = SITE.into();
    let mut tanker = file["tankers"][0].clone();
    tanker["name"] = OWN[0].into();
    file["drop_tanks"][0]["brought_by"] = OWN[0].into();
    let named = |name: &str| {
        let mut one = tanker.clone();
        one["name"] = name.into();
        one
    };
    file["tankers"] = json!([named(OWN[0]), named(OWN[1])]);
    file["aid"] = json!([named(AID[0]), named(AID[1])]);
    let change =
        |value: u32| json!([{"op": "replace", "path": "/attack_engine/tank", "value": value}]);
    file["options"] = json!([
        {"name": OPTIONS[0], "cost": 100, "changes": change(8000)},
        {"name": OPTIONS[1], "cost": 50, "changes": change(2000)},
    ]);
    let path = folder.join("awkward.json");
    std::fs::write(&path, file.to_string()).expect("a file");
    path.display().to_string()
}

/// The text in one line, without the names.
fn rest_of(text: &str, names: &[&str]) -> String {
    let mut rest = text.split_whitespace().collect::<Vec<_>>().join(" ");
    // The longest first: one may be part of another.
    let mut names = names.to_vec();
    names.sort_by_key(|name| std::cmp::Reverse(name.len()));
    for name in names {
        rest = rest.replace(name, "");
    }
    rest
}

#[test]
fn a_name_is_never_altered_by_units_or_words() {
    let folder = folder();
    let file = awkward(folder.path());
    let all: Vec<&str> = [&[TITLE, SITE][..], &OWN, &AID, &OPTIONS].concat();
    let rows: [(&str, &[&str]); 3] = [
        ("size", &OWN),
        // Whoever is asked for, the set tried with everyone is in the table.
        ("request", &AID[..1]),
        ("compare", &OPTIONS),
    ];
    for (command, names) in rows {
        let call = [command, &file, "--runs", "600", "--tender"];
        let text = [&call[..], &["--more", "--out", "charts"]].concat();
        let text = bucketline(folder.path(), &text).answered(command);
        let json = bucketline(folder.path(), &[&call[..], &["--json"]].concat()).answered(command);
        let charts = folder.path().join("charts");
        let svg: String = (std::fs::read_dir(&charts).expect("charts"))
            .map(|entry| entry.expect("an entry").path())
            .filter(|path| path.extension().is_some_and(|ending| ending == "svg"))
            .map(|path| std::fs::read_to_string(path).expect("a chart"))
            .collect();
        std::fs::remove_dir_all(&charts).expect("the charts go");
        for (what, shown) in [("text", &text), ("JSON", &json), ("chart", &svg)] {
            for name in [&[TITLE], names].concat() {
                let line = shown.split_whitespace().collect::<Vec<_>>().join(" ");
                assert!(line.contains(name), "{command}: no {name:?} in {what}: {line}");
            }
        }
        for shown in [&text, &svg] {
            let rest = rest_of(shown, &all);
            for ours in ["tanker", " gal", "gpm"] {
                assert!(!rest.contains(ours), "{command}: {ours:?} in {rest}");
            }
        }
        // Keys are the same for all readers, but for their units.
        let value: Value = serde_json::from_str(&json).expect("JSON");
        let told = rest_of(&value["told"].to_string(), &all);
        assert!(!told.contains("tanker") && !told.contains(" gal"), "{command}: {told}");
        let keys = rest_of(&json, &all);
        assert!(!keys.contains("_gal") && !keys.contains("_gpm"), "{command}: {keys}");
    }
}
