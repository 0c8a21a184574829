//! Many runs of one plan on any number of threads, with the same answer on each.
//!
//! Runs are allocated to threads in blocks. Each block is summed in the order of its runs and the blocks
//! are merged in order, so no floating-point sum depends on which thread was faster. Counts may be added in
//! any order. Memory grows by one bit a run and no more.

use shuttle_sim::{Luck, Plan, Shuttle};

use super::bands::Bands;
use super::in_order::in_order;
use super::tally::{Figures, Tally};

pub use super::control::{AsItStands, Control, Runs};

/// Runs in a block: one word of bits.
pub(crate) const BLOCK: u64 = 64;

/// What is kept of each run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// What every answer needs.
    Counts,
    /// Also the details for a picture of the plan.
    Sums,
    /// Also the levels minute by minute.
    Levels,
}

/// What a batch gives.
#[derive(Debug, Clone)]
pub struct Batch {
    /// Sums and counts over all runs.
    pub tally: Tally,
    /// Levels minute by minute, where they were kept.
    pub bands: Option<Bands>,
}

impl Batch {
    /// No runs yet.
    pub fn new(plan: &Plan, keep: Keep) -> Batch {
        Batch { tally: empty(plan, keep), bands: (keep == Keep::Levels).then(|| Bands::new(plan)) }
    }

    /// Runs the plan `runs.count` times more. `runs.first` is the number of the first of them.
    ///
    /// - Given: a multiple of 64 runs so far.
    /// - Returns: what pairs need of each run, in order, for the first `figures` of them.
    pub(crate) fn extend(
        &mut self,
        plan: &Plan,
        runs: Runs,
        figures: u64,
        control: &Control,
    ) -> Vec<Figures> {
        let keep = match (&self.tally.details, &self.bands) {
            (None, _) => Keep::Counts,
            (Some(_), None) => Keep::Sums,
            (Some(_), Some(_)) => Keep::Levels,
        };
        let room = || {
            let mut shuttle = Shuttle::new(plan);
            shuttle.keep_levels(keep == Keep::Levels);
            shuttle.note_levels_by_alarm();
            (shuttle, (keep == Keep::Levels).then(|| Bands::new(plan)))
        };
        let work = |(shuttle, bands): &mut (Shuttle, Option<Bands>), block: u64| {
            let (first, last) = (block * BLOCK, ((block + 1) * BLOCK).min(runs.count));
            let mut tally = empty(plan, keep);
            let mut kept = Vec::new();
            for run in first..last {
                let luck = Luck::Drawn { seed: runs.seed, replication: runs.first + run };
                let result = shuttle.run(luck);
                tally.add(result);
                if run < figures {
                    kept.push(Figures::of(result));
                }
                if let Some(bands) = bands {
                    bands.add(result);
                }
            }
            control.add_done(last - first);
            (tally, kept)
        };
        let mut all_figures = Vec::new();
        let blocks = runs.count.div_ceil(BLOCK);
        let rooms = in_order(blocks, runs.threads, control, room, work, |_, (tally, kept)| {
            self.tally.merge(&tally);
            all_figures.extend(kept);
        });
        if let Some(bands) = &mut self.bands {
            for (_, own) in &rooms {
                own.iter().for_each(|own| bands.merge(own));
            }
        }
        all_figures
    }
}

fn empty(plan: &Plan, keep: Keep) -> Tally {
    match keep {
        Keep::Counts => Tally::default(),
        Keep::Sums | Keep::Levels => Tally::in_detail(plan),
    }
}

/// Runs a plan many times.
///
/// - Returns: the sums over runs `first` to `first + count - 1`; over fewer, from the first on, if
///   it was stopped early.
pub fn run_batch(plan: &Plan, runs: Runs, keep: Keep, control: &Control) -> Batch {
    let mut batch = Batch::new(plan, keep);
    batch.extend(plan, runs, 0, control);
    batch
}
