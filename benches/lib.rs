//! What the benchmarks share: sane plans at random, additions to them, and pairs of plans on the same luck.
//! The laws take the plans from here as well.

pub mod sane_plan;

pub mod additions;

pub mod pairs;

pub mod nudges;

pub mod described;
