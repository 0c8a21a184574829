//! Numbers that may be known roughly: bare, or with their guess.

use shuttle_sim::Plan;

use super::rests_on::{GUESS, Guess};
use crate::format::shared_fields::{CAPACITY, FLOW, RATE};
use crate::format::tables::object;
use crate::format::takes::{Either, Nested, Rough, Takes};
use crate::quantities::quantity::Quantity;

/// The key of a number that stands in braces beside its guess.
pub(crate) const VALUE: &str = "value";

/// A number with its guess.
macro_rules! rough {
    ($name:ident, $rows:ident, $what:literal, $def:literal, $takes:ident) => {
        object! {
            pub(crate) static $name: $rows {
                what: $what,
                def: $def,
                doc: "A value that is known roughly.",
                rows: {
                    VALUE: f64 = required(VALUE, $takes, "The value."),
                    GUESS: Option<Guess> = GUESS,
                },
                rules: &[],
                strays: &[],
            }
        }
    };
}

rough!(ROUGH_RATE, OfRoughRate, "a rough rate", "rough_rate", RATE);
rough!(ROUGH_FLOW, OfRoughFlow, "a rough flow", "rough_flow", FLOW);
rough!(ROUGH_CAPACITY, OfRoughCapacity, "a rough capacity", "rough_capacity", CAPACITY);
rough!(ROUGH_SHARE, OfRoughShare, "a rough share", "rough_share", SHARE);

/// A share of which something must be left.
pub(crate) const SHARE: Takes<f64> = Takes::number(Quantity::Share, Plan::LIMITS.share);

/// A number or the braces around one, read as the number.
macro_rules! or_rough {
    ($takes:ident, $rows:ident) => {
        Takes::<Either<f64, Nested<$rows>>>::either(&$takes, &Takes::object()).read_as()
    };
}

/// A rate, or a rough one.
pub(crate) const RATE_OR_ROUGH: Takes<Rough> = or_rough!(RATE, OfRoughRate);
/// A flow that may be none, or a rough one.
pub(crate) const FLOW_OR_ROUGH: Takes<Rough> = or_rough!(FLOW, OfRoughFlow);
/// A capacity, or a rough one.
pub(crate) const CAPACITY_OR_ROUGH: Takes<Rough> = or_rough!(CAPACITY, OfRoughCapacity);
/// A share, or a rough one.
pub(crate) const SHARE_OR_ROUGH: Takes<Rough> = or_rough!(SHARE, OfRoughShare);
