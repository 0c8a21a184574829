//! Roads: the legs between scene and fill site, and stretches that carry one direction at a time.

use std::ops::Bound::Included;

use shuttle_sim::Plan;

use crate::format::description::Rule;
use crate::format::rows::{Row, Shared};
use crate::format::shared_fields::NAME;
use crate::format::tables::{object, shapes};
use crate::format::takes::{AnyOf, Duration, List, Takes, Text};
use crate::format::values::durations::{CV, DURATION};
use crate::format::values::rests_on::{GUESS, Guess, NOT_BOTH, TIMED};
use crate::quantities::quantity::{Bounds, Quantity};

/// A road speed, mph. Judgement.
pub(crate) const SPEED: Bounds = (Included(1.0), Included(100.0));

shapes! {
    /// One way along the road.
    pub(crate) enum Leg {
        Miles = OfLegMiles,
        Km = OfLegKm,
        Stretches = OfLegStretches,
        Minutes = OfLegMinutes,
    }
}

/// One way along the road.
pub(crate) const LEG: Takes<AnyOf<Leg>> = Takes::any_of();

shapes! {
    /// A stretch of it.
    pub(crate) enum Stretch {
        Miles = OfStretchMiles,
        Km = OfStretchKm,
    }
}

/// Most stretches of one way. Judgement.
const MOST_STRETCHES: usize = 20;

const LEG_CV: Row<Shared, Option<f64>> = Row::optional(
    "cv",
    CV,
    "every drive takes the same time.",
    "Coefficient of variation of the driving time, which is then lognormal: 0.1 to 0.3 for most roads.",
);

/// Timed drives have a spread.
const TIMED_WITH_CV: Rule =
    Rule::OnlyWith(TIMED.key(), LEG_CV.key(), "add `cv`, the spread of the times you took");

object! {
    pub(crate) static LEG_MILES: OfLegMiles {
        what: "a leg in miles",
        def: "leg_miles",
        doc: "One way along the road, by distance in miles.",
        rows: {
            MILES: f64 = required(
                "miles",
                Takes::number(Quantity::Miles, Plan::LIMITS.miles),
                "Road distance one way. In a metric file write `km` instead, or a string with a unit.",
            ); page "Road distance one way; in a metric plan stated in km.",
            MPH: Option<f64> = optional(
                "mph",
                Takes::number(Quantity::MilesPerHour, SPEED),
                "the rule {0.65 + 1.70 x miles} minutes.",
                "Average speed from start to stop. In a metric file write `km` and `kmh` instead.",
            ); page "Average speed from start to stop; in a metric plan distance and speed are stated in km and km/h.",
            CV: Option<f64> = LEG_CV,
            TIMED: Option<u32> = TIMED,
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[NOT_BOTH, TIMED_WITH_CV],
        strays: &[("kmh", "write `mph`, or give the distance in `km`")],
    }
}

object! {
    pub(crate) static LEG_KM: OfLegKm {
        what: "a leg in km",
        def: "leg_km",
        doc: "One way along the road, by distance in km; in any file.",
        rows: {
            KM: f64 = required(
                "km",
                Takes::number(Quantity::Kilometres, Plan::LIMITS.miles),
                "Road distance one way.",
            ),
            KMH: Option<f64> = optional(
                "kmh",
                Takes::number(Quantity::KilometresPerHour, SPEED),
                "the rule {0.65 + 1.70 x miles} minutes.",
                "Average speed from start to stop.",
            ),
            CV: Option<f64> = LEG_CV,
            TIMED: Option<u32> = TIMED,
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[NOT_BOTH, TIMED_WITH_CV],
        strays: &[("mph", "write `kmh`, or give the distance in `miles`")],
    }
}

object! {
    pub(crate) static LEG_STRETCHES: OfLegStretches {
        what: "a leg in stretches",
        def: "leg_stretches",
        doc: "One way along the road, stretch by stretch: some miles of gravel at one speed, the rest at another.",
        rows: {
            STRETCHES: List<AnyOf<Stretch>> = required(
                "stretches",
                Takes::list(&Takes::any_of(), 1, MOST_STRETCHES),
                "The stretches, in any order.",
            ),
            CV: Option<f64> = LEG_CV,
            TIMED: Option<u32> = TIMED,
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[NOT_BOTH, TIMED_WITH_CV],
        strays: &[
            ("mph", "give each of the `stretches` its own `mph`"),
            ("kmh", "give each of the `stretches` its own `kmh`"),
        ],
    }
}

object! {
    pub(crate) static STRETCH_MILES: OfStretchMiles {
        what: "a stretch in miles",
        def: "stretch_miles",
        doc: "A stretch of road with a speed of its own, in miles.",
        rows: {
            MILES: f64 = required(
                "miles",
                Takes::number(Quantity::Miles, Plan::LIMITS.miles),
                "Length of the stretch. In a metric file write `km` instead, or a string with a unit.",
            ); page "Length of the stretch; in a metric plan stated in km.",
            MPH: f64 = required(
                "mph",
                Takes::number(Quantity::MilesPerHour, SPEED),
                "Average speed on it. In a metric file write `km` and `kmh` instead.",
            ); page "Average speed on it; in a metric plan distance and speed are stated in km and km/h.",
        },
        rules: &[],
        strays: &[
            ("kmh", "write `mph`, or give the length in `km`"),
            ("cv", "put `cv` beside `stretches`: the whole way has one spread"),
            ("guess", "put `guess` beside `stretches`: the whole way has one"),
        ],
    }
}

object! {
    pub(crate) static STRETCH_KM: OfStretchKm {
        what: "a stretch in km",
        def: "stretch_km",
        doc: "A stretch of road with a speed of its own, in km; in any file.",
        rows: {
            KM: f64 = required(
                "km",
                Takes::number(Quantity::Kilometres, Plan::LIMITS.miles),
                "Length of the stretch.",
            ),
            KMH: f64 = required(
                "kmh",
                Takes::number(Quantity::KilometresPerHour, SPEED),
                "Average speed on it.",
            ),
        },
        rules: &[],
        strays: &[
            ("mph", "write `kmh`, or give the length in `miles`"),
            ("cv", "put `cv` beside `stretches`: the whole way has one spread"),
            ("guess", "put `guess` beside `stretches`: the whole way has one"),
        ],
    }
}

object! {
    pub(crate) static LEG_MINUTES: OfLegMinutes {
        what: "a leg in minutes",
        def: "leg_minutes",
        doc: "One way along the road, by the time it takes.",
        rows: {
            MINUTES: Duration = required("minutes", DURATION, "Driving time one way."),
        },
        rules: &[],
        strays: &[
            ("cv", "put the spread into `minutes`: {\"mean\": 5, \"cv\": 0.2}"),
            ("guess", "put it into `minutes`: {\"value\": 5, \"guess\": true}"),
            ("timed", "put it into `minutes`: {\"mean\": 5, \"cv\": 0.2, \"timed\": 8}"),
        ],
    }
}

object! {
    pub(crate) static ONE_LANE: OfOneLane {
        what: "a one-lane stretch",
        def: "one_lane",
        doc: "A stretch of road that carries one direction at a time; those going the same way may follow.",
        rows: {
            NEAR: Text = required(
                "near",
                NAME,
                "\"scene\", or the name of the fill site it lies near.",
            ),
            CROSSING: Duration = required("crossing", DURATION, "Time to cross it, on top of the leg."),
        },
        rules: &[],
        strays: &[],
    }
}
