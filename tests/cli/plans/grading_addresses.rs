//! `grade` for many addresses, from a scenario or a table, and for one of them.

use std::fs;

use serde_json::Value;

use super::grading::{json, schoolhouse};
use super::{WRONG_COMMAND, WRONG_SCENARIO, bucketline, folder, scenario};

fn addresses() -> String {
    scenario("mill_crossing_addresses")
}

/// One row an address; a road of 6.5 miles to the source is no matter under the rule in gpm, a station 5.6 miles away
/// is (ISO water supply evaluation pages, seen).
#[test]
fn addresses_are_graded_one_by_one() {
    let found = json(&["grade", &addresses(), "--runs", "2000", "--json", "--no-charts"]);
    let rows = found["addresses"].as_array().expect("rows");
    assert_eq!(rows.len(), 7);
    let row = |name: &str| {
        rows.iter().find(|row| row["name"] == name).expect("the address")["by_rule"][0].clone()
    };
    assert_eq!(row("1 School Lane")["passes"], "yes");
    let ridge = row("7 Ridge Court");
    assert_eq!(
        (&ridge["passes"], &ridge["not_met"][0]["asks_for"]),
        (&"no".into(), &"station".into())
    );
    assert_eq!(ridge["not_met"][0]["limit_mi"], 5.0);
    assert_eq!(ridge["replications"], 0, "nothing is simulated for it");
    // Nothing is stated of the station of Orchard Lane, nor of a suction point: open, not failed.
    let orchard = row("22 Orchard Lane");
    assert_eq!(orchard["passes"], "as_far_as_stated");
    let open: Vec<&Value> = (orchard["not_known"].as_array().expect("conditions").iter())
        .map(|one| &one["asks_for"])
        .collect();
    assert_eq!(open, ["station", "suction_point"]);
    // The own rule of the file is one of them.
    let rules = found["rules"].as_array().expect("rules");
    assert!(rules.iter().any(|rule| rule["grading_rule"] == "county 300"));
}

/// What passes only as far as the file says is told apart from what passes, and the same of an address in the table of all
/// and by itself. 1 School Lane states everything that the rule in gpm asks for, 22 Orchard Lane neither its station nor a
/// suction point; the file says nothing of crews' training, which class 8B asks for.
#[test]
fn an_address_by_itself_passes_as_it_does_among_all() {
    let runs = ["--runs", "2000", "--no-charts"];
    let ask = |with: &[&str]| [&["grade", &addresses()][..], with, &runs].concat().join("\n");
    let asked = |with: &[&str]| {
        let call = ask(with);
        let call: Vec<&str> = call.split('\n').collect();
        bucketline(folder().path(), &call).answered("grade")
    };
    let all: Value = serde_json::from_str(&asked(&["--json"])).expect("JSON");
    for (name, expected) in [
        ("1 School Lane", ["yes", "as_far_as_stated"]),
        ("22 Orchard Lane", ["as_far_as_stated"; 2]),
    ] {
        let row = (all["addresses"].as_array().expect("rows").iter())
            .find(|row| row["name"] == name)
            .expect("the address");
        let one: Value =
            serde_json::from_str(&asked(&["--address", name, "--json"])).expect("JSON");
        let text = asked(&["--address", name]);
        let best = text.lines().find(|line| line.starts_with("1  ")).expect("the best set");
        for (rule, expected) in expected.into_iter().enumerate() {
            assert_eq!(row["by_rule"][rule]["passes"], expected, "{name}");
            assert_eq!(one["ranked"][0]["results"][rule]["passes"], expected, "{name}");
        }
        let words = expected.map(|one| if one == "yes" { "passes" } else { "passes?" });
        let said: Vec<&str> =
            best.split_whitespace().filter(|word| word.starts_with("passes")).collect();
        assert_eq!(said[..2], words, "{best}");
    }
    // The sentence of the text is counted in the data, rule by rule.
    for (rule, counts) in all["counts_by_rule"].as_array().expect("counts").iter().enumerate() {
        let of = |passes: &str| {
            let rows = all["addresses"].as_array().expect("rows").iter();
            rows.filter(|row| row["by_rule"][rule]["passes"] == passes).count()
        };
        assert_eq!(counts["grading_rule"], all["rules"][rule]["grading_rule"]);
        assert_eq!(counts["pass_count"], of("yes"));
        assert_eq!(counts["as_far_as_stated_count"], of("as_far_as_stated"));
        assert_eq!(counts["fail_count"], of("no"));
        let open = counts["no_road_count"].as_u64().zip(counts["not_clear_count"].as_u64());
        assert_eq!(open.map(|(road, unclear)| road + unclear), Some(of("not_clear") as u64));
    }
    let text = asked(&[]);
    let first = &all["counts_by_rule"][0];
    let told = format!("{} of 7 addresses pass, {} is open", first["pass_count"], 1);
    assert_eq!(first["as_far_as_stated_count"], 1);
    assert!(text.contains(&told), "{told}\n{text}");
}

/// Names, roads and fields of addresses that are wrong are told in one go, whatever else is wrong.
#[test]
fn every_mistake_of_the_addresses_is_told_at_once() {
    let folder = folder();
    let mut wrong: Value =
        serde_json::from_str(&fs::read_to_string(addresses()).expect("a scenario")).expect("JSON");
    wrong["addresses"][1]["name"] = wrong["addresses"][0]["name"].clone();
    wrong["addresses"][2]["roads"][0]["to"] = "Nowhere".into();
    wrong["addresses"][4]["roads"][1]["to"] = wrong["addresses"][4]["roads"][0]["to"].clone();
    let refused = |wrong: &Value| {
        fs::write(folder.path().join("wrong.json"), wrong.to_string()).expect("a scenario");
        bucketline(folder.path(), &["grade", "wrong.json"]).refused(WRONG_SCENARIO, "grade")
    };
    let of_names =
        ["a second address is called", "no fill site called \"Nowhere\"", "a second road"];
    let told = |said: &str, also: &[&str]| {
        for expected in of_names.iter().chain(also) {
            assert_eq!(said.matches(expected).count(), 1, "{expected}\n{said}");
        }
        assert!(said.contains(&format!("{} mistakes", of_names.len() + also.len())), "{said}");
    };
    told(&refused(&wrong), &[]);
    // Beside what the plan has wrong, and beside what the structure has.
    wrong["tankers"][0]["fill_site"] = "Elsewhere".into();
    told(&refused(&wrong), &["no fill site called \"Elsewhere\""]);
    wrong["tankers"][0].as_object_mut().expect("a tanker").remove("fill_site");
    wrong["addresses"][3].as_object_mut().expect("an address").remove("name");
    wrong["addresses"][4]["roads"][0]["miles"] = (-3).into();
    told(&refused(&wrong), &["an address needs `name`", "-3 mi is out of range"]);
}

/// More addresses than are graded at once are refused by their number.
#[test]
fn a_table_holds_so_many_addresses_and_no_more() {
    let folder = folder();
    let rows = |count: usize| {
        let rows: String = (1..=count).map(|one| format!("{one} Ridge Road,1.5\n")).collect();
        format!("name,Mill pond\n{rows}")
    };
    fs::write(folder.path().join("many.csv"), rows(5_000)).expect("a table");
    let arguments = ["grade", &addresses(), "--addresses", "many.csv"];
    let said = bucketline(folder.path(), &arguments).refused(WRONG_SCENARIO, "grade");
    // The scenario has seven of its own: row 1 has the headings.
    for expected in [
        "many.csv",
        "row 4995: there are 5,000 addresses, with the 7 of the scenario 5,007",
        "at most 5,000 are graded at once",
        "split the table",
    ] {
        assert!(said.contains(expected), "{expected}\n{said}");
    }
}

/// What an option counts is what comes of the same file with the change written into it.
#[test]
fn options_count_the_addresses_that_more_pass() {
    let folder = folder();
    let found = json(&["grade", &addresses(), "--runs", "2000", "--json", "--no-charts"]);
    let option = (found["option_effects"].as_array().expect("options").iter())
        .find(|option| option["name"] == "dry hydrant at Nine Mile bridge")
        .expect("the option")
        .clone();
    let mut changed: Value =
        serde_json::from_str(&fs::read_to_string(addresses()).expect("a scenario")).expect("JSON");
    let site = changed["options"][0]["changes"][0]["value"].clone();
    changed["fill_sites"].as_array_mut().expect("sites").push(site);
    changed.as_object_mut().expect("an object").remove("options");
    fs::write(folder.path().join("with.json"), changed.to_string()).expect("a scenario");
    let told = ["grade", "with.json", "--runs", "2000", "--json", "--no-charts"];
    let with: Value =
        serde_json::from_str(&bucketline(folder.path(), &told).answered("grade")).expect("JSON");
    let pass = |found: &Value| -> Vec<String> {
        (found["addresses"].as_array().expect("rows").iter())
            .filter(|row| {
                let passes = &row["by_rule"][0]["passes"];
                passes == "yes" || passes == "as_far_as_stated"
            })
            .map(|row| row["name"].as_str().expect("a name").to_owned())
            .collect()
    };
    let before = pass(&found);
    let more: Vec<Value> =
        pass(&with).into_iter().filter(|name| !before.contains(name)).map(Value::from).collect();
    assert!(!more.is_empty(), "the hydrant helps somebody: {before:?}");
    assert_eq!(option["more_pass"], Value::from(more));
}

#[test]
fn addresses_come_out_for_a_spreadsheet() {
    let told = ["grade", &addresses(), "--runs", "500", "--csv"];
    let csv = bucketline(folder().path(), &told).answered("grade");
    let lines: Vec<&str> = csv.lines().collect();
    assert_eq!(lines.len(), 1 + 7, "a head, and a row an address: {csv}");
    assert!(lines[0].starts_with("address,\"station, mi\","), "{}", lines[0]);
    assert!(lines[1].starts_with("1 School Lane,"), "{}", lines[1]);
    // A file without addresses is one row.
    let told = ["grade", &schoolhouse(), "--runs", "500", "--csv"];
    let csv = bucketline(folder().path(), &told).answered("grade");
    assert_eq!(csv.lines().count(), 2, "{csv}");
}

#[test]
fn a_road_to_a_site_that_nobody_knows_is_refused_with_its_line() {
    let folder = folder();
    let text = fs::read_to_string(addresses()).expect("a scenario");
    let wrong = text.replacen(
        "{\"to\": \"Mill pond\", \"miles\": 1.4}",
        "{\"to\": \"Mil pond\", \"miles\": 1.4}",
        1,
    );
    assert_ne!(text, wrong);
    fs::write(folder.path().join("a.json"), wrong).expect("a scenario");
    let told =
        bucketline(folder.path(), &["grade", "a.json"]).refused(WRONG_SCENARIO, "addresses[0]");
    assert!(told.contains("Mil pond") && told.contains("Mill pond"), "{told}");
}

/// The same addresses from a table and from the scenario are the same to the last figure.
#[test]
fn addresses_of_a_table_are_those_of_the_scenario() {
    let folder = folder();
    let mut file: Value =
        serde_json::from_str(&fs::read_to_string(addresses()).expect("a scenario")).expect("JSON");
    let listed = file.as_object_mut().expect("an object").remove("addresses").expect("addresses");
    fs::write(folder.path().join("bare.json"), file.to_string()).expect("a scenario");
    let sites = ["Schoolhouse hydrant", "Mill pond", "River bridge", "Nine Mile bridge"];
    let mut table = format!("name,station miles,suction feet,{} miles\n", sites.join(" miles,"));
    for address in listed.as_array().expect("a list") {
        let road = |site: &&str| {
            let roads = address["roads"].as_array().expect("roads");
            let road = roads.iter().find(|road| road["to"] == **site);
            road.map_or(String::new(), |road| road["miles"].to_string())
        };
        let number = |key: &str| address.get(key).map_or(String::new(), Value::to_string);
        let roads: Vec<String> = sites.iter().map(road).collect();
        let name = address["name"].as_str().expect("a name");
        let (station, suction) = (number("station_miles"), number("suction_point"));
        table += &format!("{name},{station},{suction},{}\n", roads.join(","));
    }
    fs::write(folder.path().join("addresses.csv"), &table).expect("a table");
    let told = ["grade", "bare.json", "--addresses", "addresses.csv", "--runs", "500", "--csv"];
    let by_table = bucketline(folder.path(), &told).answered("grade");
    let told = ["grade", &addresses(), "--runs", "500", "--csv"];
    let by_file = bucketline(folder.path(), &told).answered("grade");
    assert_eq!(by_table, by_file);
    assert_eq!(by_table.lines().count(), 8);
}

/// Every mistake of a table at once, each with its row and column.
#[test]
fn a_table_of_addresses_is_refused_with_rows_and_columns() {
    let folder = folder();
    let table = "address;station;River bridge miles;Mill pond minutes;Quarry miles\n\
                 1 Ash Road;2.5;three;4;1\n1 Ash Road;900000;7 min;7:30;\n;1;1;1;\n";
    fs::write(folder.path().join("a.csv"), table).expect("a table");
    let told = ["grade", &addresses(), "--addresses", "a.csv"];
    let told = bucketline(folder.path(), &told).refused(WRONG_SCENARIO, "a.csv");
    for mistake in [
        "row 1, column 'Quarry miles': nothing is known by this heading",
        "row 2, column 'River bridge miles': \"three\" is no number",
        "row 3, column 'address': a second address is called \"1 Ash Road\"",
        "row 3, column 'station': 900000 is beyond what this column may hold, 0 to 500 miles",
        "row 3, column 'River bridge miles': \"7 min\" is not in miles",
        "row 3, column 'Mill pond minutes': \"7:30\" is no number",
        "row 4, column 'address': the address has no name",
        "'Mill pond miles'",
    ] {
        assert!(told.contains(mistake), "{mistake}: {told}");
    }
}

/// Numbers as people write them, and two spellings of one name.
#[test]
fn a_table_of_addresses_is_read_as_people_write_it() {
    let folder = folder();
    let table = |suction: &str, road: &str, second: &str| {
        format!(
            "name;station;suction feet;River bridge miles\n10 Elm Street;1.5;{suction};{road}\n{second};2;900;3\n"
        )
    };
    let graded = |file: &str, text: String| {
        fs::write(folder.path().join(file), text).expect("a table");
        let told = ["grade", &addresses(), "--addresses", file, "--runs", "200", "--csv"];
        bucketline(folder.path(), &told).answered("grade")
    };
    let plain = graded("plain.csv", table("1400", "1.5", "2 Elm Street"));
    for (suction, road) in [("1,400", "1,5"), ("1400 ft", "1.5 mi"), ("1 400 ft", "2.414016 km")] {
        assert_eq!(
            graded("a.csv", table(suction, road, "2 Elm Street")),
            plain,
            "{suction} {road}"
        );
    }
    fs::write(folder.path().join("b.csv"), table("1400", "-2", "10 elm  street")).expect("a table");
    let told = ["grade", &addresses(), "--addresses", "b.csv"];
    let told = bucketline(folder.path(), &told).refused(WRONG_SCENARIO, "b.csv");
    for mistake in [
        "\"10 elm  street\" and \"10 Elm Street\" are one name, but for capitals and spaces",
        "-2 is beyond what this column may hold, above 0 to 500 miles",
    ] {
        assert!(told.contains(mistake), "{mistake}: {told}");
    }
}

/// Who passes, what is open and what fails are counted apart: a row of which the rule's conditions are not all stated
/// does not pass.
#[test]
fn open_addresses_are_not_counted_as_passed() {
    let told = ["grade", &addresses(), "--runs", "500", "--no-charts"];
    let text = bucketline(folder().path(), &told).answered("grade");
    let one_line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "3 of 7 addresses pass, 1 is open, 3 fail: 250 gpm for 2 hours. Open: 1 for what the file does not state.",
        "0 of 7 addresses pass, 4 are open, 3 fail: class 8B",
        "only figures are graded; not shown: flow test, owner's agreement and drought certificate of three sources",
        "a road without a speed takes 0.65 + 1.70 x miles each way",
    ] {
        assert!(one_line.contains(told), "{told}: {text}");
    }
}

/// One address with all its sets, and its own sheet.
#[test]
fn one_address_has_a_sheet_of_its_own() {
    let folder = folder();
    let told =
        ["grade", &addresses(), "--address", "410 River Road", "--runs", "200", "--no-charts"];
    let told = [&told[..], &["--sheet", "sheet.txt", "--without", "Tanker 9"]].concat();
    let text = bucketline(folder.path(), &told).answered("grade");
    assert!(text.contains("410 River Road"), "{text}");
    let sheet = fs::read_to_string(folder.path().join("sheet.txt")).expect("the sheet");
    let one_line = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "410 River Road",
        "Changed from the file: without Tanker 9.",
        "station to fire, by road 4.1 mi",
        "Stony Lake tanker",
        "mutual aid",
        "claimed: the least",
        "Made on ",
    ] {
        assert!(one_line.contains(told), "{told}: {sheet}");
    }
    assert!(!one_line.contains("Schoolhouse hydrant"), "it does not serve the address: {sheet}");
    // The verdict comes before all else that is asked for.
    let place = |what: &str| one_line.find(what).expect("on the sheet");
    assert!(place("verdict") < place("station to fire"), "{sheet}");
    let told = ["grade", &addresses(), "--address", "411 River Road"];
    bucketline(folder.path(), &told).refused(WRONG_COMMAND, "410 River Road");
    let told = ["grade", &addresses(), "--sheet", "sheet.txt"];
    bucketline(folder.path(), &told).refused(WRONG_COMMAND, "--address NAME");
    let told = ["grade", &addresses(), "--sheet", "sheet.pdf"];
    bucketline(folder.path(), &told).refused(WRONG_COMMAND, ".html");
}

/// A source that dries up stands on the sheet with its name and why nothing is claimed there, and the rule is held
/// against the sources that are used.
#[test]
fn a_source_that_dries_up_is_named_and_nothing_is_claimed_there() {
    let folder = folder();
    let mut file: Value =
        serde_json::from_str(&fs::read_to_string(addresses()).expect("a scenario")).expect("JSON");
    file["fill_sites"][1]["survey"]["all_year"] = false.into();
    fs::write(folder.path().join("a.json"), file.to_string()).expect("a scenario");
    let told = ["grade", "a.json", "--address", "88 Mill Road", "--runs", "200", "--no-charts"];
    let told = [&told[..], &["--sheet", "sheet.txt"]].concat();
    bucketline(folder.path(), &told).answered("grade");
    let sheet = fs::read_to_string(folder.path().join("sheet.txt")).expect("the sheet");
    let one_line = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "every source used all year and in a 50-year drought",
        "all at Mill pond,",
        "min out connect fill disconnect back",
        "This rule does not credit the source as it is stated: nothing is claimed here.",
    ] {
        assert!(one_line.contains(told), "{told}: {sheet}");
    }
    assert!(!one_line.contains("site passes 0"), "{sheet}");
}

/// Two ratings for the same pump contradict each other.
#[test]
fn two_ratings_of_the_pump_at_the_drop_tanks_are_refused() {
    let folder = folder();
    let mut file: Value =
        serde_json::from_str(&fs::read_to_string(addresses()).expect("a scenario")).expect("JSON");
    file["grading"]["drafting_pump"] = 1500.into();
    fs::write(folder.path().join("a.json"), file.to_string()).expect("a scenario");
    let told =
        bucketline(folder.path(), &["grade", "a.json"]).refused(WRONG_SCENARIO, "drafting_pump");
    assert!(told.contains("supply.pump"), "{told}");
    file["grading"]["drafting_pump"] = 1250.into();
    fs::write(folder.path().join("a.json"), file.to_string()).expect("a scenario");
    bucketline(folder.path(), &["check", "a.json"]).answered("check");
}
