//! Roads: the legs between scene and fill site, and stretches that carry one direction at a time.

use std::ops::Bound::Included;

use shuttle_sim::Plan;

use crate::format::description::{Field, Kind, Object, Rule};
use crate::format::shared_fields::NAME;
use crate::format::values::durations::{CV, DURATION};
use crate::format::values::rests_on::{GUESS, NOT_BOTH, TIMED};
use crate::quantities::quantity::{Bounds, Quantity};

/// A road speed, mph. Judgement.
pub(crate) const SPEED: Bounds = (Included(1.0), Included(100.0));

/// One way along the road.
pub(crate) const LEG: Kind = Kind::Shapes(&[&LEG_MILES, &LEG_KM, &LEG_STRETCHES, &LEG_MINUTES]);

/// Most stretches of one way. Judgement.
const MOST_STRETCHES: usize = 20;

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

static LEG_STRETCHES: Object = Object {
    what: "a leg in stretches",
    def: "leg_stretches",
    doc: "One way along the road, stretch by stretch: some miles of gravel at one speed, the rest at another.",
    fields: &[
        Field::required(
            "stretches",
            Kind::List(&Kind::Shapes(&[&STRETCH_MILES, &STRETCH_KM]), 1, MOST_STRETCHES),
            "The stretches, in any order.",
        ),
        LEG_CV,
        TIMED,
        GUESS,
    ],
    rules: &[NOT_BOTH, TIMED_WITH_CV],
    strays: &[
        ("mph", "give each of the `stretches` its own `mph`"),
        ("kmh", "give each of the `stretches` its own `kmh`"),
    ],
};

static STRETCH_MILES: Object = Object {
    what: "a stretch in miles",
    def: "stretch_miles",
    doc: "A stretch of road with a speed of its own, in miles.",
    fields: &[
        Field::required(
            "miles",
            Kind::Number(Quantity::Miles, Plan::LIMITS.miles),
            "Length of the stretch. In a metric file write `km` instead, or a string with a unit.",
        ),
        Field::required(
            "mph",
            Kind::Number(Quantity::MilesPerHour, SPEED),
            "Average speed on it. In a metric file write `km` and `kmh` instead.",
        ),
    ],
    rules: &[],
    strays: &[
        ("kmh", "write `mph`, or give the length in `km`"),
        ("cv", "put `cv` beside `stretches`: the whole way has one spread"),
        ("guess", "put `guess` beside `stretches`: the whole way has one"),
    ],
};

static STRETCH_KM: Object = Object {
    what: "a stretch in km",
    def: "stretch_km",
    doc: "A stretch of road with a speed of its own, in km; in any file.",
    fields: &[
        Field::required(
            "km",
            Kind::Number(Quantity::Kilometres, Plan::LIMITS.miles),
            "Length of the stretch.",
        ),
        Field::required(
            "kmh",
            Kind::Number(Quantity::KilometresPerHour, SPEED),
            "Average speed on it.",
        ),
    ],
    rules: &[],
    strays: &[
        ("mph", "write `kmh`, or give the length in `miles`"),
        ("cv", "put `cv` beside `stretches`: the whole way has one spread"),
        ("guess", "put `guess` beside `stretches`: the whole way has one"),
    ],
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
