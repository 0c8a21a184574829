//! Drop tanks.

use fireground::told::{Part as Worked, Unit};
use std::ops::Bound::{Excluded, Included};

use crate::format::shared_fields::{
    CAPACITY, COUNT, HOW_IT_COMES, LEVEL, REQUESTED_AT, RESPONSE, TURNOUT, brought_by, own_response,
};
use crate::format::tables::object;
use crate::format::takes::{Duration, Either, Nested, Rough, Takes, Text};
use crate::format::values::durations::DURATION;
use crate::format::values::rough_values::RATE_OR_ROUGH;
use crate::quantities::quantity::{Bounds, Quantity};

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

object! {
    pub(crate) static DROP_TANK: OfDropTank {
        what: "a drop tank",
        def: "drop_tank",
        doc: "A portable tank at the dump site.",
        rows: {
            CAPACITY: Either<f64, Nested<OfTankSize>> = required(
                "capacity",
                Takes::either(&CAPACITY, &Takes::object()),
                "What it holds as it stands, less on a slope; or its size and the slope.",
            ),
            UNUSABLE: f64 = assumed(
                "unusable",
                LEVEL,
                0.0,
                &[Worked::Of(125.0, Unit::Gallons, 0), Worked::Words(" to "), Worked::Of(375.0, Unit::Gallons, 0), Worked::Words(" is usual in a common drop tank (value from memory)")],
                "Water below the strainer's reach; with `capacity` given by its size, silence takes what follows from that.",
            ),
            BROUGHT_BY: Option<Text> = { brought_by("The unit that brings it; of a group by the full name, such as \"Aid tanker 1\".") },
            REQUESTED_AT: f64 = REQUESTED_AT,
            RESPONSE: Option<Duration> = { own_response(RESPONSE.field.doc) },
            TURNOUT: f64 = TURNOUT,
            SETUP: Duration = assumed(
                "setup",
                DURATION,
                0.0,
                &[Worked::Bare(3.0, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(5.0, Unit::Minutes, 1), Worked::Words(" with suction and prime is usual")],
                "Setting it up, once it is there.",
            ),
            DUMP_POSITIONS: u32 = or(
                "dump_positions",
                COUNT,
                1,
                "{Tankers} that can dump into it at once.",
            ),
            TRANSFER: Rough = assumed(
                "transfer",
                RATE_OR_ROUGH,
                500.0,
                &[Worked::Of(500.0, Unit::Gpm, 0), Worked::Words(" to "), Worked::Of(1_000.0, Unit::Gpm, 0), Worked::Words(" for each jet siphon is usual (value from memory)")],
                "What it passes to the first drop tank; without meaning on the first.",
            ),
        },
        rules: HOW_IT_COMES,
        strays: &[
            ("dump_rate", "put it into the {tanker}"),
            ("name", "a drop tank has no name: its place in the list counts"),
        ],
    }
}

object! {
    /// A drop tank by its size.
    pub(crate) static TANK_SIZE: OfTankSize {
        what: "the size of a drop tank",
        def: "tank_size",
        doc: "A rectangular drop tank as it stands: what it holds, and what its strainer cannot reach.",
        rows: {
            LENGTH: f64 = required(
                "length",
                Takes::number(Quantity::Length, TANK_SIDE),
                "Inside length, in the direction of the slope.",
            ),
            WIDTH: f64 = required(
                "width",
                Takes::number(Quantity::Length, TANK_SIDE),
                "Inside width, across the slope.",
            ),
            DEPTH: f64 = required(
                "depth",
                Takes::number(Quantity::Length, TANK_DEPTH),
                "From the floor to the rim.",
            ),
            SLOPE: f64 = or(
                "slope",
                Takes::number(Quantity::Share, SLOPE),
                0.0,
                "Slope of the ground, as \"3%\" or 0.03.",
            ),
            STRAINER_DEPTH: f64 = or(
                "strainer_depth",
                Takes::number(Quantity::Diameter, STRAINER),
                6.0,
                "Depth of water at which the strainer takes air: {4 in} to {6 in} at {500 gpm} to {1000 gpm} (value from memory).",
            ),
            STRAINER_FROM_LOW_SIDE: f64 = or(
                "strainer_from_low_side",
                Takes::number(Quantity::Length, ALONG),
                0.0,
                "From the lower side to the strainer; 0 is best.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
