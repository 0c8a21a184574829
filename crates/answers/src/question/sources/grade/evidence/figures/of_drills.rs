//! Drills that were held, and times that were measured, as figures.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::evidence::{Drill, Timed};
use shuttle_report::survey::HeldDrill;

/// A drill that was held.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HeldDrillFigures {
    /// When.
    pub date: String,
    /// The flow that was held.
    pub flow_gpm: Option<f64>,
    /// For how long.
    pub held_min: Option<f64>,
    /// From the brake set to water shown.
    pub water_shown_min: Option<f64>,
    /// Road to the source.
    pub source_mi: Option<f64>,
    /// Who saw it.
    pub witness: Option<String>,
}

/// Measured times.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DrillFigures {
    /// What was timed.
    pub timed: TimedKey,
    /// The fill site it is about, if it is about one.
    pub fill_site: Option<String>,
    /// How often.
    pub times: usize,
    /// Mean.
    pub mean_min: f64,
}

/// What a drill timed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TimedKey {
    /// Hooking up the draft.
    DraftSetup,
    /// Priming again.
    Reprime,
    /// The supply engine's hook-up.
    SupplyEngineSetup,
    /// Setting up a drop tank.
    DropTankSetup,
    /// The drive to a fill site.
    DriveTo,
    /// The drive back from it.
    DriveBack,
    /// Getting a fill site ready.
    SiteReady,
    /// Connecting at the fill site.
    FillConnect,
    /// Disconnecting there.
    FillDisconnect,
    /// Getting into place at the drop tank.
    DumpPosition,
    /// Pulling clear of it.
    DumpClear,
    /// Connecting a nurse tanker.
    NurseConnect,
    /// Disconnecting it.
    NurseDisconnect,
}

/// Measured times, as figures.
pub(super) fn drill_figures(drill: &Drill) -> DrillFigures {
    let (timed, fill_site) = match &drill.what {
        Timed::DraftSetup => (TimedKey::DraftSetup, None),
        Timed::Reprime => (TimedKey::Reprime, None),
        Timed::SupplyEngineSetup => (TimedKey::SupplyEngineSetup, None),
        Timed::DropTankSetup => (TimedKey::DropTankSetup, None),
        Timed::DriveTo(site) => (TimedKey::DriveTo, Some(site.clone())),
        Timed::DriveBack(site) => (TimedKey::DriveBack, Some(site.clone())),
        Timed::SiteReady(site) => (TimedKey::SiteReady, Some(site.clone())),
        Timed::FillConnect => (TimedKey::FillConnect, None),
        Timed::FillDisconnect => (TimedKey::FillDisconnect, None),
        Timed::DumpPosition => (TimedKey::DumpPosition, None),
        Timed::DumpClear => (TimedKey::DumpClear, None),
        Timed::NurseConnect => (TimedKey::NurseConnect, None),
        Timed::NurseDisconnect => (TimedKey::NurseDisconnect, None),
    };
    DrillFigures { timed, fill_site, times: drill.times, mean_min: drill.mean_min }
}

/// A drill that was held, as figures.
pub(super) fn held_drill(drill: &HeldDrill) -> HeldDrillFigures {
    HeldDrillFigures {
        date: drill.date.clone(),
        flow_gpm: drill.flow_gpm,
        held_min: drill.minutes,
        water_shown_min: drill.water_shown_min,
        source_mi: drill.source_miles,
        witness: drill.witness.clone(),
    }
}
