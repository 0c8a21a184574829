//! What else a department has: people, and hose in place of tankers.

use std::ops::Bound::{Excluded, Included};

use crate::format::tables::object;
use crate::format::takes::Takes;
use crate::format::values::durations::MINUTES;
use crate::quantities::quantity::{Bounds, Quantity};

/// People for one piece of work. Judgement.
const PEOPLE: Bounds = (Included(0.0), Included(50.0));
/// People in all. Judgement.
const MANY_PEOPLE: Bounds = (Included(0.0), Included(10_000.0));
/// Hose, ft. Judgement: about ten miles of it.
const HOSE_LENGTH: Bounds = (Included(0.0), Included(50_000.0));
/// From the source to the fire, ft. Judgement: about ten miles.
const DISTANCE: Bounds = (Excluded(0.0), Included(50_000.0));
/// Hose, in. Judgement.
const DIAMETER: Bounds = (Included(0.5), Included(12.0));
/// Parallel lines. Judgement.
const LINES: Bounds = (Included(1.0), Included(20.0));
/// Height of the fire above the source, ft. Judgement.
const ELEVATION: Bounds = (Included(-3_000.0), Included(3_000.0));
/// A pump's rating, gpm. Judgement.
const RATING: Bounds = (Excluded(0.0), Included(10_000.0));
/// Discharge pressure, psi: pumps are rated up to 250 psi (apparatus standard).
const DISCHARGE: Bounds = (Excluded(0.0), Included(250.0));
/// Intake pressure, psi. Judgement.
const INTAKE: Bounds = (Included(0.0), Included(200.0));
/// Engines that can be spared. Judgement.
const ENGINES: Bounds = (Included(0.0), Included(50.0));
/// Hose laid in a minute, ft: 30 mph at most. Judgement.
const LAID: Bounds = (Excluded(0.0), Included(2_640.0));

object! {
    /// People for the plan.
    pub(crate) static CREW: OfCrew {
        what: "the crew",
        def: "crew",
        doc: "People for each piece of work, to see whether the crew is there. The attack lines and relief come on top. What is silent is common practice.",
        rows: {
            TANKER: u32 = or(
                "tanker",
                Takes::count(PEOPLE),
                2,
                "On each {tanker}: a driver, and one who spots while it backs.",
            ),
            FILL_SITE: u32 = or(
                "fill_site",
                Takes::count(PEOPLE),
                2,
                "At each fill site, to connect and disconnect.",
            ),
            DUMP_SITE: u32 = or(
                "dump_site",
                Takes::count(PEOPLE),
                2,
                "At the dump site, to place {tankers} and tend the drop tanks.",
            ),
            PUMP: u32 = or(
                "pump",
                Takes::count(PEOPLE),
                1,
                "At each pump: the attack engine's, the supply engine's, and at each fill site that is no hydrant.",
            ),
            OFFICER: u32 = or("officer", Takes::count(PEOPLE), 1, "In charge of the water supply."),
            ON_HAND: Option<u32> = optional(
                "on_hand",
                Takes::count(MANY_PEOPLE),
                "nothing is said about whether they are there.",
                "People who can be counted on for the water supply.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}

object! {
    /// Hose in place of tankers.
    pub(crate) static HOSE: OfHose {
        what: "the hose",
        def: "hose",
        doc: "Hose and engines for a lay from the source to the fire in place of {tankers}. What is silent is common practice.",
        rows: {
            DIAMETER: f64 = or(
                "diameter",
                Takes::number(Quantity::Diameter, DIAMETER),
                5.0,
                "Nominal diameter of the hose.",
            ),
            LINES: u32 = or("lines", Takes::count(LINES), 1, "Equal parallel lines."),
            ON_HAND: Option<f64> = optional(
                "on_hand",
                Takes::number(Quantity::Length, HOSE_LENGTH),
                "not known; only the need is told.",
                "Hose of that size that can be brought, all of it together.",
            ),
            ENGINES: Option<u32> = optional(
                "engines",
                Takes::count(ENGINES),
                "not known; only the need is told.",
                "Engines that can be spared to pump the lay, the one at the source included.",
            ),
            DISTANCE: Option<f64> = optional(
                "distance",
                Takes::number(Quantity::Length, DISTANCE),
                "the road to each fill site.",
                "From the source to the fire as the hose would lie.",
            ),
            ELEVATION: f64 = or(
                "elevation",
                Takes::number(Quantity::Length, ELEVATION),
                0.0,
                "Height of the fire above the source; negative downhill.",
            ),
            RATED: f64 = or(
                "rated",
                Takes::number(Quantity::Flow, RATING),
                1_250.0,
                "Rating of the smallest pump in the lay.",
            ),
            PUMP_PRESSURE: Option<f64> = optional(
                "pump_pressure",
                Takes::number(Quantity::Pressure, DISCHARGE),
                "{185 psi} for hose of 3-1/2 in and more, {200 psi} below.",
                "Greatest discharge pressure at each engine, within the hose's limit.",
            ),
            INTAKE_PRESSURE: f64 = or(
                "intake_pressure",
                Takes::number(Quantity::Pressure, INTAKE),
                20.0,
                "Pressure wanted at the next intake.",
            ),
            LAID_A_MINUTE: f64 = or(
                "laid_a_minute",
                Takes::number(Quantity::Length, LAID),
                300.0,
                "Length laid in a minute, couplings and bends included: a walking pace.",
            ),
            HOOKUP: f64 = or(
                "hookup",
                MINUTES,
                5.0,
                "Connecting both ends and getting the engines to pump, once the hose lies.",
            ),
            START: Option<f64> = optional(
                "start",
                MINUTES,
                "when the attack engine is there; in a building file, minute 0.",
                "When laying begins, minutes after the alarm.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
