//! The figures of `reach`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::reach::{DistanceRow, ReachAnswer, ReachCell, ReachRow};

use crate::shared::holding::Binds;
use crate::shared::luck::SharedLuck;

/// The figures of `reach`. A flow that holds is unbroken in at least `share` of fires. Minutes count from the
/// arrival of the first engine.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ReachFigures {
    /// What a whole fire was taken to share.
    pub shared_luck: SharedLuck,
    /// The fill site that was moved.
    #[serde(rename = "fill_site")]
    pub site: String,
    /// The tankers in the order in which they are added.
    #[serde(rename = "tankers_added")]
    pub tankers: Vec<TankerName>,
    /// Share of fires in which a flow must hold.
    pub share: f64,
    /// What passes through the site by hand, with all tankers; null where nothing limits.
    pub site_cap_gpm: Option<f64>,
    /// From when the flow is wanted, and how long.
    pub demand: DemandFigures,
    /// Average speed out; null: by the travel rule.
    pub out_mph: Option<f64>,
    /// Average speed back.
    pub back_mph: Option<f64>,
    /// Flow by distance; empty where distances were asked for.
    #[serde(rename = "by_distance")]
    pub rows: Vec<RowFigures>,
    /// The flow wanted, where distances were asked for.
    pub wanted_gpm: Option<f64>,
    /// Distance by number of tankers; empty where flows were asked for.
    pub distances: Vec<DistanceFigures>,
}

/// A tanker.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TankerName {
    /// Its name.
    pub name: String,
}

/// From when a flow is wanted, and how long.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DemandFigures {
    /// The flow of the first minutes; the flow itself if it is less.
    pub minimum_gpm: f64,
    /// When it must begin, minutes after the first engine arrives.
    pub minimum_from_min: f64,
    /// When the whole flow must begin, minutes after the first engine arrives.
    pub full_from_min: f64,
    /// How long it must be kept from then on.
    pub duration_min: f64,
}

/// One distance.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RowFigures {
    /// One way.
    pub one_way_mi: f64,
    /// One a number of tankers, from 1.
    pub cells: Vec<CellFigures>,
    /// The number of tankers beyond which every further one adds no more than its first load; null where even
    /// the last one adds more.
    pub enough_tankers: Option<usize>,
}

/// One distance and one number of tankers.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CellFigures {
    /// How many tankers, the first of the list.
    #[serde(rename = "tanker_count")]
    pub tankers: usize,
    /// What they make by hand.
    pub hand_gpm: f64,
    /// The greatest flow shown to hold; null where none is.
    pub held_gpm: Option<f64>,
    /// Flows up to this one may hold too: not clear from the fires simulated.
    pub not_clear_up_to_gpm: Option<f64>,
    /// Whether the plan can work at all with so few.
    pub can_work: bool,
    /// What breaks a greater flow.
    pub binds: Option<Binds>,
    /// Share of the breaks of a greater flow that come before any tanker could be back with a second load: more
    /// than half, and the start is the limit, not the distance.
    pub broken_at_the_start: f64,
    /// Fires simulated.
    pub replications: u64,
}

/// How far away so many tankers hold the flow wanted.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DistanceFigures {
    /// How many tankers, the first of the list.
    #[serde(rename = "tanker_count")]
    pub tankers: usize,
    /// The farthest at which it is made by hand; null where it is at none.
    pub hand_mi: Option<f64>,
    /// The farthest at which it is shown to hold; null where it is at none.
    pub held_mi: Option<f64>,
    /// Up to this distance it may hold too: not clear from the fires simulated.
    pub not_clear_up_to_mi: Option<f64>,
    /// Whether it held at the farthest road tried: it may hold beyond.
    pub at_the_end: bool,
    /// What breaks it farther out.
    pub binds: Option<Binds>,
    /// Fires simulated.
    pub replications: u64,
}

impl ReachFigures {
    /// From what was found.
    ///
    /// - Given: average speeds out and back, mph.
    pub fn new(
        found: &ReachAnswer,
        driven: Option<[f64; 2]>,
        shared_luck: SharedLuck,
    ) -> ReachFigures {
        ReachFigures {
            shared_luck,
            site: found.site.clone(),
            tankers: (found.tankers.iter()).map(|name| TankerName { name: name.clone() }).collect(),
            share: found.share,
            site_cap_gpm: found.site_cap_gpm,
            demand: DemandFigures {
                minimum_gpm: found.demand.minimum,
                minimum_from_min: found.demand.minimum_from,
                full_from_min: found.demand.full_from,
                duration_min: found.demand.minutes,
            },
            out_mph: driven.map(|[out, _]| out),
            back_mph: driven.map(|[_, back]| back),
            rows: found.rows.iter().map(row).collect(),
            wanted_gpm: found.wanted_gpm,
            distances: found.distances.iter().map(distance).collect(),
        }
    }
}

fn row(row: &ReachRow) -> RowFigures {
    RowFigures {
        one_way_mi: row.miles,
        cells: row.cells.iter().map(cell).collect(),
        enough_tankers: row.enough,
    }
}

fn cell(cell: &ReachCell) -> CellFigures {
    CellFigures {
        tankers: cell.tankers,
        hand_gpm: cell.hand_gpm,
        held_gpm: cell.held_gpm,
        not_clear_up_to_gpm: cell.not_clear_up_to_gpm,
        can_work: cell.can_work,
        binds: cell.binds.map(Binds::of),
        broken_at_the_start: cell.broken_at_the_start,
        replications: cell.replications,
    }
}

fn distance(row: &DistanceRow) -> DistanceFigures {
    DistanceFigures {
        tankers: row.tankers,
        hand_mi: row.hand_miles,
        held_mi: row.held_miles,
        not_clear_up_to_mi: row.not_clear_up_to_miles,
        at_the_end: row.at_the_end,
        binds: row.binds.map(Binds::of),
        replications: row.replications,
    }
}
