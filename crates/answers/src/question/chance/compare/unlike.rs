//! What to say where the files compared ask for different fires, or judge them by different rules: then a
//! difference is not due to the plans alone.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::units::Units;
use shuttle_sim::{FlowStep, Incident, Plan};

use crate::say;
use crate::say::{Piece, Sentence, list};

/// What files ask for differently: each list has every value once, and is empty where all have the same, as
/// an answer shows it.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Unlike {
    /// Greatest flows.
    pub peak_flows_gpm: Vec<f64>,
    /// The greatest flow of all, where flows differ only before or after it.
    pub other_steps_to_gpm: Option<f64>,
    /// Durations.
    pub durations_min: Vec<f64>,
    /// Tolerances.
    pub tolerances_min: Vec<f64>,
    /// Reserves.
    pub reserves_gal: Vec<f64>,
}

/// What these plans ask for differently; `None` where all ask for the same and judge it alike.
///
/// - Given: the units of the answer: what looks the same in them is the same.
pub fn unlike_fires(plans: &[&Plan], units: Units) -> Option<Unlike> {
    let flow_shown = |gpm: f64| units.flow(gpm).round();
    let of = |value: &dyn Fn(&Incident) -> f64, shown: &dyn Fn(f64) -> f64| {
        differing(plans.iter().map(|plan| value(&plan.facts().incident)), shown)
    };
    let peak = |incident: &Incident| {
        incident.attack_flow.iter().map(|step| step.flow).fold(0.0_f64, f64::max)
    };
    let peak_flows_gpm = of(&peak, &flow_shown);
    let steps = |steps: &[FlowStep]| -> Vec<(f64, f64)> {
        steps.iter().map(|step| ((10.0 * step.from).round(), flow_shown(step.flow))).collect()
    };
    let mut all_steps =
        plans.iter().map(|plan| steps(plan.facts().incident.attack_flow.as_slice()));
    let first = all_steps.next();
    let other_steps = all_steps.any(|steps| Some(steps) != first);
    let unlike = Unlike {
        other_steps_to_gpm: (other_steps && peak_flows_gpm.is_empty())
            .then(|| plans.iter().map(|plan| peak(&plan.facts().incident)).fold(0.0, f64::max)),
        peak_flows_gpm,
        durations_min: of(&|incident| incident.duration.round(), &f64::round),
        tolerances_min: of(&|incident| incident.tolerance, &|minutes| minutes),
        reserves_gal: of(&|incident| incident.reserve, &|gal| units.volume(gal).round()),
    };
    (unlike != Unlike::default()).then_some(unlike)
}

/// Each value that is shown differently once, in the order in which they come; empty where all are the same.
fn differing(values: impl Iterator<Item = f64>, shown: &dyn Fn(f64) -> f64) -> Vec<f64> {
    let mut each: Vec<f64> = Vec::new();
    for one in values {
        if !each.iter().any(|seen| shown(*seen) == shown(one)) {
            each.push(one);
        }
    }
    if each.len() > 1 { each } else { Vec::new() }
}

impl Unlike {
    /// What that means for the comparison.
    pub fn words(&self) -> Sentence {
        self.demands().then(self.rules())
    }

    /// The sentence on flows and durations; empty where all ask for the same.
    fn demands(&self) -> Sentence {
        let mut unlike = Vec::new();
        if !self.peak_flows_gpm.is_empty() {
            let flows = self.peak_flows_gpm.iter().map(|gpm| say![Piece::BareFlow(*gpm)]);
            unlike.push(say!["flows (", list(flows), " ", Piece::FlowSign, ")"]);
        } else if let Some(peak) = self.other_steps_to_gpm {
            unlike.push(say!["flows (up to ", Piece::Flow(peak), " each)"]);
        }
        if !self.durations_min.is_empty() {
            let durations = self.durations_min.iter().map(|min| say![Piece::Duration(*min)]);
            unlike.push(say!["durations (", list(durations), ")"]);
        }
        if unlike.is_empty() {
            return say![];
        }
        say![
            "These files ask for different ",
            list(unlike),
            ": the difference is partly the fire's, not the plan's.",
        ]
    }

    /// The sentence on tolerances and reserves; empty where all have the same.
    fn rules(&self) -> Sentence {
        let (mut unlike, mut counts) = (Vec::new(), Vec::new());
        if !self.tolerances_min.is_empty() {
            let digits = decimals(&self.tolerances_min);
            let all = self.tolerances_min.iter().map(|min| say![Piece::Number(*min, digits)]);
            unlike.push(say!["tolerances (", list(all), " min)"]);
            counts.push(say!["as short"]);
        }
        if !self.reserves_gal.is_empty() {
            let all = self.reserves_gal.iter().map(|gal| say![Piece::BareVolume(*gal)]);
            unlike.push(say!["reserves (", list(all), " ", Piece::VolumeSign, ")"]);
            counts.push(say!["as reserve used"]);
        }
        if unlike.is_empty() {
            return say![];
        }
        say![
            "These files judge by different ",
            list(unlike),
            ": what counts ",
            list(counts),
            " is not the same in all.",
        ]
    }
}

/// The decimal places with which all of these are told as stated, at most four.
fn decimals(values: &[f64]) -> usize {
    let is_told = |digits: &i32| {
        let scale = 10f64.powi(*digits);
        values.iter().all(|value| ((value * scale).round() / scale - value).abs() < 1e-9)
    };
    (0..4).find(is_told).unwrap_or(4) as usize
}

#[cfg(test)]
mod tests;
