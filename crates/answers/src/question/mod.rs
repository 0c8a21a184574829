//! The questions. Each takes a checked scenario and a budget of runs and returns a typed answer.

mod plan;

mod chance;

mod aid;

mod sources;

mod paper;

#[cfg(test)]
mod titles;

pub use crate::shared::budget::Budget;
pub use crate::shared::so_far::so_far;
pub use aid::{hold, request};
pub use chance::{compare, levers, lose, risk, size};
pub use paper::{card, handout, report};
pub use plan::{check, drill, flow, replay};
pub use sources::{grade, reach};
