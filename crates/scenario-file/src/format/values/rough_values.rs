//! Numbers that may be known roughly: bare, or with their guess.

use shuttle_sim::Plan;

use super::rests_on::GUESS;
use crate::format::description::{Field, Kind, Object};
use crate::format::shared_fields::{CAPACITY, FLOW, RATE};
use crate::quantities::quantity::Quantity;

/// A number with its guess.
macro_rules! rough {
    ($name:ident, $what:literal, $def:literal, $kind:expr) => {
        pub(crate) static $name: Object = Object {
            what: $what,
            def: $def,
            doc: "A value that is known roughly.",
            fields: &[Field::required("value", $kind, "The value."), GUESS],
            rules: &[],
            strays: &[],
        };
    };
}

rough!(ROUGH_RATE, "a rough rate", "rough_rate", RATE);
rough!(ROUGH_FLOW, "a rough flow", "rough_flow", FLOW);
rough!(ROUGH_CAPACITY, "a rough capacity", "rough_capacity", CAPACITY);
rough!(ROUGH_SHARE, "a rough share", "rough_share", SHARE);

/// A share of which something must be left.
pub(crate) const SHARE: Kind = Kind::Number(Quantity::Share, Plan::LIMITS.share);

/// A rate, or a rough one.
pub(crate) const RATE_OR_ROUGH: Kind = Kind::Any(&[RATE, Kind::Shapes(&[&ROUGH_RATE])]);
/// A flow that may be none, or a rough one.
pub(crate) const FLOW_OR_ROUGH: Kind = Kind::Any(&[FLOW, Kind::Shapes(&[&ROUGH_FLOW])]);
/// A capacity, or a rough one.
pub(crate) const CAPACITY_OR_ROUGH: Kind = Kind::Any(&[CAPACITY, Kind::Shapes(&[&ROUGH_CAPACITY])]);
/// A share, or a rough one.
pub(crate) const SHARE_OR_ROUGH: Kind = Kind::Any(&[SHARE, Kind::Shapes(&[&ROUGH_SHARE])]);
