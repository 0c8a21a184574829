//! One step of a search tried run by run: in how many runs it did not hold, and on which side it lies.
//!
//! A run ends where it is broken: what comes after does not matter here.

use std::sync::{Mutex, PoisonError};

use shuttle_sim::{Cause, Luck, Shuttle};

use super::demand::Trial;
use crate::decisions::target::{Target, Verdict};
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;

/// Runs in a job of a thread.
const BLOCK: u64 = 16;

/// What runs a trial again and again: one a thread.
struct Room {
    shuttle: Shuttle,
    crew: Option<Shuttle>,
}

/// What is counted.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Counts {
    pub(super) runs: u64,
    /// Runs in which it did not hold.
    pub(super) broken: u64,
    /// Of these, runs in which the crew had no water in time.
    pub(super) late: u64,
    /// First breaks by cause.
    causes: [u64; Cause::ALL.len()],
}

impl Counts {
    fn add(&mut self, other: &Counts) {
        self.runs += other.runs;
        self.broken += other.broken;
        self.late += other.late;
        for (sum, count) in self.causes.iter_mut().zip(&other.causes) {
            *sum += count;
        }
    }

    /// The cause of the most first breaks, and its share of them.
    pub(super) fn main_cause(&self) -> Option<(Cause, f64)> {
        let all: u64 = self.causes.iter().sum();
        let most = Cause::ALL.into_iter().max_by_key(|cause| self.causes[*cause as usize])?;
        (all > 0).then(|| (most, self.causes[most as usize] as f64 / all as f64))
    }
}

/// A step that is tried.
pub(super) struct Tried {
    /// `None` where it cannot work at all.
    trial: Option<Trial>,
    rooms: Mutex<Vec<Room>>,
    pub(super) counts: Counts,
    /// Nothing is said of it yet.
    pub(super) only_glanced: bool,
    /// Of the chance that it does not hold.
    pub(super) verdict: Verdict,
    /// The confidence sequence of that chance: the running intersection over all looks.
    pub(super) interval: (f64, f64),
}

impl Tried {
    pub(super) fn new(trial: Option<Trial>) -> Tried {
        let cannot = trial.is_none();
        Tried {
            trial,
            rooms: Mutex::default(),
            counts: Counts::default(),
            only_glanced: !cannot,
            verdict: if cannot { Verdict::CannotWork } else { Verdict::NotClear },
            interval: if cannot { (1.0, 1.0) } else { (0.0, 1.0) },
        }
    }

    /// Runs it until it is clear or `most` runs are made.
    pub(super) fn run_until(
        &mut self,
        most: u64,
        target: Target,
        luck: SameLuck,
        control: &Control,
    ) {
        self.only_glanced = false;
        while self.verdict == Verdict::NotClear && self.counts.runs < most && !control.is_stopped()
        {
            // A quarter more each time: little is run beyond need, and looks are few.
            let more = (self.counts.runs / 4).next_multiple_of(BLOCK).max(2 * BLOCK);
            self.more(more.min(most - self.counts.runs), luck, control);
            self.judge(target);
        }
    }

    /// Runs it up to `runs` times, no longer than until more than `few` are broken; if it has more runs already,
    /// not at all.
    ///
    /// - Returns: whether no more than `few` in so many were.
    pub(super) fn glance(
        &mut self,
        runs: u64,
        few: u64,
        luck: SameLuck,
        control: &Control,
    ) -> bool {
        if self.verdict == Verdict::CannotWork {
            return false;
        }
        if self.counts.runs > runs {
            return self.counts.broken * runs <= few * self.counts.runs;
        }
        let alone = SameLuck { threads: 1, ..luck };
        while self.counts.runs < runs && self.counts.broken <= few && !control.is_stopped() {
            self.more((BLOCK / 4).min(runs - self.counts.runs), alone, control);
        }
        self.counts.broken <= few
    }

    fn judge(&mut self, target: Target) {
        let Counts { runs, broken, .. } = self.counts;
        let (low, high) = target.interval(broken, runs);
        self.interval = (self.interval.0.max(low), self.interval.1.min(high));
        self.verdict = target.verdict(broken, runs);
    }

    fn more(&mut self, runs: u64, luck: SameLuck, control: &Control) {
        let Some(trial) = &self.trial else { return };
        let first = self.counts.runs;
        let spare = || self.rooms.lock().unwrap_or_else(PoisonError::into_inner);
        let room = || {
            spare().pop().unwrap_or_else(|| Room {
                shuttle: trial.shuttle(),
                crew: trial.crew.as_ref().map(quick),
            })
        };
        let work = |room: &mut Room, job: u64| {
            let mut counts = Counts::default();
            for run in job * BLOCK..((job + 1) * BLOCK).min(runs) {
                let luck = Luck::Drawn { seed: luck.seed, replication: first + run };
                let late = (room.crew.as_mut())
                    .is_some_and(|crew| crew.run(luck).first_water > trial.within);
                let cause = room.shuttle.first_break(luck);
                counts.runs += 1;
                counts.late += u64::from(late);
                counts.broken += u64::from(late || cause.is_some());
                if let Some(cause) = cause {
                    counts.causes[cause as usize] += 1;
                }
            }
            control.add_done(counts.runs);
            counts
        };
        let mut counts = self.counts;
        let jobs = runs.div_ceil(BLOCK);
        let rooms = in_order(jobs, luck.threads, control, room, work, |_, more| counts.add(&more));
        spare().extend(rooms);
        self.counts = counts;
    }
}

fn quick(plan: &shuttle_sim::Plan) -> Shuttle {
    let mut shuttle = Shuttle::new(plan);
    shuttle.keep_levels(false);
    shuttle
}
