//! The parts of the format that stand for a number: durations, legs, and the facts behind a flow.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use super::quantity::Quantity;
use super::table::{Bounds, Default, Field, Kind, Object, Silence};

/// A road speed, mph. Judgement.
const SPEED: Bounds = (Included(1.0), Included(100.0));
/// Hose, ft. Judgement: about ten miles.
const LENGTH: Bounds = (Excluded(0.0), Included(50_000.0));
/// Hose and hydrant outlets, in. Judgement.
const DIAMETER: Bounds = (Included(0.5), Included(12.0));
/// Pressure, psi. Judgement.
const PRESSURE: Bounds = (Included(0.0), Included(1_000.0));
/// A pressure that must move water, psi.
const SOME_PRESSURE: Bounds = (Excluded(0.0), Included(1_000.0));
/// A pump's rating, gpm. Judgement.
const RATING: Bounds = (Excluded(0.0), Included(10_000.0));
/// Lift, ft: the atmosphere carries no more than 33.9 ft (NWCG).
const LIFT: Bounds = (Included(0.0), Included(33.9));
/// Altitude, ft. Judgement.
const ALTITUDE: Bounds = (Included(0.0), Included(20_000.0));
/// Height of the far end of a lay above the pump, ft. Judgement.
const ELEVATION: Bounds = (Included(-3_000.0), Included(3_000.0));
/// An outlet's coefficient (NFPA 291 has 0.7 to 0.95).
const COEFFICIENT: Bounds = (Excluded(0.0), Included(1.0));
/// Friction coefficient, psi in 100 ft at 100 gpm: 150 for 1 in hose, 0.05 for 6 in (pump operator
/// texts).
const FRICTION: Bounds = (Excluded(0.0), Included(200.0));
/// Parallel lines. Judgement.
const LINES: Bounds = (Included(1.0), Included(20.0));

const MINUTES: Kind = Kind::Number(Quantity::Time, Plan::LIMITS.minutes);
const CV: Kind = Kind::Number(Quantity::Plain, Plan::LIMITS.cv);

/// A duration: a fixed time or one of the shapes of spread.
pub(super) const DURATION: Kind = Kind::Any(&[
    MINUTES,
    Kind::Shapes(&[&LOGNORMAL, &EXPONENTIAL, &TRIANGULAR, &UNIFORM, &SAMPLES]),
]);

static LOGNORMAL: Object = Object {
    what: "a duration with a mean and a cv",
    def: "lognormal_duration",
    doc: "A lognormal duration: never below 0, now and then long.",
    fields: &[
        Field::required("mean", MINUTES, "Mean."),
        Field::required(
            "cv",
            CV,
            "Coefficient of variation, the standard deviation divided by the mean: 0.2 to 0.4 for most work.",
        ),
    ],
    rules: &[],
    strays: &[("shape", "an exponential duration has no cv: leave `cv` or `shape` out")],
};

static EXPONENTIAL: Object = Object {
    what: "an exponential duration",
    def: "exponential_duration",
    doc: "An exponential duration: anything from nothing to several times the mean.",
    fields: &[
        Field::required("mean", MINUTES, "Mean."),
        Field::required(
            "shape",
            Kind::Choice(&[(
                "exponential",
                "The only shape that is named; the others are known by their keys.",
            )]),
            "The shape.",
        ),
    ],
    rules: &[],
    strays: &[("cv", "an exponential duration has no cv of its own: leave `cv` or `shape` out")],
};

static TRIANGULAR: Object = Object {
    what: "a duration with low, likely and high",
    def: "triangular_duration",
    doc: "A triangular duration: what a crew would say if asked for the least, the usual and the most.",
    fields: &[
        Field::required("low", MINUTES, "The least."),
        Field::required("likely", MINUTES, "The most likely."),
        Field::required("high", MINUTES, "The greatest."),
    ],
    rules: &[],
    strays: &[("mean", "a duration with low and high has `likely`, not `mean`")],
};

static UNIFORM: Object = Object {
    what: "a duration with low and high",
    def: "uniform_duration",
    doc: "A uniform duration: anything between two times, equally likely.",
    fields: &[
        Field::required("low", MINUTES, "The least."),
        Field::required("high", MINUTES, "The greatest."),
    ],
    rules: &[],
    strays: &[("mean", "a duration with low and high has `likely`, not `mean`")],
};

static SAMPLES: Object = Object {
    what: "a duration with samples",
    def: "sampled_duration",
    doc: "Measured drill times: one of them, equally likely.",
    fields: &[Field::required(
        "samples",
        Kind::List(&MINUTES, 1, Plan::LIMITS.samples),
        "The measured times.",
    )],
    rules: &[],
    strays: &[],
};

/// One way along the road.
pub(super) const LEG: Kind = Kind::Shapes(&[&LEG_MILES, &LEG_KM, &LEG_MINUTES]);

const LEG_CV: Field = Field::optional(
    "cv",
    CV,
    "Silent: every drive takes the same time.",
    "Coefficient of variation of the driving time, which is then lognormal: 0.1 to 0.3 for most roads.",
);

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
    ],
    rules: &[],
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
    ],
    rules: &[],
    strays: &[("mph", "write `kmh`, or give the distance in `miles`")],
};

static LEG_MINUTES: Object = Object {
    what: "a leg in minutes",
    def: "leg_minutes",
    doc: "One way along the road, by the time it takes.",
    fields: &[Field::required("minutes", DURATION, "Driving time one way.")],
    rules: &[],
    strays: &[("cv", "put the spread into `minutes`: {\"mean\": 5, \"cv\": 0.2}")],
};

/// A fill site's flow: stated, or by the facts behind it.
pub(super) const FILL_FLOW: Kind = Kind::Any(&[
    Kind::Number(Quantity::Flow, Plan::LIMITS.rate),
    Kind::Shapes(&[&FLOW_BY_HYDRANT, &FLOW_BY_PUMP]),
]);

static FLOW_BY_HYDRANT: Object = Object {
    what: "a flow by a hydrant test",
    def: "flow_by_hydrant",
    doc: "The flow that a hydrant test promises.",
    fields: &[Field::required("hydrant", Kind::Shapes(&[&FLOW_TEST, &PITOT]), "The test.")],
    rules: &[],
    strays: &[],
};

static FLOW_BY_PUMP: Object = Object {
    what: "a flow by a pump at draft",
    def: "flow_by_pump",
    doc: "The flow of an engine that drafts at the fill site.",
    fields: &[Field::required("pump", SUPPLY_PUMP, "The pump.")],
    rules: &[],
    strays: &[],
};

static FLOW_TEST: Object = Object {
    what: "a hydrant flow test",
    def: "hydrant_flow_test",
    doc: "Flow at a residual pressure other than the tested one (NFPA 291).",
    fields: &[
        Field::required(
            "static",
            Kind::Number(Quantity::Pressure, SOME_PRESSURE),
            "Static pressure.",
        ),
        Field::required(
            "residual",
            Kind::Number(Quantity::Pressure, PRESSURE),
            "Residual pressure while the tested flow ran; below the static one.",
        ),
        Field::required(
            "flow",
            Kind::Number(Quantity::Flow, Plan::LIMITS.rate),
            "Flow during the test.",
        ),
        Field::number(
            "at",
            Kind::Number(Quantity::Pressure, PRESSURE),
            20.0,
            "Residual pressure to work at; 20 psi is what public mains are to keep (NFPA 291).",
        ),
    ],
    rules: &[],
    strays: &[(
        "pitot",
        "a pitot reading goes with `outlet` alone: {\"pitot\": 25, \"outlet\": 2.5}",
    )],
};

static PITOT: Object = Object {
    what: "a pitot reading",
    def: "hydrant_pitot",
    doc: "Flow from an open hose outlet of a hydrant (NFPA 291).",
    fields: &[
        Field::required(
            "pitot",
            Kind::Number(Quantity::Pressure, SOME_PRESSURE),
            "Pitot pressure at the open outlet.",
        ),
        Field::required(
            "outlet",
            Kind::Number(Quantity::Diameter, DIAMETER),
            "Inside diameter of the outlet, measured.",
        ),
        Field::number(
            "coefficient",
            Kind::Number(Quantity::Plain, COEFFICIENT),
            0.9,
            "Coefficient of the outlet: 0.9 smooth and rounded, 0.8 square and sharp, 0.7 projecting into the barrel.",
        ),
    ],
    rules: &[],
    strays: &[],
};

/// A pump at draft.
pub(super) const SUPPLY_PUMP: Kind = Kind::Shapes(&[&PUMP]);

static PUMP: Object = Object {
    what: "a pump at draft",
    def: "pump",
    doc: "What a pump in good order gives at its lift, by the apparatus standard's table.",
    fields: &[
        Field::required("rated", Kind::Number(Quantity::Flow, RATING), "The pump's rating."),
        Field::required(
            "lift",
            Kind::Number(Quantity::Length, LIFT),
            "Height of the pump's intake above the water's surface.",
        ),
        Field::number(
            "altitude",
            Kind::Number(Quantity::Length, ALTITUDE),
            0.0,
            "Altitude above sea level; each 1,000 ft counts as 1 ft of lift.",
        ),
    ],
    rules: &[],
    strays: &[],
};

/// The hose from the supply engine to the attack engine.
pub(super) static LAY: Object = Object {
    what: "a lay",
    def: "lay",
    doc: "The supply line from the supply engine to the attack engine: what it can carry limits the draft.",
    fields: &[
        Field::required(
            "diameter",
            Kind::Number(Quantity::Diameter, DIAMETER),
            "Nominal diameter of the hose.",
        ),
        Field::required(
            "length",
            Kind::Number(Quantity::Length, LENGTH),
            "Length of the lay: of each line, not of all together.",
        ),
        Field::number("lines", Kind::Count(LINES), 1.0, "Equal parallel lines."),
        Field::number(
            "elevation",
            Kind::Number(Quantity::Length, ELEVATION),
            0.0,
            "Height of the attack engine above the supply engine; negative downhill.",
        ),
        Field::required(
            "pump_pressure",
            Kind::Number(Quantity::Pressure, SOME_PRESSURE),
            "Discharge pressure of the supply engine, within the hose's limit.",
        ),
        Field::number(
            "intake_pressure",
            Kind::Number(Quantity::Pressure, PRESSURE),
            20.0,
            "Pressure wanted at the attack engine's intake (common practice: 20 psi).",
        ),
        Field::number(
            "appliances",
            Kind::Number(Quantity::Pressure, PRESSURE),
            0.0,
            "Pressure lost in appliances (siamese, manifold).",
        ),
        Field::optional(
            "coefficient",
            Kind::Number(Quantity::Plain, FRICTION),
            "Silent: the usual one of the hose's size.",
            "Friction coefficient measured on this hose: psi lost in 100 ft at 100 gpm, also in a metric file.",
        ),
        Field {
            key: "dry",
            kind: Kind::Switch,
            silence: Silence::Means(Default::Flag(false)),
            doc: "Whether the lay is dry at first: it then takes its own volume of water before the engine gets any.",
        },
    ],
    rules: &[],
    strays: &[],
};

/// Sides of a drop tank, ft. Judgement.
const TANK_SIDE: Bounds = (Excluded(0.0), Included(100.0));
/// Depth of a drop tank, ft. Judgement.
const TANK_DEPTH: Bounds = (Excluded(0.0), Included(10.0));
/// Slope of the ground, as a share.
const SLOPE: Bounds = (Included(0.0), Included(0.5));
/// Water over a strainer, in. Judgement.
const STRAINER: Bounds = (Included(0.0), Included(120.0));
/// A place along a drop tank, ft.
const ALONG: Bounds = (Included(0.0), Included(100.0));
/// Sides of a pond, ft. Judgement: about two miles.
const POND_SIDE: Bounds = (Excluded(0.0), Included(10_000.0));
/// Depth of a pond, ft. Judgement.
const POND_DEPTH: Bounds = (Excluded(0.0), Included(300.0));

/// A drop tank by its size.
pub(super) static TANK_SIZE: Object = Object {
    what: "the size of a drop tank",
    def: "tank_size",
    doc: "A rectangular drop tank as it stands: what it holds, and what its strainer cannot reach.",
    fields: &[
        Field::required(
            "length",
            Kind::Number(Quantity::Length, TANK_SIDE),
            "Inside length, in the direction of the slope.",
        ),
        Field::required(
            "width",
            Kind::Number(Quantity::Length, TANK_SIDE),
            "Inside width, across the slope.",
        ),
        Field::required(
            "depth",
            Kind::Number(Quantity::Length, TANK_DEPTH),
            "From the floor to the rim.",
        ),
        Field::number(
            "slope",
            Kind::Number(Quantity::Share, SLOPE),
            0.0,
            "Slope of the ground, as \"3%\" or 0.03.",
        ),
        Field::number(
            "strainer_depth",
            Kind::Number(Quantity::Diameter, STRAINER),
            6.0,
            "Depth of water at which the strainer takes air: 4 to 6 in at 500 to 1,000 gpm (value from memory).",
        ),
        Field::number(
            "strainer_from_low_side",
            Kind::Number(Quantity::Length, ALONG),
            0.0,
            "From the lower side to the strainer; 0 is best.",
        ),
    ],
    rules: &[],
    strays: &[],
};

/// A pond by its size.
pub(super) static POND_SIZE: Object = Object {
    what: "the size of a pond",
    def: "pond_size",
    doc: "A pond in the state it is to be counted in (drought, ice): what can be drawn from it.",
    fields: &[
        Field::required("length", Kind::Number(Quantity::Length, POND_SIDE), "Mean length."),
        Field::required("width", Kind::Number(Quantity::Length, POND_SIDE), "Mean width."),
        Field::required(
            "mean_depth",
            Kind::Number(Quantity::Length, POND_DEPTH),
            "Mean depth of all of it.",
        ),
        Field::required(
            "usable_depth",
            Kind::Number(Quantity::Length, POND_DEPTH),
            "Depth that can be drawn down before the strainer takes air or mud; no ice in it.",
        ),
    ],
    rules: &[],
    strays: &[],
};
