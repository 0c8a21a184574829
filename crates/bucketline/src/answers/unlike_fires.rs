//! What to say where the files compared ask for different fires, or judge them by different rules: then a
//! difference is not due to the plans alone.

use shuttle_report::units::{Units, whole};
use shuttle_sim::{FlowStep, Incident, Plan};

use super::figures::duration;

/// What to say; `None` where all ask for the same and judge it alike.
pub fn unlike_fires(plans: &[&Plan], units: Units) -> Option<String> {
    let said = [unlike_demands(plans, units), unlike_rules(plans, units)];
    let said: Vec<String> = said.into_iter().flatten().collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// The sentence on tolerances and reserves; `None` where all have the same, as an answer shows them.
fn unlike_rules(plans: &[&Plan], units: Units) -> Option<String> {
    let of = |shown: &dyn Fn(&Incident) -> String| {
        distinct(plans.iter().map(|plan| shown(&plan.facts().incident)))
    };
    let tolerances = of(&|incident| format!("{}", incident.tolerance));
    let reserves = of(&|incident| whole(units.volume(incident.reserve)));
    let (mut unlike, mut counts) = (Vec::new(), Vec::new());
    if tolerances.len() > 1 {
        unlike.push(format!("tolerances ({} min)", listed(&tolerances)));
        counts.push("as short");
    }
    if reserves.len() > 1 {
        unlike.push(format!("reserves ({} {})", listed(&reserves), units.volume_sign()));
        counts.push("as reserve used");
    }
    (!unlike.is_empty()).then(|| {
        format!(
            "These files judge by different {}: what counts {} is not the same in all.",
            unlike.join(" and "),
            counts.join(" and ")
        )
    })
}

/// The sentence on flows and durations; `None` where all ask for the same flow, as an answer shows it,
/// over the same time.
fn unlike_demands(plans: &[&Plan], units: Units) -> Option<String> {
    let shown = |gpm: f64| whole(units.flow(gpm));
    let flows: Vec<&[FlowStep]> =
        plans.iter().map(|plan| plan.facts().incident.attack_flow.as_slice()).collect();
    let steps = |steps: &[FlowStep]| -> Vec<String> {
        steps.iter().map(|step| format!("{:.1}: {}", step.from, shown(step.flow))).collect()
    };
    let peak = |steps: &[FlowStep]| steps.iter().map(|step| step.flow).fold(0.0_f64, f64::max);
    let peaks = distinct(flows.iter().map(|flow| shown(peak(flow))));
    let durations =
        distinct(plans.iter().map(|plan| duration(plan.facts().incident.duration.round())));
    let mut unlike = Vec::new();
    if peaks.len() > 1 {
        unlike.push(format!("flows ({} {})", listed(&peaks), units.flow_sign()));
    } else if distinct(flows.iter().map(|flow| steps(flow).join(", "))).len() > 1 {
        unlike.push(format!("flows (up to {} {} each)", listed(&peaks), units.flow_sign()));
    }
    if durations.len() > 1 {
        unlike.push(format!("durations ({})", listed(&durations)));
    }
    (!unlike.is_empty()).then(|| {
        format!(
            "These files ask for different {}: the difference is partly the fire's, not the plan's.",
            unlike.join(" and ")
        )
    })
}

/// Each once, in the order in which they come.
fn distinct(all: impl Iterator<Item = String>) -> Vec<String> {
    let mut each: Vec<String> = Vec::new();
    for one in all {
        if !each.contains(&one) {
            each.push(one);
        }
    }
    each
}

/// "A, B and C".
fn listed(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [only] => only.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;
    use scenario_file::{STARTER, read};

    /// The starter's plan with these steps (minute, gpm) and this duration, minutes.
    fn asking(steps: &[(f64, f64)], minutes: f64) -> Plan {
        let scenario = read(Path::new("starter.json"), STARTER).unwrap();
        let mut facts = scenario.plan.facts().clone();
        facts.incident.attack_flow =
            steps.iter().map(|(from, flow)| FlowStep { from: *from, flow: *flow }).collect();
        facts.incident.duration = minutes;
        Plan::check(facts).unwrap()
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
            let said = unlike_fires(&plans.iter().collect::<Vec<_>>(), units);
            let told = told.map(|told| {
                format!(
                    "These files ask for different {told}: the difference is partly the fire's, not the \
                     plan's."
                )
            });
            assert_eq!(said, told);
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
        assert_eq!(unlike_fires(&[&strict, &strict], Units::Us), None);
        let said = unlike_fires(&[&strict, &lax], Units::Us).unwrap();
        assert_eq!(
            said,
            "These files judge by different tolerances (0.1 and 0.5 min): what counts as short is not the \
             same in all."
        );
        let said = unlike_fires(&[&strict, &lax, &all], Units::Us).unwrap();
        assert!(
            said.contains("tolerances (0.1 and 0.5 min) and reserves (250 and 100 gal): "),
            "{said}"
        );
        // 250 and 100 gal are 946 and 379 L.
        let said = unlike_fires(&[&lax, &all], Units::Metric).unwrap();
        assert!(said.contains("different reserves (946 and 379 L): "), "{said}");
    }
}
