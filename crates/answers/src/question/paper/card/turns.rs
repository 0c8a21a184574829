//! How long a tanker is away for a load, and when a source runs dry.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::turnarounds::{Away, Dry, Turnarounds};
use shuttle_sim::Plan;

/// Simulated fires that are read for it: the times of ten thousand loads.
pub const MOST_FIRES: u64 = 2_000;
/// Share of loads that are back before a tanker counts as overdue. Judgement.
const OVERDUE_AFTER: f64 = 0.95;

/// Trips to a fill site from which on its times are told apart: with fewer the twentieth that are later are hardly seen.
/// Judgement.
const FEWEST_TRIPS: u64 = 20;

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
    /// The same by fill site, of a tanker that loads at several; empty where it loads at one.
    pub by_fill_site: Vec<TurnAtSiteFigures>,
}

/// A tanker that loads at one of several fill sites.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct TurnAtSiteFigures {
    /// The fill site.
    pub fill_site: String,
    /// Minutes the tanker is away for a load from there, mean.
    pub back_within_min: f64,
    /// Minutes within which it is back from 95 of 100 trips there.
    pub overdue_after_min: f64,
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
    let facts = plan.facts();
    let turn = |(place, tanker): (usize, &shuttle_sim::Tanker)| {
        let away = &found.tankers[place];
        TurnFigures {
            name: tanker.name.clone(),
            capacity_gal: tanker.capacity,
            load_lasts_min: tanker.load() / peak_gpm,
            back_within_min: away.mean(),
            overdue_after_min: away.within(OVERDUE_AFTER),
            by_fill_site: by_fill_site(&facts.fill_sites, &found.by_site[place]),
        }
    };
    facts.tankers.iter().enumerate().map(turn).collect()
}

/// Where a tanker loads at several fill sites, its times from each; a site that is hardly ever gone to says nothing.
fn by_fill_site(sites: &[shuttle_sim::FillSite], away: &[Away]) -> Vec<TurnAtSiteFigures> {
    let told: Vec<TurnAtSiteFigures> = (sites.iter().zip(away))
        .filter(|(_, away)| away.trips >= FEWEST_TRIPS)
        .filter_map(|(site, away)| {
            Some(TurnAtSiteFigures {
                fill_site: site.name.clone(),
                back_within_min: away.mean()?,
                overdue_after_min: away.within(OVERDUE_AFTER)?,
            })
        })
        .collect();
    if told.len() > 1 { told } else { Vec::new() }
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
