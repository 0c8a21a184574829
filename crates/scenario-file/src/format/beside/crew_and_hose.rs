//! What else a department has: people, and hose in place of tankers.

use std::ops::Bound::{Excluded, Included};

use crate::format::description::{Field, Kind, Object};
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

/// People for the plan.
pub(crate) static CREW: Object = Object {
    what: "the crew",
    def: "crew",
    doc: "People for each piece of work, to see whether the crew is there. The attack lines and relief come on top. What is silent is common practice.",
    fields: &[
        Field::number(
            "tanker",
            Kind::Count(PEOPLE),
            2.0,
            "On each tanker: a driver, and one who spots while it backs.",
        ),
        Field::number(
            "fill_site",
            Kind::Count(PEOPLE),
            2.0,
            "At each fill site, to connect and disconnect.",
        ),
        Field::number(
            "dump_site",
            Kind::Count(PEOPLE),
            2.0,
            "At the dump site, to place tankers and tend the drop tanks.",
        ),
        Field::number(
            "pump",
            Kind::Count(PEOPLE),
            1.0,
            "At each pump: the attack engine's, the supply engine's, and at each fill site that is no hydrant.",
        ),
        Field::number("officer", Kind::Count(PEOPLE), 1.0, "In charge of the water supply."),
        Field::optional(
            "on_hand",
            Kind::Count(MANY_PEOPLE),
            "Silent: nothing is said about whether they are there.",
            "People who can be counted on for the water supply.",
        ),
    ],
    rules: &[],
    strays: &[],
};

/// Hose in place of tankers.
pub(crate) static HOSE: Object = Object {
    what: "the hose",
    def: "hose",
    doc: "Hose and engines for a lay from the source to the fire in place of tankers. What is silent is common practice.",
    fields: &[
        Field::number(
            "diameter",
            Kind::Number(Quantity::Diameter, DIAMETER),
            5.0,
            "Nominal diameter of the hose.",
        ),
        Field::number("lines", Kind::Count(LINES), 1.0, "Equal parallel lines."),
        Field::optional(
            "on_hand",
            Kind::Number(Quantity::Length, HOSE_LENGTH),
            "Silent: not known; only the need is told.",
            "Hose of that size that can be brought, all of it together.",
        ),
        Field::optional(
            "engines",
            Kind::Count(ENGINES),
            "Silent: not known; only the need is told.",
            "Engines that can be spared to pump the lay, the one at the source included.",
        ),
        Field::optional(
            "distance",
            Kind::Number(Quantity::Length, DISTANCE),
            "Silent: the road to each fill site.",
            "From the source to the fire as the hose would lie.",
        ),
        Field::number(
            "elevation",
            Kind::Number(Quantity::Length, ELEVATION),
            0.0,
            "Height of the fire above the source; negative downhill.",
        ),
        Field::number(
            "rated",
            Kind::Number(Quantity::Flow, RATING),
            1_250.0,
            "Rating of the smallest pump in the lay.",
        ),
        Field::optional(
            "pump_pressure",
            Kind::Number(Quantity::Pressure, DISCHARGE),
            "Silent: 185 psi for hose of 3-1/2 in and more, 200 psi below.",
            "Greatest discharge pressure at each engine, within the hose's limit.",
        ),
        Field::number(
            "intake_pressure",
            Kind::Number(Quantity::Pressure, INTAKE),
            20.0,
            "Pressure wanted at the next intake.",
        ),
        Field::number(
            "laid_a_minute",
            Kind::Number(Quantity::Length, LAID),
            300.0,
            "Length laid in a minute, couplings and bends included: a walking pace.",
        ),
        Field::number(
            "hookup",
            MINUTES,
            5.0,
            "Connecting both ends and getting the engines to pump, once the hose lies.",
        ),
        Field::optional(
            "start",
            MINUTES,
            "Silent: when the attack engine is there; in a building file, minute 0.",
            "When laying begins, minutes after the alarm.",
        ),
    ],
    rules: &[],
    strays: &[],
};
