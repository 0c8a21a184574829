//! The facts behind a flow: a hydrant test, a pump at draft, a lay.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use super::rests_on::GUESS;
use super::rough_values::ROUGH_RATE;
use crate::format::description::{Default, Field, Kind, Object, Silence};
use crate::quantities::quantity::{Bounds, Quantity};

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

/// A fill site's flow: stated, or by the facts behind it.
pub(crate) const FILL_FLOW: Kind = Kind::Any(&[
    Kind::Number(Quantity::Flow, Plan::LIMITS.rate),
    Kind::Shapes(&[&FLOW_BY_HYDRANT, &FLOW_BY_PUMP, &ROUGH_RATE]),
]);

static FLOW_BY_HYDRANT: Object = Object {
    what: "a flow by a hydrant test",
    def: "flow_by_hydrant",
    doc: "The flow that a hydrant test promises.",
    fields: &[Field::required("hydrant", Kind::Shapes(&[&FLOW_TEST, &PITOT]), "The test."), GUESS],
    rules: &[],
    strays: &[],
};

static FLOW_BY_PUMP: Object = Object {
    what: "a flow by a pump at draft",
    def: "flow_by_pump",
    doc: "The flow of an engine that drafts at the fill site.",
    fields: &[Field::required("pump", SUPPLY_PUMP, "The pump."), GUESS],
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
pub(crate) const SUPPLY_PUMP: Kind = Kind::Shapes(&[&PUMP]);

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
pub(crate) static LAY: Object = Object {
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
