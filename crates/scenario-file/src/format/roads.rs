//! Roads: the legs between scene and fill site, and stretches that carry one direction at a time.

use std::ops::Bound::Included;

use shuttle_sim::Plan;

use super::description::{Field, Kind, Object, Rule};
use super::durations::{CV, DURATION};
use super::rests_on::{GUESS, NOT_BOTH, TIMED};
use super::shared_fields::NAME;
use crate::quantities::quantity::{Bounds, Quantity};

/// A road speed, mph. Judgement.
pub(crate) const SPEED: Bounds = (Included(1.0), Included(100.0));

/// One way along the road.
pub(crate) const LEG: Kind = Kind::Shapes(&[&LEG_MILES, &LEG_KM, &LEG_MINUTES]);

const LEG_CV: Field = Field::optional(
    "cv",
    CV,
    "Silent: every drive takes the same time.",
    "Coefficient of variation of the driving time, which is then lognormal: 0.1 to 0.3 for most roads.",
);

/// Timed drives have a spread.
const TIMED_WITH_CV: Rule =
    Rule::OnlyWith("timed", "cv", "add `cv`, the spread of the times you took");

static LEG_MILES: Object = Object {
    what: "a leg in miles",
    def: "leg_miles",
    doc: "One way along the road, by distance in miles.",
    fields: &[
        Field::required(
            "miles",
            Kind::Number(Quantity::Miles, Plan::LIMITS.miles),
            "Road distance one way. In a metric file write `km` instead, or a string with a unit.",
        ),
        Field::optional(
            "mph",
            Kind::Number(Quantity::MilesPerHour, SPEED),
            "Silent: the rule 0.65 + 1.70 x miles minutes.",
            "Average speed from start to stop. In a metric file write `km` and `kmh` instead.",
        ),
        LEG_CV,
        TIMED,
        GUESS,
    ],
    rules: &[NOT_BOTH, TIMED_WITH_CV],
    strays: &[("kmh", "write `mph`, or give the distance in `km`")],
};

static LEG_KM: Object = Object {
    what: "a leg in km",
    def: "leg_km",
    doc: "One way along the road, by distance in km; in any file.",
    fields: &[
        Field::required(
            "km",
            Kind::Number(Quantity::Kilometres, Plan::LIMITS.miles),
            "Road distance one way.",
        ),
        Field::optional(
            "kmh",
            Kind::Number(Quantity::KilometresPerHour, SPEED),
            "Silent: the rule 0.65 + 1.70 x miles minutes.",
            "Average speed from start to stop.",
        ),
        LEG_CV,
        TIMED,
        GUESS,
    ],
    rules: &[NOT_BOTH, TIMED_WITH_CV],
    strays: &[("mph", "write `kmh`, or give the distance in `miles`")],
};

static LEG_MINUTES: Object = Object {
    what: "a leg in minutes",
    def: "leg_minutes",
    doc: "One way along the road, by the time it takes.",
    fields: &[Field::required("minutes", DURATION, "Driving time one way.")],
    rules: &[],
    strays: &[
        ("cv", "put the spread into `minutes`: {\"mean\": 5, \"cv\": 0.2}"),
        ("guess", "put it into `minutes`: {\"value\": 5, \"guess\": true}"),
        ("timed", "put it into `minutes`: {\"mean\": 5, \"cv\": 0.2, \"timed\": 8}"),
    ],
};

pub(crate) static ONE_LANE: Object = Object {
    what: "a one-lane stretch",
    def: "one_lane",
    doc: "A stretch of road that carries one direction at a time; those going the same way may follow.",
    fields: &[
        Field::required("near", NAME, "\"scene\", or the name of the fill site it lies near."),
        Field::required("crossing", DURATION, "Time to cross it, on top of the leg."),
    ],
    rules: &[],
    strays: &[],
};
