//! Several plans on common random numbers, run by run: how each fares, and how each differs from the first.
//!
//! The first plan, the base, is run ahead of the others; of each of its runs a few figures are kept until
//! the others have made that run too. Jobs are a block of runs of one plan, so threads share few plans with
//! many runs and many plans with few runs alike. No figure depends on the number of threads.

use std::sync::{Mutex, PoisonError};

use shuttle_sim::{Luck, Plan, Shuttle};

use super::batch::{BLOCK, Batch, Keep};
use super::control::{Control, Runs};
use super::in_order::in_order;
use super::tally::{Figures, Tally};

pub use super::control::SameLuck;

/// How far the base may be ahead of the others, runs: 40 bytes of each are kept.
pub const AHEAD: u64 = 1 << 16;
/// Of more plans than this not all shuttles are kept from look to look.
const KEPT_SHUTTLES: usize = 64;

/// Several plans and how they fared so far.
#[derive(Debug)]
pub struct SideBySide<'p> {
    plans: Vec<&'p Plan>,
    base: Batch,
    others: Vec<Tally>,
    luck: SameLuck,
    /// Of the base's runs from `figures_from` on.
    figures: Vec<Figures>,
    figures_from: u64,
    /// Shuttles that are made, with the place of their plan: one room a thread.
    rooms: Mutex<Vec<Room>>,
}

type Room = Vec<(usize, Shuttle)>;

impl<'p> SideBySide<'p> {
    /// No runs yet. Every plan is compared with the first, the base.
    ///
    /// - Given: `keep`, what is kept of the base; of the others it is [`Keep::Counts`].
    /// - Panics: when there is no plan.
    pub fn new(plans: Vec<&'p Plan>, luck: SameLuck, keep: Keep) -> SideBySide<'p> {
        assert!(!plans.is_empty(), "no plan to run");
        SideBySide {
            base: Batch::new(plans[0], keep),
            others: vec![Tally::default(); plans.len() - 1],
            plans,
            luck,
            figures: Vec::new(),
            figures_from: 0,
            rooms: Mutex::default(),
        }
    }

    /// How a plan fared, by its place in the list.
    pub fn tally(&self, place: usize) -> &Tally {
        if place == 0 { &self.base.tally } else { &self.others[place - 1] }
    }

    /// How all of them fared, in the order given.
    pub fn tallies(&self) -> impl Iterator<Item = &Tally> {
        [&self.base.tally].into_iter().chain(&self.others)
    }

    /// Runs of the base; 0 when it was stopped before all others had any, as nothing can be compared then.
    pub fn compared_runs(&self) -> u64 {
        if self.others.iter().any(|tally| tally.runs == 0) { 0 } else { self.base.tally.runs }
    }

    /// The base with all that was kept of it.
    pub fn base(&self) -> &Batch {
        &self.base
    }

    /// Runs the base alone up to run `until`. Where that is more than [`AHEAD`] beyond the others, they
    /// cannot go on.
    pub fn run_base_until(&mut self, until: u64, control: &Control) {
        let begin = self.base.tally.runs;
        if until <= begin {
            return;
        }
        let SameLuck { seed, threads } = self.luck;
        let runs = Runs { first: begin, count: until - begin, seed, threads };
        let room = (self.figures_from + AHEAD).saturating_sub(begin);
        self.figures.extend(self.base.extend(self.plans[0], runs, room, control));
    }

    /// Runs the base alone, where it is the plan as it stands, as far as the others may follow, and tells how it
    /// fares to whoever watches.
    ///
    /// - Given: how many runs it is to have in the end.
    pub fn begin_with_base(&mut self, most_runs: u64, control: &Control) {
        self.run_base_until(most_runs.min(AHEAD), control);
        control.tell_as_it_stands(self.base.tally.interrupted, self.base.tally.runs);
    }

    /// Runs those in `who` (places above 0, in rising order) from where they stand up to run `until`, and
    /// the base at least as far.
    ///
    /// - Given: a multiple of 64 runs so far, of all of them the same. One that is left out once stays out.
    /// - If it is stopped early, they keep the runs they had.
    pub fn run_until(&mut self, until: u64, who: &[usize], control: &Control) {
        let Some(first) = who.first() else {
            return self.run_base_until(until, control);
        };
        let mut begin = self.tally(*first).runs;
        assert!(
            who.iter().all(|place| *place > 0 && self.tally(*place).runs == begin),
            "one that was left out cannot come back"
        );
        while begin < until && !control.is_stopped() {
            assert!(begin.is_multiple_of(BLOCK), "{begin} runs are no whole number of blocks");
            let end = until.min((begin / AHEAD + 1) * AHEAD);
            if self.base.tally.runs < end {
                // Everyone has made the runs before: their figures are not needed any more.
                self.figures.drain(..(begin - self.figures_from) as usize);
                self.figures_from = begin;
                self.run_base_until(end, control);
            }
            if self.base.tally.runs < end {
                return;
            }
            if let Some(made) = self.made(begin, end, who, control) {
                for (place, tally) in who.iter().zip(made) {
                    self.others[place - 1] = tally;
                }
            }
            begin = end;
        }
    }

    /// Those in `who` with runs `begin` to `end` - 1 added, block by block, so that no sum depends on the
    /// portions; `None` if it was stopped before the end.
    fn made(&self, begin: u64, end: u64, who: &[usize], control: &Control) -> Option<Vec<Tally>> {
        let blocks = (end - begin).div_ceil(BLOCK);
        let mut tallies: Vec<Tally> =
            who.iter().map(|place| self.others[place - 1].clone()).collect();
        let from = (begin - self.figures_from) as usize;
        let figures = &self.figures[from..from + (end - begin) as usize];
        let spare = || self.rooms.lock().unwrap_or_else(PoisonError::into_inner);
        let room = || spare().pop().unwrap_or_default();
        let work = |room: &mut Room, job: u64| {
            let (place, block) = (who[(job / blocks) as usize], job % blocks);
            let first = begin + block * BLOCK;
            let shuttle = self.shuttle(room, place);
            let mut tally = Tally::default();
            let others = figures.iter().skip((block * BLOCK) as usize).take(BLOCK as usize);
            for (replication, other) in (first..).zip(others) {
                let luck = Luck::Drawn { seed: self.luck.seed, replication };
                tally.add_beside(shuttle.run(luck), Some(other));
            }
            control.add_done(tally.runs);
            tally
        };
        let jobs = blocks * who.len() as u64;
        let mut merged = 0;
        let rooms = in_order(jobs, self.luck.threads, control, room, work, |job, tally| {
            tallies[(job / blocks) as usize].merge(&tally);
            merged += 1;
        });
        spare().extend(rooms);
        (merged == jobs).then_some(tallies)
    }

    /// The shuttle of this plan in the room of a thread.
    fn shuttle<'r>(&self, room: &'r mut Room, place: usize) -> &'r mut Shuttle {
        let found = room.iter().position(|(of, _)| *of == place).unwrap_or_else(|| {
            if self.plans.len() > KEPT_SHUTTLES {
                room.clear();
            }
            let mut shuttle = Shuttle::new(self.plans[place]);
            shuttle.keep_levels(false);
            room.push((place, shuttle));
            room.len() - 1
        });
        &mut room[found].1
    }
}
