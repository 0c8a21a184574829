//! Fill sites and the pumps that come to them.

use std::ops::Bound::{Excluded, Included};

use shuttle_sim::Plan;

use super::roads::LEG;
use crate::format::beside::grading::SITE_SURVEY;
use crate::format::description::{Field, Kind, Object, Rule, Silence};
use crate::format::shared_fields::{
    COUNT, FAILURE, HOW_IT_COMES, NAME, REQUESTED_AT, RESPONSE, TURNOUT,
};
use crate::format::values::durations::DURATION;
use crate::format::values::flow_facts::FILL_FLOW;
use crate::format::values::rough_values::FLOW_OR_ROUGH;
use crate::quantities::quantity::{Bounds, Quantity};

/// Sides of a pond, ft. Judgement: about two miles.
const POND_SIDE: Bounds = (Excluded(0.0), Included(10_000.0));
/// Depth of a pond, ft. Judgement.
const POND_DEPTH: Bounds = (Excluded(0.0), Included(300.0));

pub(crate) static FILL_SITE: Object = Object {
    what: "a fill site",
    def: "fill_site",
    doc: "A hydrant, dry hydrant, or pond with a drafting engine.",
    fields: &[
        Field::optional(
            "name",
            NAME,
            "Silent: \"Fill site\" and its place in the list.",
            "Its name, unlike any other fill site's.",
        ),
        Field::required(
            "flow",
            FILL_FLOW,
            "Flow for all tankers filling at once: stated, or by a hydrant test or a pump at draft.",
        ),
        Field::number("positions", COUNT, 1.0, "Tankers that can be hooked up at once."),
        Field::number("ready", DURATION, 0.0, "When it can serve, minutes after the alarm."),
        Field::word(
            "fill_order",
            Kind::Choice(&[
                ("one-by-one", "Whoever began first takes all it can (connect two, load one)."),
                ("shared", "Tankers that fill at once share the flow fairly."),
            ]),
            "one-by-one",
            "How tankers that fill at once share the flow.",
        ),
        Field::optional(
            "volume",
            Kind::Any(&[
                Kind::Number(Quantity::Volume, Plan::LIMITS.site_volume),
                Kind::Null,
                Kind::Shapes(&[&POND_SIZE]),
            ]),
            "Silent or null: water without end.",
            "Water to be had from it, or the size of the pond.",
        ),
        Field::number("recharge", FLOW_OR_ROUGH, 0.0, "What runs into a limited volume."),
        Field::optional(
            "failure",
            Kind::Shapes(&[&FAILURE]),
            "Silent: it does not fail.",
            "Whether it may fail (a pump, a main, the access): it gives nothing until it is repaired.",
        ),
        Field::optional(
            "source_pump",
            Kind::Shapes(&[&SOURCE_PUMP]),
            "Silent: what gives the water is there, from `ready` on.",
            "The engine that comes to pump there, or a portable pump that someone brings: until it is set up the site serves nobody.",
        ),
        Field::optional(
            "self_fill",
            Kind::Switch,
            "Silent: false.",
            "Whether a tanker that fills itself by vacuum can reach the water with its own hose: a bank to back up to, no deep lift.",
        ),
        Field::nothing(
            "survey",
            Kind::Shapes(&[&SITE_SURVEY]),
            "What a grading asks of it, for `grade`; the simulation does not use it.",
        ),
        Field::required("out", LEG, "The road from the scene."),
        Field::required("back", LEG, "The road to the scene."),
    ],
    rules: &[Rule::NeverWith(
        "ready",
        "source_pump",
        "leave `ready` out: with `source_pump` the site is ready once that has come and is set up",
    )],
    strays: &[],
};

/// The pump that someone brings to a fill site.
pub(crate) static SOURCE_PUMP: Object = Object {
    what: "the pump at a source",
    def: "source_pump",
    doc: "An engine that drives to the source to pump there, or a portable pump that a unit brings.",
    fields: &[
        Field::optional(
            "name",
            NAME,
            "Silent: \"Pump at \" and the name of the fill site.",
            "Its name, unlike any unit's.",
        ),
        Field::optional(
            "brought_by",
            NAME,
            "Silent: it comes by its own vehicle, with `response`.",
            "The unit that brings it; of a group by the full name, such as \"Aid tanker 1\". It counts from when that reaches the scene: the way on to the source is part of `setup`.",
        ),
        REQUESTED_AT,
        Field {
            doc: "From the request to arrival at the source, not at the scene.",
            silence: Silence::Says("Silent: a unit brings it, by `brought_by`."),
            ..RESPONSE
        },
        TURNOUT,
        Field::assumed(
            "setup",
            DURATION,
            0.0,
            "3 to 8 min is usual",
            "Setting it up until it can fill a tanker, once it is there.",
        ),
    ],
    rules: HOW_IT_COMES,
    strays: &[],
};

/// A pond by its size.
pub(crate) static POND_SIZE: Object = Object {
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
