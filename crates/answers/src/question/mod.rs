//! One file a question. Each takes a checked scenario and a budget of runs and returns a typed answer.

pub mod risk;

pub mod check;

pub mod flow;

pub mod replay;

pub mod lose;

pub mod levers;

pub mod grade;

pub mod reach;

mod causes;
mod holding;
mod hose;
mod notes;
mod people;
mod plan_in_a_line;
mod quantities;
mod station;

pub use causes::{cause_key, cause_words, cure_words};
pub use notes::notes;
pub use plan_in_a_line::headline;

/// How much may be run, and with which luck.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Budget {
    /// Most simulated fires of one plan.
    pub replications: u64,
    /// Seed of all luck.
    pub seed: u64,
    /// Threads to use, at least 1.
    pub threads: usize,
}
