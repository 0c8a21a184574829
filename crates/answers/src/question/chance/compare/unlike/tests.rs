use std::path::Path;

use scenario_file::{STARTER, read};

use super::*;
use crate::Reader;

/// The starter's plan with these steps (minute, gpm) and this duration, minutes.
fn asking(steps: &[(f64, f64)], minutes: f64) -> Plan {
    let scenario = read(Path::new("starter.json"), STARTER).unwrap();
    let mut facts = scenario.plan.facts().clone();
    facts.incident.attack_flow =
        steps.iter().map(|(from, flow)| FlowStep { from: *from, flow: *flow }).collect();
    facts.incident.duration = minutes;
    Plan::check(facts).unwrap()
}

fn said(plans: &[&Plan], units: Units) -> Option<String> {
    let reader = Reader { units, tender: false };
    unlike_fires(plans, units).map(|unlike| reader.put(&unlike.words()))
}

#[test]
fn another_flow_or_duration_is_told_and_the_same_is_not() {
    let two_hours = |gpm| asking(&[(0.0, gpm)], 120.0);
    // Which plans, in which units, what is said within brackets.
    let rows = [
        (vec![two_hours(400.0), two_hours(400.2)], Units::Us, None),
        (vec![two_hours(400.0), two_hours(500.0)], Units::Us, Some("flows (400 and 500 gpm)")),
        (
            vec![two_hours(400.0), two_hours(500.0), two_hours(400.0), two_hours(300.0)],
            Units::Us,
            Some("flows (400, 500 and 300 gpm)"),
        ),
        // 400 and 500 gpm are 1,514.2 and 1,892.7 L/min.
        (
            vec![two_hours(400.0), two_hours(500.0)],
            Units::Metric,
            Some("flows (1,514 and 1,893 L/min)"),
        ),
        (
            vec![two_hours(400.0), asking(&[(0.0, 150.0), (6.0, 400.0)], 120.0)],
            Units::Us,
            Some("flows (up to 400 gpm each)"),
        ),
        (
            vec![asking(&[(0.0, 500.0)], 90.0), two_hours(400.0)],
            Units::Us,
            Some("flows (500 and 400 gpm) and durations (90 minutes and 2 hours)"),
        ),
    ];
    for (plans, units, told) in rows {
        let told = told.map(|told| {
            format!(
                "These files ask for different {told}: the difference is partly the fire's, not the plan's."
            )
        });
        assert_eq!(said(&plans.iter().collect::<Vec<_>>(), units), told);
    }
}

#[test]
fn another_tolerance_or_reserve_is_told() {
    let judged = |tolerance, reserve| {
        let mut facts = asking(&[(0.0, 400.0)], 120.0).facts().clone();
        (facts.incident.tolerance, facts.incident.reserve) = (tolerance, reserve);
        Plan::check(facts).unwrap()
    };
    let (strict, lax, all) = (judged(0.1, 250.0), judged(0.5, 250.0), judged(0.5, 100.0));
    assert_eq!(said(&[&strict, &strict], Units::Us), None);
    assert_eq!(
        said(&[&strict, &lax], Units::Us).unwrap(),
        "These files judge by different tolerances (0.1 and 0.5 min): what counts as short is not the same \
         in all."
    );
    let three = said(&[&strict, &lax, &all], Units::Us).unwrap();
    assert!(
        three.contains("tolerances (0.1 and 0.5 min) and reserves (250 and 100 gal): "),
        "{three}"
    );
    // 250 and 100 gal are 946 and 379 L.
    let metric = said(&[&lax, &all], Units::Metric).unwrap();
    assert!(metric.contains("different reserves (946 and 379 L): "), "{metric}");
}
