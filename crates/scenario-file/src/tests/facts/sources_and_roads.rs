//! Who pumps at a source, who fills himself, and roads of several stretches: read, and refused with a cure.

use std::path::Path;

use shuttle_sim::{Brought, TimeTaken};

use crate::tests::{changed, mistakes, read_good};
use crate::{AskedChange, Asks, Gone};

/// The example with a pump that comes to the pond, in place of `ready`.
fn with_pump(pump: &str) -> String {
    changed("\"ready\": 16", &format!("\"source_pump\": {pump}"))
}

#[test]
fn an_engine_of_its_own_pumps_at_the_source() {
    let text = with_pump(r#"{"name": "Engine 12", "response": 15, "setup": 6, "turnout": 0.9}"#);
    let site = read_good(&text).plan.facts().fill_sites[0].clone();
    let pump = site.source_pump.expect("a pump");
    assert_eq!(pump.name, "Engine 12");
    assert_eq!(pump.setup, TimeTaken::Fixed(6.0));
    let call = pump.call().expect("its own vehicle");
    assert_eq!((call.requested_at, call.turnout), (0.0, 0.9));
    assert_eq!(call.response, TimeTaken::Fixed(15.0));
    assert_eq!(site.ready, TimeTaken::NONE);
}

#[test]
fn a_unit_brings_a_portable_pump() {
    let text = with_pump(r#"{"brought_by": "Aid tanker 2", "setup": 8}"#);
    let pump = read_good(&text).plan.facts().fill_sites[0].source_pump.clone().expect("a pump");
    assert_eq!((pump.name.as_str(), pump.brought), ("Pump at Quarry pond", Brought::ByTanker(2)));
}

#[test]
fn gravel_for_part_of_a_road() {
    // 1.6 miles at 40 mph and 0.8 at 16: 2.4 + 3.0 minutes.
    let road = r#""out": {"stretches": [{"miles": 1.6, "mph": 40}, {"miles": 0.8, "mph": 16}], "cv": 0.2}"#;
    let text = changed(r#""out": {"miles": 2.4, "mph": 35, "cv": 0.15}"#, road);
    let out = read_good(&text).plan.facts().fill_sites[0].out.clone();
    let TimeTaken::Lognormal { mean, cv } = out.time else { panic!("{out:?}") };
    assert!((mean - 5.4).abs() < 1e-9 && cv == 0.2, "{mean} {cv}");
    assert!((out.miles.expect("miles") - 2.4).abs() < 1e-9);
    // In kilometres, without a spread: 4 km at 60 km/h and 1 km at 20 take 4 + 3 minutes.
    let road = r#""out": {"stretches": [{"km": 4, "kmh": 60}, {"km": 1, "kmh": 20}]}"#;
    let text = changed(r#""out": {"miles": 2.4, "mph": 35, "cv": 0.15}"#, road);
    let out = read_good(&text).plan.facts().fill_sites[0].out.clone();
    let TimeTaken::Fixed(minutes) = out.time else { panic!("{out:?}") };
    assert!((minutes - 7.0).abs() < 1e-9, "{minutes}");
}

#[test]
fn a_vacuum_tanker_and_a_slow_one() {
    let text = changed(
        "\"capacity\": 1800,",
        "\"capacity\": 1800, \"vacuum\": true, \"self_fill\": 450, \"drive_factor\": 1.2,",
    );
    let text = text.replace("\"ready\": 16", "\"ready\": 16, \"self_fill\": true");
    let facts = read_good(&text).plan.facts().clone();
    let (tanker, site) = (&facts.tankers[0], &facts.fill_sites[0]);
    assert_eq!((tanker.self_fill, tanker.drive_factor), (Some(450.0), 1.2));
    assert_eq!(tanker.self_fill_at(site), Some(450.0));
    assert_eq!((facts.tankers[1].self_fill, facts.tankers[1].drive_factor), (None, 1.0));
}

#[test]
fn what_is_wrong_is_met_with_its_cure() {
    let rows = [
        (
            "\"ready\": 16",
            "\"ready\": 16, \"source_pump\": {\"response\": 9, \"setup\": 5}",
            "fill_sites[0].ready",
            "leave `ready` out",
        ),
        (
            "\"ready\": 16",
            "\"source_pump\": {\"setup\": 5}",
            "fill_sites[0].source_pump",
            "`brought_by`",
        ),
        (
            "\"ready\": 16",
            "\"source_pump\": {\"brought_by\": \"Engine 12\", \"setup\": 5}",
            "fill_sites[0].source_pump.brought_by",
            "own `response`",
        ),
        (
            "\"ready\": 16",
            "\"source_pump\": {\"name\": \"Tanker 3\", \"response\": 9, \"setup\": 5}",
            "fill_sites[0].source_pump.name",
            "",
        ),
        (
            "\"capacity\": 1800,",
            "\"capacity\": 1800, \"self_fill\": 450,",
            "tankers[0].self_fill",
            "\"vacuum\": true",
        ),
        (
            "\"capacity\": 1800,",
            "\"capacity\": 1800, \"drive_factor\": 9,",
            "tankers[0].drive_factor",
            "",
        ),
        (
            "\"out\": {\"miles\": 2.4, \"mph\": 35, \"cv\": 0.15}",
            "\"out\": {\"stretches\": [{\"miles\": 1.6}], \"cv\": 0.15}",
            "fill_sites[0].out.stretches[0].mph",
            "add",
        ),
    ];
    for (from, to, place, cure) in rows {
        let found = mistakes(&changed(from, to));
        assert_eq!(found.len(), 1, "{to}: {found:?}");
        assert_eq!(found[0].place, place, "{to}");
        assert!(found[0].cure.in_file().contains(cure), "{to}: {}", found[0].cure);
    }
}

/// The file asked about with something left out.
fn without(text: &str, name: &str) -> crate::Scenario {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.json");
    std::fs::write(&path, text).unwrap();
    let asks = Asks { without: vec![name.to_owned()], ..Asks::default() };
    crate::load_asked(Path::new(&path), &asks).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn a_source_without_its_pump_serves_nobody() {
    let never = shuttle_sim::Plan::LIMITS.minutes.1;
    let std::ops::Bound::Included(never) = never else { panic!("{never:?}") };
    let response = |scenario: &crate::Scenario| {
        let pump = scenario.plan.facts().fill_sites[0].source_pump.clone().expect("a pump");
        pump.call().expect("its own call").response.clone()
    };
    let own = with_pump(r#"{"name": "Engine 12", "response": 15, "setup": 6}"#);
    assert_eq!(response(&without(&own, "Engine 12")), TimeTaken::Fixed(never));
    // One that a unit brings stays away with it.
    let brought = with_pump(r#"{"brought_by": "Aid tanker 2", "setup": 8}"#);
    let scenario = without(&brought, "Aid tanker 2");
    assert_eq!(response(&scenario), TimeTaken::Fixed(never));
    let [AskedChange::Without { goes_too, .. }] = scenario.asked.changes.as_slice() else {
        panic!("{:?}", scenario.asked)
    };
    assert_eq!(*goes_too, [Gone::PumpAt("Quarry pond".to_owned())]);
}
