//! Where tankers load, and which of them goes where.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::worksheet::service;
use shuttle_sim::{Brought, FillOrder, FillSite, Near, PlanDraft, Tanker};

use crate::say;
use crate::say::{Piece, Sentence, joined, list, name};

/// How tankers load at a source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Loading {
    /// There is one place.
    OnePlace,
    /// Several connect, each takes all it can in turn.
    OneAtATime,
    /// Several take water at once.
    SideBySide,
}

/// Where tankers load.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SourceFigures {
    /// Its name.
    pub name: String,
    /// Its flow.
    pub flow_gpm: f64,
    /// Tankers that can be hooked up at once.
    pub positions: u32,
    /// How they load.
    pub loading: Loading,
    /// When it can serve, minutes after the alarm, every time at its mean: the pump that comes is there and set up.
    pub ready_min: f64,
    /// The road from the fire, where the scenario gives its length.
    pub out_mi: Option<f64>,
    /// Minutes from the fire, mean.
    pub out_min: f64,
    /// The road to the fire, where the scenario gives its length.
    pub back_mi: Option<f64>,
    /// Minutes to the fire, mean.
    pub back_min: f64,
    /// The pump that somebody brings there; null where the source has its own.
    pub pump: Option<String>,
    /// The unit that brings that pump along; null where it comes by itself.
    pub pump_brought_by: Option<String>,
    /// Whether a stretch by the source carries one direction at a time.
    pub one_lane: bool,
    /// Tankers that are told to go there; those told nothing go where they should be back first.
    pub assigned_tankers: Vec<String>,
    /// Minutes a tanker that is told nothing is away for a load from there with nobody ahead of it, by means; null where
    /// all are told where to go.
    pub away_min: Option<f64>,
    /// Minutes more for each tanker that is ahead of it there, by means; null likewise.
    pub each_ahead_min: Option<f64>,
}

/// The sources, as listed.
pub(super) fn sources(facts: &PlanDraft) -> Vec<SourceFigures> {
    (facts.fill_sites.iter().enumerate())
        .map(|(place, site)| SourceFigures {
            name: site.name.clone(),
            flow_gpm: site.flow,
            positions: site.positions,
            loading: match (site.positions, site.fill_order) {
                (1, _) => Loading::OnePlace,
                (_, FillOrder::OneByOne) => Loading::OneAtATime,
                (_, FillOrder::Shared) => Loading::SideBySide,
            },
            ready_min: facts.site_ready_mean(place),
            out_mi: site.out.miles,
            out_min: site.out.time.mean(),
            back_mi: site.back.miles,
            back_min: site.back.time.mean(),
            one_lane: facts.one_lanes.iter().any(|lane| lane.near == Near::FillSite(place)),
            assigned_tankers: (facts.tankers.iter())
                .filter(|tanker| tanker.fill_site == Some(place))
                .map(|tanker| tanker.name.clone())
                .collect(),
            pump: site.source_pump.as_ref().map(|pump| pump.name.clone()),
            pump_brought_by: (site.source_pump.as_ref()).and_then(|pump| match pump.brought {
                Brought::ByTanker(place) => Some(facts.tankers[place].name.clone()),
                Brought::ByAttackEngine => Some(facts.attack_engine.name.clone()),
                Brought::BySupplyEngine => {
                    facts.supply.engine.as_ref().map(|engine| engine.name.clone())
                }
                Brought::Itself(_) => None,
            }),
            away_min: mean_of_untold(facts, |tanker| {
                (site.out.time.mean() + site.back.time.mean()) * tanker.drive_factor
                    + service(tanker, site)
            }),
            each_ahead_min: mean_of_untold(facts, |tanker| each_ahead(tanker, site)),
        })
        .collect()
}

/// Mean over the tankers that are told no source; nothing where all are.
fn mean_of_untold(facts: &PlanDraft, of: impl Fn(&Tanker) -> f64) -> Option<f64> {
    let untold = || facts.tankers.iter().filter(|tanker| tanker.fill_site.is_none());
    let many = untold().count();
    (many > 0).then(|| untold().map(of).sum::<f64>() / many as f64)
}

/// Minutes that one more ahead of it keeps a tanker waiting at a source: its turn at one of the places, and no less than
/// its water takes to come.
fn each_ahead(tanker: &Tanker, site: &FillSite) -> f64 {
    let water = match site.fill_order {
        FillOrder::OneByOne => tanker.fill() / tanker.fill_rate_at(site),
        FillOrder::Shared => tanker.fill() / site.flow.max(tanker.fill_rate_at(site)),
    };
    (service(tanker, site) / f64::from(site.positions)).max(water)
}

/// "by the plan Tanker 5 at Log pond; any other goes where it is back first: Town hydrant 14 min, 2.6 more for each ahead
/// there; Log pond 11 min, 5.4 more." - nothing of a single source.
pub fn where_words(sources: &[SourceFigures]) -> Option<Sentence> {
    if sources.len() < 2 {
        return None;
    }
    let told = sources.iter().filter(|source| !source.assigned_tankers.is_empty()).map(|source| {
        let names = list(source.assigned_tankers.iter().map(|one| say![name(one)]));
        say![names, " at ", name(&source.name)]
    });
    let told: Vec<Sentence> = told.collect();
    let choose = sources
        .iter()
        .filter_map(|source| source.away_min.zip(source.each_ahead_min).map(|of| (source, of)));
    let choose = choose.enumerate().map(|(place, (source, (away, each)))| {
        let ahead = if place == 0 { " more for each ahead there" } else { " more" };
        let away = say![Piece::Number(away, 0), " min, ", Piece::Number(each, 1), ahead];
        say![name(&source.name), " ", away]
    });
    let choose: Vec<Sentence> = choose.collect();
    let by_plan =
        (!told.is_empty()).then(|| say!["by the plan ", joined(told.clone(), ", ", ", ")]);
    let who = if told.is_empty() {
        say!["each ", Piece::Tanker, " goes where it"]
    } else {
        say!["; any other goes where it"]
    };
    let rule =
        (!choose.is_empty()).then(|| say![who, " is back first: ", joined(choose, "; ", "; ")]);
    Some(say![by_plan, rule, "."])
}
