//! What rules ask for beyond the flow: met, not met, or not known to the scenario.

use shuttle_report::conditions::State;
use shuttle_report::grade::Verdict;
use shuttle_report::grading_rules::{Condition, GradingRule, RULES};
use shuttle_report::survey::{HeldDrill, Survey};
use shuttle_sim::Plan;

use super::{TWO_HOURS, graded_with, leg, roomy};

fn six_at(miles: f64) -> Plan {
    let world = roomy().pond(|site| (site.out, site.back) = (leg(miles, 0.0), leg(miles, 0.0)));
    (1..=6).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 3_000.0, 0.0)).plan()
}

/// The scene within 5 road miles of a station; from the fire to the source there is no such limit (ISO water supply
/// evaluation pages, seen). Where the station's distance is not stated it stays open.
#[test]
fn five_road_miles_are_held_against_the_station_and_not_the_source() {
    let with = |station_miles: Option<f64>, source_miles: f64| {
        let survey = Survey { station_miles, ..Survey::default() };
        let answer = graded_with(&six_at(source_miles), &survey, TWO_HOURS, 10.0);
        let result = answer.ranked[0].results[0].clone();
        let (_, state) = (result.conditions.iter())
            .find(|(condition, _)| matches!(condition, Condition::StationWithin(5.0)))
            .expect("the condition");
        (result.verdict, *state, result.held_gpm >= Some(250.0))
    };
    assert_eq!(with(Some(5.0), 1.0), (Verdict::Pass, State::Met, true));
    assert_eq!(with(Some(5.1), 1.0), (Verdict::Fail, State::NotMet, true));
    assert_eq!(with(None, 1.0), (Verdict::Pass, State::NotKnown, true));
    assert_eq!(with(Some(2.0), 5.4), (Verdict::Pass, State::Met, true), "a far source");
}

/// Source within 5 km, fire within 8 or 5 km of the station (municipal notices of the Canadian accreditation, seen).
#[test]
fn the_canadian_rules_keep_their_limit_to_the_source() {
    let km = |km: f64| km / 1.609_344;
    for (key, station) in [("canada-dwelling", 8.0), ("canada-commercial", 5.0)] {
        let rule = GradingRule::named(key).expect("the rule");
        let with = |station_km: f64, source_km: f64| {
            let survey = Survey { station_miles: Some(km(station_km)), ..Survey::default() };
            let answer = graded_with(&six_at(km(source_km)), &survey, rule, 10.0);
            answer.ranked[0].results[0].verdict
        };
        assert_eq!(with(station, 5.0), Verdict::Pass, "{key}");
        assert_eq!(with(station, 5.1), Verdict::Fail, "{key}: the source is too far");
        assert_eq!(with(station + 0.1, 5.0), Verdict::Fail, "{key}: the station is too far");
    }
}

/// Within 1,000 ft of a suction point, or large hose by a procedure that is shown (same pages, seen).
#[test]
fn a_suction_point_farther_off_stays_open_until_hose_is_shown_or_not() {
    let with = |suction_point_ft: f64, large_hose_shown: Option<bool>| {
        let survey = Survey {
            suction_point_ft: Some(suction_point_ft),
            large_hose_shown,
            ..Survey::default()
        };
        graded_with(&six_at(1.0), &survey, TWO_HOURS, 10.0).ranked[0].results[0].verdict_and_state()
    };
    assert_eq!(with(1_000.0, None), (Verdict::Pass, State::Met));
    assert_eq!(with(1_001.0, None), (Verdict::Pass, State::NotKnown));
    assert_eq!(with(1_001.0, Some(true)), (Verdict::Pass, State::Met));
    assert_eq!(with(1_001.0, Some(false)), (Verdict::Fail, State::NotMet));
}

trait VerdictAndState {
    fn verdict_and_state(&self) -> (Verdict, State);
}

impl VerdictAndState for shuttle_report::grade::RuleResult {
    fn verdict_and_state(&self) -> (Verdict, State) {
        let (_, state) = (self.conditions.iter())
            .find(|(condition, _)| matches!(condition, Condition::SuctionPointWithin(_)))
            .expect("the condition");
        (self.verdict, *state)
    }
}

/// Class 8B: the scene within five road miles of a station, as for every hauled supply (common practice); average 6 firefighters, 24 h of structural training each a year, a pump of 250 gpm at 150 psi, 85% of
/// buildings in reach, 20% of the credit, alarm credit 5 or more (FSRS item 800, seen, the 85% clause cut off).
#[test]
fn class_8b_has_all_its_conditions() {
    let rule = GradingRule::named("class-8b").expect("the rule");
    assert_eq!((rule.minimum_gpm, rule.duration_min, rule.within_min), (200.0, 20.0, 5.0));
    let full = Survey {
        station_miles: Some(5.0),
        first_engine_pump_gpm: Some(250.0),
        firefighters: Some(6.0),
        training_hours: Some(24.0),
        buildings_in_reach: Some(0.85),
        credit_share: Some(0.20),
        alarm_credit: Some(5.0),
        ..Survey::default()
    };
    let states = |survey: &Survey| {
        let result = graded_with(&six_at(1.0), survey, rule, 10.0).ranked[0].results[0].clone();
        (result.verdict, result.conditions.iter().map(|(_, state)| *state).collect::<Vec<_>>())
    };
    assert_eq!(states(&full), (Verdict::Pass, vec![State::Met; 7]));
    assert_eq!(states(&Survey::default()), (Verdict::Pass, vec![State::NotKnown; 7]));
    let short: [fn(&mut Survey); 7] = [
        |survey| survey.station_miles = Some(9.0),
        |survey| survey.first_engine_pump_gpm = Some(249.0),
        |survey| survey.firefighters = Some(5.9),
        |survey| survey.training_hours = Some(23.0),
        |survey| survey.buildings_in_reach = Some(0.84),
        |survey| survey.credit_share = Some(0.19),
        |survey| survey.alarm_credit = Some(4.9),
    ];
    for (place, short) in short.into_iter().enumerate() {
        let mut survey = full.clone();
        short(&mut survey);
        let (verdict, states) = states(&survey);
        assert_eq!((verdict, states[place]), (Verdict::Fail, State::NotMet), "condition {place}");
        assert_eq!(states.iter().filter(|state| **state == State::Met).count(), 6);
    }
}

/// 250 gpm for 30 minutes unbroken with own apparatus, water shown within 5 minutes of the brake set (a state's local
/// handbook, seen).
#[test]
fn the_rule_of_own_apparatus_asks_for_water_shown_in_five_minutes() {
    let rule = GradingRule::named("own-30min").expect("the rule");
    assert!(rule.own_only && rule.minimum_gpm == 250.0 && rule.duration_min == 30.0);
    let with = |water_shown_min: Option<f64>| {
        let survey = Survey { water_shown_min, ..Survey::default() };
        graded_with(&six_at(1.0), &survey, rule, 10.0).ranked[0].results[0].verdict
    };
    assert_eq!(with(None), Verdict::Pass);
    assert_eq!(with(Some(5.0)), Verdict::Pass);
    assert_eq!(with(Some(5.5)), Verdict::Fail);
}

/// Renewed every 5 years, the test run at 5 km or more (municipal notices, seen).
#[test]
fn the_canadian_accreditation_is_renewed_and_tested_far_enough() {
    let rule = &RULES[3];
    let with = |renewed_years: Option<f64>, source_miles: Option<f64>| {
        let drill = |source_miles| HeldDrill {
            date: "2 May".to_owned(),
            flow_gpm: None,
            minutes: None,
            water_shown_min: None,
            source_miles: Some(source_miles),
            witness: None,
        };
        let drills = source_miles.map(drill).into_iter().collect();
        let survey = Survey { renewed_years, drills, ..Survey::default() };
        graded_with(&six_at(1.0), &survey, rule, 10.0).ranked[0].results[0].verdict
    };
    assert_eq!(with(None, None), Verdict::Pass);
    assert_eq!(with(Some(5.0), Some(5.0 / 1.609_344)), Verdict::Pass);
    assert_eq!(with(Some(6.0), None), Verdict::Fail);
    assert_eq!(with(None, Some(2.0)), Verdict::Fail);
}
