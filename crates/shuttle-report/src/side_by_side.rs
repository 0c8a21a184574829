//! Several plans on common random numbers, run by run: how each fares, and how each differs from the first.
//!
//! [`batch`](crate::batch) keeps everything about one plan; this keeps a little about many: sums, the pairs
//! with the first plan, and one bit a run. Runs are allocated to threads in blocks and the blocks are
//! merged in order, so no figure depends on the number of threads.

use std::collections::BTreeMap;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use shuttle_sim::{Luck, Plan, RunResult, Shuttle};

use crate::batch::Control;
use crate::statistics::paired::PairedShares;
use crate::statistics::paired_means::PairedMeans;

/// Runs in a block: one word of bits.
const BLOCK: u64 = 64;

/// The seed that all plans share, and the threads to use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SameLuck {
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use, at least 1.
    pub threads: usize,
}

/// How one plan fared.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Record {
    /// Runs made, from run 0 on.
    pub runs: u64,
    /// Runs with an interruption.
    pub interrupted: u64,
    /// Runs in which the reserve was touched.
    pub reserve_touched: u64,
    /// Minutes short, summed.
    pub minutes_short: f64,
    /// The attack engine's lowest level, gal, summed.
    pub lowest_engine: f64,
    /// The first drop tank's lowest level, gal, summed over the runs in which it was drawn from.
    pub lowest_tank: f64,
    /// Those runs.
    pub tank_drawn: u64,
    /// Flow delivered, gpm, mean over each watch, summed.
    pub flow: f64,
    /// For each run in order, whether it was interrupted: 64 to a word.
    pub interrupted_runs: Vec<u64>,
    /// This plan against the first one.
    pub pairs: Pairs,
}

/// One plan against another on common random numbers: this one minus the other.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Pairs {
    /// Interruption.
    pub interrupted: PairedShares,
    /// Reserve touched.
    pub reserve_touched: PairedShares,
    /// Minutes short.
    pub minutes_short: PairedMeans,
    /// The attack engine's lowest level, gal.
    pub lowest_engine: PairedMeans,
    /// Flow delivered, gpm.
    pub flow: PairedMeans,
}

/// What is kept of one run until its pair is done.
#[derive(Debug, Clone, Copy)]
struct Figures {
    interrupted: bool,
    reserve_touched: bool,
    minutes_short: f64,
    lowest_engine: f64,
    lowest_tank: Option<f64>,
    flow: f64,
}

impl Figures {
    fn of(run: &RunResult) -> Figures {
        Figures {
            interrupted: !run.interruptions.is_empty(),
            reserve_touched: run.reserve_touched,
            minutes_short: run.minutes_short.iter().sum(),
            lowest_engine: run.lowest_engine,
            lowest_tank: run.lowest_tanks.first().copied().filter(|level| level.is_finite()),
            flow: run.delivered / (run.end - run.first_water).max(f64::MIN_POSITIVE),
        }
    }
}

impl Record {
    /// The share of runs with an interruption; 0 with no runs.
    pub fn chance(&self) -> f64 {
        self.mean(self.interrupted as f64)
    }

    /// A sum over runs as a mean; 0 with no runs.
    pub fn mean(&self, sum: f64) -> f64 {
        sum / self.runs.max(1) as f64
    }

    /// The first drop tank's lowest level, gal, mean; `None` if it was never drawn from.
    pub fn lowest_tank_mean(&self) -> Option<f64> {
        (self.tank_drawn > 0).then(|| self.lowest_tank / self.tank_drawn as f64)
    }

    /// Interruptions of this plan against another, over the runs that both made.
    pub fn against(&self, other: &Record) -> PairedShares {
        PairedShares::of_bits(
            (&self.interrupted_runs, self.runs),
            (&other.interrupted_runs, other.runs),
        )
    }

    fn add(&mut self, own: &Figures, first: &Figures) {
        if self.runs.is_multiple_of(64) {
            self.interrupted_runs.push(0);
        }
        if let Some(word) = self.interrupted_runs.last_mut() {
            *word |= u64::from(own.interrupted) << (self.runs % 64);
        }
        self.runs += 1;
        self.interrupted += u64::from(own.interrupted);
        self.reserve_touched += u64::from(own.reserve_touched);
        self.minutes_short += own.minutes_short;
        self.lowest_engine += own.lowest_engine;
        if let Some(level) = own.lowest_tank {
            self.lowest_tank += level;
            self.tank_drawn += 1;
        }
        self.flow += own.flow;
        let pairs = &mut self.pairs;
        pairs.interrupted.add(own.interrupted, first.interrupted);
        pairs.reserve_touched.add(own.reserve_touched, first.reserve_touched);
        pairs.minutes_short.add(own.minutes_short, first.minutes_short);
        pairs.lowest_engine.add(own.lowest_engine, first.lowest_engine);
        pairs.flow.add(own.flow, first.flow);
    }

    /// Adds the runs of another record, which follow this one's; this one holds whole words.
    fn merge(&mut self, other: &Record) {
        debug_assert!(self.runs.is_multiple_of(64) || other.runs == 0);
        self.runs += other.runs;
        self.interrupted += other.interrupted;
        self.reserve_touched += other.reserve_touched;
        self.minutes_short += other.minutes_short;
        self.lowest_engine += other.lowest_engine;
        self.lowest_tank += other.lowest_tank;
        self.tank_drawn += other.tank_drawn;
        self.flow += other.flow;
        self.interrupted_runs.extend_from_slice(&other.interrupted_runs);
        self.pairs.interrupted.merge(&other.pairs.interrupted);
        self.pairs.reserve_touched.merge(&other.pairs.reserve_touched);
        self.pairs.minutes_short.merge(&other.pairs.minutes_short);
        self.pairs.lowest_engine.merge(&other.pairs.lowest_engine);
        self.pairs.flow.merge(&other.pairs.flow);
    }
}

/// Several plans and how they fared so far.
#[derive(Debug)]
pub struct SideBySide<'p> {
    plans: Vec<&'p Plan>,
    records: Vec<Record>,
    luck: SameLuck,
}

impl<'p> SideBySide<'p> {
    /// No runs yet. Every plan is compared with the first.
    ///
    /// - Panics: when there is no plan.
    pub fn new(plans: Vec<&'p Plan>, luck: SameLuck) -> SideBySide<'p> {
        assert!(!plans.is_empty(), "no plan to run");
        let records = vec![Record::default(); plans.len()];
        SideBySide { plans, records, luck }
    }

    /// How the plans fared, in the order given.
    pub fn records(&self) -> &[Record] {
        &self.records
    }

    /// Runs the first plan and those in `who` (places above 0, in rising order) from where the first
    /// one stands up to run `until`.
    ///
    /// - Given: a multiple of 64 runs so far. A plan that is left out once stays out.
    /// - If it is stopped early, all of them hold the same runs, a multiple of 64.
    pub fn run_until(&mut self, until: u64, who: &[usize], control: &Control) {
        let begin = self.records[0].runs;
        let places: Vec<usize> =
            [0].into_iter().chain(who.iter().copied().filter(|place| *place > 0)).collect();
        assert!(
            places.iter().all(|place| self.records[*place].runs == begin),
            "a plan that was left out cannot come back"
        );
        if until <= begin {
            return;
        }
        assert!(begin.is_multiple_of(BLOCK), "{begin} runs so far are no whole number of blocks");
        let blocks = (until - begin).div_ceil(BLOCK);
        let next_block = AtomicU64::new(0);
        let merged = Mutex::new((
            0_u64,
            BTreeMap::<u64, Vec<Record>>::new(),
            std::mem::take(&mut self.records),
        ));
        let (plans, luck) = (&self.plans, self.luck);
        let work = || {
            let mut shuttles: Vec<Shuttle> =
                places.iter().map(|place| Shuttle::new(plans[*place])).collect();
            while !control.is_stopped() {
                let block = next_block.fetch_add(1, Ordering::Relaxed);
                if block >= blocks {
                    break;
                }
                let first = begin + block * BLOCK;
                let last = (first + BLOCK).min(until);
                let own = run_block(&mut shuttles, first..last, luck.seed);
                control.done.fetch_add((last - first) * places.len() as u64, Ordering::Relaxed);
                let mut merged = merged.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
                let (next, waiting, records) = &mut *merged;
                waiting.insert(block, own);
                while let Some(done) = waiting.remove(next) {
                    for (place, record) in places.iter().zip(&done) {
                        records[*place].merge(record);
                    }
                    *next += 1;
                }
            }
        };
        let threads = luck.threads.min(blocks as usize);
        if threads <= 1 {
            work();
        } else {
            std::thread::scope(|scope| {
                for _ in 0..threads {
                    scope.spawn(work);
                }
            });
        }
        self.records = merged.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner).2;
    }
}

/// A block of runs: one record a shuttle, in their order.
fn run_block(shuttles: &mut [Shuttle], runs: std::ops::Range<u64>, seed: u64) -> Vec<Record> {
    let mut records = vec![Record::default(); shuttles.len()];
    for replication in runs {
        let mut first = None;
        for (shuttle, record) in shuttles.iter_mut().zip(&mut records) {
            let own = Figures::of(shuttle.run(Luck::Drawn { seed, replication }));
            record.add(&own, first.get_or_insert(own));
        }
    }
    records
}

/// How often a comparison is looked at.
pub const LOOKS: usize = 3;

/// The numbers of runs at which a comparison of at most `most` runs is looked at: after the given parts
/// of them, such as [16, 4, 1] for a sixteenth, a quarter and all. Rising, all but the last whole blocks.
pub fn looks(most: u64, parts: [u64; LOOKS]) -> Vec<u64> {
    let mut looks = Vec::new();
    for part in parts {
        let runs = if part == 1 { most } else { (most / part).next_multiple_of(BLOCK).max(FEWEST) };
        if runs <= most && looks.last().is_none_or(|last| runs > *last) {
            looks.push(runs);
        }
    }
    looks
}

/// Fewer runs than this are not looked at unless no more are allowed.
const FEWEST: u64 = 512;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn looks_rise_to_all_the_runs_allowed() {
        assert_eq!(looks(20_000, [16, 4, 1]), [1280, 5056, 20_000]);
        assert_eq!(looks(2_000, [16, 4, 1]), [512, 2_000]);
        assert_eq!(looks(100, [16, 4, 1]), [100]);
        assert_eq!(looks(512, [10, 4, 1]), [512]);
    }
}
