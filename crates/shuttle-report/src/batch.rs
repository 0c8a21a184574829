//! Many runs of one plan on any number of threads, with the same answer on each.
//!
//! Runs are allocated to threads in blocks. Each block is summed in the order of its runs and the blocks
//! are merged in order, so no floating-point sum depends on which thread was faster. Counts may be added in
//! any order. Memory grows by one bit a run and no more.

use std::collections::BTreeMap;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

use shuttle_sim::{Luck, Plan, Shuttle};

use crate::tally::{Bands, Tally};

/// Runs in a block.
const BLOCK: u64 = 128;

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

/// What is kept of each run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// Sums and counts.
    Sums,
    /// Also the levels minute by minute.
    Levels,
}

/// What other threads see and set while a batch runs.
#[derive(Debug, Default)]
pub struct Control {
    /// Runs done so far, over all batches under this control.
    pub done: AtomicU64,
    /// Set it to stop early, with the results so far.
    pub stop: AtomicBool,
}

impl Control {
    /// Whether someone asked to stop early.
    pub fn is_stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
}

/// What a batch gives.
#[derive(Debug, Clone)]
pub struct Batch {
    /// Sums and counts over all runs.
    pub tally: Tally,
    /// Levels minute by minute, where they were kept.
    pub bands: Option<Bands>,
}

struct Shared {
    /// Blocks that are done and wait for an earlier one.
    waiting: BTreeMap<u64, Tally>,
    next: u64,
    total: Tally,
    bands: Option<Bands>,
}

/// Runs a plan many times.
///
/// - Returns: the sums over runs `first` to `first + count - 1`; over fewer, from the first on, if
///   it was stopped early.
pub fn run_batch(plan: &Plan, runs: Runs, keep: Keep, control: &Control) -> Batch {
    let blocks = runs.count.div_ceil(BLOCK);
    let next_block = AtomicU64::new(0);
    let bands = || (keep == Keep::Levels).then(|| Bands::new(plan));
    let shared = Mutex::new(Shared {
        waiting: BTreeMap::new(),
        next: 0,
        total: Tally::new(plan),
        bands: bands(),
    });
    let work = || {
        let mut shuttle = Shuttle::new(plan);
        shuttle.keep_levels(keep == Keep::Levels);
        let mut own_bands = bands();
        while !control.is_stopped() {
            let block = next_block.fetch_add(1, Ordering::Relaxed);
            if block >= blocks {
                break;
            }
            let first = block * BLOCK;
            let last = (first + BLOCK).min(runs.count);
            let mut tally = Tally::new(plan);
            for run in first..last {
                let result =
                    shuttle.run(Luck::Drawn { seed: runs.seed, replication: runs.first + run });
                tally.add(result);
                if let Some(bands) = &mut own_bands {
                    bands.add(result);
                }
            }
            control.done.fetch_add(last - first, Ordering::Relaxed);
            let mut shared = lock(&shared);
            shared.waiting.insert(block, tally);
            let shared = &mut *shared;
            while let Some(tally) = shared.waiting.remove(&shared.next) {
                shared.total.merge(&tally);
                shared.next += 1;
            }
        }
        if let Some(own_bands) = own_bands {
            let mut shared = lock(&shared);
            if let Some(bands) = &mut shared.bands {
                bands.merge(&own_bands);
            }
        }
    };
    if runs.threads <= 1 || blocks <= 1 {
        work();
    } else {
        std::thread::scope(|scope| {
            for _ in 0..runs.threads.min(blocks as usize) {
                scope.spawn(work);
            }
        });
    }
    let shared = shared.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
    Batch { tally: shared.total, bands: shared.bands }
}

/// A panic on another thread ends the whole batch anyway when the threads are joined.
fn lock(shared: &Mutex<Shared>) -> std::sync::MutexGuard<'_, Shared> {
    shared.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
}
