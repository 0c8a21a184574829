//! Sound scenarios: what is stated is read, what is not takes its default.

use shuttle_sim::{
    Brought, Call, DraftLimitReason, DumpCurve, Failure, FillOrder, LowWater, Near, PlanDraft,
    TimeTaken, WholeFire,
};

use crate::tests::{EXAMPLE, changed, read_good};
use crate::{STARTER, Units, load};

fn facts(text: &str) -> PlanDraft {
    read_good(text).plan.facts().clone()
}

fn near(got: f64, expected: f64, within: f64, source: &str) {
    assert!((got - expected).abs() <= within, "{got}, {source} gives {expected}");
}

#[test]
fn the_example_arrives_as_it_is_stated() {
    let scenario = read_good(EXAMPLE);
    assert_eq!(scenario.units, Units::Us);
    let plan = scenario.plan.facts();
    assert_eq!(plan.title, "Hay barn, Quarry Lane");
    let steps: Vec<(f64, f64)> =
        (plan.incident.attack_flow.iter()).map(|step| (step.from, step.flow)).collect();
    assert_eq!(steps, [(0.0, 180.0), (6.0, 500.0)]);
    assert_eq!(plan.incident.reserve, 500.0);
    assert_eq!(plan.attack_engine.water_on, TimeTaken::Fixed(1.5));
    let engine = plan.supply.engine.as_ref().unwrap();
    assert_eq!((engine.name.as_str(), &engine.setup), ("Engine 8", &TimeTaken::Fixed(5.0)));
    assert_eq!(plan.supply.draft_limits[0].reason, DraftLimitReason::Stated);
    assert_eq!(plan.supply.draft_limit(), 1000.0);
    assert_eq!(plan.drop_tanks[0].brought, Brought::ByTanker(0));
    let names: Vec<(&str, usize)> =
        (plan.tankers.iter()).map(|tanker| (tanker.name.as_str(), tanker.listed)).collect();
    assert_eq!(names, [("Tanker 3", 0), ("Aid tanker 1", 1), ("Aid tanker 2", 1)]);
    let aid = &plan.tankers[2];
    assert_eq!(aid.call.requested_at, 4.0);
    assert_eq!(aid.call.response, TimeTaken::Lognormal { mean: 18.0, cv: 0.2 });
    assert_eq!(aid.fill_site, Some(0));
    assert_eq!(plan.fill_sites[0].volume, None);
    // 2.4 miles at 35 mph, arithmetic.
    let out = &plan.fill_sites[0].out;
    assert_eq!(out.time, TimeTaken::Lognormal { mean: 60.0 / 35.0 * 2.4, cv: 0.15 });
    assert_eq!(out.miles, Some(2.4));
    assert_eq!(plan.tankers[0].handling.dump_clear, TimeTaken::Fixed(0.2));
}

#[test]
fn the_example_has_one_remark_its_drop_tank_is_smaller_than_the_aid_tankers_load() {
    let warnings = read_good(EXAMPLE).warnings;
    let places: Vec<&str> = warnings.iter().map(|w| w.place.as_str()).collect();
    assert_eq!(places, ["drop_tanks[0].capacity"]);
    assert_eq!((warnings[0].line, warnings[0].column), (7, 31));
}

#[test]
fn the_starter_reads_without_a_remark() {
    let scenario = read_good(STARTER);
    assert_eq!(scenario.warnings, []);
    assert!(scenario.notes.len() > 1);
}

/// The least that a scenario must say.
const LEAST: &str = r#"{"title": "Least", "incident": {"duration": 60, "attack_flow": 150},
    "attack_engine": {"tank": 1000, "response": 5}, "tankers": [{"capacity": 2000, "response": 9}],
    "fill_sites": [{"flow": 500, "out": {"minutes": 4}, "back": {"minutes": 5}}]}"#;

#[test]
fn silence_takes_the_models_defaults() {
    let plan = facts(LEAST);
    assert_eq!(plan.incident.tolerance, 0.1);
    assert_eq!(plan.incident.reserve, 0.0);
    assert_eq!(plan.attack_engine.name, "Attack engine");
    assert_eq!(plan.attack_engine.intakes, 1);
    assert_eq!(plan.attack_engine.tank_refill, 500.0);
    assert_eq!(plan.attack_engine.call.requested_at, 0.0);
    assert!(plan.supply.nurse && plan.supply.engine.is_none());
    assert!(plan.supply.draft_limits.is_empty() && plan.supply.restart_level.is_none());
    assert_eq!(plan.supply.low_water, LowWater::Throttle);
    let tanker = &plan.tankers[0];
    assert_eq!(tanker.name, "Tanker 1");
    assert_eq!((tanker.dump_rate, tanker.pump_off, tanker.fill_limit), (1000.0, 500.0, None));
    assert_eq!((tanker.waste, tanker.residual, tanker.breakdown_per_trip), (0.1, 0.0, 0.0));
    assert_eq!((tanker.dump_curve, &tanker.repair), (DumpCurve::Steady, &None));
    let site = &plan.fill_sites[0];
    assert_eq!(site.name, "Fill site 1");
    assert_eq!((site.positions, &site.ready), (1, &TimeTaken::NONE));
    assert_eq!((site.fill_order, site.volume, site.recharge), (FillOrder::OneByOne, None, 0.0));
    assert!(plan.one_lanes.is_empty());
}

#[test]
fn what_a_whole_fire_shares_is_read_where_it_stands() {
    let text = changed(
        "\"units\": \"us\",",
        "\"units\": \"us\", \"whole_fire\": {\"driving_cv\": 0.15, \"response_cv\": 0.2},",
    )
    .replace("\"setup\": 5}", "\"setup\": 5, \"turnout\": \"90%\"}")
    .replace(
        "\"reprime\": 1.5",
        "\"reprime\": 1.5, \"failure\": {\"chance\": 0.02, \"repair\": 15}",
    )
    .replace("\"waste\": 0.05", "\"crew_cv\": 0.1")
    .replace("\"count\": 2", "\"count\": 2, \"turnout\": 0.9")
    .replace("\"brought_by\": \"Tanker 3\"", "\"response\": 4, \"turnout\": 0.8")
    .replace("\"ready\": 16", "\"ready\": 16, \"failure\": {\"chance\": 0.1}");
    let plan = facts(&text);
    let fire = WholeFire { driving_cv: 0.15, handling_cv: 0.0, response_cv: 0.2 };
    assert_eq!(plan.whole_fire, fire);
    assert_eq!(plan.supply.engine.unwrap().call.turnout, 0.9);
    let repair = Some(TimeTaken::Fixed(15.0));
    assert_eq!(plan.supply.failure, Some(Failure { chance: 0.02, repair }));
    assert_eq!(plan.fill_sites[0].failure, Some(Failure { chance: 0.1, repair: None }));
    let tankers: Vec<(f64, f64)> =
        plan.tankers.iter().map(|tanker| (tanker.crew_cv, tanker.call.turnout)).collect();
    assert_eq!(tankers, [(0.1, 1.0), (0.0, 0.9), (0.0, 0.9)]);
    let own = Call { requested_at: 0.0, response: TimeTaken::Fixed(4.0), turnout: 0.8 };
    assert_eq!(plan.drop_tanks[0].brought, Brought::Itself(own));
}

#[test]
fn silent_on_what_a_whole_fire_shares_everybody_comes_and_nothing_fails() {
    let plan = facts(EXAMPLE);
    assert_eq!(plan.whole_fire, WholeFire::default());
    assert_eq!(plan.attack_engine.call.turnout, 1.0);
    assert_eq!(plan.supply.engine.unwrap().call.turnout, 1.0);
    assert_eq!((&plan.supply.failure, &plan.fill_sites[0].failure), (&None, &None));
    assert!(plan.tankers.iter().all(|tanker| tanker.call.turnout == 1.0 && tanker.crew_cv == 0.0));
}

#[test]
fn silence_means_that_tankers_may_nurse() {
    let text = changed("\"nurse\": true, ", "");
    assert!(facts(&text).supply.nurse);
}

#[test]
fn what_counts_as_nothing_is_told_with_what_is_usual() {
    let warnings = read_good(LEAST).warnings;
    let places: Vec<&str> = warnings.iter().map(|w| w.place.as_str()).collect();
    // No warning about dumping or priming, which cannot happen here.
    assert_eq!(places, ["handling", "title", "incident.reserve", "attack_engine.water_on"]);
    assert!(warnings[0].text.in_file().contains("`nurse_connect` (0.5 to 1 min)"));
    assert!(!warnings[0].text.in_file().contains("dump_clear"));
    let text = changed(", \"water_on\": 1.5", "")
        .replace(", \"setup\": 5}", "}")
        .replace("\"unusable\": 200, ", "")
        .replace(", \"reprime\": 1.5", ", \"low_water\": \"lose_prime\"")
        .replace("\"dump_clear\": 0.2,", "");
    let texts: Vec<String> = (read_good(&text).warnings.iter()).map(|w| w.to_string()).collect();
    for wanted in ["water_on", "supply.engine.setup", "unusable", "reprime", "dump_clear"] {
        assert!(texts.iter().any(|text| text.contains(wanted)), "{wanted}: {texts:?}");
    }
}

#[test]
fn a_silent_transfer_is_told_from_the_second_drop_tank_on() {
    let tank = r#"{"capacity": 2500, "unusable": 200, "brought_by": "Engine 3", "setup": 3}"#;
    let text = changed("\"drop_tanks\": [", &format!("\"drop_tanks\": [{tank}, {tank}, "));
    let warnings = read_good(&text).warnings;
    let transfer = warnings.iter().filter(|w| w.place.ends_with(".transfer"));
    assert_eq!(transfer.map(|w| w.place.as_str()).collect::<Vec<_>>(), ["drop_tanks[1].transfer"]);
}

#[test]
fn every_shape_of_duration_is_read() {
    let rows = [
        ("7", TimeTaken::Fixed(7.0)),
        ("\"90 s\"", TimeTaken::Fixed(1.5)),
        ("{\"mean\": 7, \"cv\": 0.2}", TimeTaken::Lognormal { mean: 7.0, cv: 0.2 }),
        (
            "{\"mean\": \"0.5 h\", \"shape\": \"exponential\"}",
            TimeTaken::Exponential { mean: 30.0 },
        ),
        (
            "{\"low\": 1, \"likely\": 2, \"high\": 4}",
            TimeTaken::Triangular { low: 1.0, likely: 2.0, high: 4.0 },
        ),
        ("{\"low\": 1, \"high\": 4}", TimeTaken::Uniform { low: 1.0, high: 4.0 }),
        ("{\"samples\": [1, \"30 s\", 2]}", TimeTaken::Samples(vec![1.0, 0.5, 2.0])),
    ];
    for (written, expected) in rows {
        let text = changed("\"ready\": 16", &format!("\"ready\": {written}"));
        assert_eq!(facts(&text).fill_sites[0].ready, expected, "{written}");
    }
}

#[test]
fn a_tankers_own_handling_wins_key_by_key() {
    let own = "\"pump_off\": 450, \"handling\": {\"fill_connect\": 9}";
    let plan = facts(&changed("\"pump_off\": 450", own));
    assert_eq!(plan.tankers[0].handling.fill_connect, TimeTaken::Fixed(9.0));
    assert_eq!(plan.tankers[0].handling.nurse_connect, TimeTaken::Fixed(1.0));
    assert_eq!(plan.tankers[1].handling.fill_connect, TimeTaken::Lognormal { mean: 1.2, cv: 0.3 });
}

#[test]
fn a_group_of_one_is_numbered_like_any_group() {
    // So that asking for a second one leaves the random numbers of the first untouched.
    let plan = facts(&changed("\"count\": 2", "\"count\": 1"));
    assert_eq!(plan.tankers[1].name, "Aid tanker 1");
}

#[test]
fn names_lead_to_units_and_sites() {
    let rows = [
        ("Engine 3", Brought::ByAttackEngine),
        ("Engine 8", Brought::BySupplyEngine),
        ("Aid tanker 2", Brought::ByTanker(2)),
    ];
    for (name, expected) in rows {
        let text = changed("\"brought_by\": \"Tanker 3\"", &format!("\"brought_by\": \"{name}\""));
        assert_eq!(facts(&text).drop_tanks[0].brought, expected);
    }
    let lanes = "\"one_lane\": [{\"near\": \"Quarry pond\", \"crossing\": 1}, {\"near\": \"scene\", \"crossing\": 2}], \"handling\"";
    let lanes = facts(&changed("\"handling\"", lanes)).one_lanes;
    assert_eq!(lanes[0].near, Near::FillSite(0));
    assert_eq!((lanes[1].near, &lanes[1].crossing), (Near::Scene, &TimeTaken::Fixed(2.0)));
    let only = facts(&changed(
        "\"handling\"",
        "\"one_lane\": {\"near\": \"scene\", \"crossing\": 2}, \"handling\"",
    ));
    assert_eq!(only.one_lanes.len(), 1);
}

#[test]
fn flows_come_from_the_facts_behind_them() {
    let rows = [
        (
            r#"{"hydrant": {"static": 90, "residual": 58, "flow": 1025}}"#,
            1564.0,
            "NFPA 291 (value from memory)",
        ),
        (r#"{"hydrant": {"pitot": 10, "outlet": 2.5}}"#, 531.0, "NFPA 291, 29.83 c d^2 sqrt(p)"),
        (
            r#"{"hydrant": {"pitot": 25, "outlet": "2.5 in", "coefficient": 0.9}}"#,
            839.0,
            "NFPA 291, 29.83 c d^2 sqrt(p)",
        ),
        (r#"{"pump": {"rated": 1000, "lift": 20}}"#, 590.0, "NWCG; trade article"),
        (
            r#"{"pump": {"rated": "1000 gpm", "lift": 8, "altitude": 2000}}"#,
            1000.0,
            "10 ft, altitude 1 ft per 1,000 ft",
        ),
    ];
    for (written, expected, source) in rows {
        let scenario = read_good(&changed("\"flow\": 900", &format!("\"flow\": {written}")));
        near(scenario.plan.facts().fill_sites[0].flow, expected, 0.5, source);
        let derived = scenario.derived.iter().find(|d| d.place.starts_with("fill_sites[0].flow"));
        assert!(derived.is_some_and(|d| d.how.to_string().contains("gpm")), "{written}");
    }
}

#[test]
fn the_draft_is_limited_by_all_that_is_stated_of_it() {
    let facts_text = "\"draft_limit\": 1000, \"pump\": {\"rated\": 1000, \"lift\": 20}, \
        \"lay\": {\"diameter\": 5, \"length\": 1000, \"pump_pressure\": 100, \"dry\": true}";
    let supply = facts(&changed("\"draft_limit\": 1000", facts_text)).supply;
    let limits: Vec<DraftLimitReason> = supply.draft_limits.iter().map(|l| l.reason).collect();
    assert_eq!(
        limits,
        [DraftLimitReason::Stated, DraftLimitReason::PumpAtLift, DraftLimitReason::Lay]
    );
    near(supply.draft_limits[1].flow, 590.0, 1e-9, "NWCG; trade article");
    // 5 in hose at 1,000 gpm loses 80 psi in 1,000 ft (pump operator texts): from 100 psi that
    // leaves the 20 psi wanted at the intake.
    near(supply.draft_limits[2].flow, 1000.0, 1e-6, "pump operator texts");
    near(supply.lay_volume, 1020.0, 0.5, "1,000 ft of 5 in swallows 1,020 gal, pi r^2 h");
}

#[test]
fn a_measured_friction_coefficient_takes_the_place_of_the_usual_one() {
    // A quarter of the friction lets twice the flow through: C (gpm/100)^2 (ft/100).
    let lay = |coefficient: &str| {
        let lay = format!(
            "\"draft_limit\": 1000, \"lay\": {{\"diameter\": 5, \"length\": 1000, \"pump_pressure\": 100{coefficient}}}"
        );
        facts(&changed("\"draft_limit\": 1000", &lay)).supply.draft_limits[1].flow
    };
    near(lay(", \"coefficient\": 0.02"), 2.0 * lay(""), 1e-6, "pump operator texts");
}

#[test]
fn without_a_speed_the_road_takes_the_rule() {
    // RAND travel time, ISO rating schedule: 1.5 mi 3.2 min, 2.5 mi 4.9 min, to a tenth.
    for (miles, minutes) in [(1.5, 3.2), (2.5, 4.9)] {
        let text = changed("\"miles\": 2.4, \"mph\": 35", &format!("\"miles\": {miles}"));
        let out = facts(&text).fill_sites[0].out.time.mean();
        near(out, minutes, 0.05, "ISO rating schedule");
    }
}

#[test]
fn legs_in_km_and_in_minutes_are_taken_in_a_us_file() {
    let text = changed(
        "\"out\": {\"miles\": 2.4, \"mph\": 35, \"cv\": 0.15}",
        "\"out\": {\"km\": 8, \"kmh\": 40}",
    )
    .replace(
        "\"back\": {\"miles\": 2.4, \"mph\": 30, \"cv\": 0.15}",
        "\"back\": {\"minutes\": {\"low\": 9, \"high\": 11}}",
    );
    let site = &facts(&text).fill_sites[0];
    near(site.out.time.mean(), 12.0, 1e-9, "arithmetic: 8 km at 40 km/h");
    assert_eq!(site.back.time, TimeTaken::Uniform { low: 9.0, high: 11.0 });
    assert_eq!(site.back.miles, None);
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_do_no_harm() {
    let text = format!("\u{feff}{}", EXAMPLE.replace('\n', "\r\n"));
    assert_eq!(facts(&text), facts(EXAMPLE));
}

#[test]
fn a_file_reads_like_its_text() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.json");
    std::fs::write(&path, EXAMPLE).unwrap();
    let scenario = load(&path).unwrap();
    assert_eq!(scenario.plan, read_good(EXAMPLE).plan);
    assert_eq!(scenario.path, path);
}
