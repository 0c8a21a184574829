//! How much may be run.

use shuttle_report::side_by_side::SameLuck;

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
