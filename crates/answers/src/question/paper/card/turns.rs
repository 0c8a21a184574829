//! How long a tanker is away for a load, and when a source runs dry.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::turnarounds::{Away, Dry, Turnarounds};
use shuttle_sim::Plan;

/// Simulated fires that are read for it: the times of ten thousand loads.
pub const MOST_FIRES: u64 = 2_000;
/// Share of loads that are back before a tanker counts as overdue. Judgement.
const OVERDUE_AFTER: f64 = 0.95;

/// A tanker on the road. Minutes count from leaving the fire until it is back there, loaded.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct TurnFigures {
    /// The tanker.
    pub name: String,
    /// What it carries.
    pub capacity_gal: f64,
    /// Minutes that what it delivers of a load lasts at the greatest flow.
    pub load_lasts_min: f64,
    /// Minutes it is away, mean; null where it never came back.
    pub back_within_min: Option<f64>,
    /// Minutes within which it is back from 95 of 100 trips: later than that it is overdue.
    pub overdue_after_min: Option<f64>,
}

/// A source that runs dry.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct DryFigures {
    /// The source.
    pub fill_site: String,
    /// The minute after the alarm, mean over the fires in which it does.
    pub dry_at_min: f64,
    /// Share of fires in which it does within the watch.
    pub dry_share: f64,
}

/// By tanker, as listed.
pub fn turns(plan: &Plan, found: &Turnarounds, peak_gpm: f64) -> Vec<TurnFigures> {
    let turn = |(tanker, away): (&shuttle_sim::Tanker, &Away)| TurnFigures {
        name: tanker.name.clone(),
        capacity_gal: tanker.capacity,
        load_lasts_min: tanker.load() / peak_gpm,
        back_within_min: away.mean(),
        overdue_after_min: away.within(OVERDUE_AFTER),
    };
    plan.facts().tankers.iter().zip(&found.tankers).map(turn).collect()
}

/// Sources that run dry in any fire.
pub fn dry(plan: &Plan, found: &Turnarounds) -> Vec<DryFigures> {
    let dry = |(site, dry): (&shuttle_sim::FillSite, &Dry)| {
        Some(DryFigures {
            fill_site: site.name.clone(),
            dry_at_min: dry.mean()?,
            dry_share: dry.runs as f64 / found.runs.max(1) as f64,
        })
    };
    plan.facts().fill_sites.iter().zip(&found.sources).filter_map(dry).collect()
}
