//! Sane plans at random, additions to them, and pairs of plans on common random numbers. The laws take their
//! plans from here as well.

pub mod additions;
pub mod described;
pub mod nudges;
pub mod pairs;
pub mod sane_plan;
