//! Kinds and fields that several objects share.

use shuttle_sim::Plan;

use super::description::{Field, Kind, Object, Rule};
use super::values::durations::{DURATION, MINUTES};
use crate::quantities::quantity::Quantity;

pub(crate) const NAME: Kind = Kind::Text(Plan::LIMITS.name_length);

pub(crate) const RATE: Kind = Kind::Number(Quantity::Flow, Plan::LIMITS.rate);
pub(crate) const FLOW: Kind = Kind::Number(Quantity::Flow, Plan::LIMITS.flow);
pub(crate) const CAPACITY: Kind = Kind::Number(Quantity::Volume, Plan::LIMITS.capacity);
pub(crate) const LEVEL: Kind = Kind::Number(Quantity::Volume, Plan::LIMITS.level);
pub(crate) const CHANCE: Kind = Kind::Number(Quantity::Share, Plan::LIMITS.chance);
pub(crate) const COUNT: Kind = Kind::Count(Plan::LIMITS.count);

pub(crate) const REQUESTED_AT: Field = Field::number(
    "requested_at",
    MINUTES,
    0.0,
    "When it is asked for, minutes after the alarm. Of a tanker on a greater alarm silence means the minute of that.",
);
pub(crate) const RESPONSE: Field =
    Field::required("response", DURATION, "From the request to arrival at the scene.");

pub(crate) const TURNOUT: Field = Field::number(
    "turnout",
    CHANCE,
    1.0,
    "Chance that it comes at all; one that does not is never there, nor what it brings.",
);

/// What comes with a unit has no call of its own.
pub(crate) const HOW_IT_COMES: &[Rule] = &[
    Rule::ExactlyOne(
        &["brought_by", "response"],
        "name the unit that brings it in `brought_by`, or give its own `response`",
    ),
    Rule::OnlyWith(
        "requested_at",
        "response",
        "it comes with the unit that brings it: leave `requested_at` out",
    ),
    Rule::OnlyWith(
        "turnout",
        "response",
        "it comes if the unit that brings it does: put `turnout` there",
    ),
];

pub(crate) const UNITS: Field = Field::word(
    "units",
    Kind::Choice(&[
        ("us", "Bare numbers are gal, gpm, minutes, miles, mph, ft, in, psi."),
        (
            "metric",
            "Bare numbers are L, L/min, minutes, km, km/h, m, mm, kPa, and so are the reports.",
        ),
    ]),
    "us",
    "Which units bare numbers are in. A string with a unit, such as \"11000 L\", is taken anywhere.",
);

/// Something that may fail.
pub(crate) static FAILURE: Object = Object {
    what: "a failure",
    def: "failure",
    doc: "A failure in the course of the watch, at any moment of it, once.",
    fields: &[
        Field::required("chance", CHANCE, "Chance that it fails at all in a fire."),
        Field::optional(
            "repair",
            DURATION,
            "Silent: it is down for good.",
            "How long until it works again.",
        ),
    ],
    rules: &[],
    strays: &[],
};
