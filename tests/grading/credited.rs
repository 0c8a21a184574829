//! What is credited of what counts by hand, with whom, and what it is shown by: cases worked by hand.

use shuttle_report::conditions::shown::{Drilled, NotShown, drilled};
use shuttle_report::district::Place;
use shuttle_report::grade::Verdict;
use shuttle_report::site_sets::{Graded, HandCredit};
use shuttle_report::survey::{Aid, HeldDrill, SiteSurvey, Survey, TankerSurvey};
use shuttle_sim::Plan;

use super::best_sets::addresses;
use super::common::world::World;
use super::{LESSER, TWO_HOURS, by_rule, graded_with, roomy};
use shuttle_report::grading_rules::GradingRule;

fn credit(plan: &Plan, survey: &Survey, rule: &GradingRule) -> HandCredit {
    Graded { everyone: plan.facts(), survey, travel_rule: by_rule }.credit(&[0], rule, None)
}

/// So many of 3,000 gal: 3 minutes to fill, 3 to dump, 10 on the road: 2,700 / 16 = 168.75 gpm each.
fn fleet(world: World, count: usize) -> World {
    (1..=count).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 3_000.0, 0.0))
}

/// 200 gpm for 20 minutes and no higher flow (FSRS item 800, seen): two tankers make 337.5 and are credited with 200;
/// where a higher flow counts (ISO water supply evaluation pages, seen) with all of it.
#[test]
fn a_rule_without_a_higher_flow_credits_its_own_and_no_more() {
    let plan = fleet(roomy(), 2).plan();
    let of = |rule: &GradingRule| {
        let hand = credit(&plan, &Survey::default(), rule);
        (hand.counts_gpm, hand.credited_gpm)
    };
    assert_eq!(of(LESSER), (337.5, 200.0));
    assert_eq!(of(TWO_HOURS), (337.5, 337.5));
    // With less than its flow nothing is made up.
    let one = fleet(roomy(), 1).plan();
    assert_eq!(credit(&one, &Survey::default(), LESSER).credited_gpm, 168.75);
}

/// A higher rate must be reached within 15 minutes of the first engine's arrival, class 8B has its flow within 5 (ISO
/// water supply evaluation pages, FSRS item 800, seen): who comes later is in neither. The engine comes at once.
#[test]
fn who_comes_after_the_rules_minute_is_not_credited() {
    let with = |minute: f64| fleet(roomy(), 2).tanker("Third", 3_000.0, minute).plan();
    for (minute, rule, tankers) in [
        (15.0, TWO_HOURS, 3.0),
        (15.5, TWO_HOURS, 2.0),
        (75.0, TWO_HOURS, 2.0),
        (5.0, LESSER, 3.0),
        (5.5, LESSER, 2.0),
    ] {
        let hand = credit(&with(minute), &Survey::default(), rule);
        assert_eq!(hand.counts_gpm, tankers * 168.75, "minute {minute}, {}", rule.key);
        let late: &[&str] = if tankers < 3.0 { &["Third"] } else { &[] };
        assert_eq!(hand.late, late, "minute {minute}, {}", rule.key);
        assert_eq!(hand.tankers.len() as f64, tankers);
    }
    // Automatic aid that is asked for at minute 90 is late, too, and that it is asked for later is told.
    let plan = with(0.0);
    let mut facts = plan.facts().clone();
    facts.tankers[2].call.requested_at = 90.0;
    let aid = |aid: Aid| TankerSurvey { aid, ..TankerSurvey::default() };
    let tankers = vec![aid(Aid::Own), aid(Aid::Own), aid(Aid::Automatic)];
    let survey = Survey { tankers, ..Survey::default() };
    let hand = Graded { everyone: &facts, survey: &survey, travel_rule: by_rule }.credit(
        &[0],
        TWO_HOURS,
        None,
    );
    assert_eq!((hand.counts_gpm, hand.all_gpm), (337.5, 337.5));
    assert_eq!((hand.late.as_slice(), &hand.asked_later), (&["Third".to_owned()][..], &hand.late));
}

/// One place at the dump site and 3 minutes to dump: with 10% off every load 2,700 / 3 = 900 gpm pass, however little
/// of a load the file says is lost; the six make 6 x 168.75 = 1,012.5. A pump rated at 700 draws no more than that.
#[test]
fn the_dump_site_passes_what_is_credited_and_no_pump_more_than_its_rating() {
    let plan = fleet(roomy().first_tank(|tank| tank.dump_positions = 1), 6).plan();
    let hand = credit(&plan, &Survey::default(), TWO_HOURS);
    assert!((hand.made_gpm - 1_012.5).abs() < 1e-9, "{}", hand.made_gpm);
    assert!((hand.counts_gpm - 900.0).abs() < 1e-9, "{}", hand.counts_gpm);
    let survey = Survey { drafting_pump_gpm: Some(700.0), ..Survey::default() };
    assert!((credit(&plan, &survey, TWO_HOURS).counts_gpm - 700.0).abs() < 1e-9);
}

fn drill(flow: Option<f64>, minutes: Option<f64>, shown: Option<f64>) -> HeldDrill {
    HeldDrill {
        date: "1 May".to_owned(),
        flow_gpm: flow,
        minutes,
        water_shown_min: shown,
        source_miles: None,
        witness: None,
    }
}

/// 250 gpm within 5 minutes, unbroken for 2 hours (ISO water supply evaluation pages, seen): what held that shows it;
/// what broke off below it, or had its water at minute 9, speaks against it; what held less for two hours, or enough
/// for less than two, shows nothing.
#[test]
fn a_drill_shows_a_rule_or_speaks_against_it() {
    let held = drill(Some(260.0), Some(120.0), Some(4.5));
    let broke_off = drill(Some(180.0), Some(40.0), Some(4.0));
    let late = drill(Some(260.0), Some(120.0), Some(9.0));
    let less = drill(Some(180.0), Some(120.0), None);
    let shorter = drill(Some(260.0), Some(40.0), None);
    let silent = drill(None, None, None);
    for (drills, told) in [
        (vec![], Drilled::NotShown),
        (vec![held.clone()], Drilled::Held(0)),
        (vec![silent.clone(), broke_off.clone()], Drilled::FellShort(1)),
        (vec![late], Drilled::FellShort(0)),
        (vec![less, shorter, silent], Drilled::NotShown),
        (vec![broke_off.clone(), held], Drilled::Held(1)),
    ] {
        assert_eq!(drilled(&drills, TWO_HOURS), told, "{drills:?}");
    }
    // And so in the verdict, of a place and of an address.
    let plan = fleet(roomy(), 3).plan();
    let survey = Survey { drills: vec![broke_off], ..Survey::default() };
    let result = graded_with(&plan, &survey, TWO_HOURS, 10.0).ranked[0].results[0].clone();
    assert_eq!((result.flow, result.verdict), (Verdict::Pass, Verdict::Fail));
    let place = Place { name: "x".to_owned(), everyone: plan.facts().clone(), survey };
    let row = &addresses(&[place], std::slice::from_ref(TWO_HOURS))[0].results[0];
    assert_eq!((row.verdict, row.replications), (Verdict::Fail, 0));
}

/// What the checklist of a state bureau asks to see (seen) and the file does not state is listed, each once; with all
/// stated nothing is.
#[test]
fn what_is_not_shown_is_listed() {
    let plan = fleet(roomy(), 3).plan();
    let of = |survey: &Survey| {
        graded_with(&plan, survey, TWO_HOURS, 10.0).ranked[0].results[0].not_shown.clone()
    };
    let pond = || "Pond".to_owned();
    assert_eq!(
        of(&Survey::default()),
        [
            NotShown::Procedures,
            NotShown::Drill,
            NotShown::FlowTest(pond()),
            NotShown::OwnersAgreement(pond()),
            NotShown::Certificate(pond()),
        ]
    );
    let automatic = TankerSurvey { aid: Aid::Automatic, ..TankerSurvey::default() };
    let told = || Some("2 May".to_owned());
    let survey = Survey {
        procedures: told(),
        drills: vec![drill(Some(250.0), Some(120.0), None)],
        tankers: vec![automatic; 3],
        sites: vec![SiteSurvey {
            flow_test: told(),
            agreement: told(),
            drought_certificate: told(),
            ..SiteSurvey::default()
        }],
        ..Survey::default()
    };
    assert_eq!(of(&survey), [NotShown::Agreements]);
    assert!(of(&Survey { agreements: told(), ..survey }).is_empty());
}

/// A row of a table that states no road to any fill site says nothing: open, not failed.
#[test]
fn an_address_without_a_road_is_open() {
    let plan = fleet(roomy(), 3).plan();
    let mut everyone = plan.facts().clone();
    everyone.fill_sites.clear();
    let place = Place { name: "x".to_owned(), everyone, survey: Survey::default() };
    let row = &addresses(&[place], std::slice::from_ref(TWO_HOURS))[0].results[0];
    assert_eq!((row.verdict, row.no_road, row.fails.len()), (Verdict::NotClear, true, 0));
}
