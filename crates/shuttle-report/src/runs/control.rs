//! Which runs are made, on how many threads, and who may stop them.

use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

/// How many runs, from which seed, on how many threads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Runs {
    /// The first run's number; the others follow.
    pub first: u64,
    /// How many runs.
    pub count: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use, at least 1.
    pub threads: usize,
}

/// The seed that all plans share, and the threads to use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SameLuck {
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use, at least 1.
    pub threads: usize,
}

/// What other threads see and set while runs are made.
#[derive(Debug, Default)]
pub struct Control {
    /// Runs done so far, over everything under this control.
    pub done: AtomicU64,
    /// Set it to stop early, with the results so far.
    pub stop: AtomicBool,
}

impl Control {
    /// Whether someone asked to stop early.
    pub fn is_stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }

    pub(crate) fn add_done(&self, runs: u64) {
        self.done.fetch_add(runs, Ordering::Relaxed);
    }
}
