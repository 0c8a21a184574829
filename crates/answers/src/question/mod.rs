//! One file a question. Each takes a checked scenario and a budget of runs and returns a typed answer.

pub mod risk;

pub mod check;

pub mod flow;

pub mod hold;

pub mod replay;

pub mod lose;

pub mod levers;

pub mod grade;

pub mod reach;

pub mod size;

pub mod request;

pub mod compare;

pub mod drill;

pub mod card;

pub mod handout;

pub mod report;

#[cfg(test)]
mod titles;

pub use crate::shared::budget::Budget;
pub use crate::shared::so_far::so_far;
