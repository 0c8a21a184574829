//! What a grading asks for: read as stated, silent as not known, and mistakes with their cures.

use shuttle_report::grading_rules::Condition;
use shuttle_report::survey::Aid;

use crate::STARTER;
use crate::tests::{mistakes, read_good};

/// All mistakes of a text, in words.
fn read_wrong(text: &str) -> String {
    mistakes(text).iter().map(|one| format!("{one:?}\n")).collect()
}

fn with(more: &str) -> String {
    let end = STARTER.rfind('}').expect("an object");
    format!("{}, {more}}}", STARTER[..end].trim_end())
}

#[test]
fn what_is_silent_is_not_known_and_tankers_are_own() {
    let survey = read_good(STARTER).survey;
    assert_eq!(survey.station_miles, None);
    assert!(survey.tankers.iter().all(|one| one.aid == Aid::Own && !one.vacuum));
    assert!(survey.rules.is_empty() && survey.addresses.is_empty() && survey.drills.is_empty());
    assert_eq!(survey.sites[0].all_year, None);
}

/// 5 km are 5 / 1.609344 miles, exactly by definition.
#[test]
fn the_station_s_distance_in_miles_or_km() {
    let station = |more: &str| read_good(&with(more)).survey.station_miles.expect("a distance");
    assert_eq!(station(r#""grading": {"station_miles": 4.5}"#), 4.5);
    let km = station(r#""grading": {"station_km": 5}"#);
    assert!((km - 5.0 / 1.609_344).abs() < 1e-9, "{km}");
    let both = r#""grading": {"station_miles": 4.5, "station_km": 5}"#;
    let told = read_wrong(&with(both));
    assert!(told.contains("station_km") && told.contains("once"), "{told}");
}

#[test]
fn aid_in_the_list_is_mutual_unless_it_says_automatic() {
    let tanker = r#"{"capacity": 2000, "response": 12"#;
    let aid =
        format!(r#""aid": [{tanker}, "name": "A"}}, {tanker}, "name": "B", "aid": "automatic"}}]"#);
    let survey = read_good(&with(&aid)).survey;
    let last = &survey.tankers[survey.tankers.len() - 2..];
    assert_eq!([last[0].aid, last[1].aid], [Aid::Mutual, Aid::Automatic]);
}

#[test]
fn a_rule_of_one_s_own_is_read_with_its_conditions() {
    let rule = r#""grading": {"rules": [{"name": "county", "flow": 300, "minutes": 60, "start_within": 8,
        "higher_within": 12, "own_apparatus": true, "station_within_miles": 7, "all_year": true}]}"#;
    let rules = read_good(&with(rule)).survey.rules;
    let rule = &rules[0];
    assert_eq!((rule.key.as_ref(), rule.minimum_gpm, rule.duration_min), ("county", 300.0, 60.0));
    assert_eq!((rule.within_min, rule.higher_within_min, rule.own_only), (8.0, Some(12.0), true));
    assert_eq!(rule.conditions.as_ref(), [Condition::StationWithin(7.0), Condition::AllYear]);
    assert_eq!(rule.edition, None, "ask the grading body");
    for (wrong, told) in [
        (r#"{"name": "class-8b", "flow": 300, "minutes": 60}"#, "second rule"),
        (r#"{"name": "a", "flow": 300, "minutes": 60, "higher_within": 4}"#, "start_within"),
        (r#"{"name": "a", "flow": 300}"#, "minutes"),
    ] {
        let wrong = with(&format!(r#""grading": {{"rules": [{wrong}]}}"#));
        let got = read_wrong(&wrong);
        assert!(got.contains(told), "{told}: {got}");
    }
}

/// RAND travel time, ISO rating schedule: 1.5 miles take 3.2 minutes; 30 mph are 2 minutes for a mile.
#[test]
fn addresses_have_roads_by_name() {
    let site = read_good(STARTER).plan.facts().fill_sites[0].name.clone();
    let address = |roads: &str| {
        with(&format!(
            r#""addresses": [{{"name": "1 Mill Road", "station_miles": 2, "roads": [{roads}]}}]"#
        ))
    };
    for (road, minutes) in [
        (r#""miles": 1.5"#, 3.2),
        (r#""miles": 1.5, "mph": 30"#, 3.0),
        (r#""km": 2.414016"#, 3.2),
        (r#""minutes": 7"#, 7.0),
    ] {
        let read = read_good(&address(&format!(r#"{{"to": "{site}", {road}}}"#)));
        let got = read.survey.addresses[0].roads[0].leg.time.mean();
        assert!((got - minutes).abs() < 1e-9, "{road}: {got}");
    }
    let unknown = read_wrong(&address(r#"{"to": "Nowhere", "miles": 1}"#));
    assert!(unknown.contains("addresses[0].roads[0].to") && unknown.contains(&site), "{unknown}");
    let twice = format!(r#"{{"to": "{site}", "miles": 1}}, {{"to": "{site}", "miles": 2}}"#);
    assert!(read_wrong(&address(&twice)).contains("second road"));
    // A site that an option adds is known.
    let option = r#", "options": [{"name": "pond", "changes": [{"op": "add", "path": "/fill_sites/-", "value":
        {"name": "New pond", "flow": 500, "out": {"miles": 1}, "back": {"miles": 1}}}]}]"#;
    let with_option = address(r#"{"to": "New pond", "miles": 1}"#);
    let end = with_option.rfind('}').expect("an object");
    read_good(&format!("{}{option}}}", with_option[..end].trim_end()));
}

/// What is put in an unlikely way is refused with the form that is meant.
#[test]
fn roads_by_keys_and_engines_as_aid_are_led_to_what_is_meant() {
    let by_keys = with(r#""addresses": [{"name": "1 Mill Road", "roads": {"Mill pond": 2.0}}]"#);
    let told = read_wrong(&by_keys);
    assert!(told.contains("\\\"to\\\"") && !told.contains("square brackets, also"), "{told}");
    let engine =
        with(r#""aid": [{"name": "Engine 7", "tank": 1000, "capacity": 1000, "response": 12}]"#);
    let told = read_wrong(&engine);
    assert!(told.contains("only those that haul"), "{told}");
    let rating = r#""grading": {"witness": "County engineer"}"#;
    assert!(read_wrong(&with(rating)).contains("flow_test_witness"));
}
