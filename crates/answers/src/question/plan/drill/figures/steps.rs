//! What a drill timed of each step, as figures.

use drill_log::{Figures, Step};
use schemars::JsonSchema;
use serde::Serialize;

use super::super::Found;
use super::super::course::everyone;

/// A step of the cycle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StepKey {
    /// The road to the fill site.
    DriveOut,
    /// Getting into place and connecting there.
    FillConnect,
    /// Taking water.
    Fill,
    /// Disconnecting.
    FillDisconnect,
    /// The road to the scene.
    DriveBack,
    /// Getting into place at the drop tank.
    DumpPosition,
    /// Dumping.
    Dump,
    /// Pulling clear.
    DumpClear,
}

impl From<Step> for StepKey {
    fn from(step: Step) -> StepKey {
        match step {
            Step::DriveOut => StepKey::DriveOut,
            Step::FillConnect => StepKey::FillConnect,
            Step::Fill => StepKey::Fill,
            Step::FillDisconnect => StepKey::FillDisconnect,
            Step::DriveBack => StepKey::DriveBack,
            Step::DumpPosition => StepKey::DumpPosition,
            Step::Dump => StepKey::Dump,
            Step::DumpClear => StepKey::DumpClear,
        }
    }
}

/// What many readings say.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct StepFigures {
    /// The step.
    pub step: StepKey,
    /// The tanker; null: all of them.
    pub tanker: Option<String>,
    /// How many readings.
    pub readings: usize,
    /// The middle one; null of none, as all that follow.
    pub median_min: Option<f64>,
    /// The least.
    pub low_min: Option<f64>,
    /// The greatest.
    pub high_min: Option<f64>,
    /// The mean.
    pub mean_min: Option<f64>,
    /// The standard deviation.
    pub deviation_min: Option<f64>,
    /// Rows in which it cannot be told apart from waiting, so that it is not counted; of all tankers only.
    pub untold_rows: Vec<usize>,
}

/// Every step, over all tankers and by tanker.
pub(super) fn steps(found: &Found<'_>) -> Vec<StepFigures> {
    let facts = everyone(found.scenario);
    let mut all = Vec::new();
    for step in Step::ALL {
        let untold = (found.timed.measured.untold.iter())
            .filter(|one| one.step == step)
            .map(|one| one.row)
            .collect();
        all.push(step_figures(step, None, found.timed.figures(step, None, None), untold));
        for (place, tanker) in facts.tankers.iter().enumerate() {
            if let Some(of) = found.timed.figures(step, Some(place), None) {
                all.push(step_figures(step, Some(&tanker.name), Some(of), Vec::new()));
            }
        }
    }
    all
}

fn step_figures(
    step: Step,
    tanker: Option<&str>,
    of: Option<Figures>,
    untold_rows: Vec<usize>,
) -> StepFigures {
    StepFigures {
        step: step.into(),
        tanker: tanker.map(str::to_owned),
        readings: of.map_or(0, |of| of.readings),
        median_min: of.map(|of| of.median),
        low_min: of.map(|of| of.low),
        high_min: of.map(|of| of.high),
        mean_min: of.map(|of| of.mean),
        deviation_min: of.map(|of| of.deviation),
        untold_rows,
    }
}
