//! Fill sites and the pumps that come to them.

use fireground::told::{Part as Worked, Unit};
use std::ops::Bound::{Excluded, Included};

use shuttle_sim::{FillOrder, Plan};

use super::roads::{LEG, Leg};
use crate::format::beside::grading::OfSiteSurvey;
use crate::format::description::Rule;
use crate::format::shared_fields::{
    COUNT, HOW_IT_COMES, NAME, OfFailure, REQUESTED_AT, TURNOUT, brought_by, own_response,
};
use crate::format::tables::{object, words};
use crate::format::takes::{AnyOf, Chosen, Duration, Either, Nested, Null, Rough, Takes, Text};
use crate::format::values::durations::DURATION;
use crate::format::values::flow_facts::{FILL_FLOW, FillFlow};
use crate::format::values::rough_values::FLOW_OR_ROUGH;
use crate::quantities::quantity::{Bounds, Quantity};

/// Sides of a pond, ft. Judgement: about two miles.
const POND_SIDE: Bounds = (Excluded(0.0), Included(10_000.0));
/// Depth of a pond, ft. Judgement.
const POND_DEPTH: Bounds = (Excluded(0.0), Included(300.0));

words! {
    FillOrder {
        OneByOne = "one-by-one": "Whoever began first takes all it can (connect two, load one).",
        Shared = "shared": "{Tankers} that fill at once share the flow fairly.",
    }
}

object! {
    pub(crate) static FILL_SITE: OfFillSite {
        what: "a fill site",
        def: "fill_site",
        doc: "A hydrant, dry hydrant, or pond with a drafting engine.",
        rows: {
            NAME: Option<Text> = optional(
                "name",
                NAME,
                "\"Fill site\" and its place in the list.",
                "Its name, unlike any other fill site's.",
            ),
            FLOW: FillFlow = required(
                "flow",
                FILL_FLOW,
                "Flow for all {tankers} filling at once: stated, or by a hydrant test or a pump at draft.",
            ),
            POSITIONS: u32 = or("positions", COUNT, 1, "{Tankers} that can be hooked up at once."),
            READY: Duration = or("ready", DURATION, 0.0, "When it can serve, minutes after the alarm."),
            FILL_ORDER: Chosen<FillOrder> = or(
                "fill_order",
                &FillOrder::OneByOne,
                "How {tankers} that fill at once share the flow.",
            ),
            VOLUME: Option<Either<f64, Either<Null, Nested<OfPondSize>>>> = optional(
                "volume",
                Takes::either(
                    &Takes::number(Quantity::Volume, Plan::LIMITS.site_volume),
                    &Takes::either(&Takes::null(), &Takes::object()),
                ),
                "water without end.",
                "Water to be had from it, or the size of the pond.",
            ),
            RECHARGE: Rough = or("recharge", FLOW_OR_ROUGH, 0.0, "What runs into a limited volume."),
            FAILURE: Option<Nested<OfFailure>> = optional(
                "failure",
                Takes::object(),
                "it does not fail.",
                "Whether it may fail (a pump, a main, the access): it gives nothing until it is repaired.",
            ),
            SOURCE_PUMP: Option<Nested<OfSourcePump>> = optional(
                "source_pump",
                Takes::object(),
                "what gives the water is there, from `ready` on.",
                "The engine that comes to pump there, or a portable pump that someone brings: until it is set up the site serves nobody.",
            ),
            SELF_FILL: Option<bool> = optional(
                "self_fill",
                Takes::switch(),
                "{false}.",
                "Whether a {tanker} that fills itself by vacuum can reach the water with its own hose: a bank to back up to, no deep lift.",
            ),
            SURVEY: Nested<OfSiteSurvey> = nothing(
                "survey",
                "What a grading asks of it, for `grade`; the simulation does not use it.",
            ),
            OUT: AnyOf<Leg> = required("out", LEG, "The road from the scene."),
            BACK: AnyOf<Leg> = required("back", LEG, "The road to the scene."),
        },
        rules: &[Rule::NeverWith(
            OfFillSite::READY.key(),
            OfFillSite::SOURCE_PUMP.key(),
            "leave `ready` out: with `source_pump` the site is ready once that has come and is set up",
        )],
        strays: &[],
    }
}

object! {
    /// The pump that someone brings to a fill site.
    pub(crate) static SOURCE_PUMP: OfSourcePump {
        what: "the pump at a source",
        def: "source_pump",
        doc: "An engine that drives to the source to pump there, or a portable pump that a unit brings.",
        rows: {
            NAME: Option<Text> = optional(
                "name",
                NAME,
                "\"Pump at \" and the name of the fill site.",
                "Its name, unlike any unit's.",
            ),
            BROUGHT_BY: Option<Text> = {
                brought_by("The unit that brings it; of a group by the full name, such as \"Aid tanker 1\". It counts from when that reaches the scene: the way on to the source is part of `setup`.")
            },
            REQUESTED_AT: f64 = REQUESTED_AT,
            RESPONSE: Option<Duration> = { own_response("From the request to arrival at the source, not at the scene.") },
            TURNOUT: f64 = TURNOUT,
            SETUP: Duration = assumed(
                "setup",
                DURATION,
                0.0,
                &[Worked::Bare(3.0, Unit::Minutes, 1), Worked::Words(" to "), Worked::Of(8.0, Unit::Minutes, 1), Worked::Words(" is usual")],
                "Setting it up until it can fill a {tanker}, once it is there.",
            ),
        },
        rules: HOW_IT_COMES,
        strays: &[],
    }
}

object! {
    /// A pond by its size.
    pub(crate) static POND_SIZE: OfPondSize {
        what: "the size of a pond",
        def: "pond_size",
        doc: "A pond in the state it is to be counted in (drought, ice): what can be drawn from it.",
        rows: {
            LENGTH: f64 = required(
                "length",
                Takes::number(Quantity::Length, POND_SIDE),
                "Mean length.",
            ),
            WIDTH: f64 = required("width", Takes::number(Quantity::Length, POND_SIDE), "Mean width."),
            MEAN_DEPTH: f64 = required(
                "mean_depth",
                Takes::number(Quantity::Length, POND_DEPTH),
                "Mean depth of all of it.",
            ),
            USABLE_DEPTH: f64 = required(
                "usable_depth",
                Takes::number(Quantity::Length, POND_DEPTH),
                "Depth that can be drawn down before the strainer takes air or mud; no ice in it.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
