//! Kinds and fields that several objects share.

use shuttle_sim::Plan;

use super::description::Rule;
use super::rows::{Row, Shared};
use super::tables::{object, words};
use super::takes::{Chosen, Duration, Takes, Text};
use super::values::durations::{DURATION, MINUTES};
use crate::quantities::quantity::{Quantity, Units};

pub(crate) const NAME: Takes<Text> = Takes::text(Plan::LIMITS.name_length);

pub(crate) const RATE: Takes<f64> = Takes::number(Quantity::Flow, Plan::LIMITS.rate);
pub(crate) const FLOW: Takes<f64> = Takes::number(Quantity::Flow, Plan::LIMITS.flow);
pub(crate) const CAPACITY: Takes<f64> = Takes::number(Quantity::Volume, Plan::LIMITS.capacity);
pub(crate) const LEVEL: Takes<f64> = Takes::number(Quantity::Volume, Plan::LIMITS.level);
pub(crate) const CHANCE: Takes<f64> = Takes::number(Quantity::Share, Plan::LIMITS.chance);
pub(crate) const COUNT: Takes<u32> = Takes::count(Plan::LIMITS.count);

pub(crate) const REQUESTED_AT: Row<Shared, f64> = Row::<Shared, f64>::or(
    "requested_at",
    MINUTES,
    0.0,
    "When it is asked for, minutes after the alarm. Of a {tanker} on a greater alarm silence means the minute of that.",
);
pub(crate) const RESPONSE: Row<Shared, Duration> =
    Row::required("response", DURATION, "From the request to arrival at the scene.");

/// When it is there itself, of what a unit may bring as well.
///
/// - Given: from when to when it counts.
pub(crate) const fn own_response<O>(doc: &'static str) -> Row<O, Option<Duration>> {
    Row::optional(RESPONSE.key(), DURATION, "a unit brings it, by `brought_by`.", doc)
}

/// Who brings it.
pub(crate) const fn brought_by<O>(doc: &'static str) -> Row<O, Option<Text>> {
    Row::optional(BROUGHT_BY, NAME, "it comes by its own vehicle, with `response`.", doc)
}

const BROUGHT_BY: &str = "brought_by";

pub(crate) const TURNOUT: Row<Shared, f64> = Row::<Shared, f64>::or(
    "turnout",
    CHANCE,
    1.0,
    "Chance that it comes at all; one that does not is never there, nor what it brings.",
);

/// What comes with a unit has no call of its own.
pub(crate) const HOW_IT_COMES: &[Rule] = &[
    Rule::ExactlyOne(
        &[BROUGHT_BY, RESPONSE.key()],
        "name the unit that brings it in `brought_by`, or give its own `response`",
    ),
    Rule::OnlyWith(
        REQUESTED_AT.key(),
        RESPONSE.key(),
        "it comes with the unit that brings it: leave `requested_at` out",
    ),
    Rule::OnlyWith(
        TURNOUT.key(),
        RESPONSE.key(),
        "it comes if the unit that brings it does: put `turnout` there",
    ),
];

words! {
    Units {
        Us = "us": "Bare numbers are gal, gpm, minutes, miles, mph, ft, in, psi.",
        Metric = "metric":
            "Bare numbers are L, L/min, minutes, km, km/h, m, mm, kPa, and so are the reports.",
    }
}

pub(crate) const UNITS: Row<Shared, Chosen<Units>> = Row::<Shared, Chosen<Units>>::or(
    "units",
    &Units::Us,
    "Which units bare numbers are in. A string with a unit, such as \"11000 L\", is taken anywhere.",
)
.on_page("Which units numbers are in that have none. One with its unit, such as 11000 L, is taken anywhere.");

object! {
    /// Something that may fail.
    pub(crate) static FAILURE: OfFailure {
        what: "a failure",
        def: "failure",
        doc: "A failure in the course of the watch, at any moment of it, once.",
        rows: {
            CHANCE: f64 = required("chance", CHANCE, "Chance that it fails at all in a fire."),
            REPAIR: Option<Duration> = optional(
                "repair",
                DURATION,
                "it is down for good.",
                "How long until it works again.",
            ),
        },
        rules: &[],
        strays: &[],
    }
}
