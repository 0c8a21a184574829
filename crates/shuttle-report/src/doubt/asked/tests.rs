use shuttle_sim::{FlowStep, PlanDraft, TimeTaken, Unsure};
use statrs::distribution::{ContinuousCDF, Normal};

use super::*;
use crate::chart::demo::{checked, draft};

/// One tanker nurses, and the lines run short if and only if its response takes 14.6 minutes or more: first water at
/// 10.5, 1,250 gal at 250 gpm last 5 minutes, it connects for 1, and 0.1 short counts.
const LATE: f64 = 14.6;

fn one_tanker(mean: f64) -> PlanDraft {
    let mut draft = draft(1, 8.0, 0);
    draft.incident.attack_flow = vec![FlowStep { from: 0.0, flow: 250.0 }];
    draft.tankers[0].call.response = TimeTaken::Lognormal { mean, cv: 0.15 };
    draft.unsure = vec![
        Unsure {
            of: Owner::Tankers { name: "Tamarack Tanker 1".to_owned(), listed: 0 },
            parts: vec![PlanPart::Response],
            rests_on: RestsOn::Readings(8),
        },
        Unsure {
            of: Owner::FillSite("Quarry pond".to_owned()),
            parts: vec![PlanPart::Flow],
            rests_on: RestsOn::Guess(1.5),
        },
    ];
    draft
}

fn asked(plan: &Plan, changes: &[&Plan], threads: usize) -> Option<Doubt> {
    doubt(plan, changes, 20_000, SameLuck { seed: 5, threads }, &Control::default())
}

/// The chance that a response takes 14.6 minutes or more.
fn late(response: &TimeTaken) -> f64 {
    let TimeTaken::Lognormal { mean, cv } = response else { panic!("{response:?}") };
    let variance = (cv * cv).ln_1p();
    Normal::standard().sf((LATE.ln() - mean.ln() + 0.5 * variance) / variance.sqrt())
}

#[test]
fn the_range_is_that_of_the_exact_chances_under_the_same_draws() {
    let plan = checked(one_tanker(13.0));
    let draws = OuterDraws::of(&plan, 5, DRAWS).expect("two inputs in doubt");
    let mut exact: Vec<f64> = (0..DRAWS)
        .map(|draw| late(&draws.plan(&plan, draw).facts().tankers[0].call.response))
        .collect();
    exact.sort_by(f64::total_cmp);
    let mean = exact.iter().sum::<f64>() / DRAWS as f64;
    let [low, high] = [0.1, 0.9].map(|q| super::super::range::quantile(&exact, q));
    let found = asked(&plan, &[], 2).expect("two inputs in doubt");
    println!("{:?}, exact {low:.3} to {high:.3}, mean {mean:.3}", found.range);
    assert!(high - low > 0.1, "the readings leave much open: {low} to {high}");
    // The mean stands on 32,768 fires; an end on the noise of 128 in the few draws around it.
    assert!((found.range.mean - mean).abs() < 0.011, "{:?}, exact {mean}", found.range);
    assert!((found.range.low - low).abs() < 0.03, "{:?}, exact {low}", found.range);
    assert!((found.range.high - high).abs() < 0.03, "{:?}, exact {high}", found.range);
    // All of it comes from the response, and that is what to time.
    assert!(found.inputs[0].share > 0.85 && found.inputs[1].share < 0.05, "{:?}", found.inputs);
    assert_eq!(found.worth_timing.first().map(|worth| worth.input), Some(0));
    assert!(found.misses(low) > 0.85 && found.misses(high) < 0.15);
}

#[test]
fn a_change_meets_the_same_inputs_and_the_same_fires() {
    let plan = checked(one_tanker(13.0));
    let (quicker, same) = (checked(one_tanker(11.0)), plan.clone());
    let mut other = one_tanker(13.0);
    other.incident.reserve = 200.0;
    let found = asked(&plan, &[&quicker, &same, &checked(other)], 2).expect("in doubt");
    let [quicker, same, other] = found.changes[..] else { panic!("{:?}", found.changes) };
    assert!(quicker.higher_by.high < -0.02 && quicker.does_not_help < 0.1, "{quicker:?}");
    // What moves no water changes no fire.
    for nothing in [same, other] {
        assert_eq!((nothing.higher_by.low, nothing.higher_by.high), (0.0, 0.0));
        assert_eq!(nothing.does_not_help, 1.0);
    }
}

#[test]
fn the_range_is_the_same_on_any_number_of_threads() {
    let plan = checked(one_tanker(13.0));
    let [one, four] = [1, 4].map(|threads| asked(&plan, &[], threads).expect("in doubt").range);
    assert_eq!(one, four);
}

#[test]
fn a_plan_that_takes_everything_as_known_has_no_range() {
    let mut known = one_tanker(13.0);
    known.unsure.clear();
    assert!(asked(&checked(known), &[], 1).is_none());
    // Nor has one whose doubtful unit stays away.
    let mut away = one_tanker(13.0);
    away.unsure.truncate(1);
    away.tankers[0].listed = 3;
    assert!(asked(&checked(away), &[], 1).is_none());
}

#[test]
fn an_input_is_off_by_the_same_whatever_else_is_in_doubt() {
    let both = checked(one_tanker(13.0));
    let mut alone = one_tanker(13.0);
    alone.unsure.remove(1);
    let alone = checked(alone);
    let response = |plan: &Plan, draw| {
        let draws = OuterDraws::of(plan, 5, DRAWS).expect("in doubt");
        draws.plan(plan, draw).facts().tankers[0].call.response.clone()
    };
    assert_eq!(response(&both, 17), response(&alone, 17));
    assert_ne!(response(&both, 17), response(&both, 18));
}
