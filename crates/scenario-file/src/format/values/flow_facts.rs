//! The facts behind a flow: a hydrant test, a pump at draft, a lay.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use super::rests_on::{GUESS, Guess};
use super::rough_values::OfRoughRate;
use crate::format::shared_fields::RATE;
use crate::format::tables::{object, shapes};
use crate::format::takes::{AnyOf, Either, Nested, Takes};
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
pub(crate) const FILL_FLOW: Takes<FillFlow> = Takes::either(&RATE, &Takes::any_of());

/// A number, or facts.
pub(crate) type FillFlow = Either<f64, AnyOf<FillFacts>>;

shapes! {
    /// The facts behind a fill site's flow.
    pub(crate) enum FillFacts {
        Hydrant = OfFlowByHydrant,
        Pump = OfFlowByPump,
        Rough = OfRoughRate,
    }
}

shapes! {
    /// How a hydrant was tested.
    pub(crate) enum HydrantFacts {
        FlowTest = OfFlowTest,
        Pitot = OfPitot,
    }
}

object! {
    pub(crate) static FLOW_BY_HYDRANT: OfFlowByHydrant {
        what: "a flow by a hydrant test",
        def: "flow_by_hydrant",
        doc: "The flow that a hydrant test promises.",
        rows: {
            HYDRANT: AnyOf<HydrantFacts> = required("hydrant", Takes::any_of(), "The test."),
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    pub(crate) static FLOW_BY_PUMP: OfFlowByPump {
        what: "a flow by a pump at draft",
        def: "flow_by_pump",
        doc: "The flow of an engine that drafts at the fill site.",
        rows: {
            PUMP: Nested<OfPump> = required("pump", SUPPLY_PUMP, "The pump."),
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    pub(crate) static FLOW_TEST: OfFlowTest {
        what: "a hydrant flow test",
        def: "hydrant_flow_test",
        doc: "Flow at a residual pressure other than the tested one (NFPA 291).",
        rows: {
            STATIC: f64 = required(
                "static",
                Takes::number(Quantity::Pressure, SOME_PRESSURE),
                "Static pressure.",
            ),
            RESIDUAL: f64 = required(
                "residual",
                Takes::number(Quantity::Pressure, PRESSURE),
                "Residual pressure while the tested flow ran; below the static one.",
            ),
            FLOW: f64 = required(
                "flow",
                Takes::number(Quantity::Flow, Plan::LIMITS.rate),
                "Flow during the test.",
            ),
            AT: f64 = or(
                "at",
                Takes::number(Quantity::Pressure, PRESSURE),
                20.0,
                "Residual pressure to work at; 20 psi is what public mains are to keep (NFPA 291).",
            ),
        },
        rules: &[],
        strays: &[(
            "pitot",
            "a pitot reading goes with `outlet` alone: {\"pitot\": 25, \"outlet\": 2.5}",
        )],
    }
}

object! {
    pub(crate) static PITOT: OfPitot {
        what: "a pitot reading",
        def: "hydrant_pitot",
        doc: "Flow from an open hose outlet of a hydrant (NFPA 291).",
        rows: {
            PITOT: f64 = required(
                "pitot",
                Takes::number(Quantity::Pressure, SOME_PRESSURE),
                "Pitot pressure at the open outlet.",
            ),
            OUTLET: f64 = required(
                "outlet",
                Takes::number(Quantity::Diameter, DIAMETER),
                "Inside diameter of the outlet, measured.",
            ),
            COEFFICIENT: f64 = or(
                "coefficient",
                Takes::number(Quantity::Plain, COEFFICIENT),
                0.9,
                "Coefficient of the outlet: 0.9 smooth and rounded, 0.8 square and sharp, 0.7 projecting into the barrel.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}

/// A pump at draft.
pub(crate) const SUPPLY_PUMP: Takes<Nested<OfPump>> = Takes::object();

object! {
    pub(crate) static PUMP: OfPump {
        what: "a pump at draft",
        def: "pump",
        doc: "What a pump in good order gives at its lift, by the apparatus standard's table.",
        rows: {
            RATED: f64 = required("rated", Takes::number(Quantity::Flow, RATING), "The pump's rating."),
            LIFT: f64 = required(
                "lift",
                Takes::number(Quantity::Length, LIFT),
                "Height of the pump's intake above the water's surface.",
            ),
            ALTITUDE: f64 = or(
                "altitude",
                Takes::number(Quantity::Length, ALTITUDE),
                0.0,
                "Altitude above sea level; each 1,000 ft counts as 1 ft of lift.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    /// The hose from the supply engine to the attack engine.
    pub(crate) static LAY: OfLay {
        what: "a lay",
        def: "lay",
        doc: "The supply line from the supply engine to the attack engine: what it can carry limits the draft.",
        rows: {
            DIAMETER: f64 = required(
                "diameter",
                Takes::number(Quantity::Diameter, DIAMETER),
                "Nominal diameter of the hose.",
            ),
            LENGTH: f64 = required(
                "length",
                Takes::number(Quantity::Length, LENGTH),
                "Length of the lay: of each line, not of all together.",
            ),
            LINES: u32 = or("lines", Takes::count(LINES), 1, "Equal parallel lines."),
            ELEVATION: f64 = or(
                "elevation",
                Takes::number(Quantity::Length, ELEVATION),
                0.0,
                "Height of the attack engine above the supply engine; negative downhill.",
            ),
            PUMP_PRESSURE: f64 = required(
                "pump_pressure",
                Takes::number(Quantity::Pressure, SOME_PRESSURE),
                "Discharge pressure of the supply engine, within the hose's limit.",
            ),
            INTAKE_PRESSURE: f64 = or(
                "intake_pressure",
                Takes::number(Quantity::Pressure, PRESSURE),
                20.0,
                "Pressure wanted at the attack engine's intake (common practice: 20 psi).",
            ),
            APPLIANCES: f64 = or(
                "appliances",
                Takes::number(Quantity::Pressure, PRESSURE),
                0.0,
                "Pressure lost in appliances (siamese, manifold).",
            ),
            COEFFICIENT: Option<f64> = optional(
                "coefficient",
                Takes::number(Quantity::Plain, FRICTION),
                "the usual one of the hose's size.",
                "Friction coefficient measured on this hose: psi lost in 100 ft at 100 gpm, also in a metric file.",
            ); page "Friction coefficient measured on this hose: psi lost in 100 ft at 100 gpm, also in a metric plan.",
            DRY: bool = or(
                "dry",
                false,
                "Whether the lay is dry at first: it then takes its own volume of water before the engine gets any.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
