//! Which runs are made, on how many threads, and who may stop them.

use std::sync::OnceLock;
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
    /// How the plan as it stands fares, once its own runs are made and before anything else is tried; never where a
    /// question has no such plan.
    pub as_it_stands: OnceLock<AsItStands>,
}

/// How the plan as it stands fares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AsItStands {
    /// Runs in which the lines ran short.
    pub interrupted: u64,
    /// Runs made.
    pub runs: u64,
}

impl Control {
    /// Whether someone asked to stop early.
    pub fn is_stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }

    /// Tells whoever watches how the plan as it stands fares. What is told first stays.
    pub(crate) fn tell_as_it_stands(&self, interrupted: u64, runs: u64) {
        if runs > 0 {
            let _ = self.as_it_stands.set(AsItStands { interrupted, runs });
        }
    }

    pub(crate) fn add_done(&self, runs: u64) {
        self.done.fetch_add(runs, Ordering::Relaxed);
    }
}
