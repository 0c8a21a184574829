//! One file a question. Each takes a checked scenario and a budget of runs and returns a typed answer.

use shuttle_report::side_by_side::SameLuck;

pub mod risk;

pub mod check;

pub mod flow;

pub mod replay;

pub mod lose;

pub mod levers;

pub mod grade;

pub mod reach;

pub mod size;

pub mod request;

pub mod compare;

mod against;
mod causes;
mod changes;
mod holding;
mod hose;
mod instead;
mod notes;
mod people;
mod plan_in_a_line;
mod quantities;
mod station;
mod target;

pub use causes::{cause_key, cause_words, cure_words};
pub use notes::{aid_stays_away, notes};
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

impl Budget {
    /// The luck of plans that are run side by side.
    pub fn same_luck(self) -> SameLuck {
        SameLuck { seed: self.seed, threads: self.threads }
    }
}
