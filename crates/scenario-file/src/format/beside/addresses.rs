//! Addresses: places to be graded one by one, by the roads from there.

use shuttle_sim::Plan;

use super::grading::{KM, MILES, ONE_STATION, STATION_KM, STATION_MILES, SUCTION_POINT};
use crate::format::haul::roads::SPEED;
use crate::format::rows::{Row, Shared};
use crate::format::shared_fields::NAME;
use crate::format::tables::{object, shapes};
use crate::format::takes::{AnyOf, List, Nested, Takes, Text};
use crate::format::values::durations::{CV, MINUTES};
use crate::quantities::quantity::Quantity;

/// Addresses in one file, with those of a table beside it. Judgement: a fire district; so many are graded in minutes.
pub const MOST_ADDRESSES: usize = 5_000;

object! {
    pub(crate) static ADDRESS: OfAddress {
        what: "an address",
        def: "address",
        doc: "A place to be graded with the units and fill sites of this scenario, by the roads from there.",
        rows: {
            NAME: Text = required("name", NAME, "Its name, unlike any other address's."),
            STATION_MILES: Option<f64> = STATION_MILES,
            STATION_KM: Option<f64> = STATION_KM,
            SUCTION_POINT: Option<f64> = SUCTION_POINT,
            ROADS: List<AnyOf<Road>> = required(
                "roads",
                Takes::list(&Takes::any_of(), 0, Plan::LIMITS.places),
                "The road to each fill site that serves it, taken to be the same both ways; a site that is left out does not. A site that only one of the `options` adds may stand here too.",
            ),
        },
        rules: &[ONE_STATION],
        strays: &[],
    }
}

shapes! {
    /// How the road to a fill site is stated.
    pub(crate) enum Road {
        Miles = OfRoadMiles,
        Km = OfRoadKm,
        Minutes = OfRoadMinutes,
    }
}

/// The site that it leads to.
pub(crate) const TO: Row<Shared, Text> = Row::required("to", NAME, "The fill site, by name.");
/// How driving times on it differ.
pub(crate) const ROAD_CV: Row<Shared, Option<f64>> = Row::optional(
    "cv",
    CV,
    "every drive takes the same time.",
    "Coefficient of variation of the driving time.",
);

object! {
    pub(crate) static ROAD_MILES: OfRoadMiles {
        what: "a road in miles",
        def: "road_miles",
        doc: "The road from an address to a fill site, in miles.",
        rows: {
            TO: Text = TO,
            MILES: f64 = required("miles", MILES, "Road distance one way."),
            MPH: Option<f64> = optional(
                "mph",
                Takes::number(Quantity::MilesPerHour, SPEED),
                "the rule {0.65 + 1.70 x miles} minutes.",
                "Average speed from start to stop.",
            ),
            CV: Option<f64> = ROAD_CV,
        },
        rules: &[],
        strays: &[("kmh", "write `mph`, or give the distance in `km`")],
    }
}

object! {
    pub(crate) static ROAD_KM: OfRoadKm {
        what: "a road in km",
        def: "road_km",
        doc: "The road from an address to a fill site, in km; in any file.",
        rows: {
            TO: Text = TO,
            KM: f64 = required("km", KM, "Road distance one way."),
            KMH: Option<f64> = optional(
                "kmh",
                Takes::number(Quantity::KilometresPerHour, SPEED),
                "the rule {0.65 + 1.70 x miles} minutes.",
                "Average speed from start to stop.",
            ),
            CV: Option<f64> = ROAD_CV,
        },
        rules: &[],
        strays: &[("mph", "write `kmh`, or give the distance in `miles`")],
    }
}

object! {
    pub(crate) static ROAD_MINUTES: OfRoadMinutes {
        what: "a road in minutes",
        def: "road_minutes",
        doc: "The road from an address to a fill site, by the time it takes.",
        rows: {
            TO: Text = TO,
            MINUTES: f64 = required("minutes", MINUTES, "Driving time one way."),
            CV: Option<f64> = ROAD_CV,
        },
        rules: &[],
        strays: &[],
    }
}

/// The addresses of a scenario.
pub(crate) const ADDRESSES: Takes<List<Nested<OfAddress>>> =
    Takes::list(&Takes::object(), 0, MOST_ADDRESSES);
